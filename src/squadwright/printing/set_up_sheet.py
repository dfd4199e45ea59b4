"""The set-up sheet: what to fetch, in store-walk order, and what goes on which bar."""

from dataclasses import dataclass

from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.dose_rows import dose_rows
from squadwright.printing.floor_drawing import FloorDrawing, floor_drawings
from squadwright.printing.loaded_bars import BarInUse, bars_in_use
from squadwright.printing.people import MustNot, must_not
from squadwright.printing.typesetting import Heading, Settled, heading, largest_size_on
from squadwright.printing.wording import with_wave_letters

MOST_PAGES = 2
SIZES_PT = (11.0, 10.0, 9.0, 8.0, 7.5)


@dataclass(frozen=True)
class FetchRow:
    """One thing to carry, and where to."""

    item: str
    count: int
    goes_to: str


@dataclass(frozen=True)
class StorePlace:
    """One stop on the walk through the store."""

    name: str
    rows: tuple[FetchRow, ...]


@dataclass(frozen=True)
class HandOut:
    """The ball and the box of one athlete."""

    groups: tuple[str, ...]
    name: str
    ball: str
    box: str


@dataclass(frozen=True)
class SetUpSheet:
    """Context of ``set_up_sheet.typ``."""

    heading: Heading
    places: tuple[StorePlace, ...]
    bars: tuple[BarInUse, ...]
    hand_outs: tuple[HandOut, ...]
    must_not: tuple[MustNot, ...]
    floors: tuple[FloorDrawing, ...]


def set_up_sheet(plan: Plan, club: Club | None, unit: PrintedUnit) -> SetUpSheet:
    """The context of the set-up sheet of a plan."""
    return SetUpSheet(
        heading=heading(plan),
        places=_places(plan),
        bars=bars_in_use(plan, club, unit),
        hand_outs=_hand_outs(plan, unit),
        must_not=must_not(plan),
        floors=floor_drawings(plan, club),
    )


def set_set_up_sheet(plan: Plan, club: Club | None, unit: PrintedUnit) -> bytes:
    """The set-up sheet as PDF, in the largest text that keeps it to two pages."""
    document = Settled("set_up_sheet.typ", set_up_sheet(plan, club, unit))
    return document.pdf(largest_size_on(document, SIZES_PT, most_pages=MOST_PAGES))


def _hand_outs(plan: Plan, unit: PrintedUnit) -> tuple[HandOut, ...]:
    """Balls and boxes, group by group."""
    rows = [row for row in dose_rows(plan, unit) if row.ball or row.box]
    return tuple(
        HandOut(row.groups, row.name, row.ball, row.box)
        for row in sorted(rows, key=lambda row: row.groups)
    )


def _places(plan: Plan) -> tuple[StorePlace, ...]:
    """Items by place; places in the order in which the walk first comes to them."""
    found: dict[str, list[FetchRow]] = {}
    for item in plan.set_up:
        found.setdefault(item.place, []).append(
            FetchRow(item.item, item.count, with_wave_letters(item.goes_to))
        )
    return tuple(StorePlace(name, tuple(rows)) for name, rows in found.items())
