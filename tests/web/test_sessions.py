"""The pages of the sessions in process: the list, forms, questions, the week, the sheets."""

import io
import re
import zipfile
from dataclasses import replace
from typing import Any

import pytest

from printing.printed import pypdf_text
from read_pages import club_of, page_of, words_of
from site_server import Browse
from site_walker import read_form
from squadwright.model.athlete import WeightPlan
from squadwright.model.calendar import BodyRegion
from squadwright.model.plan import Severity
from squadwright.model.session import HeatReading, MinorRule, Session
from squadwright.planning.gates.gate import gate_of
from squadwright.planning.gates.heat import CUT_IN_HEAT

BARBELL = "/sessions/monday-barbell"
NEXT_MONDAY = "2026-03-09"


def form_at(browse: Browse, path: str, action: str | None = None) -> dict[str, Any]:
    """The fields of the form of a page as a browser would send them."""
    page = page_of(browse.get(path))
    wanted = (action or path).partition("?")[0]
    form = next(f for f in page.xpath("//form[@method='post']") if f.get("action") == wanted)
    fields: dict[str, list[str]] = {}
    marked = {c.get("name") for c in form.xpath(".//input[@checked]")}
    for control in form.xpath(".//input[@type='checkbox'] | .//input[@type='radio']"):
        if control.get("checked") is not None:
            fields.setdefault(control.get("name"), []).append(control.get("value"))
    boxes = {c.get("name") for c in form.xpath(".//input[@type='checkbox' or @type='radio']")}
    for name, value in read_form(form).fields:
        if name not in boxes:
            fields.setdefault(name, []).append(value)
    assert marked <= set(fields)
    return dict(fields)


def latest(browse: Browse) -> Session:
    return club_of(browse).sessions[-1]


def test_sessions_stand_by_date_each_with_its_ways_on(browse: Browse) -> None:
    page = page_of(browse.get("/sessions"))
    names = [words_of(n) for n in page.find_class("diary-name")]
    assert names == ["Monday barbell", "Wednesday plyometric"]
    assert "14 athletes" in words_of(page.find_class("diary-place")[0])
    hrefs = page.xpath("//ul[@class='diary']/li[1]//a/@href")
    assert hrefs == [
        "/today/monday-barbell",
        f"{BARBELL}/edit",
        f"{BARBELL}/copy",
        f"{BARBELL}/sheets",
    ]


def test_a_session_is_made_from_a_slot_of_the_week_in_two_taps(browse: Browse) -> None:
    week = page_of(browse.get("/sessions/week"))
    (link,) = [a for a in week.xpath("//a") if "from Barbell" in words_of(a)]
    href = link.get("href")
    typed = form_at(browse, href, "/sessions/new")
    assert typed["name"] == ["Barbell"]
    # The slot of today is taken already, so the page asks before there are two.
    page = page_of(browse.post("/sessions/new", {**typed, "held_on": NEXT_MONDAY}))
    assert "Barbell on Monday 9 March 2026 is in the diary." in words_of(page)
    made = latest(browse)
    assert (made.minutes, made.room, made.routine) == (60, "weights-room", "ropewalk")
    assert len(made.athletes) == 14


def test_a_slot_of_one_squad_expects_that_squad(browse: Browse) -> None:
    typed = form_at(browse, "/sessions/new?slot=wed-fry", "/sessions/new")
    assert typed["who"] == ["names"]
    assert typed["names"] == ["A12"]
    assert typed["minutes"] == ["45"]


def test_squads_and_names_choose_who_is_expected(browse: Browse) -> None:
    typed = form_at(browse, "/sessions/new")
    base = {**typed, "held_on": NEXT_MONDAY}
    browse.post("/sessions/new", {**base, "who": "squads", "squads": ["Cage", "Fry"]})
    assert set(latest(browse).athletes) == {"A01", "A06", "A10", "A11", "A12"}
    answer = browse.post("/sessions/new", {**base, "who": "names", "names": []})
    assert "Names: none is ticked. Tick who is expected" in words_of(page_of(answer, 422))


