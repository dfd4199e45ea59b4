"""The floor plan drawn to scale as an SVG picture, in black and white, one unit a centimetre.

Kinds are told by letter and line, never by colour. The picture has a title and a description for
those who cannot see it, and no style rules, so that it may stand on a page that allows none.
"""

from collections.abc import Iterator
from xml.sax.saxutils import escape

from squadwright.model.plan import FloorPlan, StationPlace
from squadwright.model.room import Room

MARGIN_CM = 90
FOOT_CM = 110
LETTERS = {"bar": "B", "lane": "L", "throw": "T", "box": "X", "group": "G"}
KIND_WORDS = {
    "bar": "bar station",
    "lane": "lane",
    "throw": "throw place",
    "box": "box",
    "group": "place",
}
ZONE_LINES = {
    "landing": 'fill="url(#landing)" stroke="black" stroke-width="1.5" stroke-dasharray="6 6"',
    "throw line": 'fill="none" stroke="black" stroke-width="1.5" stroke-dasharray="14 6 2 6"',
    "door": 'fill="none" stroke="black" stroke-width="1" stroke-dasharray="3 5"',
}


def floor_svg(room: Room, plan: FloorPlan, block: str = "", *, grid: bool = False) -> str:
    """The picture of one block; of what stands for the whole session where no block is named.

    Where the floor is laid out block by block and none is named, the first block is drawn.
    ``grid`` draws a line at every metre.
    """
    shown = block or floor_blocks(plan)[0]
    stations = [s for s in plan.stations if s.block in ("", shown)]
    zones = [z for z in plan.zones if z.block in ("", shown)]
    left, low, right, high = _bounds(room)
    width, height = right - left + 2 * MARGIN_CM, high - low + 2 * MARGIN_CM + FOOT_CM
    paper = _Paper(left, high)
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:g} {height:g}" '
        f'width="{width / 10:g}mm" height="{height / 10:g}mm" role="img" '
        f'aria-labelledby="floor-title floor-words" font-family="sans-serif" fill="black">',
        f'<title id="floor-title">{escape(_title(plan, shown))}</title>',
        f'<desc id="floor-words">{escape(_words(room, plan, stations))}</desc>',
        _hatch(),
        f'<rect width="{width:g}" height="{height:g}" fill="white"/>',
        *(_grid(room, paper) if grid else ()),
        *_walls(room, paper),
        *_lanes(room, paper),
        *_ceilings(room, paper),
        *(_zone(zone, paper) for zone in zones if zone.kind != "coach"),
        *(part for station in stations for part in _station(station, paper)),
        *(part for zone in zones if zone.kind == "coach" for part in _coach(zone, paper)),
        *_obstacles(room, paper),
        *_foot(room, width, height),
        "</svg>",
    ]
    return "\n".join(parts) + "\n"


def floor_blocks(plan: FloorPlan) -> tuple[str, ...]:
    """The blocks with a floor of their own, in order; one without a name where none has."""
    return tuple(dict.fromkeys(s.block for s in plan.stations if s.block)) or ("",)


class _Paper:
    """From metres in the room to centimetres on the picture, across the room upwards."""

    def __init__(self, left: float, high: float) -> None:
        self._left, self._high = left, high

    def x(self, x_m: float) -> float:
        return round(100 * x_m - self._left + MARGIN_CM, 1)

    def y(self, y_m: float) -> float:
        return round(self._high - 100 * y_m + MARGIN_CM, 1)

    def box(self, x_m: float, y_m: float, width_m: float, depth_m: float) -> str:
        """Position and size of a rectangle."""
        return (
            f'x="{self.x(x_m):g}" y="{self.y(y_m + depth_m):g}" '
            f'width="{100 * width_m:g}" height="{100 * depth_m:g}"'
        )


def _bounds(room: Room) -> tuple[float, float, float, float]:
    xs = [100 * x for x, _ in room.outline]
    ys = [100 * y for _, y in room.outline]
    return min(xs), min(ys), max(xs), max(ys)


def _title(plan: FloorPlan, block: str) -> str:
    return f"Floor plan: {plan.room_name}" + (f", {block}" if block else "")


def _words(room: Room, plan: FloorPlan, stations: list[StationPlace]) -> str:
    left, low, right, high = _bounds(room)
    size = f"{plan.room_name} is {(right - left) / 100:g} by {(high - low) / 100:g} m."
    if not stations:
        return " ".join([size, *_things(room)])
    places = "; ".join(
        f"{s.number}: {KIND_WORDS.get(s.kind, 'station')} {s.id}, "
        f"{s.width_m:g} by {s.depth_m:g} m at {s.x_m:g}, {s.y_m:g} m"
        for s in sorted(stations, key=lambda s: s.number)
    )
    return " ".join([size, f"In walking order: {places}.", *plan.notes])


