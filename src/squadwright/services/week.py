"""Use cases of the week: standing slots, mat work included."""

from dataclasses import dataclass, fields, replace
from datetime import date, time
from secrets import token_hex

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.calendar import BodyRegion, Work
from squadwright.model.club import Club, Weekday, WeekSlot
from squadwright.services.club_changes import Changed, change_club, require_unchanged
from squadwright.services.unit_of_work import Keeper


@dataclass(frozen=True)
class SlotEntry:
    """What the coach says of a slot."""

    name: str
    day: Weekday
    starts_at: time
    ends_at: time
    kind: str
    is_hard: bool = False
    squads: tuple[str, ...] = ()
    work: Work = Work.NOT_STATED
    planned_effort: int | None = None
    regions: tuple[BodyRegion, ...] = ()
    to_failure: bool = False
    room: str | None = None
    staff: tuple[str, ...] = ()


def add_slot(keeper: Keeper, entry: SlotEntry, *, today: date) -> Changed:
    """Put a slot into the week."""

    def change(club: Club) -> Club:
        _require_order(entry)
        return replace(club, week=(*club.week, _slot(f"slot-{token_hex(4)}", entry)))

    return change_club(keeper, change, today=today)


def edit_slot(
    keeper: Keeper, slot_id: str, entry: SlotEntry, shown: str, *, today: date
) -> Changed:
    """Change a slot; ``shown`` is the fingerprint of the entry the form was filled from."""

    def change(club: Club) -> Club:
        former = slot_named(club, slot_id)
        require_unchanged(slot_entry(former), shown, "slot")
        _require_order(entry)
        week = tuple(_slot(slot_id, entry) if s.id == slot_id else s for s in club.week)
        return replace(club, week=week)

    return change_club(keeper, change, today=today)


def remove_slot(keeper: Keeper, slot_id: str, *, today: date) -> Changed:
    """Take a slot out of the week; sessions made from it stay."""

    def change(club: Club) -> Club:
        gone = slot_named(club, slot_id)
        return replace(
            club,
            week=tuple(s for s in club.week if s is not gone),
            slot_changes=tuple(c for c in club.slot_changes if c.slot != slot_id),
        )

    return change_club(keeper, change, today=today)


def slot_named(club: Club, slot_id: str) -> WeekSlot:
    """The slot with an id; raises NotFound."""
    for slot in club.week:
        if slot.id == slot_id:
            return slot
    raise NotFound(f"the week has no slot {slot_id!r}; it may have been taken out")


def slot_entry(slot: WeekSlot) -> SlotEntry:
    """What the coach said of a slot."""
    return SlotEntry(**{field.name: getattr(slot, field.name) for field in fields(SlotEntry)})


def _slot(slot_id: str, entry: SlotEntry) -> WeekSlot:
    return WeekSlot(
        slot_id, **{field.name: getattr(entry, field.name) for field in fields(SlotEntry)}
    )


def _require_order(entry: SlotEntry) -> None:
    if entry.ends_at <= entry.starts_at:
        raise InvalidInput(
            "ends_at",
            f"{entry.ends_at:%H:%M} is not after the start {entry.starts_at:%H:%M}",
            "Give a later end on the same day",
        )
