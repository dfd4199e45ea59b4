"""What a search for a layout comes to: a layout, a proof that there is none, or neither in time."""

from dataclasses import dataclass
from typing import Literal

from squadwright.planning.floor.problem import FloorProblem, Piece, Point, Rectangle


@dataclass(frozen=True)
class Station:
    """One piece where it stands, with its number in walking order.

    ``angle_deg`` is 0 where its width runs along the room and 90 where it runs across.
    """

    piece: Piece
    place: Rectangle
    angle_deg: int
    number: int
    landing: Rectangle | None = None
    throw_line: Rectangle | None = None
    wall: str = ""


@dataclass(frozen=True)
class FloorSolution:
    """A layout that keeps every rule.

    ``extra_m`` is clear floor beyond what is asked, the same between all neighbours;
    ``extra_bound_m`` is proven: no layout has more (or the program wants no more). ``walk_m`` is
    the way from the door past all stations, the shortest where ``walk_is_shortest``. ``hidden`` are
    stations that the coach cannot see from his spot; ``under_low_ceiling`` stand lower than they
    should.
    """

    problem: FloorProblem
    stations: tuple[Station, ...]
    extra_m: float
    extra_bound_m: float
    walk_m: float
    walk_is_shortest: bool
    coach: Point
    coach_place: str
    hidden: tuple[str, ...] = ()
    under_low_ceiling: tuple[str, ...] = ()

    @property
    def is_proven(self) -> bool:
        """Whether no layout has wider gaps."""
        return self.extra_m >= self.extra_bound_m - 1e-9


@dataclass(frozen=True)
class Proof:
    """Why no more fit. ``rows`` and ``area`` are counting arguments that hold for any positions;
    ``search`` is an exhausted search of the generous reading of the room; ``none``: not proven.
    """

    kind: Literal["rows", "area", "wall", "search", "none"]
    sentence: str


@dataclass(frozen=True)
class DoesNotFit:
    """Not all pieces fit. ``fits`` of them do; ``proof`` says why not one more."""

    wanted: int
    fits: int
    proof: Proof
    advice: str

    @property
    def is_proven(self) -> bool:
        """Whether it is proven that no more fit."""
        return self.proof.kind != "none"


@dataclass(frozen=True)
class RanOut:
    """Neither a layout nor a proof was found within the work allowed. ``fits`` surely do."""

    wanted: int
    fits: int
    at_most: int
    advice: str


FloorResult = FloorSolution | DoesNotFit | RanOut
