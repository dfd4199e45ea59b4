"""What the medical entries of an athlete bar at an hour, as restrictions that every part obeys.

They follow him into the dose, the swaps, the live floor and what is printed. The reason stands in
``reason`` alone, which no card, wall or handover shows.
"""

from collections.abc import Iterator
from datetime import date, datetime, time, timedelta

from squadwright.model.athlete import Athlete, AuthorRole, Restriction
from squadwright.model.exercise import Demand
from squadwright.model.medical import (
    HeadKnock,
    Illness,
    MedicalClearance,
    Outcome,
    ReturnStage,
    Sign,
    Suspension,
)
from squadwright.model.muscles import BodyArea
from squadwright.planning.gates import activity, private_limit
from squadwright.planning.gates.concussion import CLEARANCE_FROM_STEP, STEPS, Course, covers
from squadwright.planning.gates.illness import FOR_A_DOCTOR, earliest_after, illness
from squadwright.planning.gates.illness import RULE as ILLNESS
from squadwright.planning.gates.limits import DEFAULT, Settings
from squadwright.planning.gates.measures import bars_of_measures
from squadwright.planning.gates.release import is_released as is_released
from squadwright.planning.gates.subject import Subject

END_OF_DAY = time(23, 59)
OUT = "No training until medical staff give clearance in writing"
NO_CONTACT = "no contact and no competition"
STAFF = "Medical staff"
BEFORE_TRAINING = activity.RULE
NEEDS_A_RELEASE = FOR_A_DOCTOR | {Sign.SKIN_INFECTION, Sign.GLANDULAR_FEVER}


def in_force(athlete: Athlete, day: date, at: time = END_OF_DAY) -> tuple[Restriction, ...]:
    """Everything that holds for him at an hour: restrictions as written, and medical entries."""
    return (*athlete.restrictions_on(day), *bars(athlete, day, at))


def bars(
    athlete: Athlete, day: date, at: time = END_OF_DAY, *, settings: Settings = DEFAULT
) -> tuple[Restriction, ...]:
    """What his medical entries, and what was measured of him, bar at an hour."""
    medical = athlete.medical
    found: list[Restriction] = []
    for knock in medical.head_knocks:
        found += _of_knock(athlete, knock, day, at)
    for suspension in medical.suspensions:
        found += _of_suspension(athlete, suspension, day)
    for told in medical.illnesses:
        found += _of_illness(athlete, told, day, at, settings)
    found += _of_screening(athlete, day, settings)
    found += _of_private(athlete, day)
    found += bars_of_measures(athlete, day, settings=settings)
    return tuple(found)


def subject_of(athlete: Athlete, day: date, shown_name: str = "") -> Subject:
    """Whom a gate is about."""
    return Subject(athlete.id, shown_name or athlete.name, athlete.age_on(day))


def course_of(athlete: Athlete, knock: HeadKnock, stage: ReturnStage) -> Course:
    """Where he is on his way back."""
    return Course(
        step=stage.step,
        began_at=stage.began_at,
        knocked_at=knock.knocked_at,
        is_minor=athlete.is_minor_on(stage.began_at.date()),
        last_symptoms_at=max((told.at for told in knock.symptoms), default=None),
    )


def clearance_for(
    athlete: Athlete, knock: HeadKnock, stage: ReturnStage, now: datetime
) -> MedicalClearance | None:
    """The clearance that opens the steps from 4 on, or None."""
    course = course_of(athlete, knock, stage)
    return next((each for each in athlete.medical.clearances if covers(each, course, now)), None)


def step_in_force(athlete: Athlete, knock: HeadKnock, day: date, at: time) -> int:
    """The step that holds, 0 before the first: never above 3 without a clearance."""
    stage = knock.stage_at(day, at)
    if stage is None:
        return 0
    now = datetime.combine(day, at, tzinfo=stage.began_at.tzinfo)
    if stage.step >= CLEARANCE_FROM_STEP and clearance_for(athlete, knock, stage, now) is None:
        return CLEARANCE_FROM_STEP - 1
    return stage.step


def _of_knock(athlete: Athlete, knock: HeadKnock, day: date, at: time) -> Iterator[Restriction]:
    if not knock.happened_by(day):
        return
    stage = knock.stage_at(day, at)
    number = step_in_force(athlete, knock, day, at)
    step = STEPS[max(number, 1) - 1]
    is_out = number < 1 or step.all_training_barred or (stage is not None and stage.no_training)
    if not (is_out or step.barred or step.barred_areas):
        return
    says = "no bar, no contact" if is_out else step.allowed
    author = knock if stage is None else stage
    instruction = OUT if stage is None else stage.instruction
    yield Restriction(
        id=knock.id,
        author=author.author,
        author_role=_role(author.licence),
        starts_on=knock.knocked_at.date(),
        demands=() if is_out else step.barred,
        body_areas=(BodyArea.HEAD,) if is_out else step.barred_areas,
        all_training=is_out,
        reason=f"head knock, return stage {number}: {says}"
        if number
        else "head knock, not seen by medical staff yet",
        instruction=instruction or (OUT if number < 2 and is_out else step.allowed),
    )


def _role(licence: str) -> AuthorRole:
    """Without a licence it is a coach who wrote it down."""
    return AuthorRole.COACH if licence == "not stated" else AuthorRole.MEDICAL


