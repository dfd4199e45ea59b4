"""What is measured beside the sessions, entered on the site; the demo club is invented."""

from datetime import UTC, datetime
from typing import Any

import pytest

from read_pages import changed, club_of, page_of, words_of
from site_server import MONDAY, Browse
from squadwright.demo import demo_club
from squadwright.errors import NotAllowed
from squadwright.model.athlete import AuthorRole
from squadwright.model.composition import FatFloor, FatMethod
from squadwright.model.diary import BodyComposition
from squadwright.model.measured import EnergyDay, Measured
from squadwright.model.role import Role, seen_by
from squadwright.printing.role_words import words_of_one, words_of_squad
from squadwright.services.body_composition import keep_assessment
from squadwright.services.health_log import health_log
from squadwright.services.measured import enter_energy
from squadwright.services.role_sheets import sheet_of_one, sheet_of_squad
from squadwright.units import kilograms
from web.test_squad import athlete_of, form_of, told, undo

WHO, NAME = "A06", "Dónal Mac Firvane"
OF = f"/squad/athlete/{WHO}"
MASS = f"{OF}/mass"
TRAINING, URINE, PAIN, ENERGY = (
    f"{OF}/measures/{kind}" for kind in ("training", "urine", "pain", "energy")
)
MEDICAL = f"{OF}/restrictions/medical"
DOCTOR = {"author": "Dr Ilse Mbeki-Ruane", "licence": "Ferrow 4411"}
KNEE = {**DOCTOR, "not_for": [], "area": "knee", "side": "left"}
CASE_14 = {"before": "80.0", "after": "78.6", "hours": "1.5", "drunk_l": "0.9", "passed_l": "0.2"}


def measured(browse: Browse) -> Measured:
    return athlete_of(browse, WHO).measured


def test_case_14_two_weighings_are_entered_shown_and_taken_back(browse: Browse) -> None:
    """Case 14 (calc): 1.4 L/h; (80 - 78.6) / 80 = 1.75 %; 1.25 and 1.5 x 1.4 kg."""
    typed = {**form_of(browse, TRAINING), **CASE_14}
    answer = browse.post(TRAINING, typed)
    assert changed(page_of(answer)).startswith("Before and after training of")
    said = told(browse, MASS)
    assert "Sweat rate 1.4 L/h; usual is 0.5 to 2 L/h" in said
    assert "1.8 % of body mass is missing." in said
    assert "1.8 to 2.1 L is usual over the hours after" in said
    assert "second hand" in said
    (kept,) = measured(browse).training
    assert str(kept.before) == "80.0 kg"
    lines = health_log(browse.keeper, WHO).lines
    assert [each.field for each in lines] == ["measured: training"]
    undo(browse, answer)
    assert club_of(browse) == demo_club(MONDAY)


def test_the_form_is_filled_with_what_is_likely(browse: Browse) -> None:
    """He trains for 90 minutes today; nothing was drunk unless somebody says so."""
    form = form_of(browse, TRAINING)
    minutes = next(s.minutes for s in club_of(browse).sessions if s.held_on == MONDAY)
    assert float(form["hours"]) == pytest.approx(minutes / 60, abs=0.01)
    assert (form["drunk_l"], form["passed_l"]) == ("0", "0")
    assert form["training_day"] == MONDAY.isoformat()


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"hours": "0"}, "Time between: 0 h is not more than 0 and at most 8 h"),
        ({"after": "81.0"}, "After: 81.0 kg is 0.30 kg more than the mass before"),
        ({"after": ""}, "After: is empty"),
        ({"after": "7.86"}, "After: 7.86 kg is not 20 to 300 kg"),
        ({"drunk_l": "900"}, "Drunk in between: 900 L is outside 0 to 15 L"),
        ({"training_day": "2026-03-03"}, "Day of the session: 3 Mar 2026 lies in the future"),
    ],
)
def test_a_wrong_reading_stays_in_the_form_with_a_clear_line(
    browse: Browse, change: dict[str, str], said: str
) -> None:
    typed = {**form_of(browse, TRAINING), **CASE_14, **change}
    answer = browse.post(TRAINING, typed)
    page = page_of(answer, 422)
    assert said in words_of(page)
    for name, value in change.items():
        assert page.get_element_by_id(f"field-{name}").get("value") == value
    assert club_of(browse) == demo_club(MONDAY)


