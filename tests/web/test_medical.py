"""Medical entries in process: what is entered is obeyed, and every refusal says why."""

from typing import Any

import pytest

from read_pages import changed, club_of, page_of, words_of
from site_server import Browse
from squadwright.model.athlete import Athlete
from squadwright.model.medical import Medical
from squadwright.planning.gates.gate import gate_of

WHO = "A06"
NAME = "Dónal Mac Firvane"
DOCTOR = {"author": "Dr Ilse Mbeki-Ruane", "licence": "Ferrow 4411"}


def of(athlete: str, *parts: str) -> str:
    return "/".join((f"/squad/athlete/{athlete}/restrictions/medical", *parts))


def stored(browse: Browse, athlete: str = WHO) -> Athlete:
    with browse.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    return club.athlete(athlete)


def entries(browse: Browse, athlete: str = WHO) -> Medical:
    return stored(browse, athlete).medical


def at(day: str, clock: str = "18:00", **more: Any) -> dict[str, Any]:
    return {"day": day, "at": clock, **more}


def knock_path(browse: Browse, athlete: str = WHO) -> str:
    return of(athlete, "knock", entries(browse, athlete).head_knocks[0].id)


def test_a_head_knock_bars_him_everywhere_and_undo_takes_the_slip_back(browse: Browse) -> None:
    sent = at("2026-03-01", author="Coach", note="fell on the mat")
    page = page_of(browse.post(of(WHO, "new", "head-knock"), sent))
    assert changed(page).startswith(f"{NAME}: out after a head knock")
    today = words_of(page_of(browse.get("/today/monday-barbell")))
    assert f"{NAME} does not train" in today
    register = words_of(page_of(browse.get("/squad/restrictions")))
    assert "head knock, not seen by medical staff yet" in register
    handover = words_of(page_of(browse.get("/live/monday-barbell/handover")))
    assert "no training (Coach" in handover
    assert "not seen by medical staff" not in handover
    undo = page.find_class("changed")[0].find("form").get("action")
    browse.post(undo, {"back": of(WHO)})
    assert entries(browse) == Medical()


def test_the_way_back_step_by_step_with_a_reason_for_every_refusal(browse: Browse) -> None:
    browse.post(of(WHO, "new", "head-knock"), at("2026-02-20", author="Coach"))
    path = f"{knock_path(browse)}/step"
    well = {**DOCTOR, "symptom_free": "yes"}
    page_of(browse.post(path, at("2026-02-20", "19:00", **DOCTOR)))
    early = page_of(browse.post(path, at("2026-02-21", "18:59", **well)), 422)
    assert "step 1 has 0 h 01 min to go" in words_of(early)
    assert early.get_element_by_id("field-at").get("value") == "18:59"
    ill = page_of(browse.post(path, at("2026-02-21", "19:00", **DOCTOR)), 422)
    assert "there are symptoms" in words_of(ill)
    page_of(browse.post(path, at("2026-02-21", "19:00", **well)))
    page_of(browse.post(path, at("2026-02-23", "19:00", **well)))
    assert entries(browse).head_knocks[0].stages[-1].step == 3
    refused = page_of(browse.post(path, at("2026-02-25", "19:00", **well)), 422)
    assert "step 4 needs a written clearance by medical staff" in words_of(refused)
    opens = "concussion: return from step 4 on"
    given = {**DOCTOR, "given_on": "2026-02-24", "lifts": [opens]}
    page_of(browse.post(of(WHO, "new", "clearance"), given))
    page_of(browse.post(path, at("2026-02-25", "19:00", **well)))
    page_of(browse.post(path, at("2026-02-27", "19:00", **well)))
    assert entries(browse).head_knocks[0].stages[-1].step == 5
    told = at("2026-02-28", "12:00", worse_by="3", minutes="90", author="Coach")
    page = page_of(browse.post(f"{knock_path(browse)}/symptoms", told))
    assert "now step 3" in changed(page)
    words = words_of(page_of(browse.get(of(WHO))))
    assert "Step 4 may begin on 1 Mar 2026, 12:00 or later, and only with a written" in words
    again = page_of(browse.post(path, at("2026-03-01", "13:00", **well)), 422)
    assert "given since" in words_of(again)


