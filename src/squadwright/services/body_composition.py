"""Use cases of body composition: keep an assessment, and the minimum mass that follows from it.

Whoever trains the athlete never measures him: an assessment names who did, with a licence.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time
from decimal import Decimal

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.minimum_weight import shown_minimum_weight
from squadwright.model.athlete import Athlete, Event
from squadwright.model.club import Club
from squadwright.model.diary import BodyComposition, DiaryEntry, DiaryKind
from squadwright.model.plan import Finding
from squadwright.planning.composition import FLOORS, Assessed, MinimumMass, assess, minimum_mass
from squadwright.planning.gates import mass
from squadwright.planning.gates.gate import settings_of
from squadwright.planning.gates.subject import Subject
from squadwright.planning.restriction_words import day_words
from squadwright.services.clubs import load_club
from squadwright.services.diary import Told, write_within
from squadwright.services.unit_of_work import Keeper, Store
from squadwright.units import MassUnit


@dataclass(frozen=True)
class Assessment:
    """One assessment; ``found`` is None where it cannot be used, and ``why_not`` says why."""

    entry: DiaryEntry
    content: BodyComposition
    found: Assessed | None
    why_not: str = ""


@dataclass(frozen=True)
class ForEvent:
    """The minimum mass on the day somebody is weighed, and whether the class is refused."""

    event: Event
    minimum: MinimumMass
    refused: Finding | None


@dataclass(frozen=True)
class CompositionOf:
    """One athlete's assessments, the newest first; ``coming`` by the newest that can be used."""

    athlete: Athlete
    shown_name: str
    today: date
    assessments: tuple[Assessment, ...]
    today_minimum: MinimumMass | None
    coming: tuple[ForEvent, ...]
    at_floor: Finding | None

    @property
    def is_minor(self) -> bool:
        """Whether he is under 18: no descent, whatever is assessed."""
        return self.athlete.is_minor_on(self.today)

    @property
    def latest(self) -> Assessment | None:
        """The newest that can be used."""
        return next((each for each in self.assessments if each.found is not None), None)


def entries_within(store: Store, athlete_id: str, *, today: date) -> tuple[DiaryEntry, ...]:
    """The assessments of an athlete, whenever they were made."""
    return store.diary.entries(of=[athlete_id], kinds=[DiaryKind.BODY_COMPOSITION], until=today)


def assessments_by_athlete(keeper: Keeper, *, today: date) -> dict[str, list[DiaryEntry]]:
    """The assessments of everybody."""
    with keeper.reading() as store:
        entries = store.diary.entries(kinds=[DiaryKind.BODY_COMPOSITION], until=today)
    found: dict[str, list[DiaryEntry]] = {}
    for entry in entries:
        found.setdefault(entry.athlete, []).append(entry)
    return found


def show_composition(keeper: Keeper, athlete_id: str, *, today: date) -> CompositionOf:
    """Everything known of an athlete's body composition; raises NotFound."""
    club = load_club(keeper)
    athlete = club.athlete(athlete_id)
    with keeper.reading() as store:
        entries = entries_within(store, athlete_id, today=today)
    return composition_of(club, athlete, entries, today=today)


def composition_of(
    club: Club, athlete: Athlete, entries: Sequence[DiaryEntry], *, today: date
) -> CompositionOf:
    """What the assessments of an athlete say on a day."""
    held = [
        _assessment(athlete, entry, entry.content)
        for entry in reversed(entries)
        if isinstance(entry.content, BodyComposition) and entry.day <= today
    ]
    found = next((each.found for each in held if each.found is not None), None)
    name = club.shown_names()[athlete.id]
    who = Subject(athlete.id, name, athlete.age_on(today))
    coming = () if found is None else _coming(athlete, who, found, today)
    return CompositionOf(
        athlete=athlete,
        shown_name=name,
        today=today,
        assessments=tuple(held),
        today_minimum=None if found is None else minimum_mass(found, today, is_minor=who.is_minor),
        coming=coming,
        at_floor=None if found is None else _at_floor(who, found),
    )


def findings_of(found: CompositionOf) -> tuple[Finding, ...]:
    """What the gates say: at the floor of body fat, and every class that is refused."""
    refused = tuple(each.refused for each in found.coming if each.refused is not None)
    return refused if found.at_floor is None else (found.at_floor, *refused)


