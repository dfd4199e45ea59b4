"""What medical entries bar by the gates and by the second reading, at the limits of each rule.

The day is 2 March 2026, the session begins at 18:00. Limits are those of the safety gates, whose
sources the page of the gates names; here they are written out once more.
"""

from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from planning.verify.sound_plan import CLUB, SESSION, TODAY, person
from squadwright.model.athlete import Athlete, Restriction
from squadwright.model.exercise import Demand
from squadwright.model.medical import (
    FirstWeeks,
    HeadKnock,
    Illness,
    Medical,
    MedicalClearance,
    Outcome,
    PrivateLimit,
    ReturnStage,
    Screening,
    Sign,
    Suspension,
    SymptomsTold,
)
from squadwright.model.muscles import BodyArea
from squadwright.model.session import HeatReading, Session
from squadwright.planning.gates.gate import gate_of
from squadwright.planning.verify.medical import medical_bars, share_of_rounds

NOTHING, ALL, CONTACT = "", "all", "contact with a partner"
WAY_BACK = (
    "breath-holding, contact with a partner, drop landing, hand landing, head, maximal effort, neck"
)
PRIVATE = "catching, contact with a partner, overhead"
ADULT, MINOR = date(2008, 3, 2), date(2008, 3, 3)


def days(count: int) -> date:
    return TODAY + timedelta(days=count)


def at(hour: int, minute: int = 0, *, day: int = 0) -> datetime:
    return datetime(2026, 3, 2, hour, minute, tzinfo=UTC) + timedelta(days=day)


def said(found: Iterable[Restriction]) -> str:
    """What is barred in words; each entry apart."""
    return "; ".join(
        ALL if bar.all_training else ", ".join(sorted((*bar.demands, *bar.body_areas)))
        for bar in found
    )


def bars(written: Medical, heat_c: float | None = None, born: date = ADULT) -> str:
    """What is barred, on which the gates that plan and the second reading agree."""
    session = SESSION if heat_c is None else replace(SESSION, heat=HeatReading(heat_c))
    he = replace(person("A1"), medical=written, birth_date=born)
    again = said(medical_bars(he, session))
    assert said(gate_of(CLUB, he, session).bars) == again
    return again


def share(he: Athlete, session: Session = SESSION) -> float:
    """The share of the rounds, on which both agree as well."""
    again = share_of_rounds(he, session)
    assert float(gate_of(CLUB, he, session).caps.share_of_rounds) == again
    return again


def lifts(rule: str, given: int, until: int | None = None) -> MedicalClearance:
    last = None if until is None else days(until)
    return MedicalClearance("c", "Dr Fell", "L 1", days(given), (rule,), last)


def cleared(written: Medical, *words: MedicalClearance) -> Medical:
    return replace(written, clearances=words)


def knock(*stages: tuple[int, datetime], when: datetime | None = None, **more: object) -> Medical:
    steps = tuple(ReturnStage(step, began, "Dr Fell") for step, began in stages)
    knocked = when or at(12, day=-30)
    return Medical((HeadKnock("k", knocked, "Dr Fell", stages=steps, **more),))  # type: ignore[arg-type]


OPENS = "concussion: return from step 4 on"
STEP_5 = knock((5, at(12, day=-2)))
FELT_BAD = knock((5, at(12, day=-2)), symptoms=(SymptomsTold(at(12, day=-10), 3, 20),))


def stage_without_training() -> Medical:
    held = ReturnStage(3, at(12, day=-2), "Dr Fell", no_training=True)
    return Medical((HeadKnock("k", at(12, day=-30), "Dr Fell", stages=(held,)),))


