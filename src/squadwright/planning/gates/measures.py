"""What follows from what is measured beside the sessions: what is barred, what is less, and why."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from squadwright.model.athlete import Athlete, AuthorRole, Restriction
from squadwright.model.exercise import Demand
from squadwright.model.measured import EnergyDay, MorningUrine, WatchedPain
from squadwright.model.plan import Finding, Severity
from squadwright.planning.finding import finding
from squadwright.planning.gates import energy, mass, pain
from squadwright.planning.gates.limits import DEFAULT, Settings
from squadwright.planning.gates.release import is_released
from squadwright.planning.gates.subject import Subject

GATE = "Limit of the gates"
HARD_WORK = (Demand.MAXIMAL_EFFORT, Demand.CONTACT)
"""What hard work is besides its volume and its loads: the choice of this program."""
HALF = Decimal("0.5")
NO_HARD_WORK, LESS_VOLUME = "no hard work", "volume taken down"
REDUCED = (pain.Action.REDUCE, pain.Action.REDUCE_AND_REFER)
STATUS = "status from medical staff"
TOLD_DAYS = 1
"""A gain of mass in training is told on the day and the day after."""


@dataclass(frozen=True)
class Less:
    """What a reading takes off: a share of the rounds, a share of the maximum, said without it."""

    share_of_rounds: Decimal
    share_of_maximum: Decimal | None
    why: str


def findings_of_measures(
    athlete: Athlete, who: Subject, day: date, *, settings: Settings = DEFAULT
) -> Iterator[Finding]:
    """Everything found in what was measured that counts on a day."""
    yield from findings_of_mass_measures(athlete, who, day, settings=settings)
    for watched in athlete.measured.pains:
        answer = answer_of_pain(athlete, who, watched, day, settings=settings)
        if answer is not None and answer.finding is not None:
            yield answer.finding
    yield from status_of_energy(athlete, who, day, settings=settings)


def status_of_energy(
    athlete: Athlete, who: Subject, day: date, *, settings: Settings = DEFAULT
) -> Iterator[Finding]:
    """That medical staff want to see him, and never why: the numbers are for them."""
    told = athlete.measured.latest_energy(day)
    if told is None or is_released(athlete, energy.RULE, told.taken_on, day):
        return
    found = findings_of_energy(who, told, settings=settings)
    if found:
        is_warning = any(item.severity is Severity.WARNING for item in found)
        yield finding(
            STATUS,
            Severity.WARNING if is_warning else Severity.NOTE,
            f"{who.shown_name}: see medical staff",
            athlete=who.id,
            source=f"{told.author}, medical staff",
            advice="They know why; send the athlete to them, and ask before any plan to lose mass",
        )


def findings_of_energy(
    who: Subject, told: EnergyDay, *, settings: Settings = DEFAULT
) -> tuple[Finding, ...]:
    """What the gates say of energy and food: for medical staff and himself alone."""
    item = energy.energy_availability_gate(
        who,
        Decimal(str(told.intake_kcal)),
        Decimal(str(told.exercise_kcal)),
        told.fat_free.exact_kg,
        settings=settings,
    )
    least: tuple[Finding, ...] = ()
    if told.body_mass is not None:
        least = energy.least_of_foods(who, told.body_mass, told.foods, settings=settings)
    return least if item is None else (item, *least)


def findings_of_mass_measures(
    athlete: Athlete, who: Subject, day: date, *, settings: Settings = DEFAULT
) -> Iterator[Finding]:
    """What mass around training and the urine of the morning say on a day."""
    yield from _of_training(athlete, who, day)
    reading = athlete.measured.latest_urine(day)
    if reading is not None:
        item = mass.urine_gravity(who, reading.exact_gravity, settings=settings)
        counts = reading.taken_on == day or hard_work_waits(athlete, day, settings=settings)
        if item is not None and counts:
            yield item


def bars_of_measures(
    athlete: Athlete, day: date, *, settings: Settings = DEFAULT
) -> Iterator[Restriction]:
    """What is barred on a day; asked again each day, since the next reading may open it."""
    reading = hard_work_waits(athlete, day, settings=settings)
    if reading is not None:
        yield Restriction(
            id=reading.id,
            author=GATE,
            author_role=AuthorRole.OFFICIAL,
            starts_on=reading.taken_on,
            until=day + timedelta(days=1),
            demands=HARD_WORK,
            reason=f"urine of the morning {reading.exact_gravity}",
            instruction="No hard work until the next reading, or the word of medical staff",
        )
    for watched in athlete.measured.pains:
        who = Subject(athlete.id, athlete.name, athlete.age_on(day))
        answer = answer_of_pain(athlete, who, watched, day, settings=settings)
        if answer is None or answer.action is not pain.Action.STOP_AND_REFER:
            continue
        told = watched.latest(day)
        yield Restriction(
            id=watched.id,
            author=watched.author,
            author_role=AuthorRole.MEDICAL,
            starts_on=watched.taken_on if told is None else told.taken_on,
            all_training=True,
            reason="" if answer.finding is None else answer.finding.sentence.partition(": ")[2],
            instruction="" if answer.finding is None else answer.finding.advice,
        )


def less_by_measures(
    athlete: Athlete, day: date, *, settings: Settings = DEFAULT
) -> Iterator[Less]:
    """What he gets less of on a day; each says so without the reading."""
    if hard_work_waits(athlete, day, settings=settings) is not None:
        light = settings.of("share lifted on the way back").value
        yield Less(HALF, light, NO_HARD_WORK)
    who = Subject(athlete.id, athlete.name, athlete.age_on(day))
    for watched in athlete.measured.pains:
        answer = answer_of_pain(athlete, who, watched, day, settings=settings)
        if answer is not None and answer.action in REDUCED:
            yield Less(HALF, None, LESS_VOLUME)


def answer_of_pain(
    athlete: Athlete,
    who: Subject,
    watched: WatchedPain,
    day: date,
    *,
    settings: Settings = DEFAULT,
) -> pain.PainAnswer | None:
    """What becomes of the load by the last reading; None without one, or where it is cleared."""
    told = watched.latest(day)
    if not is_watched(athlete, watched, day) or not (told or watched.is_for_a_clinician):
        return None
    return pain.pain_under_load(
        who,
        0 if told is None else told.during,
        None if told is None else told.after,
        None if told is None else told.next_morning,
        None if told is None else told.week,
        is_for_a_clinician=watched.is_for_a_clinician,
        place=watched.place,
        settings=settings,
    )


def hard_work_waits(
    athlete: Athlete, day: date, *, settings: Settings = DEFAULT
) -> MorningUrine | None:
    """The reading that holds hard work on a day: the last one, if it is serious and not lifted."""
    reading = athlete.measured.latest_urine(day)
    if reading is None or reading.exact_gravity <= settings.of("urine, serious").value:
        return None
    return None if is_released(athlete, mass.URINE, reading.taken_on, day) else reading


def is_watched(athlete: Athlete, watched: WatchedPain, day: date) -> bool:
    """Whether a watch has begun by a day and no word since the last reading has ended it."""
    told = watched.latest(day)
    since = watched.taken_on if told is None else told.taken_on
    return since <= day and not is_released(athlete, pain.RULE, since, day)


def _of_training(athlete: Athlete, who: Subject, day: date) -> Iterator[Finding]:
    for each in athlete.measured.training:
        if 0 <= (day - each.taken_on).days <= TOLD_DAYS:
            item = mass.heavier_after_training(who, each.before, each.after)
            if item is not None:
                yield item