def _things(room: Room) -> Iterator[str]:
    """What belongs to the room itself, in words."""
    yield f"Ceiling {room.ceiling_m:g} m."
    for door in room.doors:
        yield f"Door {door.name} at {door.x_m:g}, {door.y_m:g} m."
    for item in room.obstacles:
        yield f"Obstacle {item.name} at {item.x_m:g}, {item.y_m:g} m."
    for zone in room.ceiling_zones:
        yield f"{zone.name}: {zone.ceiling_m:g} m high."
    for wall in room.throw_walls:
        yield f"Safe for throws: {wall.name}."
    for lane in room.lanes:
        yield f"Landing lane {lane.name} at {lane.x_m:g}, {lane.y_m:g} m."


def _grid(room: Room, paper: _Paper) -> Iterator[str]:
    """A thin line at every metre inside the room, numbered at the edge every second metre."""
    left, low, right, high = (value / 100 for value in _bounds(room))
    step = 1 if max(right - left, high - low) <= 25 else 5
    corners = " ".join(f"{paper.x(x):g},{paper.y(y):g}" for x, y in room.outline)
    yield f'<clipPath id="inside"><polygon points="{corners}"/></clipPath>'
    lines = [
        *(
            f"M{paper.x(x):g} {paper.y(low):g}V{paper.y(high):g}"
            for x in _metres(left, right, step)
        ),
        *(
            f"M{paper.x(left):g} {paper.y(y):g}H{paper.x(right):g}"
            for y in _metres(low, high, step)
        ),
    ]
    yield (
        f'<path d="{"".join(lines)}" stroke="black" stroke-width="0.8" stroke-opacity="0.35" '
        f'fill="none" clip-path="url(#inside)"/>'
    )
    for x in _metres(left, right, 2 * step):
        yield _text(paper.x(x), paper.y(low) + 44, f"{x:g}", 28)
    for y in _metres(low, high, 2 * step):
        yield _text(paper.x(left) - 36, paper.y(y) + 10, f"{y:g}", 28)


