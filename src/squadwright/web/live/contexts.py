"""What the live floor and the wall screen show."""

from dataclasses import dataclass

from squadwright.web.page import template


@dataclass(frozen=True)
class StartPlace:
    """A place of the run sheet at which a session may be started."""

    words: str
    place_s: int


@dataclass(frozen=True)
class EmergencyView:
    """What is needed when somebody is hurt."""

    address: str
    access: str
    defibrillator: str
    contacts: tuple[str, ...]
    restricted: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class FloorPaths:
    """Where the page of a session sends and asks."""

    page: str
    events: str
    sheet: str
    wall: str
    plan: str


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
    stop_after: int


@dataclass(frozen=True)
@template("live/wall.html")
class WallPage:
    """The wall screen of a session."""

    title: str
    theme: str
    paths: FloorPaths
    sheet: str
