"""Rules about the floor plan: everything inside the room, nothing on top of anything else."""

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise

from squadwright.model.plan import StationPlace
from squadwright.planning.verify.day import Day, Fault

ROUNDING_M = 0.001
Corner = tuple[float, float]


def stations_lie_in_the_room(day: Day) -> Iterator[Fault]:
    """Every station lies inside the walls."""
    room = day.club.room_of(day.session)
    for index, station in enumerate(day.plan.floor.stations):
        if not _lies_inside(station, room.outline):
            yield Fault(
                f"floor.stations[{index}] ({station.id})",
                f"from {station.x_m:g}, {station.y_m:g} m, {station.width_m:g} x "
                f"{station.depth_m:g} m: not inside {room.name}",
            )


def stations_do_not_overlap(day: Day) -> Iterator[Fault]:
    """Two stations of one time share no floor."""
    for first, second in combinations(day.plan.floor.stations, 2):
        if first.block and second.block and first.block != second.block:
            continue
        shared = _shared(_sides(first), _sides(second))
        if shared > 0:
            yield Fault("floor.stations", f"{first.id} and {second.id} share {shared:.2f} m2")


def stations_keep_off_obstacles(day: Day) -> Iterator[Fault]:
    """No station stands on an obstacle of the room."""
    room = day.club.room_of(day.session)
    for station in day.plan.floor.stations:
        for item in room.obstacles:
            half = (item.width_m / 2, item.depth_m / 2)
            sides = (item.x_m - half[0], item.x_m + half[0], item.y_m - half[1], item.y_m + half[1])
            if _shared(_sides(station), sides) > 0:
                yield Fault("floor.stations", f"{station.id} stands on {item.name}")


def every_bar_has_a_station_or_the_audit_says_so(day: Day) -> Iterator[Fault]:
    """Each bar in use stands on the floor plan, else the audit says how many fit."""
    placed = {bar for station in day.plan.floor.stations for bar in station.holds}
    missing = sorted({bar.bar for bar in day.plan.bars} - placed)
    if missing and not any(f.rule == "floor capacity" for f in day.plan.audit):
        yield Fault("floor.stations", f"no station for {', '.join(missing)}; no finding says so")


def _sides(place: StationPlace) -> tuple[float, float, float, float]:
    return place.x_m, place.x_m + place.width_m, place.y_m, place.y_m + place.depth_m


def _shared(a: Sequence[float], b: Sequence[float]) -> float:
    """Shared floor, what rounding may make left out [m2]."""
    wide = min(a[1], b[1]) - max(a[0], b[0]) - ROUNDING_M
    deep = min(a[3], b[3]) - max(a[2], b[2]) - ROUNDING_M
    return wide * deep if wide > 0 and deep > 0 else 0.0


def _lies_inside(place: StationPlace, outline: Sequence[Corner]) -> bool:
    """Whether no wall enters the rectangle, and its middle is in the room.

    A rectangle shrunk by the rounding whose sides no wall crosses is inside or outside as a whole;
    a wall that lies wholly within it has a corner there.
    """
    x1, x2, y1, y2 = _sides(place)
    x1, x2, y1, y2 = x1 + ROUNDING_M, x2 - ROUNDING_M, y1 + ROUNDING_M, y2 - ROUNDING_M
    walls = list(pairwise((*outline, outline[0])))
    if any(x1 < x < x2 and y1 < y < y2 for x, y in outline):
        return False
    edges = pairwise(((x1, y1), (x2, y1), (x2, y2), (x1, y2), (x1, y1)))
    if any(_meet(edge, wall) for edge in edges for wall in walls):
        return False
    return _winding((x1 + x2) / 2, (y1 + y2) / 2, outline) != 0


def _turn(a: Corner, b: Corner, c: Corner) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _meet(first: tuple[Corner, Corner], second: tuple[Corner, Corner]) -> bool:
    (a, b), (c, d) = first, second
    return _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0


def _winding(x: float, y: float, outline: Sequence[Corner]) -> int:
    """How often the outline goes round a point."""
    turns = 0
    for (x1, y1), (x2, y2) in pairwise((*outline, outline[0])):
        side = _turn((x1, y1), (x2, y2), (x, y))
        if y1 <= y < y2 and side > 0:
            turns += 1
        elif y2 <= y < y1 and side < 0:
            turns -= 1
    return turns


RULES = (
    stations_lie_in_the_room,
    stations_do_not_overlap,
    stations_keep_off_obstacles,
    every_bar_has_a_station_or_the_audit_says_so,
)
