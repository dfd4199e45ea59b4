"""What athletes of the demo club must not do, by whom, and what was cleared since."""

from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.demo.premises import HEAD_COACH, PHYSIO
from squadwright.model.athlete import AuthorRole, Clearance, Restriction
from squadwright.model.exercise import Demand

DOCTOR = "Club doctor"
MEDICAL, COACH = AuthorRole.MEDICAL, AuthorRole.COACH


@dataclass(frozen=True)
class _Line:
    """One restriction; ``start`` and ``until`` are days from the Monday."""

    athlete: str
    about: str
    author: str
    role: AuthorRole
    start: int
    until: int | None
    demands: tuple[Demand, ...]
    reason: str
    instruction: str


# No demand named: all training is barred.
_LINES = (
    _Line("A04", "shoulder", PHYSIO, MEDICAL, -12, 18, (Demand.OVERHEAD,),
          "right shoulder", "nothing overhead"),
    _Line("A11", "low-back", PHYSIO, MEDICAL, -13, None,
          (Demand.HINGE_BELOW_KNEE, Demand.BENT_OVER_HOLD),
          "low back", "no loaded hinge below the knee, trunk upright in rows"),
    _Line("A12", "minor", HEAD_COACH, COACH, -60, None, (Demand.MAXIMAL_EFFORT,),
          "minor", "no maximal tests, no weight loss"),
    _Line("A14", "blood-pressure", DOCTOR, MEDICAL, -120, None, (),
          "blood pressure", "no training until cleared"),
    _Line("A14", "breathing", DOCTOR, MEDICAL, -100, None, (Demand.BREATH_HOLD,),
          "blood pressure", "no breath-holding; breathe out on the effort"),
)  # fmt: skip


def demo_restrictions(athlete_id: str, monday: date) -> tuple[Restriction, ...]:
    """The restrictions of one athlete, dates counted from the Monday."""
    return tuple(
        Restriction(
            id=f"{line.athlete}-{line.about}",
            author=line.author,
            author_role=line.role,
            starts_on=monday + timedelta(days=line.start),
            until=None if line.until is None else monday + timedelta(days=line.until),
            demands=line.demands,
            all_training=not line.demands,
            reason=line.reason,
            instruction=line.instruction,
        )
        for line in _LINES
        if line.athlete == athlete_id
    )


def demo_clearances(athlete_id: str, monday: date) -> tuple[Clearance, ...]:
    """What a doctor has lifted since."""
    if athlete_id != "A14":
        return ()
    return (
        Clearance(
            id="A14-cleared",
            restriction="A14-blood-pressure",
            author=DOCTOR,
            given_on=monday - timedelta(days=100),
            note="cleared to train without breath-holding",
        ),
    )
