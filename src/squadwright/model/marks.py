"""Marks by which stations and waves are told apart: a letter and a shape, never a colour alone."""

from string import ascii_uppercase
from typing import Literal

Shape = Literal["circle", "square", "triangle", "diamond"]

_SHAPES: tuple[Shape, ...] = ("circle", "square", "triangle", "diamond")
_SIGNS: dict[Shape, str] = {"circle": "●", "square": "■", "triangle": "▲", "diamond": "◆"}


def bar_letter(index: int) -> str:
    """Letter of the bar at a place (from 0) in the plan: A to Z, then AA, AB and so on."""
    letter = ascii_uppercase[index % 26]
    return letter if index < 26 else bar_letter(index // 26 - 1) + letter


def wave_letter(wave: int) -> str:
    """Letter of a wave (from 1): the first is A."""
    return bar_letter(wave - 1)


def wave_shape(wave: int) -> Shape:
    """Shape of a wave (from 1); the fifth starts again, its letter still tells it apart."""
    return _SHAPES[(wave - 1) % len(_SHAPES)]


def wave_sign(wave: int) -> str:
    """The shape of a wave (from 1) as one character."""
    return _SIGNS[wave_shape(wave)]
