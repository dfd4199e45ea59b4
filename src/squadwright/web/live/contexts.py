"""What the live floor and the wall screen show."""

from dataclasses import dataclass

from squadwright.planning.live.noted_swaps import NotedSwap
from squadwright.web.page import template
from squadwright.web.routines.contexts import BlockLine


@dataclass(frozen=True)
class StartPlace:
    """A place of the run sheet at which a session may be started."""

    words: str
    place_s: int


@dataclass(frozen=True)
class Call:
    """Somebody to call; ``number`` is what a telephone dials, empty where there is none."""

    words: str
    number: str


@dataclass(frozen=True)
class EmergencyView:
    """What is needed when somebody is hurt, and the words it is noted with.

    ``cleared`` are the events that took somebody out who is cleared in writing since.
    """

    address: str
    access: str
    defibrillator: str
    contacts: tuple[Call, ...]
    restricted: tuple[tuple[str, str], ...]
    what: tuple[str, ...]
    head_knock: str
    areas: tuple[str, ...]
    done: tuple[str, ...]
    called: tuple[str, ...]
    cleared: tuple[str, ...]


@dataclass(frozen=True)
class FloorPaths:
    """Where the page of a session sends and asks."""

    page: str
    events: str
    sheet: str
    wall: str
    plan: str
    devices: str


@dataclass(frozen=True)
@template("live/floor.html")
class FloorPage:
    """The live floor of a session."""

    title: str
    theme: str
    paths: FloorPaths
    sheet: str
    starts: tuple[StartPlace, ...]
    emergency: EmergencyView
    is_coach: bool
    author: str


@dataclass(frozen=True)
@template("live/wall.html")
class WallPage:
    """The wall screen of a session.

    ``cleared`` are the events that took somebody out who is cleared in writing since.
    """

    title: str
    theme: str
    paths: FloorPaths
    sheet: str
    cleared: tuple[str, ...]


@dataclass(frozen=True)
class HandoverTime:
    """One line of the order: from when, who, what."""

    clock: str
    who: str
    what: str


@dataclass(frozen=True)
class HandoverDose:
    """What one athlete does."""

    name: str
    where: str
    load: str
    rounds: str
    instead: str


@dataclass(frozen=True)
@template("live/handover.html")
class HandoverPage:
    """One session for whoever runs it while the coach is away."""

    title: str
    line: str
    floor: str
    barred: tuple[tuple[str, tuple[str, ...]], ...]
    order: tuple[HandoverTime, ...]
    doses: tuple[HandoverDose, ...]
    swapped: tuple[tuple[str, tuple[NotedSwap, ...]], ...]
    blocks: tuple[BlockLine, ...]
    emergency: tuple[tuple[str, str], ...]