@pytest.mark.parametrize(
    ("written", "barred"),
    [
        (knock(when=at(8, day=1)), NOTHING),
        (knock(when=at(20)), ALL),
        (knock((1, at(8, day=-3))), ALL),
        (knock((2, at(18))), WAY_BACK),
        (knock((2, at(18, 1))), ALL),
        (knock((1, at(8, day=-3)), (2, at(18, 1))), ALL),
        (knock((1, at(8, day=-3)), (2, at(17, 59))), WAY_BACK),
        (stage_without_training(), ALL),
        # A lower step that begins later that day holds for the whole of it, one of tomorrow not.
        (knock((3, at(8, day=-3)), (1, at(20))), ALL),
        (knock((3, at(8, day=-3)), (1, at(8, day=1))), WAY_BACK),
        (knock((2, at(8, day=-3)), (3, at(20))), WAY_BACK),
        (STEP_5, WAY_BACK),
        (cleared(STEP_5, lifts(OPENS, 0)), NOTHING),
        (cleared(STEP_5, lifts(OPENS, -30)), NOTHING),
        (cleared(STEP_5, lifts(OPENS, -31)), WAY_BACK),
        (cleared(STEP_5, lifts(OPENS, 1)), WAY_BACK),
        (cleared(STEP_5, lifts(OPENS, -5, 0)), NOTHING),
        (cleared(STEP_5, lifts(OPENS, -5, -1)), WAY_BACK),
        (cleared(STEP_5, lifts("illness", 0)), WAY_BACK),
        (cleared(STEP_5, lifts(OPENS, -40), lifts(OPENS, -1)), NOTHING),
        (cleared(knock((4, at(12, day=-2))), lifts(OPENS, 0)), WAY_BACK),
        # After symptoms it has to be given anew, on a later day.
        (cleared(FELT_BAD, lifts(OPENS, -10)), WAY_BACK),
        (cleared(FELT_BAD, lifts(OPENS, -9)), NOTHING),
    ],
)
def test_a_head_knock(written: Medical, barred: str) -> None:
    assert bars(written) == barred


def suspended(until: int | None, *needs: str, starts: int | None = None) -> Medical:
    held = Suspension(
        *("s", "Dr Fell", "as written", None if until is None else days(until), days(90)),
        needs=needs,
        starts_on=None if starts is None else days(starts),
    )
    return Medical(suspensions=(held,))


@pytest.mark.parametrize(
    ("written", "barred"),
    [
        (suspended(0), CONTACT),
        (suspended(-1), NOTHING),
        (suspended(None), NOTHING),
        (suspended(5, starts=0), CONTACT),
        (suspended(5, starts=1), NOTHING),
        (suspended(-1, "eye doctor"), CONTACT),
        (cleared(suspended(-1, "eye doctor"), lifts("eye doctor", 0)), NOTHING),
        (cleared(suspended(-1, "eye doctor"), lifts("eye doctor", 1)), CONTACT),
        (cleared(suspended(-1, "eye doctor", "scan"), lifts("eye doctor", 0)), CONTACT),
        (cleared(suspended(0, "eye doctor"), lifts("eye doctor", 0)), CONTACT),
    ],
)
def test_a_suspension(written: Medical, barred: str) -> None:
    assert bars(written) == barred


def ill(
    *signs: Sign, began: int = -2, fever_c: float | None = None, gone: datetime | None = None
) -> Medical:
    return Medical(illnesses=(Illness("i", "Dr Fell", days(began), signs, fever_c, gone),))


GLANDULAR = Sign.GLANDULAR_FEVER