def test_an_odd_session_is_asked_about_and_one_tap_stores_it(browse: Browse) -> None:
    typed = {**form_at(browse, "/sessions/new"), "name": "Extra", "held_on": "2026-03-08"}
    page = page_of(browse.post("/sessions/new", typed), 422)
    question = page.xpath("//form[@aria-label='Please say what is meant']")[0]
    assert "The week has no slot on Sunday at 18:00." in words_of(question)
    assert len(club_of(browse).sessions) == 2
    so = question.xpath(".//button[@name='so']/@value")[0]
    values = question.form_values()
    sent = {n: [v for m, v in values if m == n] for n, _ in values}
    page_of(browse.post("/sessions/new", {**sent, "so": so}))
    assert latest(browse).name == "Extra"


def test_wrong_fields_are_told_and_what_was_typed_is_kept(browse: Browse) -> None:
    typed = {**form_at(browse, "/sessions/new"), "minutes": "sixty", "starts_at": "half past"}
    page = page_of(browse.post("/sessions/new", typed), 422)
    told = words_of(page.find_class("form-wrong")[0])
    assert "Minutes: 'sixty' is not a number" in told
    assert "Start: 'half past' is not a time of day" in told
    assert page.xpath("//input[@name='minutes']/@value") == ["sixty"]


def test_settings_are_stored_and_a_wrong_one_opens_them(browse: Browse) -> None:
    typed = form_at(browse, f"{BARBELL}/edit")
    changed = {
        **typed,
        "target_probability": "95",
        "minor_rule": "never",
        "never_1_a": "A03",
        "never_1_b": "A14",
        "taper_days": "10",
    }
    page_of(browse.post(f"{BARBELL}/edit", changed))
    settings = club_of(browse).session("monday-barbell").settings
    assert settings.target_probability == 0.95
    assert settings.minor_rule is MinorRule.NEVER
    assert settings.banned_pairs == (("A03", "A14"),)
    assert settings.taper_days == 10
    again = {**form_at(browse, f"{BARBELL}/edit"), "taper_days": "90", "always_1_a": "A01"}
    page = page_of(browse.post(f"{BARBELL}/edit", again), 422)
    told = words_of(page.find_class("form-wrong")[0])
    assert "90 days is outside 0 to 60 days" in told
    assert "Pair: has one name only" in told
    assert page.xpath("//details[contains(@class, 'settings')]/@open")


@pytest.mark.parametrize(
    ("taps", "told"),
    [
        ("0", "0 taps is outside 1 to 9 taps"),
        ("10", "10 taps is outside 1 to 9 taps"),
        ("2.5", "2.5 is not a whole number"),
        ("three", "'three' is not a number"),
        ("", "is empty"),
    ],
)
def test_an_odd_stop_rule_is_told_and_not_stored(browse: Browse, taps: str, told: str) -> None:
    typed = {**form_at(browse, f"{BARBELL}/edit"), "stop_after_faults": taps}
    page = page_of(browse.post(f"{BARBELL}/edit", typed), 422)
    assert told in words_of(page.find_class("form-wrong")[0])
    assert page.xpath("//input[@name='stop_after_faults']/@value") == ([taps] if taps else [""])
    assert club_of(browse).session("monday-barbell").settings.stop_after_faults == 3


def test_the_stop_rule_goes_to_the_floor_and_the_wall(browse: Browse) -> None:
    assert browse.get("/live/monday-barbell/sheet.json").json()["stop_after"] == 3
    typed = {**form_at(browse, f"{BARBELL}/edit"), "stop_after_faults": "2"}
    page_of(browse.post(f"{BARBELL}/edit", typed))
    assert browse.get("/live/monday-barbell/sheet.json").json()["stop_after"] == 2


def test_an_unchanged_form_changes_nothing(browse: Browse) -> None:
    before = club_of(browse)
    page_of(browse.post(f"{BARBELL}/edit", form_at(browse, f"{BARBELL}/edit")))
    assert club_of(browse) == before


