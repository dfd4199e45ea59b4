"""What the page of what comes next shows."""

from dataclasses import dataclass

from squadwright.web.page import template
from squadwright.web.today.contexts import Rests


@dataclass(frozen=True)
class NextRow:
    """One athlete: from the last load to the next one, why, and what holds it."""

    name: str
    part: str
    last: str
    now: str
    why: str
    facts: tuple[str, ...]
    held: tuple[str, ...]
    word: str
    own: str
    other: str
    change_path: str


@dataclass(frozen=True)
class NextGroup:
    """Everybody whose load goes the same way; ``kind`` chooses the sign."""

    kind: str
    heading: str
    line: str
    rows: tuple[NextRow, ...]


@dataclass(frozen=True)
@template("next_step/session.html")
class NextPage:
    """What comes next in a session."""

    title: str
    line: str
    summary: str
    trouble: str
    plan_path: str
    groups: tuple[NextGroup, ...]
    nothing: str
    rests: tuple[Rests, ...]