def _metres(start: float, end: float, step: int) -> range:
    first = -(-round(start * 100) // (100 * step)) * step
    return range(first, int(end + 1e-6) + 1, step)


def _lanes(room: Room, paper: _Paper) -> Iterator[str]:
    """Lanes that are marked on the floor, by a dashed edge and a word."""
    for lane in room.lanes:
        box = paper.box(lane.x_m, lane.y_m, lane.width_m, lane.depth_m)
        x, y = lane.x_m + lane.width_m / 2, lane.y_m + lane.depth_m / 2
        yield (
            f'<rect {box} fill="url(#landing)" stroke="black" stroke-width="2" '
            f'stroke-dasharray="6 6"><title>{escape(lane.name)}</title></rect>'
        )
        turn = f' transform="rotate(-90 {paper.x(x):g} {paper.y(y):g})"'
        yield _text(
            paper.x(x), paper.y(y) + 9, lane.name, 28, turn if lane.depth_m > lane.width_m else ""
        )


def _hatch() -> str:
    return (
        '<defs><pattern id="landing" width="14" height="14" patternUnits="userSpaceOnUse">'
        '<path d="M0 14 L14 0" stroke="black" stroke-width="1"/></pattern></defs>'
    )


def _walls(room: Room, paper: _Paper) -> Iterator[str]:
    corners = " ".join(f"{paper.x(x):g},{paper.y(y):g}" for x, y in room.outline)
    yield f'<polygon points="{corners}" fill="none" stroke="black" stroke-width="8"/>'
    for wall in room.throw_walls:
        (x1, y1), (x2, y2) = wall.start, wall.end
        yield (
            f'<line x1="{paper.x(x1):g}" y1="{paper.y(y1):g}" x2="{paper.x(x2):g}" '
            f'y2="{paper.y(y2):g}" stroke="black" stroke-width="22" stroke-dasharray="8 8">'
            f"<title>{escape(wall.name)}: safe for throws</title></line>"
        )
    for door in room.doors:
        yield (
            f'<circle cx="{paper.x(door.x_m):g}" cy="{paper.y(door.y_m):g}" r="16" fill="white" '
            f'stroke="black" stroke-width="4"><title>{escape(door.name)}</title></circle>'
        )


def _ceilings(room: Room, paper: _Paper) -> Iterator[str]:
    for zone in room.ceiling_zones:
        box = paper.box(zone.x_m, zone.y_m, zone.width_m, zone.depth_m)
        x, y = zone.x_m + zone.width_m / 2, zone.y_m + zone.depth_m / 2
        yield (f'<rect {box} fill="none" stroke="black" stroke-width="2" stroke-dasharray="20 8"/>')
        turn = f' transform="rotate(-90 {paper.x(x):g} {paper.y(y):g})"'
        yield _text(
            paper.x(x), paper.y(y) + 9, f"{zone.ceiling_m:g} m high", 26,
            turn if zone.depth_m > zone.width_m else "",
        )  # fmt: skip


def _obstacles(room: Room, paper: _Paper) -> Iterator[str]:
    for item in room.obstacles:
        box = paper.box(
            item.x_m - item.width_m / 2, item.y_m - item.depth_m / 2, item.width_m, item.depth_m
        )
        yield f'<rect {box} fill="black"><title>{escape(item.name)}</title></rect>'


def _zone(zone: StationPlace, paper: _Paper) -> str:
    lines = ZONE_LINES.get(zone.kind, ZONE_LINES["door"])
    box = paper.box(zone.x_m, zone.y_m, zone.width_m, zone.depth_m)
    return f"<rect {box} {lines}><title>{escape(zone.id)}</title></rect>"


def _station(station: StationPlace, paper: _Paper) -> Iterator[str]:
    box = paper.box(station.x_m, station.y_m, station.width_m, station.depth_m)
    x = paper.x(station.x_m + station.width_m / 2)
    y = paper.y(station.y_m + station.depth_m / 2)
    held = f" ({', '.join(station.holds)})" if station.holds else ""
    yield (
        f'<rect {box} fill="none" stroke="black" stroke-width="4">'
        f"<title>{escape(station.id + held)}</title></rect>"
    )
    if station.kind == "bar":
        yield _bar(station, paper)
    letter = LETTERS.get(station.kind, "")
    yield _text(x, y - 12, f"{station.number}{letter}", 56, ' font-weight="bold"')
    size = min(30.0, 1.7 * 100 * station.width_m / max(1, len(station.id)))
    yield _text(x, y + 40, station.id, round(size, 1))


def _bar(station: StationPlace, paper: _Paper) -> str:
    """The bar itself, near one long side of its station."""
    if station.angle_deg == 90:
        x = paper.x(station.x_m + 0.75 * station.width_m)
        y1, y2 = paper.y(station.y_m), paper.y(station.y_m + station.depth_m)
        ends = f'x1="{x:g}" y1="{y1:g}" x2="{x:g}" y2="{y2:g}"'
    else:
        y = paper.y(station.y_m + 0.15 * station.depth_m)
        x1, x2 = paper.x(station.x_m), paper.x(station.x_m + station.width_m)
        ends = f'x1="{x1:g}" y1="{y:g}" x2="{x2:g}" y2="{y:g}"'
    return f'<line {ends} stroke="black" stroke-width="6"/>'


def _coach(zone: StationPlace, paper: _Paper) -> Iterator[str]:
    x = paper.x(zone.x_m + zone.width_m / 2)
    y = paper.y(zone.y_m + zone.depth_m / 2)
    r = 100 * zone.width_m / 2
    yield (
        f'<path d="M{x:g} {y - r:g} L{x + r:g} {y:g} L{x:g} {y + r:g} L{x - r:g} {y:g} Z" '
        f'fill="white" stroke="black" stroke-width="4"><title>The coach</title></path>'
    )
    yield _text(x, y + 10, "C", 30, ' font-weight="bold"')


def _foot(room: Room, width: float, height: float) -> Iterator[str]:
    """A scale bar of five metres in alternating blocks, and north."""
    y = height - 60
    for metre in range(5):
        fill = "black" if metre % 2 == 0 else "white"
        yield (
            f'<rect x="{MARGIN_CM + 100 * metre}" y="{y:g}" width="100" height="14" '
            f'fill="{fill}" stroke="black" stroke-width="2"/>'
        )
    for metre in (0, 1, 5):
        yield _text(MARGIN_CM + 100 * metre, y + 44, f"{metre} m", 28)
    x, middle = width - MARGIN_CM, height - 65
    yield (
        f'<g transform="rotate({room.north_deg:g} {x:g} {middle:g})"><title>North</title>'
        f'<path d="M{x:g} {middle - 45:g} L{x + 18:g} {middle + 30:g} L{x:g} {middle + 14:g} '
        f'L{x - 18:g} {middle + 30:g} Z"/></g>'
    )
    yield _text(x - 42, middle + 12, "N", 34, ' font-weight="bold"')


def _text(x: float, y: float, words: str, size: float, more: str = "") -> str:
    return (
        f'<text x="{x:g}" y="{y:g}" font-size="{size:g}" text-anchor="middle"{more}>'
        f"{escape(words)}</text>"
    )
