"""The editor's buttons, and 240 forms gone wrong: no failure, and nothing typed is lost."""

from random import Random
from typing import Any

import pytest
from lxml import html

from site_server import Browse
from site_walker import NASTY

EDIT = "/routines/routine/ropewalk/edit"
BUTTONS = (
    *("save", "go-on", "check", "add-block", "add-step b0", "remove-block b0", "up b0-s1-"),
    *("down b0-s5-", "remove b0-s0-", "pick b0-s1- muscle-clean", "fix b0 000000000000"),
    *("up", "up b9-s99-", "remove bX-sY-", "pick", "fix", "no such thing", "\x00", "up b0-s-1-"),
)
MUTATIONS = 60


def form_of(text: str) -> html.HtmlElement:
    (form,) = html.fromstring(text).find_class("editor")
    return form


def typed(browse: Browse, path: str) -> dict[str, Any]:
    form = form_of(browse.get(path).text)
    return {name: value or "" for name, value in form.form_values() if name != "_token"}


def exercises(fields: dict[str, Any]) -> list[str]:
    names = [n for n in fields if n.startswith("b") and n.endswith("-exercise")]
    return [fields[name] for name in names if fields[name]]


def pressed(browse: Browse, fields: dict[str, Any], do: str, path: str = EDIT) -> dict[str, Any]:
    answer = browse.post(path, {**fields, "do": do})
    assert answer.status_code == 200
    return {name: value or "" for name, value in form_of(answer.text).form_values()}


def test_each_button_changes_what_is_typed_and_stores_nothing(browse: Browse) -> None:
    fields = typed(browse, EDIT)
    before = exercises(fields)
    assert exercises(pressed(browse, fields, "up b0-s1-")) == [before[1], before[0], *before[2:]]
    assert exercises(pressed(browse, fields, "down b0-s0-")) == [before[1], before[0], *before[2:]]
    assert exercises(pressed(browse, fields, "up b0-s0-")) == before
    assert exercises(pressed(browse, fields, "remove b0-s2-")) == [*before[:2], *before[3:]]
    more = pressed(browse, fields, "add-block")
    assert more["b1-style"] == "complex"
    more["b1-s0-exercise"] = "front squ"
    less = pressed(browse, more, "remove-block b0")
    assert exercises(less) == ["front squ"]
    with browse.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    assert [r.version for r in club.routines] == [1, 1]


def test_a_fix_is_one_button_and_the_next_look_is_calm(browse: Browse) -> None:
    fields = typed(browse, EDIT) | {"b0-s5-last_ends": ""}
    answer = browse.post(EDIT, {**fields, "do": "check"})
    page = form_of(answer.text)
    fixes = page.xpath(".//div[@class='check-fixes']/button/@value")
    assert fixes
    mended = browse.post(EDIT, {**fields, "do": fixes[0]})
    assert "The bar flows" in mended.text
    assert dict(form_of(mended.text).form_values())["b0-s5-last_ends"] == "hang"
    late = browse.post(EDIT, {**fields, "b0-s0-exercise": "Deadlift", "do": fixes[0]})
    assert "was changed since that fix was offered" in late.text


def test_letters_that_mean_several_are_offered_as_buttons(browse: Browse) -> None:
    fields = typed(browse, "/routines/new") | {"b0-s0-exercise": "mus"}
    answer = browse.post("/routines/new", {**fields, "do": "go-on"})
    offered = form_of(answer.text).xpath(".//span[@class='step-choices']/button/@value")
    assert offered == ["pick b0-s0- muscle-clean", "pick b0-s0- muscle-snatch"]
    after = pressed(browse, fields, offered[1], "/routines/new")
    assert exercises(after) == ["Muscle snatch"]


def test_a_block_and_a_routine_are_full_at_their_limits(browse: Browse) -> None:
    fields = typed(browse, "/routines/new")
    fields |= {f"b0-s{place}-exercise": "Deadlift" for place in range(20)}
    answer = browse.post("/routines/new", {**fields, "do": "add-step b0"})
    assert "A block holds 20 exercises at most" in answer.text
    fields |= {f"b{number}-style": "sets" for number in range(6)}
    answer = browse.post("/routines/new", {**fields, "do": "add-block"})
    assert "A routine holds 6 blocks at most" in answer.text


@pytest.mark.parametrize("seed", range(4))
def test_mutated_forms_never_fail_and_lose_nothing(browse: Browse, seed: int) -> None:
    random = Random(seed)
    paths = (EDIT, "/routines/new?shelf=pontoon-rows", "/routines/new?shelf=tide-lanes")
    path = paths[seed % len(paths)]
    whole = typed(browse, path)
    action = path.partition("?")[0]
    refused = 0
    for _ in range(MUTATIONS):
        fields = dict(whole)
        for name in random.sample(sorted(fields), random.randint(1, 4)):
            fields[name] = random.choice(NASTY)
        if random.random() < 0.2:
            fields.pop(random.choice(sorted(fields)))
        do = random.choice(BUTTONS) if random.random() < 0.5 else "save"
        answer = browse.post(action, {**fields, "do": do})
        assert answer.status_code in (200, 422), (fields, do)
        if answer.status_code == 422:
            refused += 1
            assert_kept(fields, answer.text)
    assert refused > MUTATIONS / 8


def assert_kept(fields: dict[str, str], text: str) -> None:
    shown = {n: _plain(v or "") for n, v in form_of(text).form_values()}
    controls = {n: e.get("type") for e in form_of(text).iter("input") if (n := e.get("name"))}
    for name, value in fields.items():
        if controls.get(name) == "text":
            assert shown.get(name) == _plain(value), name


def _plain(value: str) -> str:
    return value.replace("\r\n", "\n").replace("\x00", "").replace("\ufffd", "").strip()
