"""The message to send when a week changes: what is where now, for whom, and what is lighter."""

from collections.abc import Iterable, Iterator
from datetime import date

from squadwright.camp.lighter import lighter
from squadwright.camp.week import DatedWork, slot_on
from squadwright.model.calendar import SlotChange
from squadwright.model.club import Club
from squadwright.model.routine import Routine
from squadwright.words import full_date, weekday_and_day


def message(club: Club, works: Iterable[DatedWork], monday: date) -> str:
    """What differs from the standing week, line by line; empty where nothing does."""
    changes = {change.id: change for change in club.slot_changes}
    lines = [
        line for work in works if work.change for line in _lines(club, work, changes[work.change])
    ]
    if not lines:
        return ""
    head = f"{club.name}: changes to the week of {full_date(monday)}."
    return "\n".join((head, *lines))


def _lines(club: Club, work: DatedWork, change: SlotChange) -> Iterator[str]:
    slot = next(slot for slot in club.week if slot.id == change.slot)
    usual = slot_on(club, slot, change.held_on)
    why = f" ({change.reason})" if change.reason else ""
    whom = f" For: {', '.join(slot.squads)}." if slot.squads else ""
    if change.is_off:
        when = f"{weekday_and_day(usual.day)} at {usual.starts_at:%H:%M}"
        yield f"{work.name} on {when} is off{why}.{whom}"
        return
    place = next((room.name for room in club.rooms if room.id == work.room), "")
    where = f", {place}" if place else ""
    now = f"{weekday_and_day(work.day)}, {_hours(work)}{where}"
    before = f"{weekday_and_day(usual.day)}, {_hours(usual)}"
    is_elsewhere = (work.day, work.starts_at, work.room) != (
        usual.day,
        usual.starts_at,
        usual.room,
    )
    if is_elsewhere or work.ends_at != usual.ends_at:
        yield f"{work.name}: {now}, instead of {before}{why}.{whom}"
        why, whom = "", ""
    if change.planned_effort is not None and change.planned_effort != slot.planned_effort:
        was = "" if slot.planned_effort is None else f" instead of {slot.planned_effort}"
        less = _less(club, work)
        yield (
            f"{work.name} on {weekday_and_day(work.day)} at {work.starts_at:%H:%M} is planned at "
            f"effort {change.planned_effort} of 10{was}{f': {less}' if less else ''}{why}.{whom}"
        )


def _less(club: Club, work: DatedWork) -> str:
    """What is less in the lighter routine of a session."""
    if not work.session:
        return ""
    used = club.session(work.session).routine
    original = original_of(club, used)
    return "" if original is None else lighter(original).words


def original_of(club: Club, routine_id: str) -> Routine | None:
    """The routine that a lighter one was made from."""
    for routine in club.routines:
        made = lighter(routine).routine
        if made is not None and made.id == routine_id:
            return routine
    return None


def _hours(work: DatedWork) -> str:
    return f"{work.starts_at:%H:%M} to {work.ends_at:%H:%M}"
