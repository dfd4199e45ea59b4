"""Forms of a room itself: its rectangle or corners, ceiling, surface, north."""

import re
from collections.abc import Collection

from squadwright.errors import InvalidInput
from squadwright.model.room import Point, Room
from squadwright.services.rooms import NewRoom, Shape, is_rectangle, rectangle
from squadwright.web.forms import Form, FormRefused, FormView
from squadwright.web.rooms.kinds import FURTHEST_M

SHAPES = (("rectangle", "Rectangle"), ("corners", "List of corners"))
SURFACES = ("rubber", "mat", "wood", "concrete", "grass", "tarmac", "artificial turf")
MOST_CORNERS = 40
_PAIR = re.compile(r"\s*([0-9]{1,3}(?:\.[0-9]{1,4})?)\s*[,; ]\s*([0-9]{1,3}(?:\.[0-9]{1,4})?)\s*")
EXAMPLE = "Write along and across in metres, one corner a line: 11.5, 0"


_LABELS = {
    "name": "Name",
    "outline": "Corners",
    "ceiling_m": "Ceiling",
    "shown": "This form",
    "obstacles": "Obstacle",
    "ceiling_zones": "Low ceiling",
    "throw_walls": "Throw wall",
    "doors": "Door",
    "lanes": "Landing lane",
}


def in_words(error: InvalidInput, fields: Collection[str]) -> InvalidInput:
    """A mistake with its place in words, beside its field where the form has it."""
    if isinstance(error, FormRefused):
        return error
    stem = error.place.partition("[")[0].rpartition(".")[2]
    told = InvalidInput(_LABELS.get(stem, stem), error.problem, error.advice)
    return FormRefused({stem: told}) if stem in fields else told


def read_new_room(form: Form) -> NewRoom:
    """A room in one line."""
    new = NewRoom(
        name=form.text("name", "Name"),
        length_m=form.number("length_m", "Length", low=0.5, high=FURTHEST_M, unit="m"),
        width_m=form.number("width_m", "Width", low=0.5, high=FURTHEST_M, unit="m"),
        ceiling_m=form.number("ceiling_m", "Ceiling", low=0.1, high=FURTHEST_M, unit="m"),
        surface=_surface(form),
    )
    form.done()
    return new


def read_shape(form: Form) -> Shape:
    """What the form of a room says."""
    kind = form.choice("shape", "Outline", [value for value, _ in SHAPES])
    if kind == "corners":
        outline = _corners(form)
    else:
        outline = rectangle(
            form.number("length_m", "Length", low=0.5, high=FURTHEST_M, unit="m"),
            form.number("width_m", "Width", low=0.5, high=FURTHEST_M, unit="m"),
        )
    shape = Shape(
        name=form.text("name", "Name"),
        outline=outline,
        ceiling_m=form.number("ceiling_m", "Ceiling", low=0.1, high=FURTHEST_M, unit="m"),
        surface=_surface(form),
        north_deg=form.number("north_deg", "North", low=0, high=359.9, unit="degrees"),
        note=form.text("note", "Note", is_required=False, longest=1000),
    )
    form.done()
    return shape


def _surface(form: Form) -> str:
    return form.text("surface", "Surface")


def _corners(form: Form) -> tuple[Point, ...]:
    typed = form.text("outline", "Corners", longest=2000)
    found: list[Point] = []
    for number, line in enumerate(filter(str.strip, typed.split("\n")), start=1):
        pair = _PAIR.fullmatch(line)
        if pair is None:
            form.refuse(
                "outline", "Corners", f"line {number}, {line.strip()[:30]!r}, is no corner", EXAMPLE
            )
            return ((0.0, 0.0),) * 3
        found.append((float(pair[1]), float(pair[2])))
    if typed and not 3 <= len(found) <= MOST_CORNERS:
        form.refuse(
            "outline", "Corners", f"{len(found)} corners; a room has 3 to {MOST_CORNERS}", EXAMPLE
        )
    return tuple(found) if len(found) >= 3 else ((0.0, 0.0),) * 3


def shape_view(room: Room) -> FormView:
    """The form of a room as it is kept."""
    values: dict[str, object] = {
        "name": room.name,
        "shape": "rectangle" if is_rectangle(room) else "corners",
        "outline": "\n".join(f"{x:g}, {y:g}" for x, y in room.outline),
        "ceiling_m": room.ceiling_m,
        "surface": room.surface,
        "north_deg": room.north_deg,
        "note": room.note,
    }
    if is_rectangle(room):
        length, width = room.outline[2]
        values |= {"length_m": length, "width_m": width}
    return FormView.of(**values)
