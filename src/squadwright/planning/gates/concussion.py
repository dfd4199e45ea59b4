"""Graded return after a concussion: six steps, 24 hours each, clearance before step 4.

Hours are those that passed, whatever the clock showed. The coach creates no clearance, and no
setting makes a step shorter. A suspension runs beside it; the later one wins.
"""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from squadwright.errors import InvalidInput, NotAllowed
from squadwright.model.exercise import Demand
from squadwright.model.medical import MedicalClearance
from squadwright.model.muscles import BodyArea
from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates.limits import DEFAULT, Settings
from squadwright.planning.gates.subject import Subject, found, instant

CLEARS_CONTACT = "concussion: return from step 4 on"
RULE = "symptoms after a concussion last"
CLEARANCE_FROM_STEP = 4
CONTACT_FROM_STEP = 5
LAST_STEP = 6
BACK_TO_STEP = 3
MILD_POINTS = 2
MILD_MINUTES = 60
"""Worse by at most 2 of 10 points and for less than an hour is mild.

That, and the way back to step 3, is from memory (return_recalled).
"""

_NO_HEAD_IMPACT = (
    Demand.CONTACT,
    Demand.MAXIMAL_EFFORT,
    Demand.BREATH_HOLD,
    Demand.DROP_LANDING,
    Demand.HAND_LANDING,
)
_HEAD_AND_NECK = (BodyArea.HEAD, BodyArea.NECK)


@dataclass(frozen=True)
class Step:
    """One step: what may be done, what is barred, and whether all training is."""

    number: int
    allowed: str
    barred: tuple[Demand, ...]
    barred_areas: tuple[BodyArea, ...] = ()
    all_training_barred: bool = False
    may_compete: bool = False


STEPS = (
    Step(
        1,
        "daily life, as long as it makes nothing more than mildly worse",
        _NO_HEAD_IMPACT,
        _HEAD_AND_NECK,
        all_training_barred=True,
    ),
    Step(2, "light, then moderate endurance work; light lifting", _NO_HEAD_IMPACT, _HEAD_AND_NECK),
    Step(
        3,
        "drills of the sport alone, watched, no risk to the head",
        _NO_HEAD_IMPACT,
        _HEAD_AND_NECK,
    ),
    Step(
        4,
        "drills with others, no live grips, throws, takedowns or sparring",
        _NO_HEAD_IMPACT,
        _HEAD_AND_NECK,
    ),
    Step(5, "full practice with contact", ()),
    Step(6, "competition", (), may_compete=True),
)


@dataclass(frozen=True)
class Symptoms:
    """Symptoms told: how much worse on a scale of 10, and for how many minutes."""

    at: datetime
    worse_by: int
    minutes: int

    @property
    def is_mild(self) -> bool:
        """Whether they count as mild and brief."""
        return self.worse_by <= MILD_POINTS and self.minutes < MILD_MINUTES


@dataclass(frozen=True)
class Course:
    """Where an athlete is on his way back."""

    step: int
    began_at: datetime
    knocked_at: datetime
    is_minor: bool = False
    last_symptoms_at: datetime | None = None

    def __post_init__(self) -> None:
        if instant("began_at", self.began_at) < instant("knocked_at", self.knocked_at):
            raise InvalidInput("began_at", "is before the knock", "Give a later time")
        if not 1 <= self.step <= LAST_STEP:
            raise InvalidInput("step", f"is {self.step}", f"Give 1 to {LAST_STEP}")


def earliest(course: Course, step: int, *, settings: Settings = DEFAULT) -> datetime:
    """The earliest moment a later step may begin, on the clock of the world, if nothing goes wrong.

    From step 4 on a clearance is needed as well.
    """
    if step <= course.step:
        raise InvalidInput("step", f"{step} is not after step {course.step}", "Give a later one")
    hours = float(settings.of("hours a step").value)
    return instant("began_at", course.began_at) + timedelta(hours=hours * (step - course.step))


def reasons_against(
    course: Course,
    now: datetime,
    *,
    is_symptom_free: bool,
    clearance: MedicalClearance | None = None,
    is_back_at_school: bool = True,
    settings: Settings = DEFAULT,
) -> tuple[str, ...]:
    """Why the next step may not begin now; empty where it may."""
    step = course.step + 1
    if step > LAST_STEP:
        return (f"step {LAST_STEP} is the last one",)
    reasons = []
    wait = earliest(course, step, settings=settings) - instant("now", now)
    if wait > timedelta(0):
        hours, minutes = divmod(-(-int(wait.total_seconds()) // 60), 60)
        reasons.append(f"step {course.step} has {hours} h {minutes:02d} min to go")
    if not is_symptom_free:
        reasons.append("there are symptoms")
    if step >= CLEARANCE_FROM_STEP and not covers(clearance, course, now):
        reasons.append(f"step {step} needs a written clearance by medical staff, given since")
    if step >= CONTACT_FROM_STEP and course.is_minor and not is_back_at_school:
        reasons.append("not fully back at school")
    return tuple(reasons)


def next_step(
    course: Course,
    now: datetime,
    *,
    is_symptom_free: bool,
    clearance: MedicalClearance | None = None,
    is_back_at_school: bool = True,
    settings: Settings = DEFAULT,
) -> Course:
    """The course on its next step; raises NotAllowed with every reason against it."""
    reasons = reasons_against(
        course,
        now,
        is_symptom_free=is_symptom_free,
        clearance=clearance,
        is_back_at_school=is_back_at_school,
        settings=settings,
    )
    if reasons:
        raise NotAllowed(
            f"Step {course.step + 1} may not begin: {'; '.join(reasons)}. Stay on step "
            f"{course.step}, and ask medical staff if in doubt."
        )
    return replace(course, step=course.step + 1, began_at=instant("now", now))


def after_symptoms(course: Course, symptoms: Symptoms) -> Course:
    """The course once symptoms are told: from step 4 on back to step 3, and the 24 hours restart.

    Before that mild and brief ones let it go on; others stop the day and restart the step.
    """
    at = instant("at", symptoms.at)
    if course.step >= CLEARANCE_FROM_STEP:
        return replace(course, step=BACK_TO_STEP, began_at=at, last_symptoms_at=at)
    if symptoms.is_mild:
        return course
    return replace(course, began_at=at, last_symptoms_at=at)


def symptoms_that_last(
    who: Subject, knocked_at: datetime, now: datetime, *, settings: Settings = DEFAULT
) -> Finding | None:
    """Symptoms longer than usual are for a specialist."""
    limit = settings.of("symptoms of a minor" if who.is_minor else "symptoms of a grown person")
    days = (instant("now", now) - instant("knocked_at", knocked_at)) / timedelta(days=1)
    if days <= float(limit.value):
        return None
    return found(
        RULE,
        Severity.WARNING,
        who,
        f"symptoms {int(days)} days after the knock",
        value=days,
        limit=limit,
        advice="Refer to a specialist for concussion",
    )


def covers(clearance: MedicalClearance | None, course: Course, now: datetime) -> bool:
    """Whether a clearance names this return and is not older than the last symptoms."""
    if clearance is None or CLEARS_CONTACT not in clearance.lifts:
        return False
    if not clearance.holds_on(instant("now", now).date()):
        return False
    if course.last_symptoms_at is not None:
        return clearance.given_on > instant("last_symptoms_at", course.last_symptoms_at).date()
    return clearance.given_on >= instant("knocked_at", course.knocked_at).date()
