"""Pieces of kit that are seldom as typed: the unit mistaken, or the point in the wrong place.

``plausible`` holds the limits that no piece may pass. The usual ranges here are common practice of
the trade, no published limits: what lies outside them is asked about once.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from squadwright.exchange.attention import LARGEST_STAMP_ERROR_FRACTION
from squadwright.exchange.doubtful import (
    Doubt,
    Meaning,
    in_kg,
    in_other_unit,
    with_point_moved,
)
from squadwright.exchange.plausible import (
    BALL_KG,
    BAR_KG,
    BOX_HEIGHT_M,
    COLLAR_PAIR_KG,
    PLATE_KG,
)
from squadwright.model.kit import Ball, Bar, Box, CollarPairs, PlatePair, SinglePlate
from squadwright.model.shelf import Piece
from squadwright.units import Mass, MassUnit

# Kilograms or pounds that plates are usually stamped with.
KILOGRAM_MARKS = frozenset(
    map(Decimal, ("0.25", "0.5", "0.75", "1", "1.25", "1.5", "2", "2.5", "5", "10", "15", "20"))
) | {Decimal(25)}
POUND_MARKS = frozenset(map(Decimal, ("1.25", "2.5", "5", "10", "25", "35", "45", "55", "100")))
USUAL_BOX_M = (0.1, 1.2)
NEAR_STAMP_FRACTION = 0.05


@dataclass(frozen=True)
class _Range:
    """What a kind of mass usually is, and what it cannot be [kg]."""

    many: str
    usual_kg: tuple[float, float]
    limits_kg: tuple[float, float]


BARS = _Range("Bars", (5.0, 25.0), BAR_KG)
PLATES = _Range("Plates", (0.25, 25.0), PLATE_KG)
BALLS = _Range("Balls", (1.0, 15.0), BALL_KG)
COLLARS = _Range("Pairs of collars", (0.0, 5.0), COLLAR_PAIR_KG)


def doubts_of_piece(piece: Piece) -> tuple[Doubt, ...]:
    """Every question about a piece, by the name of its form field."""
    return tuple(_doubts(piece))


def _doubts(piece: Piece) -> Iterator[Doubt]:
    match piece:
        case Bar():
            yield from _unusual("mass", piece.mass, BARS)
        case PlatePair():
            yield from _plates(piece)
        case SinglePlate():
            yield from _stamp("stamped", piece.plate)
        case CollarPairs():
            if piece.pair_mass is not None:
                yield from _unusual("pair_mass", piece.pair_mass, COLLARS)
        case Ball():
            yield from _unusual("mass", piece.mass, BALLS)
        case Box():
            yield from _heights(piece)
        case _:
            return


def _plates(pair: PlatePair) -> Iterator[Doubt]:
    mark = pair.stamped or pair.plate
    asked = list(_stamp("stamped", mark))
    yield from asked
    if pair.stamped is None or asked:
        return
    error = abs(pair.plate.kg / pair.stamped.kg - 1)
    if error > LARGEST_STAMP_ERROR_FRACTION:
        other = in_other_unit(pair.plate)
        near = abs(other.kg / pair.stamped.kg - 1) <= NEAR_STAMP_FRACTION
        yield Doubt(
            "measured",
            f"Measured {pair.plate}, stamped {pair.stamped}: {error:.0%} apart. Is it so?",
            str(pair.plate) if _is_within(pair.plate, PLATE_KG) else "",
            (_meaning("measured", other),) if near else (),
        )


def _stamp(field: str, mark: Mass) -> Iterator[Doubt]:
    """A mark that is usual in the other unit and not in its own, else an unusual mass."""
    other = in_other_unit(mark)
    own, foreign = (
        (KILOGRAM_MARKS, POUND_MARKS)
        if mark.unit is MassUnit.KILOGRAM
        else (POUND_MARKS, KILOGRAM_MARKS)
    )
    if mark.amount not in own and mark.amount in foreign:
        yield Doubt(
            field,
            f"{mark}{in_kg(mark, 2)}? Plates of {other}{in_kg(other, 2)} are usual.",
            str(mark) if _is_within(mark, PLATE_KG) else "",
            (_meaning(field, other),),
        )
    else:
        yield from _unusual(field, mark, PLATES)


def _unusual(field: str, mass: Mass, kind: _Range) -> Iterator[Doubt]:
    low, high = kind.usual_kg
    if low <= mass.kg <= high:
        return
    tries = [in_other_unit(mass), *(with_point_moved(mass, places) for places in (-1, 1))]
    meanings = tuple(_meaning(field, each) for each in tries if _is_within(each, kind.usual_kg))
    yield Doubt(
        field,
        f"{mass}{in_kg(mass, 2)}? {kind.many} of {low:g} to {high:g} kg are usual.",
        str(mass) if _is_within(mass, kind.limits_kg) else "",
        meanings,
    )


def _heights(box: Box) -> Iterator[Doubt]:
    """Heights of a box, each in centimetres; the first that is unusual is asked about."""
    for place, height_m in enumerate(box.heights_m):
        if USUAL_BOX_M[0] <= height_m <= USUAL_BOX_M[1]:
            continue
        tries = (height_m / 10, height_m * 10, height_m / 100, height_m * 100)
        likely = [m for m in tries if USUAL_BOX_M[0] <= m <= USUAL_BOX_M[1]]

        def heights(metres: float, at: int = place) -> str:
            mended = [metres if n == at else h for n, h in enumerate(box.heights_m)]
            return ", ".join(f"{h * 100:.10g}" for h in mended)

        shown = f"{height_m * 100:.10g} cm"
        is_possible = BOX_HEIGHT_M[0] <= height_m <= BOX_HEIGHT_M[1]
        yield Doubt(
            "heights",
            f"A box of {shown}? Boxes of {USUAL_BOX_M[0] * 100:g} to {USUAL_BOX_M[1] * 100:g} cm "
            "are usual.",
            shown if is_possible else "",
            tuple(Meaning(f"{m * 100:.10g} cm", (("heights", heights(m)),)) for m in likely),
        )
        return


def _is_within(mass: Mass, limits_kg: tuple[float, float]) -> bool:
    return limits_kg[0] <= mass.kg <= limits_kg[1]


def _meaning(field: str, mass: Mass) -> Meaning:
    values = ((field, str(mass.amount)), (f"{field}_unit", mass.unit.value))
    return Meaning(f"{mass}{in_kg(mass, 2)}", values)
