"""Use cases of load: who told what of his sessions, what it comes to, and telling it.

Effort told at the door of a session of the club is in the record of that session; everything else
is in the diary. Both are read, and a session in both counts once.
"""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.calendar import monday_of
from squadwright.model.club import Club
from squadwright.model.diary import DiaryEntry, DiaryKind, RestDay, SessionDone
from squadwright.model.record import EventKind, in_force
from squadwright.planning.daily_load import EffortsOfSession, LoadDay, days_of
from squadwright.planning.load_history import LoadHistory, history_of
from squadwright.planning.occasions import Occasion, occasions
from squadwright.services.diary import Told, read_diary, take_out, write_diary
from squadwright.services.unit_of_work import Keeper, Store

AUTHOR = "Coach"
KINDS = (DiaryKind.SESSION, DiaryKind.REST)
NOT_THERE = "was not there"
WEEK = timedelta(days=7)
HISTORY_WEEKS = 26


@dataclass(frozen=True)
class SquadLoad:
    """Days of everybody from a first to a last day, and what was on."""

    club: Club
    first: date
    last: date
    occasions: tuple[Occasion, ...]
    days: Mapping[str, tuple[LoadDay, ...]]

    def on(self, day: date) -> dict[str, LoadDay]:
        """Everybody's day."""
        place = (day - self.first).days
        return {athlete: days[place] for athlete, days in self.days.items()}


def squad_load(
    keeper: Keeper, first: date, last: date, *, of: Collection[str] | None = None
) -> SquadLoad:
    """What was planned and told from a first to a last day, of everybody or those named."""
    with keeper.reading() as store:
        club = store.load_club()
        if club is None:
            raise NotFound("There is no club yet. Name it first, or run `squadwright import FILE`")
        entries = store.diary.entries(of=of, kinds=KINDS, since=first, until=last)
        efforts = _efforts(store, club, first, last)
    expected = occasions(club, first, last)
    people = [a.id for a in club.athletes if of is None or a.id in of]
    by_athlete = _by_athlete(entries)
    days = {
        person: days_of(
            person,
            first,
            last,
            entries=by_athlete.get(person, ()),
            efforts=efforts,
            expected=expected,
        )
        for person in people
    }
    return SquadLoad(club, first, last, expected, days)


def load_histories(
    keeper: Keeper, *, today: date, of: Collection[str] | None = None, weeks: int = HISTORY_WEEKS
) -> tuple[SquadLoad, dict[str, LoadHistory]]:
    """Whole weeks up to the one of today, and what they come to, athlete by athlete."""
    monday = monday_of(today)
    found = squad_load(keeper, monday - weeks * WEEK, monday + WEEK - timedelta(days=1), of=of)
    return found, {a: history_of(days, today=today) for a, days in found.days.items()}


def occasion_of(club: Club, slot_id: str, day: date) -> Occasion:
    """A slot of the week on a day; raises NotFound where it is not held then."""
    for occasion in occasions(club, day, day):
        if occasion.slot == slot_id:
            return occasion
    raise NotFound(f"the week has no slot {slot_id!r} on {day}, or nobody is expected in it")


def tell_effort(
    keeper: Keeper,
    occasion: Occasion,
    athletes: Collection[str],
    effort: int,
    *,
    minutes: int | None = None,
    today: date,
    now: datetime,
) -> str:
    """Note how hard an occasion was for some who are expected in it; gives the mark of the step.

    ``minutes`` are those planned where none are given. What was noted of it before goes out.
    """
    for athlete in athletes:
        if athlete not in occasion.athletes:
            raise NotFound(f"{athlete!r} is not expected in {occasion.name}")
    done = SessionDone(
        name=occasion.name,
        activity=occasion.activity,
        minutes=occasion.minutes if minutes is None else minutes,
        effort=float(effort),
        starts_at=occasion.starts_at,
        slot=occasion.slot,
        session=occasion.session,
        planned_minutes=occasion.minutes,
        planned_effort=None if occasion.effort is None else float(occasion.effort),
        note=NOT_THERE if effort == 0 else "",
    )
    former = _former(keeper, occasion, athletes)
    return write_diary(
        keeper,
        [Told(athlete, occasion.day, done) for athlete in athletes],
        author=AUTHOR,
        today=today,
        now=now,
        in_place_of=[entry.id for entry in former],
    )


def tell_session(
    keeper: Keeper, athlete: str, day: date, done: SessionDone, *, today: date, now: datetime
) -> str:
    """Note a session somebody did beside those of the week."""
    return write_diary(keeper, [Told(athlete, day, done)], author=AUTHOR, today=today, now=now)


def tell_rest(
    keeper: Keeper, athletes: Collection[str], day: date, *, today: date, now: datetime
) -> str:
    """Note that a day was without training for some; those who told a session of it are refused."""
    if not athletes:
        raise InvalidInput("athletes", "nobody is named", "Everybody has told of that day already")
    held = read_diary(keeper, of=athletes, kinds=KINDS, since=day, until=day)
    if held:
        raise InvalidInput(
            "day",
            f"something is told of {day} already for {len({e.athlete for e in held})} of them",
            "Load the page afresh and look",
        )
    told = [Told(athlete, day, RestDay()) for athlete in athletes]
    return write_diary(keeper, told, author=AUTHOR, today=today, now=now)


def take_out_told(keeper: Keeper, entry_id: str, *, today: date, now: datetime) -> str:
    """Take one entry out of the diary; gives the mark of the step that takes this back."""
    return take_out(keeper, [entry_id], author=AUTHOR, today=today, now=now)


def _former(
    keeper: Keeper, occasion: Occasion, athletes: Collection[str]
) -> tuple[DiaryEntry, ...]:
    """What the diary holds of an occasion, and a day of rest that it was not."""
    held = read_diary(keeper, of=athletes, kinds=KINDS, since=occasion.day, until=occasion.day)
    return tuple(
        entry
        for entry in held
        if isinstance(entry.content, RestDay)
        or (
            isinstance(entry.content, SessionDone)
            and (entry.content.slot, entry.content.session) == (occasion.slot, occasion.session)
        )
    )


def _by_athlete(entries: Iterable[DiaryEntry]) -> dict[str, list[DiaryEntry]]:
    found: dict[str, list[DiaryEntry]] = {}
    for entry in entries:
        found.setdefault(entry.athlete, []).append(entry)
    return found


def _efforts(store: Store, club: Club, first: date, last: date) -> EffortsOfSession:
    """Efforts told at the door of the sessions of the club."""
    recorded = store.recorded_sessions()
    found: dict[tuple[str, str], float] = {}
    for session in club.sessions:
        if session.id not in recorded or not first <= session.held_on <= last:
            continue
        events, _ = store.events_of(session.id, after=0)
        for event in in_force(events):
            if event.kind is EventKind.EFFORT and event.value is not None:
                found[session.id, event.athlete] = event.value
    return found
