"""Use cases of the diary: every write is one step that can be taken back, also after a restart."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from secrets import token_hex

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.diary import Content, DiaryEntry, DiaryKind, DiaryStep
from squadwright.services.health_log import log_diary, log_diary_ids
from squadwright.services.unit_of_work import Keeper, Store

MOST_ENTRIES = 50_000


@dataclass(frozen=True)
class Told:
    """What is to be written: of whom, of which day."""

    athlete: str
    day: date
    content: Content


def read_diary(
    keeper: Keeper,
    *,
    of: Collection[str] | None = None,
    kinds: Collection[DiaryKind] = (),
    since: date | None = None,
    until: date | None = None,
) -> tuple[DiaryEntry, ...]:
    """Entries in force by day; ``of`` are ids of athletes, ``until`` the last day, in it."""
    with keeper.reading() as store:
        return store.diary.entries(of=of, kinds=kinds, since=since, until=until)


def write_diary(
    keeper: Keeper,
    told: Sequence[Told],
    *,
    author: str,
    today: date,
    now: datetime,
    in_place_of: Sequence[str] = (),
) -> str:
    """Write entries, in place of others where their ids are given; gives the mark of the step.

    All of it is stored, or nothing. InvalidInput for a day after today, NotFound for somebody who
    is not in the club, Conflict where an entry to be replaced was taken out somewhere else.
    """
    with keeper.writing() as store:
        return write_within(
            store, told, author=author, today=today, now=now, in_place_of=in_place_of
        )


def write_within(
    store: Store,
    told: Sequence[Told],
    *,
    author: str,
    today: date,
    now: datetime,
    in_place_of: Sequence[str] = (),
) -> str:
    """As ``write_diary``, as a part of a unit of work that stores more than the diary."""
    club = store.load_club()
    if club is None:
        raise NotFound("There is no club yet. Name it first, or run `squadwright import FILE`")
    if len(told) > MOST_ENTRIES:
        raise InvalidInput(
            "entries",
            f"{len(told)} at once, at most {MOST_ENTRIES}",
            "Write them in several parts",
        )
    for each in told:
        club.athlete(each.athlete)
        _require_past(each.day, today)
    entries = tuple(
        DiaryEntry(token_hex(12), each.athlete, each.day, each.content, author, now)
        for each in told
    )
    added = tuple(entry.id for entry in entries)
    step = DiaryStep(token_hex(12), today, added, tuple(in_place_of))
    log_diary(store, entries)
    log_diary_ids(store, in_place_of)
    store.diary.write(entries, tuple(in_place_of), step)
    return step.mark


def take_out(
    keeper: Keeper, entry_ids: Sequence[str], *, author: str, today: date, now: datetime
) -> str:
    """Take entries out of the diary; gives the mark of the step that takes this back."""
    return write_diary(keeper, (), author=author, today=today, now=now, in_place_of=entry_ids)


def take_back(keeper: Keeper, mark: str) -> None:
    """Undo a write: what it brought in goes out, what it took out comes back.

    Conflict where that was changed again since, NotFound for an unknown mark.
    """
    _turn(keeper, mark, back=True)


def put_again(keeper: Keeper, mark: str) -> None:
    """Do a write again that was taken back; errors as ``take_back``."""
    _turn(keeper, mark, back=False)


def _turn(keeper: Keeper, mark: str, *, back: bool) -> None:
    with keeper.writing() as store:
        step = store.diary.step(mark)
        log_diary_ids(store, (*step.added, *step.taken_out))
        store.diary.put(step.added, in_force=not back)
        store.diary.put(step.taken_out, in_force=back)


def _require_past(day: date, today: date) -> None:
    if day > today:
        raise InvalidInput(
            "day",
            f"{day} has not come yet (today is {today})",
            "Give the day it was; what is planned belongs into the week",
        )
