"""Sizes of a room that are seldom right: each becomes a question with its likely meanings.

The limits are common sense about halls and gyms, no published ranges.
"""

from collections.abc import Iterator

from squadwright.exchange.doubtful import Doubt, Meaning
from squadwright.model.room import Room

USUAL_SIDE_M = (2.0, 60.0)
USUAL_CEILING_M = (2.2, 14.0)
SLIPS = (10.0, 100.0)
"""A point left out, or centimetres written for metres."""


def doubtful_size(
    field: str, what: str, size_m: float, usual_m: tuple[float, float]
) -> Doubt | None:
    """A size far from the usual, with what it is after a slip of the point or of the unit."""
    low, high = usual_m
    if low <= size_m <= high:
        return None
    likely = [size_m / slip if size_m > high else size_m * slip for slip in SLIPS]
    meanings = tuple(
        Meaning(f"{value:.4g} m", ((field, f"{value:.4g}"),))
        for value in likely
        if low <= value <= high
    )
    return Doubt(
        field,
        f"{size_m:g} m {what}? Usual is {low:g} to {high:g} m."
        + (f" {meanings[0].words}?" if meanings else ""),
        f"{size_m:g} m",
        meanings,
    )


def doubts_of_size(length_m: float, width_m: float, ceiling_m: float) -> Iterator[Doubt | None]:
    """Length, width and ceiling of a rectangular room, by the names of their fields."""
    yield doubtful_size("length_m", "long", length_m, USUAL_SIDE_M)
    yield doubtful_size("width_m", "wide", width_m, USUAL_SIDE_M)
    yield doubtful_size("ceiling_m", "high", ceiling_m, USUAL_CEILING_M)


def doubts_of_corners(room: Room) -> Iterator[Doubt | None]:
    """The reach of a room given by its corners, and its ceiling."""
    for axis, what in ((0, "long"), (1, "wide")):
        along = [corner[axis] for corner in room.outline]
        doubt = doubtful_size("outline", what, max(along) - min(along), USUAL_SIDE_M)
        yield None if doubt is None else Doubt(doubt.place, doubt.question, doubt.stands_as_typed)
    yield doubtful_size("ceiling_m", "high", room.ceiling_m, USUAL_CEILING_M)
