"""The load of an athlete day by day: what was told, what was planned, and what is not known.

Planned and told stand side by side and are never mixed. A session told twice, at the door and in
the diary, counts once. A day on which he was expected and told nothing is not known, and a day
without anything is no day of rest until somebody says so.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from squadwright.formulas.session_load import load_of_day, session_load_foster
from squadwright.model.diary import DiaryEntry, RestDay, SessionDone
from squadwright.planning.occasions import Occasion

EffortsOfSession = Mapping[tuple[str, str], float]
"""Effort told at the door of a session of the club, by session and athlete."""


@dataclass(frozen=True)
class ToldSession:
    """A session an athlete told of; ``effort`` None: he was there, and told no effort.

    ``entry`` is the id of the diary's entry, empty where the record of the session says it.
    """

    name: str
    activity: str
    minutes: int
    effort: float | None
    planned_minutes: int | None = None
    planned_effort: int | float | None = None
    slot: str = ""
    session: str = ""
    entry: str = ""

    @property
    def load(self) -> float | None:
        """Effort times minutes, in arbitrary units."""
        return None if self.effort is None else session_load_foster(self.effort, self.minutes)

    @property
    def was_there(self) -> bool:
        """Whether he trained; an effort of 0 is rest."""
        return self.effort != 0


@dataclass(frozen=True)
class LoadDay:
    """One day of one athlete.

    ``planned`` is the sum of what is planned, None where an effort of it is not said. ``load`` is
    None where the day is not known. ``missing`` are the occasions he has not told of.
    """

    day: date
    planned: float | None
    told: tuple[ToldSession, ...] = ()
    missing: tuple[Occasion, ...] = ()
    rest_entry: str = ""

    @property
    def load(self) -> float | None:
        """Load of the day, or None where it is not known."""
        loads = [*(each.load for each in self.told), *(None for _ in self.missing)]
        return load_of_day(loads, is_rest_confirmed=bool(self.rest_entry) and not self.told)

    @property
    def told_load(self) -> float:
        """The sum of what was told, also where more is missing."""
        return sum(each.load or 0.0 for each in self.told)


def days_of(
    athlete: str,
    first: date,
    last: date,
    *,
    entries: Iterable[DiaryEntry],
    efforts: EffortsOfSession,
    expected: Sequence[Occasion],
) -> tuple[LoadDay, ...]:
    """The days of an athlete from a first to a last one.

    ``entries`` may hold those of others and of other days, and ``expected`` occasions of others.
    """
    own: dict[date, list[DiaryEntry]] = {}
    for entry in entries:
        if entry.athlete == athlete:
            own.setdefault(entry.day, []).append(entry)
    his: dict[date, list[Occasion]] = {}
    for occasion in expected:
        if athlete in occasion.athletes:
            his.setdefault(occasion.day, []).append(occasion)
    days = (first + timedelta(days=n) for n in range((last - first).days + 1))
    return tuple(_day(athlete, day, own.get(day, []), efforts, his.get(day, [])) for day in days)


def _day(
    athlete: str,
    day: date,
    entries: list[DiaryEntry],
    efforts: EffortsOfSession,
    expected: list[Occasion],
) -> LoadDay:
    told = [_of_diary(e.id, e.content) for e in entries if isinstance(e.content, SessionDone)]
    known = {(each.slot, each.session) for each in told if each.slot or each.session}
    missing: list[Occasion] = []
    for occasion in expected:
        at_door = efforts.get((occasion.session, athlete)) if occasion.session else None
        if (occasion.slot, occasion.session) in known:
            told = [_with_effort(each, occasion, at_door) for each in told]
        elif at_door is not None:
            told.append(_of_record(occasion, athlete, at_door))
        elif athlete not in occasion.absent:
            missing.append(occasion)
    rests = [e.id for e in entries if isinstance(e.content, RestDay)]
    was_absent = bool(expected) and all(athlete in o.absent for o in expected)
    if was_absent and not told:
        told = [_not_there(occasion) for occasion in expected]
    plans = [occasion.planned_load for occasion in expected]
    sums = [plan for plan in plans if plan is not None]
    return LoadDay(
        day=day,
        planned=sum(sums, 0.0) if len(sums) == len(plans) else None,
        told=tuple(told),
        missing=() if rests and not told else tuple(missing),
        rest_entry=rests[-1] if rests else "",
    )


def _of_diary(entry: str, done: SessionDone) -> ToldSession:
    return ToldSession(
        done.name,
        done.activity,
        done.minutes,
        done.effort,
        done.planned_minutes,
        done.planned_effort,
        done.slot,
        done.session,
        entry,
    )


def _of_record(occasion: Occasion, athlete: str, effort: float) -> ToldSession:
    return ToldSession(
        occasion.name,
        occasion.activity,
        occasion.minutes_of(athlete),
        effort,
        occasion.minutes,
        occasion.effort,
        session=occasion.session,
    )


def _not_there(occasion: Occasion) -> ToldSession:
    return ToldSession(
        occasion.name,
        occasion.activity,
        occasion.minutes,
        0.0,
        occasion.minutes,
        occasion.effort,
        occasion.slot,
        occasion.session,
    )


def _with_effort(each: ToldSession, occasion: Occasion, at_door: float | None) -> ToldSession:
    """What the diary says of an occasion; the effort told at the door where it has none."""
    is_it = (each.slot, each.session) == (occasion.slot, occasion.session)
    if not is_it or each.effort is not None or at_door is None:
        return each
    return replace(each, effort=at_door)