def test_heavier_after_training_warns_with_limit_source_and_advice(browse: Browse) -> None:
    typed = {**form_of(browse, TRAINING), **CASE_14, "after": "80.2"}
    browse.post(TRAINING, typed)
    for path in (MASS, OF):
        said = told(browse, path)
        assert "0.20 kg heavier after training than before" in said
        assert "medical help at once" in said
        assert "Limit 0 kg. National Athletic Trainers' Association" in said
    assert "is usual over the hours after" not in told(browse, MASS)


def test_serious_urine_is_told_everywhere_and_the_next_reading_opens_hard_work(
    browse: Browse,
) -> None:
    browse.post(URINE, {**form_of(browse, URINE), "gravity": "1.031"})
    for path in (MASS, OF):
        said = told(browse, path)
        assert "urine of 1.031: serious" in said.lower()
        assert "Limit 1.03 specific gravity. Bands of specific gravity, recalled [memory]" in said
        assert "Hold hard work. Refer to medical staff" in said
    assert "No maximal effort" in told(browse, "/squad/restrictions")
    assert "serious" in told(browse, "/today/monday-barbell")
    medical = told(browse, f"{OF}/restrictions/medical")
    assert "Hard work waits until the next reading" in medical
    handover = told(browse, "/live/monday-barbell/handover")
    assert "urine" not in handover.lower()
    browse.post(URINE, {**form_of(browse, URINE), "gravity": "1.015"})
    assert len(measured(browse).urine) == 2
    assert "serious" not in told(browse, OF)
    assert "Hard work waits until" not in told(browse, f"{OF}/restrictions/medical")


@pytest.mark.parametrize("gravity", ["1015", "0.999", "1.061", ""])
def test_a_gravity_typed_wrong_is_refused(browse: Browse, gravity: str) -> None:
    answer = browse.post(URINE, {**form_of(browse, URINE), "gravity": gravity})
    assert "Specific gravity: " in words_of(page_of(answer, 422))
    assert measured(browse) == Measured()


def test_the_same_reading_twice_is_stored_once(browse: Browse) -> None:
    typed = {**form_of(browse, URINE), "gravity": "1.015"}
    browse.post(URINE, typed)
    assert "exactly this is stored already" in words_of(page_of(browse.post(URINE, typed), 422))
    assert len(measured(browse).urine) == 1


def watch(browse: Browse, **changes: Any) -> str:
    """A left knee that a doctor has him watch, by the form; the path of its readings."""
    typed = {**form_of(browse, PAIN), **KNEE, **changes}
    page_of(browse.post(PAIN, typed))
    return f"{OF}/measures/pain-reading/{measured(browse).pains[-1].id}"


def test_a_pain_is_watched_told_of_and_takes_volume_down(browse: Browse) -> None:
    path = watch(browse)
    assert "Nothing is told yet." in told(browse, MEDICAL)
    assert "Load on the left knee is guided by Dr Ilse Mbeki-Ruane." in told(browse, OF)
    typed = {**form_of(browse, path), "during": "3", "next_morning": "worse"}
    answer = browse.post(path, typed)
    said = words_of(page_of(answer))
    assert "Load of the next session: reduce." in said
    assert "Left knee, pain is up the morning after." in said
    assert "Take load off until the morning is as usual. Limit 2 of 10." in said
    assert "memory" in said
    assert "Volume taken down" in told(browse, "/today/monday-barbell")
    assert "up the morning after" in told(browse, OF)
    assert [e.field for e in health_log(browse.keeper, WHO).lines] == ["measured: pains"] * 2
    undo(browse, answer)
    assert measured(browse).pains[0].readings == ()


