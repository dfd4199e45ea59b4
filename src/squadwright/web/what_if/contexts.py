"""What the page of what-if shows."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.what_if.words import Move


@dataclass(frozen=True)
class Movable:
    """One value that may be moved, with the ends and the step of its slider."""

    name: str
    label: str
    unit: str
    hint: str
    low: str
    high: str
    step: str
    is_whole: bool = True


@dataclass(frozen=True)
class Compared:
    """One number of the plan beside the one that is tried."""

    name: str
    plan: str
    tried: str


@dataclass(frozen=True)
class ReserveCell:
    """Reserve after a movement of a round, and what the plan has there."""

    movement: str
    tried: str
    plan: str
    is_short: bool


@dataclass(frozen=True)
class ReserveRow:
    """One round, movement by movement."""

    round: str
    cells: tuple[ReserveCell, ...]


@dataclass(frozen=True)
class UseLink:
    """The way to the coach's override with what was tried."""

    words: str
    path: str


@dataclass(frozen=True)
class Answer:
    """What the model says of what is tried, beside the plan.

    ``sentence`` is the difference, ``moves`` say why; ``warnings`` are what the coach must see.
    """

    chance: Compared
    heaviest: Compared
    sentence: str
    moves: tuple[Move, ...]
    warnings: tuple[str, ...]
    compared: tuple[Compared, ...]
    wanted: tuple[ReserveCell, ...]
    reserve: tuple[ReserveRow, ...]
    uses: tuple[UseLink, ...]
    elsewhere: str


@dataclass(frozen=True)
@template("what_if/_headline.html")
class HeadlinePart:
    """The chance and the difference in words, or what is wrong."""

    answer: Answer | None
    view: FormView


@dataclass(frozen=True)
@template("what_if/_details.html")
class DetailsPart:
    """Everything else of the answer."""

    answer: Answer | None


@dataclass(frozen=True)
@template("what_if/what_if.html")
class WhatIfPage:
    """One dose with the values that may be moved, and what the model says of them."""

    name: str
    line: str
    now: str
    path: str
    as_planned: str
    back: str
    block: str
    whole: tuple[Movable, ...]
    movements: tuple[Movable, ...]
    view: FormView
    answer: Answer | None
