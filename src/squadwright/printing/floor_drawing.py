"""The floor on paper: drawn to a round scale that fits the sheet, with the scale stated."""

import re
from dataclasses import dataclass

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.club import Club
from squadwright.model.plan import Plan, StationPlace
from squadwright.model.room import Room
from squadwright.planning.floor.drawing import floor_blocks, floor_svg
from squadwright.planning.room_capacity import walking_order

SCALES = (50, 75, 100, 125, 150, 200, 250, 400, 500, 1000, 2000)
WIDEST_MM = 186.0
HIGHEST_MM = 165.0
HIGHEST_OF_SEVERAL_MM = 112.0
READABLE_SCALE = 100
"""Letters of the drawing are large enough down to this scale; below they are drawn larger."""
FONT = "Fira Sans"
_VIEW = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)" width="[\d.]+mm" height="[\d.]+mm"')
_SIZE = re.compile(r'font-size="([\d.]+)"')


@dataclass(frozen=True)
class FloorDrawing:
    """One floor: the picture, its size on paper [mm], its scale, and the walk in words."""

    block: str
    svg: str
    width_mm: float
    height_mm: float
    scale: int
    walk: tuple[str, ...]


def floor_drawings(plan: Plan, club: Club | None) -> tuple[FloorDrawing, ...]:
    """A drawing for each block that has a floor of its own; none where the room is not known."""
    room = _room(plan, club)
    if room is None or not plan.floor.stations:
        return ()
    blocks = floor_blocks(plan.floor)
    highest = HIGHEST_MM if len(blocks) == 1 else HIGHEST_OF_SEVERAL_MM
    return tuple(_drawing(room, plan, block, highest) for block in blocks)


def _room(plan: Plan, club: Club | None) -> Room | None:
    """The room as the plan has it: the part that was free, where it was one."""
    if club is None:
        return None
    try:
        session = club.session(plan.session.id)
        room = club.room_of(session)
        return room if room.id == plan.floor.room else club.room(plan.floor.room)
    except (NotFound, InvalidInput):
        return None


def _drawing(room: Room, plan: Plan, block: str, highest_mm: float) -> FloorDrawing:
    svg = floor_svg(room, plan.floor, block, grid=True)
    found = _VIEW.search(svg)
    assert found is not None, "the drawing says how large it is"
    wide_cm, high_cm = float(found[1]), float(found[2])
    scale = scale_for(wide_cm, high_cm, highest_mm)
    width_mm, height_mm = (round(10 * side / scale, 2) for side in (wide_cm, high_cm))
    larger = max(1.0, scale / READABLE_SCALE)
    svg = _SIZE.sub(lambda size: f'font-size="{float(size[1]) * larger:g}"', svg)
    svg = svg.replace('font-family="sans-serif"', f'font-family="{FONT}"')
    svg = _VIEW.sub(f'viewBox="0 0 {wide_cm:g} {high_cm:g}"', svg)
    stations = [s for s in walking_order(plan.floor) if s.block in ("", block)]
    return FloorDrawing(
        block, svg, width_mm, height_mm, scale, tuple(_station(s) for s in stations)
    )


def scale_for(wide_cm: float, high_cm: float, highest_mm: float = HIGHEST_MM) -> int:
    """The largest round scale at which so many centimetres of floor fit on the sheet."""
    for scale in SCALES:
        if 10 * wide_cm / scale <= WIDEST_MM and 10 * high_cm / scale <= highest_mm:
            return scale
    return SCALES[-1]


def _station(station: StationPlace) -> str:
    held = ", ".join(station.holds)
    return station.id if station.kind == "bar" or not held else f"{station.id} ({held})"