def _of_suspension(athlete: Athlete, held: Suspension, day: date) -> Iterator[Restriction]:
    if held.starts_on is not None and held.starts_on > day:
        return
    given = {
        name for each in athlete.medical.clearances if each.holds_on(day) for name in each.lifts
    }
    missing = [need for need in held.needs if need not in given]
    last = held.no_contact_until
    if not missing and (last is None or day > last):
        return
    until = None if missing or last is None else last + timedelta(days=1)
    instruction = NO_CONTACT + (f", until cleared: {', '.join(missing)}" if missing else "")
    yield Restriction(
        id=held.id,
        author=held.issuer,
        author_role=AuthorRole.OFFICIAL,
        starts_on=min(held.starts_on or day, day),
        until=until,
        demands=(Demand.CONTACT,),
        reason=held.reason,
        instruction=instruction,
    )


def illness_holds(athlete: Athlete, told: Illness, day: date, at: time, settings: Settings) -> bool:
    """Whether he is still to rest: until 24 hours after it is gone, some until a doctor's word."""
    if told.began_on > day:
        return False
    if Sign.GLANDULAR_FEVER in told.signs:
        days = int(settings.of("days after glandular fever").value)
        if day < told.began_on + timedelta(days=days):
            return True
    if is_released(athlete, ILLNESS, told.began_on, day):
        return False
    if NEEDS_A_RELEASE & set(told.signs) or told.gone_at is None:
        return True
    now = datetime.combine(day, at, tzinfo=told.gone_at.tzinfo)
    return now < earliest_after(told.gone_at, settings=settings)


def _of_illness(
    athlete: Athlete, told: Illness, day: date, at: time, settings: Settings
) -> Iterator[Restriction]:
    if not illness_holds(athlete, told, day, at, settings):
        return
    answer = illness(
        subject_of(athlete, day),
        told.signs,
        temperature_c=told.exact_temperature_c,
        settings=settings,
    )
    if answer.may_train or answer.finding is None:
        return
    free = None if told.gone_at is None else earliest_after(told.gone_at, settings=settings).date()
    needs_doctor = bool(NEEDS_A_RELEASE & set(told.signs))
    yield Restriction(
        id=told.id,
        author=told.author,
        author_role=AuthorRole.MEDICAL if needs_doctor else AuthorRole.COACH,
        starts_on=told.began_on,
        until=None
        if free is None or needs_doctor
        else max(free, day + timedelta(days=1), told.began_on + timedelta(days=1)),
        all_training=True,
        reason=f"illness: {answer.finding.sentence.partition(': ')[2].rstrip('.')}",
        instruction=answer.finding.advice,
    )


def is_stopped_by_a_sign(athlete: Athlete, day: date) -> bool:
    """Whether a sign came under a private limit, and no clearance has been given since."""
    held = athlete.medical.private_on(day)
    if held is None or held.stopped_on is None or held.stopped_on > day:
        return False
    return not is_released(athlete, private_limit.RULE, held.stopped_on, day)


def _of_private(athlete: Athlete, day: date) -> Iterator[Restriction]:
    """What a private limit bars; whose it is and what it bars, and nothing of why."""
    held = athlete.medical.private_on(day)
    if held is None:
        return
    is_own = held.licence == "not stated"
    stops = is_stopped_by_a_sign(athlete, day)
    yield Restriction(
        id=f"{athlete.id[:40]}-private",
        author="Private" if is_own else STAFF,
        author_role=AuthorRole.ATHLETE if is_own and not stops else AuthorRole.MEDICAL,
        starts_on=held.declared_on,
        demands=() if stops else private_limit.BARRED,
        all_training=stops,
        instruction="No training until a written clearance is entered"
        if stops
        else "No work in heat and no plan to lose mass",
    )


def cleared_on(athlete: Athlete, day: date) -> date | None:
    """The day of the last clearance for training by the screening rule, up to a day."""
    medical = athlete.medical
    given = [
        each.given_on
        for each in medical.clearances
        if activity.RULE in each.lifts and each.holds_on(day)
    ]
    form = medical.screening
    if form is not None and form.holds_on(day):
        given.append(form.completed_on)
    return max(given, default=None)


def _of_screening(athlete: Athlete, day: date, settings: Settings) -> Iterator[Restriction]:
    """What stands in the way of the hard work that a session is."""
    medical = athlete.medical
    cleared = cleared_on(athlete, day)
    found = activity.clearance_needed(
        subject_of(athlete, day),
        day,
        is_active=medical.is_active is not False,
        has_disease=bool(medical.known_disease.strip()),
        has_symptoms=medical.has_symptoms,
        is_hard=True,
        cleared_on=cleared,
        settings=settings,
    )
    form = medical.screening
    is_referred = (
        form is not None
        and form.completed_on <= day
        and form.outcome is Outcome.REFER
        and (cleared is None or cleared < form.completed_on)
    )
    is_stopped = found is not None and activity.stops(found)
    if not (is_stopped or is_referred):
        return
    says = found.sentence.partition(": ")[2].rstrip(".") if is_stopped and found else "refer"
    yield Restriction(
        id=f"{athlete.id[:40]}-screening",
        author=STAFF,
        author_role=AuthorRole.MEDICAL,
        starts_on=day if form is None else min(day, form.completed_on),
        all_training=True,
        reason=f"screening: {says}",
        instruction="No training until a doctor's written clearance is entered",
    )
