"""The club as entries by part and key: what differs between two of it, and how to put it back."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from squadwright.errors import Conflict
from squadwright.model.club import Club
from squadwright.model.shape import is_same
from squadwright.model.shelf import Shelf
from squadwright.model.step import Entry, Step

KEYED = (
    "athletes",
    "rooms",
    "week",
    "staff",
    "routines",
    "sessions",
    "closures",
    "terms",
    "travel",
    "slot_changes",
    "fixtures",
    *(f"kit.{shelf.value}" for shelf in Shelf),
)
SINGLE = (
    "name",
    "squads",
    "emergency",
    "note",
    "time_zone",
    "clash_limits",
    "gate_limits",
    "camp_rules",
    "kit.store_walk",
)


def differences(before: Club, after: Club) -> tuple[Entry, ...]:
    """What a write changed."""
    return (*_single(before, after), *_keyed(before, after))


def joined(club: Club, other: Club) -> Club:
    """The club with everything another one has: new entries, and its own version of known ones."""
    for part in KEYED:
        held = {_key(part, each): each for each in _value(club, part)}
        held |= {_key(part, each): each for each in _value(other, part)}
        club = _with_value(club, part, tuple(held.values()))
    for part in SINGLE:
        if part not in ("name", "squads"):
            club = _with_value(club, part, _value(other, part))
    return replace(club, squads=tuple(dict.fromkeys((*club.squads, *other.squads))))


def put_back(club: Club, step: Step) -> Club:
    """The club with every entry of a step as it was before; Conflict if one was changed again."""
    # What goes away goes last, and a session before its athletes: then nothing names it any more.
    staying = [entry for entry in step.entries if not _goes_away(entry)]
    going = [entry for entry in step.entries if _goes_away(entry)]
    for entry in (*staying, *reversed(going)):
        if entry.part in SINGLE:
            _require(_value(club, entry.part) == entry.after, entry)
            club = _with_value(club, entry.part, entry.before)
        else:
            club = _with_entry(club, entry)
    return club


def _goes_away(entry: Entry) -> bool:
    return entry.before is None and entry.part not in SINGLE


def called(entry: Entry) -> str:
    """What an entry is called on a page."""
    thing = entry.after if entry.after is not None else entry.before
    if entry.part in SINGLE:
        return f"the club's {entry.part.rpartition('.')[2].replace('_', ' ')}"
    if hasattr(thing, "name"):
        return str(thing.name)
    mass = getattr(thing, "plate", None) or getattr(thing, "mass", None)
    what = entry.part.rpartition(".")[2].replace("_", " ")
    return f"{mass} {what}" if mass is not None else entry.key


def _single(before: Club, after: Club) -> Iterator[Entry]:
    for part in SINGLE:
        former, now = _value(before, part), _value(after, part)
        if not is_same(former, now):
            yield Entry(part, "", 0, former, now)


def _keyed(before: Club, after: Club) -> Iterator[Entry]:
    for part in KEYED:
        former, now = _value(before, part), _value(after, part)
        if former is now:
            continue
        old = {_key(part, each): (place, each) for place, each in enumerate(former)}
        new = {_key(part, each): (place, each) for place, each in enumerate(now)}
        for key, (place, each) in old.items():
            there = new.get(key)
            if there is None:
                yield Entry(part, key, place, each, None)
            elif not is_same(there[1], each):
                yield Entry(part, key, place, each, there[1])
        for key, (place, each) in new.items():
            if key not in old:
                yield Entry(part, key, place, None, each)


def _with_entry(club: Club, entry: Entry) -> Club:
    held = tuple(_value(club, entry.part))
    keys = [_key(entry.part, each) for each in held]
    present = held[keys.index(entry.key)] if entry.key in keys else None
    _require(present == entry.after, entry)
    if present is None:
        changed = (*held[: entry.position], entry.before, *held[entry.position :])
    else:
        here = keys.index(entry.key)
        put = () if entry.before is None else (entry.before,)
        changed = (*held[:here], *put, *held[here + 1 :])
    return _with_value(club, entry.part, changed)


def _require(is_as_left: bool, entry: Entry) -> None:
    if not is_as_left:
        raise Conflict(
            f"{called(entry)} was changed again since, so this step cannot be taken back. "
            "Take the later change back first, or change it by hand"
        )


def _key(part: str, thing: Any) -> str:
    if part == "routines":
        return f"{thing.id} {thing.version}"
    return str(thing.name if part == "staff" else thing.id)


def _value(club: Club, part: str) -> Any:
    of_kit, _, shelf = part.partition(".")
    return getattr(club.kit, shelf) if shelf else getattr(club, of_kit)


def _with_value(club: Club, part: str, value: Any) -> Club:
    field, _, shelf = part.partition(".")
    if shelf:
        return replace(club, kit=replace(club.kit, **{shelf: value}))
    return replace(club, **{field: value})
