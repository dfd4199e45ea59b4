"""Stores to start from: what clubs often have, to be taken and corrected number by number.

They are made up from common practice (no source). A store is a count for each row of a list.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from squadwright.errors import NotFound
from squadwright.model.kit import Ball, Bar, Box, CollarPairs, Kit, OtherKit, PlatePair
from squadwright.units import Mass, kilograms, pounds

TECHNIQUE_BAR_HOLDS = kilograms(30)


class RowKind(StrEnum):
    """What a row counts."""

    BAR = "bars"
    TECHNIQUE_BAR = "technique bars"
    PLATES = "pairs of plates"
    COLLARS = "pairs of collars"
    BALL = "balls that bounce"
    SLAM_BALL = "balls that do not bounce"
    BOX = "boxes"
    OTHER = "other"


@dataclass(frozen=True)
class Row:
    """One kind of piece: its name in a form, what it is called, its mass or height."""

    id: str
    kind: RowKind
    words: str
    mass: Mass | None = None
    height_m: float | None = None


@dataclass(frozen=True)
class StartingStore:
    """A store to take and correct."""

    id: str
    name: str
    words: str
    rows: tuple[Row, ...]
    counts: Mapping[str, int]


def kit_of(store: StartingStore, counts: Mapping[str, int]) -> Kit:
    """The kit of a store with the counts as corrected."""
    bars: list[Bar] = []
    plates: list[PlatePair] = []
    collars: list[CollarPairs] = []
    balls: list[Ball] = []
    boxes: list[Box] = []
    other = [OtherKit("whistle", "whistle", 1)]
    for row in store.rows:
        count = counts.get(row.id, 0)
        if not count:
            continue
        match row.kind:
            case RowKind.BAR | RowKind.TECHNIQUE_BAR:
                bars += _bars(row, count)
            case RowKind.PLATES:
                plates.append(_plates(row, count))
            case RowKind.COLLARS:
                collars.append(CollarPairs(row.id, count))
            case RowKind.BALL | RowKind.SLAM_BALL:
                balls.append(_ball(row, count))
            case RowKind.BOX:
                assert row.height_m is not None
                height_m = row.height_m
                boxes += [Box(f"{row.id}-{n}", (height_m,)) for n in range(1, count + 1)]
            case RowKind.OTHER:
                other.append(OtherKit(row.id, row.words, count))
    return Kit(
        bars=tuple(bars),
        plates=tuple(plates),
        collars=tuple(collars),
        balls=tuple(balls),
        boxes=tuple(boxes),
        other=tuple(other),
    )


def starting_store(store_id: str) -> StartingStore:
    """The store with an id; raises NotFound."""
    for store in STARTING_STORES:
        if store.id == store_id:
            return store
    raise NotFound(f"no store to start from is called {store_id!r}")


def _bars(row: Row, count: int) -> list[Bar]:
    assert row.mass is not None
    is_light = row.kind is RowKind.TECHNIQUE_BAR
    return [
        Bar(
            f"{row.id}-{number}",
            f"{row.mass} {'technique bar' if is_light else 'bar'} {number}",
            row.mass,
            maximum_load=TECHNIQUE_BAR_HOLDS if is_light else None,
            is_technique_bar=is_light,
        )
        for number in range(1, count + 1)
    ]


def _plates(row: Row, count: int) -> PlatePair:
    assert row.mass is not None
    return PlatePair(row.id, row.mass, count, stamped=row.mass)


def _ball(row: Row, count: int) -> Ball:
    assert row.mass is not None
    return Ball(row.id, row.mass, count, bounces=row.kind is RowKind.BALL)


def _massed(kind: RowKind, start: str, unit: str, *amounts: str) -> tuple[Row, ...]:
    typed = kilograms if unit == "kg" else pounds
    return tuple(
        Row(f"{start}_{amount.replace('.', '_')}", kind, f"{amount} {unit}", typed(amount))
        for amount in amounts
    )


_LAST_ROWS = (
    *(
        Row(f"box_{height}", RowKind.BOX, f"{height} cm", height_m=height / 100)
        for height in (30, 45, 60)
    ),
    Row("mats", RowKind.OTHER, "mats"),
    Row("hurdles", RowKind.OTHER, "low hurdles", height_m=0.15),
)
_COLLARS = Row("collars", RowKind.COLLARS, "good pairs")
KILOGRAM_ROWS = (
    *_massed(RowKind.BAR, "bar", "kg", "20", "15"),
    *_massed(RowKind.TECHNIQUE_BAR, "technique", "kg", "10"),
    *_massed(RowKind.PLATES, "plates", "kg", "25", "20", "15", "10", "5", "2.5", "1.25", "0.5"),
    _COLLARS,
    *_massed(RowKind.BALL, "ball", "kg", "2", "3", "4", "5", "6", "8"),
    *_massed(RowKind.SLAM_BALL, "slam", "kg", "4", "6", "8"),
    *_LAST_ROWS,
)
POUND_ROWS = (
    *_massed(RowKind.BAR, "bar", "lb", "45", "35"),
    *_massed(RowKind.TECHNIQUE_BAR, "technique", "lb", "22"),
    *_massed(RowKind.PLATES, "plates", "lb", "45", "35", "25", "10", "5", "2.5", "1.25"),
    _COLLARS,
    *_massed(RowKind.BALL, "ball", "lb", "4", "6", "8", "10", "12", "16"),
    *_massed(RowKind.SLAM_BALL, "slam", "lb", "8", "12", "16"),
    *_LAST_ROWS,
)

STARTING_STORES = (
    StartingStore(
        "six-bars",
        "Six bars, few plates",
        "A small weights room: two athletes to a bar.",
        KILOGRAM_ROWS,
        {
            **{"bar_20": 4, "bar_15": 2, "plates_20": 1, "plates_10": 3, "plates_5": 6},
            **{"plates_2_5": 6, "plates_1_25": 4, "collars": 6, "ball_3": 2, "ball_4": 2},
            **{"mats": 6},
        },
    ),
    StartingStore(
        "school-gym",
        "School gym",
        "Light bars, balls, boxes and mats.",
        KILOGRAM_ROWS,
        {
            **{"bar_15": 4, "technique_10": 2, "plates_10": 2, "plates_5": 4, "plates_2_5": 4},
            **{"plates_1_25": 4, "collars": 6, "ball_2": 4, "ball_3": 6, "ball_4": 4},
            **{"slam_4": 2, "box_30": 2, "box_45": 2, "mats": 12, "hurdles": 8},
        },
    ),
    StartingStore(
        "no-bars",
        "No bars: balls and boxes",
        "A mat hall with balls, boxes and mats.",
        KILOGRAM_ROWS,
        {
            **{"ball_2": 2, "ball_3": 4, "ball_4": 4, "ball_6": 2, "slam_4": 2, "slam_6": 2},
            **{"box_30": 2, "box_45": 2, "mats": 12, "hurdles": 8},
        },
    ),
    StartingStore(
        "pounds",
        "Six bars, stamped in pounds",
        "Bars and plates in pounds, kept as stamped.",
        POUND_ROWS,
        {
            **{"bar_45": 4, "bar_35": 2, "plates_45": 2, "plates_25": 3, "plates_10": 6},
            **{"plates_5": 6, "plates_2_5": 6, "plates_1_25": 2, "collars": 6},
            **{"ball_6": 2, "ball_8": 2, "mats": 6},
        },
    ),
    StartingStore(
        "nothing",
        "Nothing at all",
        "A floor or a field, and a whistle.",
        KILOGRAM_ROWS,
        {},
    ),
)
