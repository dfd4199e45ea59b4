"""A step: what one write changed in the club, entry by entry, so that it can be taken back."""

from dataclasses import dataclass
from datetime import date
from typing import Any

from squadwright.model.field import Identifier


@dataclass(frozen=True)
class Entry:
    """One thing of the club before and after: None where it was not there.

    ``part`` is the field of the club ("athletes", "kit.bars", "squads"), ``key`` the id inside it
    (empty where the part is one value), ``position`` its place where it stood last.
    """

    part: str
    key: str
    position: int
    before: Any
    after: Any


@dataclass(frozen=True)
class Step:
    """One write. ``id`` cannot be guessed."""

    id: Identifier
    made_on: date
    entries: tuple[Entry, ...]


@dataclass(frozen=True)
class Touch:
    """That a step changed an entry: number and day of the step, and what the entry belongs to.

    ``slot`` is the slot of the week that a changed date belongs to; empty elsewhere.
    """

    number: int
    made_on: date
    part: str
    key: str
    slot: str = ""
