"""The week after a competition: a ramp back into training, and when jumps are let in again.

Common practice, no source, but for what is named; every day is the coach's to change. What medical
staff have set goes before all of it.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from statistics import median

from squadwright.model.athlete import Athlete, Restriction
from squadwright.model.muscles import BodyArea
from squadwright.model.session import Session
from squadwright.planning.substitution.barred import SWAP_FROM_PAIN
from squadwright.words import day_and_month

RAMP_DAYS = 7
MANY_BOUTS = 4
"""From so many bouts on each step comes a day later, a default of ours."""
MASS_TOLERANCE = 0.02
"""Body mass counts as usual within 2 % of its own usual value, a default of ours."""
ROUNDING = 1e-9
USUAL_FROM_DAYS, USUAL_TO_DAYS = 56, 8
SOURCE = "common practice, no source"


@dataclass(frozen=True)
class RampStep:
    """One step of the ramp: what is done, rounds and load as shares of the usual ones."""

    name: str
    words: str
    rounds_fraction: float = 0.0
    load_fraction: float = 0.0
    has_jumps: bool = False


STEPS = (
    RampStep("Rest and look", "A walk of 20 minutes. Ask: a knock, pain, a wound, sleep"),
    RampStep("Easy", "20 to 30 minutes of easy movement, effort 3 of 10 at the most"),
    RampStep("Easy mat work", "30 minutes of technique without a partner who resists"),
    RampStep("Half", "Half the rounds at four fifths of the load", 0.5, 0.8),
    RampStep("Mat work", "Technique with a partner, no live rounds"),
    RampStep(
        "Three quarters",
        "Three quarters of the rounds, loads as before, low jumps",
        0.75,
        1.0,
        True,
    ),
    RampStep("As usual", "The usual session; live rounds are back", 1.0, 1.0, True),
)


@dataclass(frozen=True)
class RampDay:
    """One day of the ramp; ``held`` says why its jumps are left out, empty where they are not."""

    day: date
    after: int
    step: RampStep
    held: str = ""


@dataclass(frozen=True)
class PainNow:
    """The last that was told of pain in one area since the event."""

    area: BodyArea
    score: int
    told_on: date


@dataclass(frozen=True)
class Ramp:
    """The week after an event; ``jumps_held`` are the reasons for which jumps stay out."""

    days: tuple[RampDay, ...]
    jumps_held: tuple[str, ...]
    medical: tuple[Restriction, ...]


def ramp(
    athlete: Athlete, event_day: date, pains: Iterable[PainNow], *, bouts: int | None, today: date
) -> Ramp:
    """The ramp of an athlete, as it stands today."""
    held = jumps_held(athlete, event_day, pains, today=today)
    shift = 1 if bouts is not None and bouts >= MANY_BOUTS else 0
    steps = (*STEPS[:1] * (1 + shift), *STEPS[1:])
    days = tuple(
        RampDay(
            event_day + timedelta(days=after),
            after,
            step,
            "; ".join(held) if step.has_jumps else "",
        )
        for after, step in enumerate(steps, start=1)
    )
    medical = tuple(r for r in athlete.restrictions_on(today) if r.needs_clearance)
    return Ramp(days, held, medical)


def jumps_held(
    athlete: Athlete, event_day: date, pains: Iterable[PainNow], *, today: date
) -> tuple[str, ...]:
    """Why jumps stay out: pain told since the event, body mass away from usual, or not read."""
    held = [
        f"pain {pain.score} of 10 in the {pain.area.value}, told on {day_and_month(pain.told_on)}"
        for pain in pains
        if pain.score >= SWAP_FROM_PAIN or (pain.area is BodyArea.HEAD and pain.score > 0)
    ]
    usual = usual_mass_kg(athlete, event_day)
    now = athlete.latest_body_mass(today)
    if now is None or now.taken_on <= event_day:
        held.append("no body mass was read since the event")
    elif usual is None:
        held.append("the usual body mass is not known: none was read in the eight weeks before")
    elif abs(now.reading.kg / usual - 1) > MASS_TOLERANCE + ROUNDING:
        away = now.reading.kg / usual - 1
        side = "above" if away > 0 else "below"
        held.append(f"body mass is {abs(away):.1%} {side} the usual {usual:.1f} kg")
    return tuple(held)


def usual_mass_kg(athlete: Athlete, event_day: date) -> float | None:
    """The median reading from eight weeks to eight days before an event [kg], or None."""
    known = [
        reading.reading.kg
        for reading in athlete.body_mass
        if USUAL_TO_DAYS <= (event_day - reading.taken_on).days <= USUAL_FROM_DAYS
    ]
    return median(known) if known else None


def pains_at_the_door(
    sessions: Iterable[Session], athlete: str, event_day: date, *, today: date
) -> tuple[PainNow, ...]:
    """What was told at the door since an event; a later session without it counts as none."""
    later = sorted(
        (
            (session.held_on, check_in.pains)
            for session in sessions
            if event_day < session.held_on <= today
            for check_in in session.check_ins
            if check_in.athlete == athlete
        ),
        key=lambda each: each[0],
    )
    if not later:
        return ()
    day, pains = later[-1]
    return tuple(PainNow(pain.area, pain.score, day) for pain in pains)


def latest_event_day(athlete: Athlete, day: date) -> date | None:
    """The last day of competition within the week before a day, that day not included."""
    days = [e.starts_on for e in athlete.events if 0 < (day - e.starts_on).days <= RAMP_DAYS]
    return max(days, default=None)