@pytest.mark.parametrize(
    ("written", "barred"),
    [
        (ill(Sign.SORE_THROAT), NOTHING),
        (ill(Sign.SORE_THROAT, fever_c=37.9), NOTHING),
        (ill(fever_c=38.0), ALL),
        *((ill(sign), ALL) for sign in Sign if sign not in list(Sign)[:3]),
        (ill(Sign.VOMITING, began=0), ALL),
        (ill(Sign.VOMITING, began=1), NOTHING),
        # 24 hours after it was gone.
        (ill(Sign.VOMITING, gone=at(18, day=-1)), NOTHING),
        (ill(Sign.VOMITING, gone=at(18, 1, day=-1)), ALL),
        (ill(fever_c=38.0, gone=at(18, 1, day=-1)), ALL),
        (ill(Sign.CHEST_PAIN, gone=at(8, day=-2)), ALL),
        (cleared(ill(Sign.CHEST_PAIN), lifts("illness", -2)), NOTHING),
        (cleared(ill(Sign.CHEST_PAIN), lifts("illness", -3)), ALL),
        (cleared(ill(Sign.CHEST_PAIN), lifts("illness", -2, -1)), ALL),
        (cleared(ill(Sign.CHEST_PAIN), lifts("scan", 0)), ALL),
        (cleared(ill(GLANDULAR, began=-20), lifts("illness", 0)), ALL),
        (cleared(ill(GLANDULAR, began=-21), lifts("illness", 0)), NOTHING),
        (ill(GLANDULAR, began=-21), ALL),
    ],
)
def test_an_illness(written: Medical, barred: str) -> None:
    assert bars(written) == barred


def form(outcome: Outcome, completed: int, expires: int = 300, disease: str = "") -> Medical:
    screening = Screening("Form", 2025, days(completed), outcome, days(expires))
    return Medical(screening=screening, known_disease=disease)


BEFORE = "clearance before training"
DISEASE = Medical(known_disease="heart")
REFERRED = form(Outcome.REFER, -5)


@pytest.mark.parametrize(
    ("written", "barred"),
    [
        (Medical(), NOTHING),
        (REFERRED, ALL),
        (form(Outcome.REFER, 0), ALL),
        (form(Outcome.REFER, 1), NOTHING),
        (form(Outcome.FOLLOW_UP, -5), NOTHING),
        (cleared(REFERRED, lifts(BEFORE, -5)), NOTHING),
        (cleared(REFERRED, lifts(BEFORE, -6)), ALL),
        (cleared(Medical(has_symptoms=True), lifts(BEFORE, 0)), ALL),
        (DISEASE, ALL),
        (Medical(known_disease=" "), NOTHING),
        (cleared(DISEASE, lifts(BEFORE, -365)), NOTHING),
        (cleared(DISEASE, lifts(BEFORE, -366)), ALL),
        (cleared(DISEASE, lifts("scan", 0)), ALL),
        (form(Outcome.CLEARED, -5, 0, "heart"), NOTHING),
        (form(Outcome.CLEARED, -5, -1, "heart"), ALL),
        (form(Outcome.FOLLOW_UP, -5, 300, "heart"), ALL),
    ],
)
def test_who_waits_for_a_doctor(written: Medical, barred: str) -> None:
    assert bars(written) == barred


def test_a_clearance_of_29_february_holds_up_to_28_february() -> None:
    word = MedicalClearance("c", "Dr Fell", "L 1", date(2024, 2, 29), (BEFORE,))
    he = replace(person("A1"), medical=cleared(DISEASE, word))
    for held_on, barred in ((date(2025, 2, 28), NOTHING), (date(2025, 3, 1), ALL)):
        session = replace(SESSION, held_on=held_on)
        assert said(medical_bars(he, session)) == barred
        assert said(gate_of(CLUB, he, session).bars) == barred


def private(declared: int, stopped: int | None = None) -> Medical:
    since = None if stopped is None else days(stopped)
    return Medical(private_limit=PrivateLimit(days(declared), "Herself", stopped_on=since))


@pytest.mark.parametrize(
    ("written", "barred"),
    [
        (private(1), NOTHING),
        (private(0), PRIVATE),
        (private(-9, 1), PRIVATE),
        (private(-9, 0), ALL),
        (cleared(private(-9, -3), lifts("private limit", -3)), PRIVATE),
        (cleared(private(-9, -3), lifts("private limit", -4)), ALL),
        (cleared(private(-9, -3), lifts("scan", -3)), ALL),
    ],
)
def test_a_private_limit(written: Medical, barred: str) -> None:
    assert bars(written) == barred


NEW, USED = Medical(), Medical(is_used_to_heat=True)
HAD_IT = Medical(has_had_heat_illness=True)
EARLIER = "earlier heat illness"


