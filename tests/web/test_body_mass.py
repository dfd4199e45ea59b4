"""Body mass and weigh-ins on the site, on the invented demo club; nothing here is published."""

from dataclasses import replace
from datetime import date, datetime

import pytest

from read_pages import club_of, words_of
from site_server import MONDAY, Browse
from squadwright.demo import demo_club
from squadwright.demo.sessions import BARBELL_SESSION
from squadwright.model.athlete import Event, Sex
from squadwright.model.event_weigh_in import EventWeighIn
from squadwright.web.body_mass.words import papers_words
from web.test_squad import athlete_of, form_of, main_of, told, undo

CHIDOZIE = "/squad/athlete/A13/mass"
MARISOL = "/squad/athlete/A03/mass"
DONAL_EVENT = "/squad/athlete/A06/mass/weigh-in/A06-1"


def test_the_page_of_an_athlete_says_the_rate_as_a_word_with_what_to_do(browse: Browse) -> None:
    """86.8 kg, limit 85 kg, 6 days: 1.8 kg, 2.1 %, 2.4 % a week by arithmetic."""
    said = told(browse, CHIDOZIE)
    assert "Red: 2.4 % a week to lose for One-day tournament" in said
    assert "86.8 kg (191.4 lb) on 28 Feb 2026" in said
    assert "1.8 kg over, 2.1 % of the mass of today: 2.42 % a week for 6 days." in said
    assert "Stop: Chidozie Umelaro: 2.42 % a week of the mass of today, more than 1.5 %." in said
    assert "Turocy" in said
    assert "Confirmed by Head coach on 10 Feb 2026" in said
    assert "For you alone" in said


def test_a_minor_sees_no_rate_no_amount_and_no_limit_line(browse: Browse) -> None:
    said = told(browse, MARISOL)
    assert "A minor: competes at the present mass, or in a class above." in said
    assert "% a week" not in said
    assert "kg over" not in said


def test_the_athlete_s_page_and_the_squad_lead_there(browse: Browse) -> None:
    page = main_of(browse.get("/squad/athlete/A13").text)
    assert page.xpath(f".//a[@href='{CHIDOZIE}']")
    assert main_of(browse.get("/squad").text).xpath(".//a[@href='/weigh-in']")


def test_who_weighs_in_when_stands_on_one_page(browse: Browse) -> None:
    page = main_of(browse.get("/weigh-in").text)
    rows = {words_of(row[0]): words_of(row) for row in page.xpath(".//tbody/tr")}
    assert len(rows) == 13
    assert "Red: 2.4 % a week until 8 Mar 2026" in rows["Chidozie Umelaro"]
    assert "170 lb (77.1 kg)" in rows["Dónal Mac Firvane"]
    assert "Not confirmed for this event" in rows["Dónal Mac Firvane"]
    assert "above; a minor competes at the present mass" in rows["Marisol Quenaya"]
    assert "Red: 1. Not confirmed: 11." in words_of(page)


def test_a_weigh_in_is_entered_confirmed_and_taken_back(browse: Browse) -> None:
    form = form_of(browse, DONAL_EVENT)
    typed = {
        **form,
        "rule": "unified_rules_2017 bout",
        "opens_day": "2026-04-10",
        "opens_time": "17:00",
        "first_bout_day": "2026-04-11",
        "first_bout_time": "20:30",
        "zone": "America/Denver",
        "confirmed_by": "Head coach",
    }
    answer = browse.post(DONAL_EVENT, typed)
    assert "confirmed by Head coach on 2 Mar 2026" in answer.text
    (event,) = athlete_of(browse, "A06").events
    assert event.weigh_in == EventWeighIn(
        "unified_rules_2017",
        2017,
        "bout",
        "America/Denver",
        opens_at=datetime(2026, 4, 10, 17),
        first_bout_at=datetime(2026, 4, 11, 20, 30),
        confirmed_by="Head coach",
        confirmed_on=MONDAY,
    )
    said = told(browse, "/squad/athlete/A06/mass")
    assert "171 lb (77.6 kg): with the allowance: 1 lb in a bout without a title" in said
    assert "10 Apr 2026, 17:00 (America/Denver)" in said
    undo(browse, answer)
    assert club_of(browse) == demo_club(MONDAY)


@pytest.mark.parametrize(
    ("change", "told_words"),
    [
        ({"opens_time": "17:00", "zone": ""}, "Time zone: is empty, and an hour is given"),
        ({"opens_time": "17:00", "zone": "Quay"}, "is no time zone"),
        ({"second_time": "17:00", "zone": "UTC"}, "is not after the weigh-in opens"),
        ({"opens_time": "17 h", "zone": "UTC"}, "is not a time of day"),
        ({"rule": "no rule"}, "is not one of the choices"),
        ({"opens_time": "17:00", "opens_day": "2026-01-01", "zone": "UTC"}, "not within 7 days"),
    ],
)
def test_a_weigh_in_that_cannot_be_stays_in_the_form(
    browse: Browse, change: dict[str, str], told_words: str
) -> None:
    answer = browse.post(DONAL_EVENT, {**form_of(browse, DONAL_EVENT), **change})
    assert answer.status_code == 422
    page = main_of(answer.text)
    assert told_words in words_of(page)
    for name, value in change.items():
        if name != "rule":
            assert page.xpath(f".//input[@name='{name}']/@value") == [value]
    assert club_of(browse) == demo_club(MONDAY)


