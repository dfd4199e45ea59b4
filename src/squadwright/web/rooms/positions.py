"""Every corner and thing of a room as two numbers: for the form, and for what drags them."""

from dataclasses import dataclass, replace
from typing import Any

from starlette.datastructures import FormData

from squadwright.model.room import Point, Room
from squadwright.web.forms import Form, FormView
from squadwright.web.rooms.kinds import FURTHEST_M

BOXES = ("obstacles", "ceiling_zones", "lanes")


@dataclass(frozen=True)
class Position:
    """One point that can be moved; ``width_m`` and ``depth_m`` are of the thing that goes with it.

    ``shape``: corner, middle (the box stands round it), box (from its corner), door, start, end.
    """

    key: str
    name: str
    shape: str
    x_m: float
    y_m: float
    width_m: float = 0.0
    depth_m: float = 0.0

    @property
    def along(self) -> str:
        """The field of the number along the room."""
        return f"{self.key}_x"

    @property
    def across(self) -> str:
        """The field of the number across the room."""
        return f"{self.key}_y"


def positions(room: Room) -> tuple[Position, ...]:
    """Corners first, then what is in the room."""
    found = [
        Position(f"corner_{i}", f"Corner {i + 1}", "corner", x, y)
        for i, (x, y) in enumerate(room.outline)
    ]
    for part in BOXES:
        found += [
            Position(
                f"{part}_{i}",
                thing.name,
                "middle" if part == "obstacles" else "box",
                thing.x_m,
                thing.y_m,
                thing.width_m,
                thing.depth_m,
            )
            for i, thing in enumerate(getattr(room, part))
        ]
    found += [
        Position(f"doors_{i}", door.name, "door", door.x_m, door.y_m, door.width_m)
        for i, door in enumerate(room.doors)
    ]
    for i, wall in enumerate(room.throw_walls):
        found.append(Position(f"start_{i}", f"{wall.name}, start", "start", *wall.start))
        found.append(Position(f"end_{i}", f"{wall.name}, end", "end", *wall.end))
    return tuple(found)


def positions_view(room: Room) -> FormView:
    """The form of all positions as they are kept."""
    typed: dict[str, tuple[str, ...]] = {}
    for each in positions(room):
        typed[each.along] = (f"{each.x_m:.10g}",)
        typed[each.across] = (f"{each.y_m:.10g}",)
    return FormView(typed)


def by_point(form: Form, room: Room) -> Form:
    """The form with a field of its own for each number, as ``read_positions`` takes it.

    It is sent as lists of keys and numbers, so that it has the same fields for every room. Numbers
    under a key that the room has not are shown again, and refused, at a point that got none.
    """
    sent: dict[str, list[str]] = {"key": [], "along": [], "across": []}
    others: list[tuple[str, str]] = []
    for name, value in form.items():
        if name in sent:
            sent[name].append(value)
        else:
            others.append((name, value))
    points = {each.key: each for each in positions(room)}
    without = iter([each for key, each in points.items() if key not in sent["key"]])
    strange: list[Position] = []
    for key, along, across in zip(sent["key"], sent["along"], sent["across"], strict=False):
        point = points.get(key) or next(without, None)
        if point is None:
            continue
        others += [(point.along, along), (point.across, across)]
        if key not in points:
            strange.append(point)
    told = Form(FormData([*others]))
    for point in strange:
        problem = f"these numbers came for something that is not in {room.name}"
        told.refuse(point.along, point.name, problem, "Check them, then store again")
    return told


def read_positions(form: Form, room: Room) -> dict[str, Point]:
    """Where each point is now, by its key."""
    found = {
        each.key: (
            form.number(each.along, f"{each.name}, along", low=0, high=FURTHEST_M, unit="m"),
            form.number(each.across, f"{each.name}, across", low=0, high=FURTHEST_M, unit="m"),
        )
        for each in positions(room)
    }
    form.done()
    return found


def moved(room: Room, where: dict[str, Point]) -> Room:
    """The room with everything at its new place."""
    boxes: dict[str, Any] = {
        part: tuple(
            replace(thing, x_m=where[f"{part}_{i}"][0], y_m=where[f"{part}_{i}"][1])
            for i, thing in enumerate(getattr(room, part))
        )
        for part in (*BOXES, "doors")
    }
    return replace(
        room,
        **boxes,
        outline=tuple(where[f"corner_{i}"] for i in range(len(room.outline))),
        throw_walls=tuple(
            replace(wall, start=where[f"start_{i}"], end=where[f"end_{i}"])
            for i, wall in enumerate(room.throw_walls)
        ),
    )
