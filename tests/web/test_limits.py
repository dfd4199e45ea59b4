"""The club's own limits of the safety gates: stricter ones are kept, looser ones refused."""

import pytest

from read_pages import club_of, words_of
from site_server import MONDAY, Browse
from squadwright.demo import demo_club
from squadwright.model.club import GateLimit
from squadwright.planning.gates.limits import LIMITS
from web.test_squad import form_of, main_of, told, undo

PLACES = {name: f"limit_{number}" for number, name in enumerate(LIMITS, start=1)}
STOP = PLACES["weekly loss, stop"]
RECOVERY = PLACES["recovery after weigh-in"]


def test_every_limit_stands_there_with_its_source(browse: Browse) -> None:
    page = main_of(browse.get("/limits").text)
    assert len(page.xpath(".//input[starts-with(@name, 'limit_')]")) == len(LIMITS)
    assert "Published: 1.5 % a week. Lower is stricter. Turocy" in words_of(page)
    assert "Published: 24 h. Higher is stricter." in words_of(page)


def test_a_stricter_limit_is_kept_used_and_taken_back(browse: Browse) -> None:
    form = form_of(browse, "/limits")
    answer = browse.post("/limits", {**form, STOP: "1.2", RECOVERY: "24"})
    assert "Stricter than published: 1." in answer.text
    assert club_of(browse).gate_limits.chosen == (GateLimit("weekly loss, stop", 1.2),)
    assert main_of(answer.text).xpath(f".//input[@name='{STOP}']/@value") == ["1.2"]
    said = told(browse, "/weigh-in")
    assert "Red: more than 1.2 % of the mass of today a week" in said
    # 1.23, 1.31, 1.36 and 2.42 % a week.
    assert "Red: 4." in said
    undo(browse, answer)
    assert club_of(browse) == demo_club(MONDAY)


@pytest.mark.parametrize(
    ("field", "value", "words"),
    [
        (STOP, "1.6", "1.6 is looser than 1.5 % a week"),
        (RECOVERY, "23", "23 is looser than 24 h"),
        (STOP, "-1", "outside 0 to"),
        (STOP, "a little", "is not a number"),
    ],
)
def test_a_looser_or_impossible_limit_stays_in_the_form(
    browse: Browse, field: str, value: str, words: str
) -> None:
    answer = browse.post("/limits", {**form_of(browse, "/limits"), field: value})
    assert answer.status_code == 422
    page = main_of(answer.text)
    assert words in words_of(page)
    assert page.xpath(f".//input[@name='{field}']/@value") == [value]
    assert club_of(browse) == demo_club(MONDAY)


def test_limits_that_changed_meanwhile_are_not_overwritten(browse: Browse) -> None:
    form = form_of(browse, "/limits")
    browse.post("/limits", {**form, STOP: "1.2"})
    answer = browse.post("/limits", {**form, STOP: "1.4"})
    assert answer.status_code == 422
    assert "was changed somewhere else" in answer.text
