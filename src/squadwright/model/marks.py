"""Marks by which bars and waves are told apart, never by a colour alone.

A bar has a number; a wave has a letter and a shape, so that nobody mixes them up when called.
"""

from string import ascii_uppercase
from typing import Literal

Shape = Literal["circle", "square", "triangle", "diamond"]

_SHAPES: tuple[Shape, ...] = ("circle", "square", "triangle", "diamond")
_SIGNS: dict[Shape, str] = {"circle": "●", "square": "■", "triangle": "▲", "diamond": "◆"}


def bar_number(index: int) -> str:
    """Number of the bar at a place (from 0) in the plan, as it stands on sheets."""
    return str(index + 1)


def wave_letter(wave: int) -> str:
    """Letter of a wave (from 1): the first is A, after Z comes AA."""
    place, letter = divmod(wave - 1, 26)
    return (wave_letter(place) if place else "") + ascii_uppercase[letter]


def wave_shape(wave: int) -> Shape:
    """Shape of a wave (from 1); the fifth starts again, its letter still tells it apart."""
    return _SHAPES[(wave - 1) % len(_SHAPES)]


def wave_sign(wave: int) -> str:
    """The shape of a wave (from 1) as one character."""
    return _SIGNS[wave_shape(wave)]