def test_a_form_over_an_older_session_is_refused_and_kept(browse: Browse) -> None:
    old = form_at(browse, f"{BARBELL}/edit")
    browse.post(f"{BARBELL}/edit", {**old, "minutes": "55"})
    page = page_of(browse.post(f"{BARBELL}/edit", {**old, "name": "Other"}), 422)
    assert "was changed somewhere else" in words_of(page.find_class("form-wrong")[0])
    assert page.xpath("//input[@name='name']/@value") == ["Other"]


def test_a_copy_leaves_the_check_ins_behind_and_undo_takes_it_out(browse: Browse) -> None:
    page = page_of(browse.post(f"{BARBELL}/copy", {"held_on": NEXT_MONDAY}))
    copied = latest(browse)
    assert copied.check_ins == ()
    assert "Monday barbell on Monday 9 March 2026 is in the diary." in words_of(page)
    undo = page.find_class("changed")[0].find("form").get("action")
    browse.post(undo)
    assert len(club_of(browse).sessions) == 2


def test_a_session_taken_out_comes_back_by_undo(browse: Browse) -> None:
    before = club_of(browse)
    page = page_of(browse.post(f"{BARBELL}/remove"))
    assert "Monday barbell on Monday 2 March 2026 is taken out." in words_of(page)
    assert len(club_of(browse).sessions) == 1
    browse.post(page.find_class("changed")[0].find("form").get("action"))
    assert club_of(browse) == before


def test_the_week_is_changed_slot_by_slot(browse: Browse) -> None:
    slot = {
        "name": "Sunday lift",
        "day": "Sunday",
        "starts_at": "10:00",
        "ends_at": "11:00",
        "kind": "strength and conditioning",
        "squads": ["Mat"],
        "work": "barbell",
        "planned_effort": "6",
        "regions": ["legs", "grip"],
        "room": "weights-room",
        "staff": ["Head coach"],
    }
    page = page_of(browse.post("/sessions/week", slot))
    assert "Sunday lift is in the week." in words_of(page)
    added = club_of(browse).week[-1]
    path = f"/sessions/week/{added.id}"
    typed = form_at(browse, path)
    assert typed["squads"] == ["Mat"]
    assert (added.planned_effort, added.regions) == (6, (BodyRegion.LEGS, BodyRegion.GRIP))
    over = page_of(browse.post(path, {**typed, "planned_effort": "11"}), 422)
    assert "11 is outside 0 to 10" in words_of(over)
    assert over.xpath("//input[@name='planned_effort']/@value") == ["11"]
    page_of(browse.post(path, {**typed, "is_hard": "yes"}))
    assert club_of(browse).week[-1].is_hard
    wrong = page_of(browse.post("/sessions/week", {**slot, "ends_at": "09:00"}), 422)
    assert "09:00 is not after the start 10:00" in words_of(wrong)
    assert wrong.xpath("//input[@name='name']/@value") == ["Sunday lift"]
    page_of(browse.post(f"{path}/remove"))
    assert all(s.id != added.id for s in club_of(browse).week)


@pytest.mark.parametrize("sheet", ["session", "cards"])
def test_each_sheet_comes_as_a_pdf_under_its_own_name(browse: Browse, sheet: str) -> None:
    page = page_of(browse.get(f"{BARBELL}/sheets"))
    (href,) = [h for h in page.xpath("//a/@href") if f"/{sheet}.pdf" in h]
    answer = browse.get(href)
    assert answer.headers["content-type"] == "application/pdf"
    assert (
        f'filename="2026-03-02-monday-barbell-{sheet}.pdf"'
        in (answer.headers["content-disposition"])
    )
    assert answer.content.startswith(b"%PDF-")
    assert "Ottoline Baptiste-Ferro" in pypdf_text(answer.content)