def keep_assessment(
    keeper: Keeper, athlete_id: str, content: BodyComposition, day: date, *, today: date,
    now: datetime,
) -> str:  # fmt: skip
    """Keep an assessment; gives the mark of the step.

    InvalidInput where it cannot be used, or where the urine before it asks for another day.
    """
    with keeper.writing() as store:
        club = store.load_club() or Club("")
        athlete = club.athlete(athlete_id)
        assess(content, sex=athlete.sex, age=athlete.age_on(day), day=day)
        _require_urine(club, content, day)
        told = (Told(athlete_id, day, content),)
        return write_within(store, told, author=content.assessor, today=today, now=now)


def require_class_allowed(
    store: Store, club: Club, athlete: Athlete, event: Event, *, today: date
) -> None:
    """Refuse an event whose class is below the minimum mass of the athlete."""
    if event.mass_limit is None or event.starts_on < today:
        return
    entries = entries_within(store, athlete.id, today=today)
    only = composition_of(club, _with_event(athlete, event), entries, today=today)
    refused = next((each.refused for each in only.coming if each.refused is not None), None)
    if refused is not None:
        words = refused.sentence.partition(": ")[2].rstrip(".")
        raise InvalidInput("mass_limit", words, refused.advice.rstrip("."))


def shown_minimum(value: float, unit: MassUnit) -> str:
    """A minimum as it is shown: rounded up, whole pounds or tenths of a kilogram, never down."""
    if unit is MassUnit.POUND:
        return f"{shown_minimum_weight(value)} lb"
    return f"{shown_minimum_weight(10 * value) / 10:.1f} kg"


def _with_event(athlete: Athlete, event: Event) -> Athlete:
    return replace(athlete, events=(event,))


def _assessment(athlete: Athlete, entry: DiaryEntry, content: BodyComposition) -> Assessment:
    try:
        age = athlete.age_on(entry.day)
        found = assess(content, sex=athlete.sex, age=age, day=entry.day)
    except (InvalidInput, OutsidePublishedRange) as error:
        return Assessment(entry, content, None, str(error))
    return Assessment(entry, content, found)


def _coming(athlete: Athlete, who: Subject, found: Assessed, today: date) -> tuple[ForEvent, ...]:
    events = sorted(
        (e for e in athlete.events if e.mass_limit is not None and e.starts_on >= today),
        key=lambda event: (event.starts_on, event.id),
    )
    return tuple(_for_event(event, who, found) for event in events)


def _for_event(event: Event, who: Subject, found: Assessed) -> ForEvent:
    minimum = minimum_mass(found, event.weighs_on, is_minor=who.is_minor)
    limit = event.mass_limit
    assert limit is not None
    why = "the fastest descent allowed" if minimum.is_by_descent else "the floor of body fat"
    words = (
        f"{shown_minimum(minimum.value, minimum.unit)} on {day_words(event.weighs_on)}, "
        f"by {why}, from the assessment of {day_words(found.day)}"
    )
    source = "texas_minimum_weight" if minimum.is_by_descent else found.floor_source
    refused = mass.class_below_minimum(who, limit, minimum.kg, words, source_key=source)
    return ForEvent(event, minimum, refused)


def _at_floor(who: Subject, found: Assessed) -> Finding | None:
    percent = Decimal(f"{found.percent:.2f}")
    least = Decimal(f"{found.least_percent:g}")
    return mass.floor_of_fat(who, percent, least, source_key=found.floor_source)


def _require_urine(club: Club, content: BodyComposition, day: date) -> None:
    if content.specific_gravity is None:
        return
    gravity = Decimal(f"{content.specific_gravity:.3f}")
    body, settings = FLOORS[content.floor][3], settings_of(club.gate_limits)
    taken = datetime.combine(day, time(), UTC)
    until = mass.assessment_refused_until(gravity, body, taken, settings=settings)
    if until is not None:
        limit = settings.of(f"urine before an assessment, {body}")
        hours = settings.of("hours until the next urine").value
        raise InvalidInput(
            "specific_gravity",
            f"{gravity} is above {limit.value}: nobody is assessed with it",
            f"Test again after {hours} hours at least, and assess then",
        )