def test_more_than_five_of_ten_waits_for_a_written_clearance(browse: Browse) -> None:
    path = watch(browse)
    browse.post(path, {**form_of(browse, path), "during": "6"})
    assert f"{NAME} does not train" in told(browse, "/today/monday-barbell")
    assert "left knee" not in told(browse, "/live/monday-barbell/handover").lower()
    refused = browse.post(f"{OF}/restrictions/of/{measured(browse).pains[0].id}/goes-on", {})
    assert refused.status_code in (403, 409)
    given = {**DOCTOR, "given_on": MONDAY.isoformat(), "lifts": ["pain under load"]}
    page_of(browse.post(f"{MEDICAL}/new/clearance", given))
    assert "Cleared in writing since." in told(browse, MEDICAL)
    assert f"{NAME} does not train" not in told(browse, "/today/monday-barbell")


def test_a_fresh_injury_is_no_case_for_the_scale(browse: Browse) -> None:
    watch(browse, not_for=["fresh injury"])
    assert "for medical staff, not for a scale" in told(browse, MEDICAL)
    assert f"{NAME} does not train" in told(browse, "/today/monday-barbell")


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"licence": ""}, "Licence: is empty"),
        ({"licence": "none"}, "Licence: is not stated"),
        ({"author": ""}, "Who guides the load: is empty"),
        ({"area": "soul"}, "is not one of the choices"),
        ({"pain_day": "2026-03-03"}, "Watched since: 3 Mar 2026 lies in the future"),
    ],
)
def test_a_watch_that_cannot_be_stays_in_the_form(
    browse: Browse, change: dict[str, str], said: str
) -> None:
    typed = {**form_of(browse, PAIN), **KNEE, **change}
    assert said in words_of(page_of(browse.post(PAIN, typed), 422))
    assert club_of(browse) == demo_club(MONDAY)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"during": "11"}, "Pain under load: '11' is not one of the choices"),
        ({"during": ""}, "Pain under load: is not chosen"),
        ({"told_day": "2026-02-01"}, "is before 2 Mar 2026, when the watch began"),
        ({"author": ""}, "Who tells it: is empty"),
    ],
)
def test_a_reading_of_pain_that_cannot_be_stays_in_the_form(
    browse: Browse, change: dict[str, str], said: str
) -> None:
    path = watch(browse)
    answer = browse.post(path, {**form_of(browse, path), "during": "1", **change})
    assert said in words_of(page_of(answer, 422))
    assert measured(browse).pains[0].readings == ()


def test_nothing_else_is_measured_here(browse: Browse) -> None:
    assert browse.get(f"{OF}/measures/thirst").status_code == 404
    assert browse.get("/squad/athlete/nobody/measures/urine").status_code == 404
    assert browse.get(f"{OF}/measures/pain-reading/none").status_code == 404


def food(browse: Browse, **changes: Any) -> dict[str, Any]:
    """2100 kcal eaten and 700 in training at 55 kg without fat: case 13, low."""
    typed = {"role": "medical", "intake_kcal": "2100", "exercise_kcal": "700", "fat_free": "55"}
    return {**form_of(browse, ENERGY), **DOCTOR, **typed, "fat_free_unit": "kg", **changes}


def test_case_13_the_numbers_are_told_once_and_the_coach_sees_a_status(browse: Browse) -> None:
    """Case 13 (calc; bands read, 2023): (2100 - 700) / 55 is 25.5, below 30. Foods: 2025."""
    answer = browse.post(ENERGY, food(browse, protein_g="60", body_mass="80.0"))
    said = words_of(page_of(answer))
    assert "energy availability 25.5 kcal/kg/day, low" in said
    assert "Limit 30 kcal/kg/day." in said
    assert "Refer to a doctor or a sports dietitian" in said
    assert "protein 0.75 g/kg/day, below 1.2" in said
    for path in (OF, MEDICAL, "/today/monday-barbell"):
        seen = told(browse, path)
        assert "see medical staff" in seen.lower()
        for secret in ("kcal", "energy availability", "protein", "g/kg"):
            assert secret not in seen, (path, secret)
    assert not any("kcal" in told(browse, path) for path in (MASS, "/squad", "/squad/restrictions"))
    assert [each.field for each in health_log(browse.keeper, WHO).lines] == ["measured: energy"]
    (step,) = page_of(answer).xpath("//form[contains(@action, '/undo/')]/@action")
    browse.post(step, {"back": MEDICAL})
    assert club_of(browse) == demo_club(MONDAY)