def test_the_unit_chosen_is_the_unit_printed(browse: Browse) -> None:
    page = page_of(browse.get(f"{BARBELL}/sheets?unit=lb"))
    assert page.xpath("//button[@aria-pressed='true']/@value") == ["lb"]
    (href,) = [h for h in page.xpath("//a/@href") if "/wall.pdf" in h]
    printed = pypdf_text(browse.get(href).content)
    assert re.search(r"\d lb", printed)
    assert not re.search(r"\d kg", printed)


def test_all_sheets_come_in_one_file_with_the_same_bytes_each_time(browse: Browse) -> None:
    first, second = (browse.get(f"{BARBELL}/sheets/all.zip") for _ in range(2))
    assert first.headers["content-type"] == "application/zip"
    assert first.content == second.content
    names = zipfile.ZipFile(io.BytesIO(first.content)).namelist()
    assert names == [
        f"2026-03-02-monday-barbell-{each}.pdf" for each in ("session", "set-up", "cards", "wall")
    ]


def test_a_sheet_nobody_knows_is_not_found(browse: Browse) -> None:
    assert browse.get(f"{BARBELL}/sheets/poster.pdf").status_code == 404


def test_a_session_without_a_plan_says_why_instead_of_printing(browse: Browse) -> None:
    typed = form_at(browse, f"{BARBELL}/edit")
    page_of(browse.post(f"{BARBELL}/edit", {**typed, "who": "names", "names": ["A10"]}))
    page = page_of(browse.get(f"{BARBELL}/sheets"))
    assert "There is no plan to print. nobody trains in Monday barbell" in words_of(page)
    assert page.find_class("sheets") == []
    assert browse.get(f"{BARBELL}/sheets/cards.pdf").status_code == 422


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (
            {"heat_wbgt_c": "28"},
            "28.0 degC WBGT: cancel (2 of 14); 28.0 degC WBGT: rest as long as the work, limit "
            "hard work (12 of 14).",
        ),
        ({"heat_wbgt_c": "33.5"}, "33.5 degC WBGT: cancel (14 of 14)."),
        ({"heat_wbgt_c": "15"}, "15.0 degC WBGT: more rest, shorter (14 of 14)."),
        (
            {"heat_air_c": "30", "heat_humidity": "50"},
            "29.3 degC WBGT: cancel (2 of 14); 29.3 degC WBGT: rest as long as the work, limit "
            "hard work (12 of 14). Estimated: air and humidity.",
        ),
    ],
)
def test_the_heat_of_a_session_is_judged_once_it_is_stored(
    browse: Browse, typed: dict[str, str], told: str
) -> None:
    """Nobody of the demo club is used to heat; two of the fourteen are minors.

    28 degC is 82.4 degF, row 2 of the American College of Sports Medicine (heat 2007; rows at 82,
    86, 90 degF), and row 3 of the American Academy of Pediatrics for minors (24, 26, 29 degC). Air
    of 30 degC and 50 % by hand: e = 0.5 x 6.105 exp(518.1 / 267.7) = 21.1 hPa, so that
    17.01 + 8.31 + 3.94 = 29.26 degC.
    """
    edit = f"{BARBELL}/edit"
    page = page_of(browse.post(edit, {**form_at(browse, edit), **typed}))
    assert told in words_of(page.find_class("changed")[0])
    again = form_at(browse, edit)
    assert {name: [value] for name, value in typed.items()}.items() <= again.items()
    emptied = {"heat_wbgt_c": "", "heat_air_c": "", "heat_humidity": ""}
    page = page_of(browse.post(edit, {**again, **emptied}))
    assert "WBGT" not in words_of(page.find_class("changed")[0])
    assert club_of(browse).session("monday-barbell").heat is None