def test_a_plan_with_a_prohibited_means_is_refused_and_never_shown_again(browse: Browse) -> None:
    answer = browse.post(f"{CHIDOZIE}/plan", {"plan": "two hours in the sauna"})
    said = words_of(main_of(answer.text))
    assert "The plan is refused and kept. Tell: medical contact." in answer.text
    assert "Refused. Chidozie Umelaro: the plan names a means that is not allowed (heat)." in said
    before, _, clinician = said.partition("Text for medical staff")
    assert "sauna" not in before
    assert "two hours in the sauna" in clinician
    assert browse.post(f"{CHIDOZIE}/plan", {"plan": ""}).status_code == 422
    assert browse.post(f"{MARISOL}/plan", {"plan": "x" * 1001}).status_code == 422


def test_at_the_scales_two_taps_store_a_reading(browse: Browse) -> None:
    page = main_of(browse.get("/weigh-in/scales").text)
    assert "0 of 14 weighed today" in words_of(page)
    people = page.find_class("on-scales")
    assert len(people) == 14
    # Nobody's mass stands there until his name is opened.
    assert not any("kg" in words_of(each[0]) for each in people)
    (his,) = [each for each in people if "Chidozie" in words_of(each[0])]
    (form,) = his.xpath(".//form")
    values = form.xpath("./button/@value")
    assert values[0] == "86.1 kg"
    assert values[-1] == "87.5 kg"
    answer = browse.post(form.get("action"), {"reading": "86.4 kg"})
    assert "Chidozie Umelaro: 86.4 kg." in answer.text
    assert str(athlete_of(browse, "A13").body_mass[-1].reading) == "86.4 kg"
    assert "1 of 14 weighed today" in answer.text
    undo(browse, answer)
    assert club_of(browse) == demo_club(MONDAY)


def test_at_the_scales_what_is_doubtful_is_asked_and_what_is_wrong_is_told(browse: Browse) -> None:
    path = "/weigh-in/scales/A13?squad=Ground"
    asked = browse.post(path, {"reading": "190 kg"})
    assert asked.status_code == 422
    assert "Pounds? 190 lb is 86.2 kg." in asked.text
    (meant,) = main_of(asked.text).xpath(".//button[@name='meant']/@value")
    browse.post(path, {"reading": "190 kg", "meant": meant})
    assert str(athlete_of(browse, "A13").body_mass[-1].reading) == "190 lb"
    wrong = browse.post(path, {"reading": "heavy"})
    assert wrong.status_code == 422
    assert "is not a mass" in wrong.text
    # The next one is asked in his unit of today's last reading before today.
    assert "86.8 kg" in browse.get("/weigh-in/scales?squad=Ground").text


def test_no_sheet_for_others_and_no_device_tells_a_mass_or_a_rate(browse: Browse) -> None:
    for path in (f"/today/{BARBELL_SESSION}", f"/live/{BARBELL_SESSION}"):
        text = browse.get(path).text
        for secret in ("86.8", "2.42", "2.4 %", "85 kg", "191.4"):
            assert secret not in text
        assert "weigh-in" not in text or "no round is added before the weigh-in" in text


def test_the_dose_keeps_two_rounds_and_says_that_none_is_added(browse: Browse) -> None:
    text = words_of(main_of(browse.get(f"/today/{BARBELL_SESSION}").text))
    assert "2 rounds at the same load; no round is added before the weigh-in" in text


def test_the_day_after_the_event_nothing_is_to_come(browse: Browse) -> None:
    assert date(2026, 3, 2) == MONDAY
    assert "No event with a weight limit is to come." in told(browse, "/squad/athlete/A08/mass")


@pytest.mark.parametrize(
    ("born", "sex", "says"),
    [
        (date(2011, 2, 1), Sex.MALE, "at 15 in U17 boys"),
        (date(2011, 9, 1), Sex.MALE, "at 15 in U17 boys"),
        (date(2013, 1, 1), Sex.FEMALE, "at 13 in U15 girls"),
        (date(2009, 1, 1), Sex.MALE, ""),
        (date(2009, 1, 1), Sex.FEMALE, ""),
    ],
)
def test_the_youngest_of_a_group_are_told_what_to_show(born: date, sex: Sex, says: str) -> None:
    """Second hand: at 13 and 15 with a medical certificate and the consent of the parents."""
    weigh_in = EventWeighIn(rule="uww_youth_2019")
    event = Event("e", "Cup", date(2026, 5, 1), weigh_in=weigh_in)
    athlete = replace(demo_club(MONDAY).athlete("A03"), birth_date=born, sex=sex)
    words = papers_words(event, athlete)
    wanted = f"medical certificate and consent of the parents {says}. Ask the organiser"
    assert words == (wanted if says else "")
    assert papers_words(replace(event, weigh_in=None), athlete) == ""