@pytest.mark.parametrize(
    ("kind", "sent", "field", "told"),
    [
        ("head-knock", at("2026-03-03", author="Coach"), "day", "lies in the future"),
        ("head-knock", at("3.3.2026", author="Coach"), "day", "is not a date"),
        ("head-knock", at("2026-03-01", "25:00", author="Coach"), "at", "is not a time"),
        ("illness", {"began_on": "2026-03-01", "author": "Coach"}, "signs", "none is chosen"),
        (
            "illness",
            {"began_on": "2026-03-01", "author": "Coach", "temperature_c": "98.6"},
            "temperature_c",
            "outside",
        ),
        (
            "clearance",
            {"author": "Coach", "licence": "", "given_on": "2026-03-01", "lifts": ["illness"]},
            "licence",
            "is empty",
        ),
        (
            "clearance",
            {"author": "Coach", "licence": "none", "given_on": "2026-03-01", "lifts": ["illness"]},
            "licence",
            "write the licence",
        ),
        ("clearance", {**DOCTOR, "given_on": "2026-03-01"}, "lifts", "nothing is chosen"),
        ("suspension", {"issuer": "Ohio", "reason": "KO"}, "no_contact_until", "is empty"),
    ],
)
def test_what_cannot_be_is_told_beside_its_field_and_stays_in_the_form(
    browse: Browse, kind: str, sent: dict[str, Any], field: str, told: str
) -> None:
    page = page_of(browse.post(of(WHO, "new", kind), sent), 422)
    assert told in words_of(page.get_element_by_id(f"field-{field}-wrong"))
    assert entries(browse) == Medical()


def test_an_illness_keeps_him_out_until_a_day_after_it_is_gone(browse: Browse) -> None:
    sent = {"began_on": "2026-02-27", "signs": ["sore throat"], "temperature_c": "38.1"}
    page_of(browse.post(of(WHO, "new", "illness"), {**sent, "author": "Coach"}))
    assert f"{NAME} does not train" in words_of(page_of(browse.get("/today/monday-barbell")))
    gone = of(WHO, "illness", entries(browse).illnesses[0].id, "gone")
    page_of(browse.post(gone, at("2026-03-01", "17:00")))
    assert f"{NAME} does not train" not in words_of(page_of(browse.get("/today/monday-barbell")))


def test_a_suspension_bars_contact_and_is_not_shortened_by_any_page(browse: Browse) -> None:
    sent = {"issuer": "Ohio commission", "reason": "KO", "no_contact_until": "2026-04-30"}
    page_of(browse.post(of(WHO, "new", "suspension"), sent))
    row = words_of(page_of(browse.get(f"/squad/athlete/{WHO}/restrictions")))
    assert "No contact with a partner" in row
    path = f"/squad/athlete/{WHO}/restrictions/of/{entries(browse).suspensions[0].id}"
    assert "which no coach changes" in words_of(page_of(browse.get(path), 403))
    words = words_of(page_of(browse.get(of(WHO))))
    assert "No contact up to and on 30 Apr 2026" in words


def test_the_demo_s_way_back_stands_on_its_page(browse: Browse) -> None:
    words = words_of(page_of(browse.get(of("A10"))))
    assert "Step 2 of 6" in words
    assert "Begin step 3" in words
    assert "Suspension" in words


def plan_words(browse: Browse) -> str:
    return words_of(page_of(browse.get("/today/monday-barbell")))


def test_technique_seen_takes_a_young_lifter_off_the_bare_bar_and_undo_puts_him_back(
    browse: Browse,
) -> None:
    """Under 18 the bar stays bare until technique is seen: common practice, no source."""
    young, form = "A03", of("A03", "new", "technique")
    typed = page_of(browse.get(form))
    assert typed.get_element_by_id("field-seen_on").get("value") == "2026-02-16"
    page_of(browse.post(form, {"seen_by": "", "seen_on": "", "growth_checked_on": ""}))
    assert entries(browse, young).technique is None
    before = plan_words(browse)
    sent = {"seen_by": "Ilva Brandt", "seen_on": "2026-03-01", "growth_checked_on": "2026-02-20"}
    page = page_of(browse.post(form, sent))
    assert "technique seen, as entered" in changed(page)
    assert "By Ilva Brandt, on 1 Mar 2026. Growth checked on 20 Feb 2026." in words_of(page)
    assert plan_words(browse) != before
    browse.post(page.find_class("changed")[0].find("form").get("action"), {"back": of(young)})
    assert entries(browse, young).technique is None
    assert plan_words(browse) == before


def test_a_known_disease_and_symptoms_bar_and_no_coach_takes_them_off(browse: Browse) -> None:
    """Symptoms stop until cleared: the screening rule, from memory."""
    form = of(WHO, "new", "health")
    sent = {"known_disease": "heart", "has_symptoms": "yes", "is_active": "yes"}
    page = page_of(browse.post(form, {**sent, "has_had_heat_illness": "yes"}))
    assert "Known disease: heart. There are symptoms. Active until now." in words_of(page)
    assert f"{NAME} does not train" in plan_words(browse)
    refused = page_of(browse.post(form, {"known_disease": "", "is_active": "no"}), 422)
    told = words_of(refused.find_class("form-wrong")[0])
    assert "a known disease and symptoms and an earlier heat illness is not taken off" in told
    assert "Enter the written clearance first" in told
    assert refused.xpath("//input[@name='is_active'][@value='no']/@checked")
    paper = {
        "form_name": "Own form",
        "version_year": "2025",
        "completed_on": "2026-03-01",
        "outcome": "cleared",
        "expires_on": "2027-03-01",
    }
    page = page_of(browse.post(of(WHO, "new", "screening"), paper), 422)
    assert "no form clears those" in words_of(page.get_element_by_id("field-outcome-wrong"))
    given = {**DOCTOR, "given_on": "2026-03-01", "lifts": ["clearance before training"]}
    page_of(browse.post(of(WHO, "new", "clearance"), given))
    heat_kept = {"known_disease": "", "is_active": "yes", "has_had_heat_illness": "yes"}
    page_of(browse.post(form, heat_kept))
    page = page_of(browse.post(form, {"known_disease": "", "is_active": "yes"}), 422)
    assert "an earlier heat illness is not taken off" in words_of(page)
    assert f"{NAME} does not train" not in plan_words(browse)