@pytest.mark.parametrize(
    ("typed", "field", "told"),
    [
        ({"heat_wbgt_c": "84"}, "heat_wbgt_c", "84 degC is outside -20 to 60 degC"),
        ({"heat_wbgt_c": "hot"}, "heat_wbgt_c", "'hot' is not a number"),
        ({"heat_air_c": "86", "heat_humidity": "50"}, "heat_air_c", "86 degC is outside"),
        ({"heat_air_c": "30", "heat_humidity": "101"}, "heat_humidity", "101 % is outside 0 to"),
        ({"heat_air_c": "30"}, "heat_humidity", "Write both, or the wet-bulb globe"),
        ({"heat_humidity": "50"}, "heat_air_c", "Write both, or the wet-bulb globe"),
    ],
)
def test_a_reading_of_heat_that_cannot_be_is_told_and_not_stored(
    browse: Browse, typed: dict[str, str], field: str, told: str
) -> None:
    edit = f"{BARBELL}/edit"
    page = page_of(browse.post(edit, {**form_at(browse, edit), **typed}), 422)
    assert told in words_of(page.get_element_by_id(f"field-{field}-wrong"))
    assert page.xpath("//details[contains(@class, 'settings')]/@open")
    for name, value in typed.items():
        assert page.get_element_by_id(f"field-{name}").get("value") == value
    assert club_of(browse).session("monday-barbell").heat is None


def test_a_reading_of_heat_is_of_its_day_and_not_copied(browse: Browse) -> None:
    edit, copy = f"{BARBELL}/edit", f"{BARBELL}/copy"
    page_of(browse.post(edit, {**form_at(browse, edit), "heat_wbgt_c": "33"}))
    page_of(browse.post(copy, {**form_at(browse, copy), "held_on": NEXT_MONDAY}))
    assert latest(browse).held_on.isoformat() == NEXT_MONDAY
    assert latest(browse).heat is None


def test_a_session_meant_to_lose_mass_in_heat_is_refused_and_told(browse: Browse) -> None:
    edit = f"{BARBELL}/edit"
    typed = {**form_at(browse, edit), "name": "Weight cut rounds", "heat_wbgt_c": "31"}
    page = page_of(browse.post(edit, typed), 422)
    wrong = words_of(page.get_element_by_id("field-name-wrong"))
    assert "a means that is not allowed (heat; " in wrong
    assert "tell the medical contact, and the guardian of a minor" in wrong
    assert page.get_element_by_id("field-name").get("value") == "Weight cut rounds"
    stored = club_of(browse)
    assert stored.session("monday-barbell").name != "Weight cut rounds"
    session = stored.session("monday-barbell")
    logs = [stored.athlete(each).weight_plans[-1] for each in session.athletes]
    assert {log.kept_text for log in logs} == {"Weight cut rounds"}
    minors = [a for a in map(stored.athlete, session.athletes) if a.is_minor_on(session.held_on)]
    assert all(a.weight_plans[-1].told == ("medical contact", "guardian") for a in minors)
    page_of(browse.post(edit, typed), 422)
    again = club_of(browse).athlete(session.athletes[0])
    assert len([p for p in again.weight_plans if p.kept_text == "Weight cut rounds"]) == 1


def test_whoever_has_a_plan_to_lose_mass_is_out_of_a_hot_session(browse: Browse) -> None:
    """28 degC is 82.4 degF: row 2 of the table (ACSM 2007, second hand) begins at 82."""
    club = club_of(browse)
    session = club.session("monday-barbell")
    athlete = next(
        a
        for a in map(club.athlete, session.athletes)
        if not a.is_minor_on(session.held_on)
        and any(e.mass_limit and e.weighs_next(session.held_on) for e in a.events)
    )
    plan = WeightPlan(session.held_on, "Meals by the dietitian")
    hot = replace(session, heat=HeatReading(wet_bulb_globe_c=28.0))
    with_plan = replace(athlete, weight_plans=(plan,))
    rules = [f.rule for f in gate_of(club, with_plan, hot).findings if f.severity is Severity.STOP]
    assert CUT_IN_HEAT in rules
    assert any(bar.all_training for bar in gate_of(club, with_plan, hot).bars)
    assert CUT_IN_HEAT not in [f.rule for f in gate_of(club, athlete, hot).findings]
    assert CUT_IN_HEAT not in [f.rule for f in gate_of(club, with_plan, session).findings]