def test_a_written_word_ends_the_status(browse: Browse) -> None:
    browse.post(ENERGY, food(browse))
    given = {**DOCTOR, "given_on": MONDAY.isoformat(), "lifts": ["energy availability"]}
    page_of(browse.post(f"{MEDICAL}/new/clearance", given))
    assert "see medical staff" not in told(browse, OF).lower()
    assert "Status: Nothing to see them for." in told(browse, MEDICAL)


def test_enough_energy_has_no_status(browse: Browse) -> None:
    """3300 - 600 over 60 kg is 45: the border belongs to the upper band (2023)."""
    typed = food(browse, intake_kcal="3300", exercise_kcal="600", fat_free="60")
    assert "Nothing is below its limit." in words_of(page_of(browse.post(ENERGY, typed)))
    assert "see medical staff" not in told(browse, OF).lower()


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"role": "coach"}, "Who enters it: a coach does not enter energy and food"),
        ({"role": ""}, "Who enters it: is not chosen"),
        ({"licence": "-"}, "Licence: is not stated"),
        ({"fat_free": "0"}, "Mass without fat: 0 kg is not more than 0"),
        ({"fat_free": ""}, "Mass without fat: is empty"),
        ({"intake_kcal": "21000"}, "21000 kcal is outside 0 to 15000 kcal"),
        ({"protein_g": "90", "body_mass": ""}, "Body mass: is not known, and foods are told"),
        ({"energy_day": "2026-03-03"}, "Day it is of: 3 Mar 2026 lies in the future"),
    ],
)
def test_energy_that_cannot_be_kept_stays_in_the_form(
    browse: Browse, change: dict[str, str], said: str
) -> None:
    answer = browse.post(ENERGY, food(browse, **change))
    assert said in words_of(page_of(answer, 422))
    assert club_of(browse) == demo_club(MONDAY)


def test_no_coach_enters_energy_by_any_way(browse: Browse) -> None:
    day = EnergyDay("e", MONDAY, 2100, 700, kilograms(55), "Coach", "1")
    with pytest.raises(NotAllowed, match="are not entered by a coach"):
        enter_energy(browse.keeper, WHO, day, by=AuthorRole.COACH, today=MONDAY)


def test_mass_without_fat_comes_from_the_newest_assessment(browse: Browse) -> None:
    """10 % fat of 80 kg leaves 72 kg, by arithmetic."""
    assert form_of(browse, ENERGY)["fat_free"] == ""
    content = BodyComposition(
        FatMethod.AIR,
        kilograms("80.0"),
        "Dr A",
        "1",
        FatFloor.COLLEGE_MEN,
        measured_percent=10.0,
        error_percent=2.0,
    )
    now = datetime(2026, 3, 2, 9, tzinfo=UTC)
    keep_assessment(browse.keeper, WHO, content, MONDAY, today=MONDAY, now=now)
    assert form_of(browse, ENERGY)["fat_free"] == "72.0"


@pytest.mark.parametrize("role", list(Role))
def test_who_sees_the_numbers_of_energy_on_a_sheet(browse: Browse, role: Role) -> None:
    """Medical staff and himself; a coach and a parent see what he must not do, never why."""
    browse.post(ENERGY, food(browse))
    browse.post(URINE, {**form_of(browse, URINE), "gravity": "1.031"})
    one = role in (Role.ATHLETE, Role.CLINICIAN)
    if role is Role.PARENT:
        seen = seen_by(athlete_of(browse, WHO), role, is_minor=False)
        assert seen.measured.energy == ()
        return
    if one:
        sheet = words_of_one(sheet_of_one(browse.keeper, WHO, role, today=MONDAY))
    else:
        sheet = words_of_squad(sheet_of_squad(browse.keeper, role, today=MONDAY))
    text = " ".join(line for section in sheet.sections for line in section.lines)
    for secret in ("2100 kcal", "energy availability 25.5", "1.031"):
        assert (secret in text) is one
    assert "no maximal effort" in text.lower()
