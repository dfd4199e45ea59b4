"""The camp on the site, in process: this week, plan, one athlete, season, dates, taking over."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from lived_sessions import save
from printing.printed import flat, pypdf_text, reader
from read_pages import page_of, words_of
from site_server import Browse
from squadwright.demo import demo_club
from squadwright.model.session import Override
from squadwright.services.clubs import load_club
from squadwright.services.session_changes import with_session

MONDAY = date(2026, 3, 2)


def content(browse: Browse, path: str) -> str:
    return words_of(page_of(browse.get(path)).get_element_by_id("content"))


def test_the_start_page_says_what_this_week_is_for_everybody(browse: Browse) -> None:
    words = content(browse, "/camp")
    assert "Mon 2 March to Sun 24 May 2026, 12 weeks." in words
    assert "In no week do more than half of the squad taper." in words
    assert "Taper for One-day tournament until Sat 7 March" in words
    assert "Off until Fri 8 May: barred from all training until it is lifted or ends" in words
    assert "Mon 4, Tue 2, Wed 5, Fri 2" in words


def test_the_plan_is_proven_stands_beside_usual_plans_and_is_never_the_truth(
    browse: Browse,
) -> None:
    words = content(browse, "/camp/plan")
    assert "Proven" in words
    assert "never the truth" in words
    for plan in ("coach's plan", "progressive taper", "step taper"):
        assert f"Beside the {plan}: +0." in words
    assert "95 % interval" in words
    assert "nine draws in ten" in words


def test_one_athlete_has_rounds_by_session_reasons_and_the_gain_with_its_spread(
    browse: Browse,
) -> None:
    words = content(browse, "/camp/plan/A09")
    assert "from day -" in words
    assert "at the same load; no session is dropped." in words
    assert "National championship (A) on Sat 25 April: beside the coach's plan +" in words
    assert "Build until Fri 13 March." in words
    assert "our estimate" in words
    assert browse.get("/camp/plan/nobody").status_code == 404


def test_the_plan_and_the_season_are_printed(browse: Browse) -> None:
    plan = browse.get("/camp/plan/camp.pdf")
    assert 'filename="2026-03-02-camp.pdf"' in plan.headers["content-disposition"]
    text = pypdf_text(plan.content)
    assert len(reader(plan.content).pages) <= 8
    for each in ("Camp plan", "Proven", "never the truth", "Kwabena", "National championship"):
        assert each in text
    season = browse.get("/camp/season/season.pdf?tests=2026-04-06")
    assert len(reader(season.content).pages) == 1
    text = pypdf_text(season.content)
    for each in (
        "Season",
        "Ottoline",
        "floor varnish, Mon 30 March to Sat 4 April",
        "the week of the tests",
        "blood-donor day, Wed 18 March",
        "away: Dónal Mac Firvane, Tue 7 Apr",
        "Summer term begins",
        "outside school terms",
    ):
        assert each in flat(text)


def test_the_season_has_closures_terms_and_where_the_tests_fit(browse: Browse) -> None:
    words = content(browse, "/camp/season?tests=2026-04-06")
    assert "floor varnish, Mon 30 March to Sat 4 April" in words
    assert "no session of the squad" in words
    assert "Spring term ends; outside school terms: ask whether the youngest come" in words
    assert "Ottoline Baptiste-Ferro, " in words
    # The varnish takes the whole hall: what would be held there can be done elsewhere.
    [link] = page_of(browse.get("/camp/season")).xpath(
        "//a[starts-with(@href, '/journey/')][contains(@href, 'monday-barbell')]"
    )
    assert browse.get(link.get("href")).status_code == 200
    assert "it can be the week of the tests." in words
    wrong = page_of(browse.get("/camp/season?tests=soon"), 422)
    assert "'soon' is not a date" in words_of(wrong)
    assert wrong.get_element_by_id("field-tests").get("value") == "soon"


def test_fourteen_dates_are_entered_at_once_and_move_the_week_of_the_tests(browse: Browse) -> None:
    fields = {}
    for number, athlete in enumerate(demo_club(MONDAY).athletes):
        fields[f"day-{athlete.id}"] = (MONDAY + timedelta(33 + number % 6)).isoformat()
        fields[f"name-{athlete.id}"] = "Harbour games"
        fields[f"priority-{athlete.id}"] = "A"
    answer = browse.post("/camp/dates", fields)
    assert answer.url.path == "/camp/season"
    assert "14 dates are kept." in words_of(page_of(answer))
    words = content(browse, "/camp/season?tests=2026-04-06")
    assert "over half" in words
    assert "move the tests to the week of Mon 13 April" in words
    assert load_club(browse.keeper).athletes[7].events[0].name == "Harbour games"


@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ({}, "no date is given"),
        ({"day-A01": "tomorrow"}, "'tomorrow' is not a date"),
        ({"day-A01": "2020-01-01"}, "is not within the next 730 days"),
        ({"name-A01": "Cup"}, "Day of Ottoline Baptiste-Ferro: is empty. Choose a day"),
        ({"day-A01": "2026-04-04", "priority-A01": "C"}, "Choose A or B"),
        ({"day-gone": "2026-04-04", "name-gone": "Cup"}, "is of somebody no longer in the squad"),
        ({"day-A01": "2026-04-04", "name-A01": "Bout"}, "has Bout on 2026-04-04 already"),
    ],
)
def test_dates_that_cannot_be_kept_stay_in_the_form(
    browse: Browse, fields: dict[str, str], told: str
) -> None:
    page = page_of(browse.post("/camp/dates", fields), 422)
    assert told in words_of(page)
    for name, value in fields.items():
        if not name.startswith("priority"):
            assert page.get_element_by_id(f"field-{name}").get("value") == value
    assert load_club(browse.keeper).athletes[0].events[0].name == "Bout"


PLYOMETRIC = "wednesday-plyometric"


def test_fewer_rounds_are_taken_over_as_the_coachs_word_and_taken_back(browse: Browse) -> None:
    club = load_club(browse.keeper)
    before = club.session(PLYOMETRIC)
    own = replace(before, overrides=(Override("A13", "asked for it", rounds=2),))
    save(browse.keeper, with_session(club, own))
    words = words_of(page_of(browse.get("/camp/plan")))
    assert "Iskander Yulbarin: 3 instead of 5 (camp plan: taper, 10 days before Spring" in words
    assert "Chidozie Umelaro has 2 in the plan of the session, and 3 in the camp" in words
    answer = browse.post(f"/camp/take-over/{PLYOMETRIC}", {})
    assert answer.url.path == "/camp/plan"
    page = page_of(answer)
    assert "from the camp are in Wednesday plyometric" in words_of(page)
    assert "There is nothing to take off." in words_of(page)
    given = {o.athlete: o for o in load_club(browse.keeper).session(PLYOMETRIC).overrides}
    assert given["A02"].rounds == 3
    assert given["A02"].reason == "camp plan: taper, 10 days before Spring qualifier"
    assert given["A13"] == own.overrides[0]
    again = browse.post(f"/camp/take-over/{PLYOMETRIC}", {})
    assert "the camp changes nothing in Wednesday plyometric" in words_of(page_of(again))
    [undo] = page.xpath("//form[starts-with(@action, '/undo/')]/@action")
    browse.post(undo, {"back": "/camp/plan"})
    assert load_club(browse.keeper).session(PLYOMETRIC) == own


def test_a_club_without_a_week_or_without_athletes_has_pages_too(browse: Browse) -> None:
    save(browse.keeper, replace(demo_club(MONDAY), week=(), sessions=()))
    for path in ("/camp", "/camp/plan", "/camp/season", "/camp/plan/A01"):
        assert "no session" in content(browse, path) or path == "/camp/plan"
    save(browse.keeper, replace(demo_club(MONDAY), athletes=(), sessions=(), travel=()))
    assert "Nobody is in the squad yet" in content(browse, "/camp")


def test_on_the_first_day_the_camp_leads_to_the_first_steps(browse_empty: Browse) -> None:
    assert browse_empty.get("/camp").url.path == "/start"