# 82, 86 and 90 degrees Fahrenheit are 27.8, 30 and 32.2 degrees Celsius.
@pytest.mark.parametrize(
    ("written", "born", "most_c", "too_hot_c"),
    [
        (NEW, ADULT, 30.0, 30.1),
        (USED, ADULT, 32.2, 32.3),
        (NEW, MINOR, 25.9, 26.0),
        (USED, MINOR, 29.0, 29.1),
        (HAD_IT, ADULT, 27.7, 27.8),
        (HAD_IT, MINOR, 23.9, 24.0),
        (cleared(HAD_IT, lifts(EARLIER, -365)), ADULT, 30.0, 30.1),
        (cleared(HAD_IT, lifts(EARLIER, -366)), ADULT, 27.7, 27.8),
        (cleared(HAD_IT, lifts("scan", 0)), ADULT, 27.7, 27.8),
    ],
)
def test_heat(written: Medical, born: date, most_c: float, too_hot_c: float) -> None:
    assert (bars(written, most_c, born), bars(written, too_hot_c, born)) == (NOTHING, ALL)


def test_who_has_a_private_limit_stays_out_of_the_heat() -> None:
    assert bars(private(0), 27.7) == PRIVATE
    assert bars(private(0), 27.8) == f"{PRIVATE}; {ALL}"
    assert bars(private(1), 27.8) == NOTHING


def test_heat_is_worked_out_from_air_and_humidity() -> None:
    """Australian Bureau of Meteorology, from memory: 0.567 T + 0.393 e + 3.94.

    At 30 degrees and 54 % e is 22.8 hPa and the globe 29.9 degrees, at 55 % 23.3 hPa and 30.1.
    """
    judged = {}
    for fraction in (0.54, 0.55):
        heat = HeatReading(air_c=30.0, humidity_fraction=fraction)
        judged[fraction] = medical_bars(person("A1"), replace(SESSION, heat=heat))
    assert judged[0.54] == ()
    assert [bar.all_training for bar in judged[0.55]] == [True]


@pytest.mark.parametrize(
    ("is_newcomer", "began", "left"),
    [
        *((True, 1, 1.0), (True, 0, 0.5), (True, -6, 0.5), (True, -7, 0.7), (True, -13, 0.7)),
        *((True, -14, 0.8), (True, -20, 0.8), (True, -21, 0.9), (True, -27, 0.9), (True, -28, 1.0)),
        *((False, 0, 0.5), (False, -7, 0.7), (False, -13, 0.7), (False, -14, 1.0)),
    ],
)
def test_the_share_of_the_first_weeks(is_newcomer: bool, began: int, left: float) -> None:
    written = Medical(first_weeks=FirstWeeks(days(began), is_newcomer))
    assert share(replace(person("A1"), medical=written)) == left


@pytest.mark.parametrize(
    ("written", "born", "whole_c", "half_c"),
    [
        (NEW, ADULT, 27.7, 27.8),
        (USED, ADULT, 30.0, 30.1),
        (NEW, MINOR, 23.9, 24.0),
        (USED, MINOR, 23.9, 24.0),
    ],
)
def test_the_share_in_heat(written: Medical, born: date, whole_c: float, half_c: float) -> None:
    he = replace(person("A1"), medical=written, birth_date=born)
    shares = [share(he, replace(SESSION, heat=HeatReading(heat_c))) for heat_c in (whole_c, half_c)]
    assert shares == [1.0, 0.5]


def test_the_lower_of_two_shares_holds() -> None:
    weeks = Medical(first_weeks=FirstWeeks(days(-7)))
    hot = replace(SESSION, heat=HeatReading(28.0))
    assert share(replace(person("A1"), medical=weeks), hot) == 0.5


def test_the_words_of_these_tests_are_all_that_is_barred() -> None:
    assert set(WAY_BACK.split(", ")) <= {*(d.value for d in Demand), *(a.value for a in BodyArea)}