def test_a_form_that_sent_him_to_a_doctor_is_not_replaced_without_a_clearance(
    browse: Browse,
) -> None:
    form = of(WHO, "new", "screening")
    paper = {
        "form_name": "Own form",
        "version_year": "2025",
        "completed_on": "2026-03-01",
        "outcome": "refer",
        "expires_on": "2027-03-01",
    }
    page = page_of(browse.post(form, paper))
    assert "Own form of 2025, filled in on 1 Mar 2026, holds until 1 Mar 2027." in words_of(page)
    assert f"{NAME} does not train" in plan_words(browse)
    page = page_of(browse.post(form, {**paper, "outcome": "cleared"}), 422)
    told = words_of(page.get_element_by_id("field-outcome-wrong"))
    assert "sent to a doctor" in told
    given = {**DOCTOR, "given_on": "2026-03-01", "lifts": ["clearance before training"]}
    page_of(browse.post(of(WHO, "new", "clearance"), given))
    page_of(browse.post(form, {**paper, "outcome": "cleared"}))
    assert f"{NAME} does not train" not in plan_words(browse)


def test_first_weeks_leave_half_of_the_rounds(browse: Browse) -> None:
    """Half of the usual conditioning in the first week: a published rule, from memory."""
    page = page_of(
        browse.post(of(WHO, "new", "first-weeks"), {"began_on": "2026-03-01", "kind": "returner"})
    )
    assert "Back after a break since 1 Mar 2026." in words_of(page)
    club = club_of(browse)
    caps = gate_of(club, club.athlete(WHO), club.session("monday-barbell")).caps
    assert caps.rounds(4) == 2
    assert caps.why == ("first weeks, 50% of the rounds",)


@pytest.mark.parametrize(
    ("kind", "sent", "field", "told"),
    [
        ("technique", {"seen_by": "Coach", "seen_on": ""}, "seen_on", "is empty"),
        ("technique", {"seen_by": "", "seen_on": "2026-03-01"}, "seen_by", "is empty"),
        (
            "technique",
            {"seen_by": "Coach", "seen_on": "2026-03-03"},
            "seen_on",
            "Give a day up to 2 Mar 2026",
        ),
        ("technique", {"seen_by": "Coach", "seen_on": "1926-03-01"}, "seen_on", "before the birth"),
        ("first-weeks", {"began_on": "2026-03-09", "kind": "newcomer"}, "began_on", "the future"),
        ("first-weeks", {"began_on": "2026-03-01"}, "kind", "is not chosen"),
        ("health", {"known_disease": "x" * 1001, "is_active": "yes"}, "known_disease", "1000 fit"),
        ("health", {"known_disease": "heart", "is_active": "maybe"}, "is_active", "not one of"),
        (
            "screening",
            {
                "form_name": "Own form",
                "version_year": "2027",
                "completed_on": "2026-03-01",
                "outcome": "cleared",
                "expires_on": "2026-02-01",
            },
            "expires_on",
            "2026-02-01 is before 2026-03-01",
        ),
        (
            "screening",
            {
                "form_name": "Own form",
                "version_year": "1890",
                "completed_on": "2026-03-01",
                "outcome": "cleared",
                "expires_on": "2027-03-01",
            },
            "version_year",
            "1890 is outside 1950 to 2200",
        ),
    ],
)
def test_what_cannot_be_known_of_his_health_is_told_and_stays_in_the_form(
    browse: Browse, kind: str, sent: dict[str, Any], field: str, told: str
) -> None:
    page = page_of(browse.post(of(WHO, "new", kind), sent), 422)
    assert told in words_of(page.get_element_by_id(f"field-{field}-wrong"))
    for name, value in sent.items():
        kept = page.xpath(f"//*[@name='{name}']")
        shown = {each.get("value", each.text) for each in kept}
        # A choice that is none of those shown cannot be marked.
        assert value == "maybe" or value in {(text or "").strip() for text in shown}
    assert entries(browse) == Medical()
