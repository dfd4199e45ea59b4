"""The floor: stations, lanes and throw places to scale, and the proof of how many fit."""

from squadwright.planning.floor.capacity import Capacity, capacity
from squadwright.planning.floor.problem import (
    SETTING_SOURCES,
    DoorWay,
    FloorProblem,
    FloorSettings,
    LowCeiling,
    NamedRectangle,
    Piece,
    PieceKind,
    Rectangle,
    SafeWall,
)
from squadwright.planning.floor.solution import DoesNotFit, FloorSolution, Proof, RanOut, Station
from squadwright.planning.floor.solver import place

__all__ = [
    "SETTING_SOURCES",
    "Capacity",
    "DoesNotFit",
    "DoorWay",
    "FloorProblem",
    "FloorSettings",
    "FloorSolution",
    "LowCeiling",
    "NamedRectangle",
    "Piece",
    "PieceKind",
    "Proof",
    "RanOut",
    "Rectangle",
    "SafeWall",
    "Station",
    "capacity",
    "place",
]
