"""Use cases: look at a data file before anything is stored, take it in, and take that back."""

from collections import Counter
from dataclasses import dataclass
from datetime import date, datetime
from secrets import token_hex

from squadwright.errors import InvalidInput, NotFound
from squadwright.exchange.club_file import mistakes
from squadwright.exchange.data_file import DataFile
from squadwright.model.club import Club
from squadwright.model.diary import DiaryEntry, DiaryStep
from squadwright.model.record import RecordEvent, day_of_record
from squadwright.services.club_changes import change_within, take_back_within
from squadwright.services.club_entries import called, differences, joined
from squadwright.services.data_out import everything_within
from squadwright.services.erasing import without_erased
from squadwright.services.health_log import log_diary, log_diary_ids, log_events
from squadwright.services.unit_of_work import Keeper, Store

MOST_NAMED = 8


@dataclass(frozen=True)
class LookedAt:
    """What taking a file in would do. ``doubtful`` are sentences on what is left out, and why.

    ``wrong`` is empty, or says why nothing of the file can be taken in.
    """

    club: Club
    new: tuple[str, ...]
    changed: tuple[str, ...]
    doubtful: tuple[str, ...]
    diary: tuple[DiaryEntry, ...]
    events: tuple[RecordEvent, ...]
    same: int
    wrong: str = ""

    @property
    def is_nothing(self) -> bool:
        """Whether the file brings nothing that is not there."""
        return not (self.new or self.changed)


def look_at(keeper: Keeper, data: DataFile, *, today: date) -> LookedAt:
    """What a file would bring; nothing is stored."""
    with keeper.reading() as store:
        return _looked_at(store, data, today)


def take_in(keeper: Keeper, data: DataFile, *, today: date, now: datetime) -> tuple[LookedAt, str]:
    """Take a file in, all that is not doubtful or nothing; gives the mark that takes it back."""
    with keeper.writing() as store:
        if store.load_club() is None:
            store.save_club(Club(data.club.name))
        found = _looked_at(store, data, today)
        if found.wrong:
            raise InvalidInput("The file", found.wrong, "Mend the file and choose it again")
        step = change_within(store, lambda _: found.club, today=today).step
        diary_mark = token_hex(12)
        added = tuple(entry.id for entry in found.diary)
        store.diary.write(found.diary, (), DiaryStep(diary_mark, today, added))
        store.add_events(found.events)
        log_diary(store, found.diary)
        log_events(store, found.events)
        mark = token_hex(12)
        store.erasure.keep_import(mark, step, diary_mark, [event.id for event in found.events])
        return found, mark


def take_import_back(keeper: Keeper, mark: str, *, today: date) -> None:
    """Take back what an import brought, in one step; Conflict where it was changed since."""
    with keeper.writing() as store:
        step, diary_mark, events = store.erasure.take_import(mark)
        store.erasure.drop_events(events)
        written = store.diary.step(diary_mark)
        log_diary_ids(store, written.added)
        store.diary.put(written.added, in_force=False)
        take_back_within(store, step, today=today)


def _looked_at(store: Store, data: DataFile, today: date) -> LookedAt:
    before = store.load_club() or Club(data.club.name)
    brought, gone = without_erased(data.club, store.erasure.erased(), before)
    doubtful = [f"{_name(data.club, each)} was erased for good and is left out." for each in gone]
    if brought.name != before.name:
        doubtful.append(
            f"The file is of the club {brought.name!r}; the club stays {before.name!r}."
        )
    club = joined(before, brought)
    entries = differences(before, club)
    present = everything_within(store, before)
    diary, told = _new_entries(store, data, present, club, today)
    events, noted = _new_events(data, present, club)
    new = [called(entry) for entry in entries if entry.before is None]
    changed = [called(entry) for entry in entries if entry.before is not None]
    new += _counted(len(diary), "entry of the diary", "entries of the diary")
    new += _counted(len(events), "event noted", "events noted")
    return LookedAt(
        club=club,
        new=tuple(new),
        changed=tuple(changed),
        doubtful=(*doubtful, *told, *noted),
        diary=diary,
        events=events,
        same=len(data.diary) + len(data.events) - len(diary) - len(events),
        wrong=_wrong(before, club, today),
    )


def _new_entries(
    store: Store, data: DataFile, present: DataFile, club: Club, today: date
) -> tuple[tuple[DiaryEntry, ...], list[str]]:
    known = {entry.id: entry for entry in present.diary}
    people = {athlete.id for athlete in club.athletes}
    found: list[DiaryEntry] = []
    why: Counter[str] = Counter()
    for entry in data.diary:
        there = known.get(entry.id)
        if there is not None:
            why["says something else than the one stored under its id"] += there != entry
        elif entry.athlete not in people:
            why["is of nobody in the squad"] += 1
        elif entry.day > today:
            why["is of a day that has not come yet"] += 1
        elif _was_taken_out(store, entry.id):
            why["was taken out of the diary here"] += 1
        else:
            found.append(entry)
    return tuple(found), _left_out(why, "entry of the diary")


def _was_taken_out(store: Store, entry_id: str) -> bool:
    try:
        store.diary.entry(entry_id)
    except NotFound:
        return False
    return True


def _new_events(
    data: DataFile, present: DataFile, club: Club
) -> tuple[tuple[RecordEvent, ...], list[str]]:
    known = {event.id: event for event in present.events}
    people = {athlete.id for athlete in club.athletes}
    sessions = {session.id for session in club.sessions}
    found: list[RecordEvent] = []
    why: Counter[str] = Counter()
    for event in data.events:
        there = known.get(event.id)
        if there is not None:
            why["says something else than the one stored under its id"] += there != event
        elif event.athlete and event.athlete not in people:
            why["is of nobody in the squad"] += 1
        elif event.session not in sessions and day_of_record(event.session) is None:
            why["is of no session of the club"] += 1
        else:
            found.append(event)
    return tuple(found), _left_out(why, "event")


def _left_out(why: Counter[str], what: str) -> list[str]:
    return [
        f"{count} times an {what} {reason}: left out." for reason, count in why.items() if count
    ]


def _counted(count: int, one: str, many: str) -> list[str]:
    return [f"{count} {one if count == 1 else many}"] if count else []


def _name(club: Club, athlete_id: str) -> str:
    return club.shown_names().get(athlete_id, athlete_id)


def _wrong(before: Club, club: Club, today: date) -> str:
    """The first mistake the file brings in; one that was there before is let stand."""
    known = {complaint.problem for complaint in mistakes(before, today=today)}
    found = [each for each in mistakes(club, today=today) if each.problem not in known]
    return f"{found[0].place}: {found[0].problem}" if found else ""


def named(words: tuple[str, ...]) -> tuple[str, ...]:
    """The first of many, and how many more there are."""
    more = len(words) - MOST_NAMED
    return words if more <= 1 else (*words[:MOST_NAMED], f"and {more} more")
