"""What medical staff wrote about athletes of the demo club; dates are counted from the Monday."""

from datetime import UTC, date, datetime, time, timedelta

from squadwright.demo.premises import HEAD_COACH, PHYSIO
from squadwright.demo.restrictions import DOCTOR
from squadwright.model.medical import (
    NOTHING_WRITTEN,
    HeadKnock,
    Medical,
    MedicalClearance,
    ReturnStage,
    Suspension,
    TechniqueSeen,
)

PHYSIO_LICENCE = "PT 2207, invented register"
DOCTOR_LICENCE = "GM 5120, invented register"
KNOCK_DAY, FREE_DAY, CLEARED_DAY, TECHNIQUE_DAY = -6, 24, -100, -14


def demo_medical(athlete_id: str, monday: date) -> Medical:
    """The medical entries of one athlete."""
    if athlete_id == "A10":
        return _head_knock(monday)
    if athlete_id == "A14":
        return _blood_pressure(monday)
    if athlete_id in ("A03", "A12"):
        seen_on = monday + timedelta(days=TECHNIQUE_DAY)
        return Medical(technique=TechniqueSeen(seen_on, HEAD_COACH, growth_checked_on=seen_on))
    return NOTHING_WRITTEN


def _at(monday: date, day: int, hour: int) -> datetime:
    return datetime.combine(monday + timedelta(days=day), time(hour), tzinfo=UTC)


def _head_knock(monday: date) -> Medical:
    """Knocked on the Tuesday before, on step 2, held back further by the physio; suspended."""
    stages = (
        ReturnStage(1, _at(monday, KNOCK_DAY, 21), PHYSIO, PHYSIO_LICENCE),
        ReturnStage(
            2,
            _at(monday, KNOCK_DAY + 4, 9),
            PHYSIO,
            PHYSIO_LICENCE,
            no_training=True,
            instruction="walking and breathing drill set by physio",
        ),
    )
    knock = HeadKnock("A10-head-knock", _at(monday, KNOCK_DAY, 20), PHYSIO, PHYSIO_LICENCE, stages)
    last = monday + timedelta(days=FREE_DAY - 1)
    suspension = Suspension(
        id="A10-suspension",
        issuer="Ringside doctor",
        reason="medical suspension after a head knock",
        no_contact_until=last,
        no_competition_until=last,
        starts_on=monday + timedelta(days=KNOCK_DAY),
    )
    return Medical(head_knocks=(knock,), suspensions=(suspension,))


def _blood_pressure(monday: date) -> Medical:
    """Cleared to train; that she does not hold her breath stands among her restrictions."""
    return Medical(
        known_disease="blood pressure",
        is_active=True,
        clearances=(
            MedicalClearance(
                id="A14-blood-pressure",
                author=DOCTOR,
                licence=DOCTOR_LICENCE,
                given_on=monday + timedelta(days=CLEARED_DAY),
                lifts=("clearance before training",),
                note="cleared to train without breath-holding",
            ),
        ),
    )
