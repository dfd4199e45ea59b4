"""Small histories for tests of what is learned: one press, one squat, one day a number."""

from datetime import date, timedelta

from squadwright.learning.history import History, Retest, Trial, Work
from squadwright.model.muscles import MuscleGroup as G
from squadwright.planning.dose.problem import (
    CapacityBasis,
    ComplexMovement,
    LiftCapacity,
    MovementPart,
)

FIRST_DAY = date(2026, 1, 5)
PRESS = ComplexMovement(
    "press",
    (MovementPart({G.SHOULDERS: 1.0, G.ELBOW_EXTENSORS: 0.7}, "strict press", 1.0, 0.0),),
    repetitions=4,
)
FRONT_SQUAT = ComplexMovement(
    "front squat",
    (MovementPart({G.KNEE_EXTENSORS: 1.0, G.TRUNK_EXTENSORS: 0.6}, "back squat", 0.8, 0.08),),
    repetitions=5,
)
PRESSES = Work((PRESS,), rounds=4, rest_s=90.0)
BOTH = Work((FRONT_SQUAT, PRESS), rounds=4, rest_s=90.0)
CAPACITIES = {
    "strict press": LiftCapacity(60.0, 0.065, CapacityBasis.TESTED),
    "back squat": LiftCapacity(120.0, 0.065, CapacityBasis.TESTED),
}


def day(number: int) -> date:
    """The day so many days after the first test."""
    return FIRST_DAY + timedelta(days=number)


def trial(
    number: int,
    load_kg: float,
    clean: int = 4,
    lost: int = 0,
    *,
    work: Work = PRESSES,
    reserve: float | None = None,
    strained: int = 0,
    kit_limited: bool = False,
) -> Trial:
    """A trial on the day of this number."""
    return Trial(
        f"day {number}",
        day(number),
        work,
        load_kg,
        clean,
        lost,
        reserve,
        strained,
        wanted_kg=1.1 * load_kg if kit_limited else None,
    )


def retest(number: int, lift: str, mean_kg: float, sd_fraction: float = 0.03) -> Retest:
    """A strength test on the day of this number."""
    return Retest(day(number), lift, LiftCapacity(mean_kg, sd_fraction, CapacityBasis.TESTED))


def history(*trials: Trial, retests: tuple[Retest, ...] = ()) -> History:
    """One athlete, tested on the first day."""
    return History("somebody", FIRST_DAY, CAPACITIES, trials, retests)
