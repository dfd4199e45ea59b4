"""The shelves of the store: any piece by its id, whatever it is."""

from dataclasses import replace
from enum import StrEnum
from typing import Any

from squadwright.errors import NotFound
from squadwright.model.kit import (
    Ball,
    Bar,
    Box,
    CollarPairs,
    Kit,
    OtherKit,
    PlatePair,
    SinglePlate,
)
from squadwright.units import Mass
from squadwright.words import without_zeros

Piece = Bar | PlatePair | SinglePlate | CollarPairs | Ball | Box | OtherKit


class Shelf(StrEnum):
    """Where a piece lies: the field of the kit."""

    BARS = "bars"
    PLATES = "plates"
    SINGLE_PLATES = "single_plates"
    COLLARS = "collars"
    BALLS = "balls"
    BOXES = "boxes"
    OTHER = "other"


def pieces_on(kit: Kit, shelf: Shelf) -> tuple[Piece, ...]:
    """Everything on a shelf, in its order."""
    held: tuple[Piece, ...] = getattr(kit, shelf.value)
    return held


def walk(kit: Kit) -> tuple[Shelf, ...]:
    """The shelves in store-walk order; single plates lie behind the pairs, what is unnamed last."""
    named: list[Shelf] = []
    for place in kit.store_walk:
        if place in {shelf.value for shelf in Shelf}:
            named.append(Shelf(place))
        if place == Shelf.PLATES.value:
            named.append(Shelf.SINGLE_PLATES)
    return tuple(dict.fromkeys((*named, *Shelf)))


def find_piece(kit: Kit, piece_id: str) -> tuple[Shelf, Piece]:
    """A piece and its shelf; raises NotFound."""
    for shelf in Shelf:
        for piece in pieces_on(kit, shelf):
            if piece.id == piece_id:
                return shelf, piece
    raise NotFound(f"there is no piece {piece_id!r} in the store. Look through the store")


def with_shelf(kit: Kit, shelf: Shelf, pieces: tuple[Piece, ...]) -> Kit:
    """The kit with other pieces on a shelf."""
    changes: dict[str, Any] = {shelf.value: pieces}
    return replace(kit, **changes)


def with_piece(kit: Kit, piece: Piece) -> Kit:
    """The kit with a piece in the place of the one with its id."""
    shelf, _ = find_piece(kit, piece.id)
    return with_shelf(
        kit, shelf, tuple(piece if p.id == piece.id else p for p in pieces_on(kit, shelf))
    )


def number_of(piece: Piece) -> int:
    """How many there are: pairs of plates and collars, else pieces."""
    match piece:
        case PlatePair() | CollarPairs():
            return piece.pairs
        case SinglePlate() | Ball() | OtherKit():
            return piece.count
        case Bar() | Box():
            return 1


def is_in_service(piece: Piece) -> bool:
    """Whether it may be used; a single plate never goes on a bar and is always there."""
    return isinstance(piece, SinglePlate) or piece.in_service


def with_fewer(piece: Piece, gone: int) -> Piece | None:
    """What is left of a piece when so many are not there; None where it is not there at all."""
    left = number_of(piece) - gone
    match piece:
        case PlatePair() | CollarPairs():
            return replace(piece, pairs=max(0, left))
        case OtherKit():
            return replace(piece, count=max(0, left))
        case Ball() | SinglePlate():
            return replace(piece, count=left) if left > 0 else None
        case Bar() | Box():
            return piece if left > 0 else None


def called(piece: Piece) -> str:
    """What a coach calls it: "10 kg pair", "45 lb pair", "20 kg bar 1", "4 kg ball"."""
    match piece:
        case Bar() | OtherKit():
            return piece.name
        case PlatePair():
            return f"{_short(piece.stamped or piece.plate)} pair"
        case SinglePlate():
            return f"single {_short(piece.plate)} plate"
        case CollarPairs():
            return "pair of collars"
        case Ball():
            kind = "bouncing ball" if piece.bounces else "ball that does not bounce"
            return f"{_short(piece.mass)} {kind}"
        case Box():
            heights = ", ".join(f"{height * 100:.10g}" for height in piece.heights_m)
            return f"{'foam box' if piece.is_foam else 'box'} of {heights} cm"


def _short(mass: Mass) -> str:
    """A mass as it stands on the piece, without zeros at its end: "2.5 kg"."""
    return f"{without_zeros(str(mass.amount))} {mass.unit.value}"
