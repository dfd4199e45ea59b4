"""Two moves for a clash that fit: the slot, the room, the people and the staff are free."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from itertools import chain, islice

from squadwright.camp.clashes import Clash, clash_of
from squadwright.camp.week import HEAVY_EFFORT, DatedWork, instant
from squadwright.model.calendar import ClashLimits, monday_of
from squadwright.model.club import Club, Weekday

MOST_MOVES = 2
GRID_MINUTES = 30
NEAR_MINUTES = 60
OTHER_TIME_MINUTES = 240
SATURDAY = 5
# What a hard session is eased to: below what counts as heavy (our estimate).
EASED_EFFORT = HEAVY_EFFORT - 2


@dataclass(frozen=True)
class Move:
    """One session somewhere else in the week, or easier where it is."""

    key: str
    name: str
    held_on: date
    day: date
    starts_at: time
    ends_at: time
    effort: int | None = None
    is_off: bool = False

    @property
    def is_easier(self) -> bool:
        """Whether it stays and becomes easier."""
        return self.effort is not None


class Mover:
    """Finds moves in a week; where a session fits is found once, whatever it clashes with."""

    def __init__(self, club: Club, works: Iterable[DatedWork], *, not_before: date) -> None:
        self._club = club
        self._works = tuple(w for w in works if w.is_held)
        self._not_before = not_before
        self._found: dict[tuple[str, bool], tuple[Move, ...]] = {}

    def moves(self, clash: Clash) -> tuple[Move, ...]:
        """Two moves that end a clash and start no other; the nearest to the week as it is first.

        The strength session is moved rather than the mat session, else the later one. Times are
        near those the week has already. Where fewer than two fit, the session is made easier, or
        left out.
        """
        movable = tuple(w for w in _in_order(clash) if w.day >= self._not_before)
        near = (move for work in movable for move in self._of(work, is_far=False))
        far = (move for work in movable for move in self._of(work, is_far=True))
        eased = [_eased(work) for work in movable]
        easier = [replace(_move(e), effort=e.effort) for e in eased if _ends(clash, e, self._club)]
        off = [replace(_move(work), is_off=True) for work in movable]
        return tuple(islice(chain(near, easier, far, off), MOST_MOVES))

    def _of(self, work: DatedWork, *, is_far: bool) -> tuple[Move, ...]:
        """Moves of a session that fit, one for each day; far ones put an evening into a morning."""
        key = (work.key, is_far)
        if key not in self._found:
            self._found[key] = tuple(islice(self._fitting(work, is_far=is_far), MOST_MOVES))
        return self._found[key]

    def _fitting(self, work: DatedWork, *, is_far: bool) -> Iterator[Move]:
        others = tuple(w for w in self._works if w.key != work.key)
        days: set[date] = set()
        for moved in _places(self._club, work, self._not_before, is_far=is_far):
            if moved.day not in days and _fits(self._club, moved, others):
                days.add(moved.day)
                yield _move(moved)


def _eased(work: DatedWork) -> DatedWork:
    effort = min(work.effort or EASED_EFFORT, EASED_EFFORT)
    return replace(work, effort=effort, is_hard=False, to_failure=False)


def _ends(clash: Clash, eased: DatedWork, club: Club) -> bool:
    """Whether a clash is over, by its own rule, once a session is easier."""
    pair = [eased if w.key == eased.key else w for w in (clash.earlier, clash.later)]
    left = clash_of(pair[0], pair[1], club.clash_limits)
    return left is None or left.rule is not clash.rule


def _in_order(clash: Clash) -> tuple[DatedWork, ...]:
    pair = (clash.later, clash.earlier)
    return tuple(sorted(pair, key=lambda w: not w.work.is_strength))


def _move(work: DatedWork) -> Move:
    return Move(work.key, work.name, work.held_on, work.day, work.starts_at, work.ends_at)


def _places(club: Club, work: DatedWork, not_before: date, *, is_far: bool) -> Iterator[DatedWork]:
    """The session at other times of its week, the nearest first."""
    monday = monday_of(work.day)
    places = []
    for day in (monday + timedelta(days=n) for n in range(7)):
        for start in _starts(club, day) if day >= not_before else ():
            if (day, start) == (work.day, work.starts_at):
                continue
            apart = abs((day - work.day).days)
            minutes = abs(_minute(start) - _minute(work.starts_at))
            if (minutes > OTHER_TIME_MINUTES) == is_far:
                places.append((apart, minutes, day, start))
    for _, _, day, start in sorted(places):
        starts = instant(day, start, club.time_zone)
        ends_at = (datetime.combine(day, start) + timedelta(minutes=work.minutes)).time()
        ends = starts + timedelta(minutes=work.minutes)
        yield replace(work, day=day, starts_at=start, ends_at=ends_at, starts=starts, ends=ends)


def _starts(club: Club, day: date) -> tuple[time, ...]:
    """Within an hour of the times at which the week starts anything on such a day.

    A day without any slot is left free; week-ends and other days have hours of their own.
    """
    slots = [slot for slot in club.week if _is_weekend(slot.day) == (day.weekday() >= SATURDAY)]
    if all(slot.day is not list(Weekday)[day.weekday()] for slot in slots):
        return ()
    found = {
        _minute(slot.starts_at) + step
        for slot in slots
        for step in range(-NEAR_MINUTES, NEAR_MINUTES + 1, GRID_MINUTES)
    }
    return tuple(time(m // 60, m % 60) for m in sorted(found) if 0 <= m < 24 * 60)


def _is_weekend(day: Weekday) -> bool:
    return day in (Weekday.SATURDAY, Weekday.SUNDAY)


def _minute(moment: time) -> int:
    return 60 * moment.hour + moment.minute


def _fits(club: Club, moved: DatedWork, others: tuple[DatedWork, ...]) -> bool:
    if any(c.shuts(moved.room, moved.day) for c in club.closures):
        return False
    least = timedelta(hours=club.clash_limits.qualities_hours)
    if any(_is_second(moved, other, least) for other in others):
        return False
    return _staff_is_there(club, moved) and not _clashes_with(moved, others, club.clash_limits)


def _is_second(moved: DatedWork, other: DatedWork, least: timedelta) -> bool:
    """Whether it comes right before or after work of its own kind for somebody."""
    if moved.work is not other.work:
        return False
    is_near = moved.starts - other.ends < least and other.starts - moved.ends < least
    return is_near and not moved.athletes.isdisjoint(other.athletes)


def _staff_is_there(club: Club, moved: DatedWork) -> bool:
    day = list(Weekday)[moved.day.weekday()].value
    days = {member.name: member.days for member in club.staff}
    return all(not days.get(name) or day in days[name] for name in moved.staff)


def _clashes_with(moved: DatedWork, others: tuple[DatedWork, ...], limits: ClashLimits) -> bool:
    for other in others:
        pair = sorted((moved, other), key=lambda w: (w.starts, w.key))
        if clash_of(pair[0], pair[1], limits) is not None:
            return True
    return False
