"""Use cases of what an athlete has several of: tests, readings, events, consents; his guardian."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from secrets import token_hex
from typing import Any, Literal

from squadwright.errors import InvalidInput, NotFound
from squadwright.exchange.doubtful import (
    Doubt,
    doubt_of_event,
    doubt_of_jump,
    doubt_of_limit,
    doubt_of_mass,
    doubt_of_test,
    expected_mass_kg,
    usual_mass_kg,
)
from squadwright.model.athlete import (
    Athlete,
    Consent,
    Event,
    Guardian,
    JumpTest,
    MassReading,
    StrengthTest,
)
from squadwright.model.club import Club
from squadwright.model.event_weigh_in import EventWeighIn
from squadwright.model.exercise import Demand
from squadwright.planning.gates.bars import in_force
from squadwright.planning.substitution.barred import MAXIMAL_EFFORT_FROM_AGE
from squadwright.services.asking import ask
from squadwright.services.body_composition import require_class_allowed
from squadwright.services.club_changes import (
    Changed,
    change_club,
    change_within,
    require_unchanged,
)
from squadwright.services.event_dates import require_not_suspended
from squadwright.services.squad import with_athlete
from squadwright.services.unit_of_work import Keeper

EntryPart = Literal["tests", "jump_tests", "body_mass", "events", "consents"]
CHANGED_ENTRY = "This entry"
FIRST_FIELD: dict[type, str] = {
    StrengthTest: "load",
    JumpTest: "height_m",
    MassReading: "reading",
    Event: "name",
    Consent: "purpose",
}
Entry = StrengthTest | JumpTest | MassReading | Event | Consent


def add_entry(
    keeper: Keeper,
    athlete_id: str,
    part: EntryPart,
    entry: Entry,
    *,
    today: date,
    answer: str = "",
) -> Changed:
    """Keep one more test, reading, event or consent; Asked where a value is doubtful.

    InvalidInput for an event on a day on which he is suspended, and for a class below the minimum
    mass that an assessment of body fat has given.
    """
    new = replace(entry, id=f"e{token_hex(5)}") if isinstance(entry, Event) else entry

    def change(club: Club) -> Club:
        athlete = club.athlete(athlete_id)
        held = entries_of(athlete, part)
        _check(athlete, held, new, today, answer)
        if isinstance(new, Event):
            require_not_suspended(athlete, new.starts_on, "starts_on")
            require_class_allowed(store, club, athlete, new, today=today)
        return with_athlete(club, _with_entries(athlete, part, (*held, new)))

    with keeper.writing() as store:
        return change_within(store, change, today=today)


def change_entry(
    keeper: Keeper,
    athlete_id: str,
    part: EntryPart,
    index: int,
    entry: Entry,
    shown: str,
    *,
    today: date,
    answer: str = "",
) -> Changed:
    """Put an entry in the place of the one that was shown."""

    def change(club: Club) -> Club:
        athlete = club.athlete(athlete_id)
        held = entries_of(athlete, part)
        former = entry_at(athlete, part, index)
        require_unchanged(former, shown, CHANGED_ENTRY)
        new: Entry = entry
        if isinstance(entry, Event) and isinstance(former, Event):
            new = replace(entry, id=former.id, weigh_in=_weigh_in_of(former, entry))
            if new.starts_on != former.starts_on:
                require_not_suspended(athlete, new.starts_on, "starts_on")
            if (new.mass_limit, new.starts_on) != (former.mass_limit, former.starts_on):
                require_class_allowed(store, club, athlete, new, today=today)
        others = (*held[:index], *held[index + 1 :])
        _check(athlete, others, new, today, answer, former=former)
        changed = (*held[:index], new, *held[index + 1 :])
        return with_athlete(club, _with_entries(athlete, part, changed))

    with keeper.writing() as store:
        return change_within(store, change, today=today)


def _weigh_in_of(former: Event, entry: Event) -> EventWeighIn | None:
    """The weigh-in of a changed event: of another day only the rule stays, to be asked about."""
    known = former.weigh_in
    if known is None or former.starts_on == entry.starts_on:
        return known
    return EventWeighIn(known.rule, known.rule_year, known.weigh_in)


def remove_entry(
    keeper: Keeper, athlete_id: str, part: EntryPart, index: int, shown: str, *, today: date
) -> Changed:
    """Take out the entry that was shown."""

    def change(club: Club) -> Club:
        athlete = club.athlete(athlete_id)
        held = entries_of(athlete, part)
        require_unchanged(entry_at(athlete, part, index), shown, CHANGED_ENTRY)
        left = (*held[:index], *held[index + 1 :])
        return with_athlete(club, _with_entries(athlete, part, left))

    return change_club(keeper, change, today=today)


def set_guardian(
    keeper: Keeper, athlete_id: str, guardian: Guardian | None, shown: str, *, today: date
) -> Changed:
    """Enter, change or take out the adult who answers for an athlete."""

    def change(club: Club) -> Club:
        athlete = club.athlete(athlete_id)
        require_unchanged(athlete.guardian, shown, CHANGED_ENTRY)
        return with_athlete(club, replace(athlete, guardian=guardian))

    return change_club(keeper, change, today=today)


def entries_of(athlete: Athlete, part: EntryPart) -> tuple[Entry, ...]:
    """What an athlete has of one kind, in the order in which it was entered."""
    held: tuple[Entry, ...] = getattr(athlete, part)
    return held


def entry_at(athlete: Athlete, part: EntryPart, index: int) -> Entry:
    """One entry by its place; raises NotFound."""
    held = entries_of(athlete, part)
    if not 0 <= index < len(held):
        raise NotFound(
            f"{athlete.name} has no entry {index + 1} there any more. Open the page afresh"
        )
    return held[index]


def _with_entries(athlete: Athlete, part: EntryPart, entries: tuple[Entry, ...]) -> Athlete:
    changed: dict[str, Any] = {part: entries}
    return replace(athlete, **changed)


def _check(
    athlete: Athlete,
    others: tuple[Entry, ...],
    new: Entry,
    today: date,
    answer: str,
    *,
    former: Entry | None = None,
) -> None:
    """Refuse what must not be, ask about what is doubtful and new."""
    if isinstance(new, StrengthTest):
        _refuse_maximal(athlete, new)
    doubts = [_doubt_of_twice(others, new), *_doubts(athlete, others, new, today)]
    ask((d for d in doubts if d and _is_new(d, former, new)), answer)


def _doubt_of_twice(others: tuple[Entry, ...], new: Entry) -> Doubt | None:
    """The same once more: two taps on one button, or entered by two people."""
    same = [
        replace(o, id=new.id) if isinstance(o, Event) and isinstance(new, Event) else o
        for o in others
    ]
    if new not in same:
        return None
    return Doubt(FIRST_FIELD[type(new)], "Exactly this is stored already. Once more?", "once more")


def _is_new(doubt: Doubt, former: Entry | None, new: Entry) -> bool:
    return former is None or getattr(former, doubt.place) != getattr(new, doubt.place)


def _doubts(
    athlete: Athlete, others: tuple[Entry, ...], new: Entry, today: date
) -> Iterator[Doubt | None]:
    if isinstance(new, MassReading):
        readings = [o for o in others if isinstance(o, MassReading)]
        expected_kg = expected_mass_kg(athlete, new.taken_on)
        yield doubt_of_mass(new, readings, expected_kg=expected_kg)
    elif isinstance(new, StrengthTest):
        tests = [o for o in others if isinstance(o, StrengthTest)]
        yield doubt_of_test(new, tests, usual_mass_kg(athlete.body_mass))
    elif isinstance(new, JumpTest):
        yield doubt_of_jump(new, [o for o in others if isinstance(o, JumpTest)])
    elif isinstance(new, Event):
        yield doubt_of_event(new, today)
        if new.mass_limit is not None:
            yield doubt_of_limit(new.mass_limit, usual_mass_kg(athlete.body_mass))


def _refuse_maximal(athlete: Athlete, test: StrengthTest) -> None:
    """No single as a test below 18 years, nor where a restriction bars an all-out effort."""
    if test.repetitions > 1:
        return
    age = athlete.age_on(test.taken_on)
    if age < MAXIMAL_EFFORT_FROM_AGE:
        raise InvalidInput(
            "repetitions",
            f"1 is a maximal test, and {athlete.name} was {age} on that day; all-out efforts "
            f"begin at {MAXIMAL_EFFORT_FROM_AGE} years (common practice, no source)",
            "Enter a set of several good repetitions, for example 5; "
            "medical staff and local rules come first",
        )
    for restriction in in_force(athlete, test.taken_on):
        if restriction.all_training or Demand.MAXIMAL_EFFORT in restriction.demands:
            raise InvalidInput(
                "repetitions",
                f"1 is a maximal test, and {restriction.author} bars an all-out effort",
                "Enter a set of several good repetitions, or ask whoever set the restriction",
            )
