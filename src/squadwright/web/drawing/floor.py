"""Floor plans for a page: one picture for each block that has a floor of its own."""

import re
from dataclasses import dataclass

from markupsafe import Markup

from squadwright.model.plan import FloorPlan
from squadwright.model.room import Room
from squadwright.planning.floor.drawing import floor_blocks, floor_svg

_NAMES = re.compile(r'(?<=["# ])(floor-title|floor-words|landing|inside)(?=[") ])')


@dataclass(frozen=True)
class FloorPicture:
    """A floor plan to scale; ``block`` is empty where it stands for the whole session."""

    block: str
    svg: Markup


def floor_pictures(room: Room, plan: FloorPlan) -> tuple[FloorPicture, ...]:
    """The pictures of a floor plan, in the order of the blocks; no name stands in two of them."""
    return tuple(
        FloorPicture(block, Markup(_numbered(floor_svg(room, plan, block), number)))
        for number, block in enumerate(floor_blocks(plan), start=1)
    )


def room_picture(room: Room, plan: FloorPlan | None = None, *, number: int = 1) -> Markup:
    """A room with its metres, empty or with what is placed in it; ``number`` is its own."""
    shown = plan or FloorPlan(room.id, room.name)
    return Markup(_numbered(floor_svg(room, shown, grid=True), number))


def _numbered(svg: str, number: int) -> str:
    """The picture with names of its own, so that several may stand on one page."""
    return _NAMES.sub(lambda found: f"{found[1]}-{number}", svg)
