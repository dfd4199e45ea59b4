"""What the coach may choose when he prints: which sheets, and in which unit."""

from enum import StrEnum


class Sheet(StrEnum):
    """The documents that can be printed."""

    SESSION = "session"
    SET_UP = "set-up"
    CARDS = "cards"
    WALL = "wall"


class PrintedUnit(StrEnum):
    """Units in which loads are printed."""

    KILOGRAM = "kg"
    POUND = "lb"
    BOTH = "both"
