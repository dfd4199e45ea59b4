"""What a room may hold: the fields of each kind, read from a form and filled from what is kept."""

from collections.abc import Callable
from dataclasses import dataclass

from squadwright.errors import NotFound
from squadwright.model.room import CeilingZone, Door, LandingLane, Obstacle, Room, ThrowWall
from squadwright.planning.floor.problem import sides
from squadwright.services.rooms import Thing
from squadwright.web.forms import Form, FormView

FURTHEST_M = 200.0


@dataclass(frozen=True)
class NumberLine:
    """One number of a thing: its field, what it is called, and a hint."""

    name: str
    label: str
    hint: str = ""
    default: str = ""


ALONG = "Along the room"
ACROSS = "Across the room"
CORNER_HINT = "Of its corner nearest the first corner of the room."
_CORNER = (
    NumberLine("x_m", ALONG, CORNER_HINT),
    NumberLine("y_m", ACROSS, CORNER_HINT),
    NumberLine("width_m", "Size along the room"),
    NumberLine("depth_m", "Size across the room"),
)


@dataclass(frozen=True)
class Kind:
    """One kind of thing: how it stands in addresses, in the model, and in words."""

    path: str
    part: str
    one: str
    heading: str
    about: str
    lines: tuple[NumberLine, ...]
    read: Callable[[Form, str], Thing]
    words: Callable[[Thing], str]


def _m(form: Form, name: str, label: str, *, low: float = 0.0) -> float:
    return form.number(name, label, low=low, high=FURTHEST_M, unit="m")


def _read_obstacle(form: Form, name: str) -> Thing:
    return Obstacle(*_box(form, name))


def _read_zone(form: Form, name: str) -> Thing:
    return CeilingZone(*_box(form, name), _m(form, "ceiling_m", "Clear height", low=0.5))


def _read_lane(form: Form, name: str) -> Thing:
    return LandingLane(*_box(form, name))


def _box(form: Form, name: str) -> tuple[str, float, float, float, float]:
    return (
        name,
        _m(form, "x_m", ALONG),
        _m(form, "y_m", ACROSS),
        _m(form, "width_m", "Size along the room", low=0.01),
        _m(form, "depth_m", "Size across the room", low=0.01),
    )


def _read_wall(form: Form, name: str) -> Thing:
    return ThrowWall(
        name,
        (_m(form, "start_x_m", "Start along"), _m(form, "start_y_m", "Start across")),
        (_m(form, "end_x_m", "End along"), _m(form, "end_y_m", "End across")),
        _m(form, "line_m", "Depth of the throw line", low=0.5),
    )


def _read_door(form: Form, name: str) -> Thing:
    return Door(
        name,
        _m(form, "x_m", ALONG),
        _m(form, "y_m", ACROSS),
        _m(form, "width_m", "Width", low=0.3),
    )


def _obstacle_words(thing: Thing) -> str:
    assert isinstance(thing, Obstacle)
    return f"{thing.width_m:g} x {thing.depth_m:g} m, middle at {thing.x_m:g}, {thing.y_m:g} m"


def _zone_words(thing: Thing) -> str:
    assert isinstance(thing, CeilingZone)
    size = f"{thing.width_m:g} x {thing.depth_m:g} m from {thing.x_m:g}, {thing.y_m:g} m"
    return f"{thing.ceiling_m:g} m high, {size}"


def _lane_words(thing: Thing) -> str:
    assert isinstance(thing, LandingLane)
    return f"{thing.width_m:g} x {thing.depth_m:g} m from {thing.x_m:g}, {thing.y_m:g} m"


def _wall_words(thing: Thing) -> str:
    assert isinstance(thing, ThrowWall)
    (x1, y1), (x2, y2) = thing.start, thing.end
    return f"from {x1:g}, {y1:g} m to {x2:g}, {y2:g} m, throw line {thing.line_m:g} m deep"


def _door_words(thing: Thing) -> str:
    assert isinstance(thing, Door)
    return f"{thing.width_m:g} m wide, middle at {thing.x_m:g}, {thing.y_m:g} m"


KINDS = (
    Kind(
        "obstacles", "obstacles", "obstacle", "Obstacles",
        "A column, a radiator, a rack that stays where it is.",
        (
            NumberLine("x_m", ALONG, "Of its middle."),
            NumberLine("y_m", ACROSS, "Of its middle."),
            NumberLine("width_m", "Size along the room", default="0.4"),
            NumberLine("depth_m", "Size across the room", default="0.4"),
        ),
        _read_obstacle, _obstacle_words,
    ),
    Kind(
        "low-ceilings", "ceiling_zones", "low ceiling", "Low ceilings",
        "Part of the room with a ceiling of its own: a duct, a gallery.",
        (*_CORNER, NumberLine("ceiling_m", "Clear height", "From floor to its lowest point.")),
        _read_zone, _zone_words,
    ),
    Kind(
        "throw-walls", "throw_walls", "throw wall", "Walls safe for throws",
        "A padded or solid stretch of wall. Nobody lands or runs in its throw line.",
        (
            NumberLine("start_x_m", "Start along"),
            NumberLine("start_y_m", "Start across"),
            NumberLine("end_x_m", "End along"),
            NumberLine("end_y_m", "End across"),
            NumberLine("line_m", "Depth of the throw line", "How far away throwers stand.", "4"),
        ),
        _read_wall, _wall_words,
    ),
    Kind(
        "doors", "doors", "door", "Doors",
        "The floor behind a door is kept clear.",
        (
            NumberLine("x_m", ALONG, "Of its middle, on the wall."),
            NumberLine("y_m", ACROSS, "Of its middle, on the wall."),
            NumberLine("width_m", "Width", default="1"),
        ),
        _read_door, _door_words,
    ),
    Kind(
        "lanes", "lanes", "landing lane", "Landing lanes",
        "A lane marked on the floor in which people land or run. No throw is placed across it.",
        _CORNER,
        _read_lane, _lane_words,
    ),
)  # fmt: skip


def kind_of(path: str) -> Kind:
    """A kind by its name in an address."""
    for kind in KINDS:
        if kind.path == path:
            return kind
    raise NotFound(f"A room has no {path!r}")


def read_thing(form: Form, kind: Kind) -> Thing:
    """A thing from its form."""
    name = form.text("name", "Name")
    thing = kind.read(form, name or kind.one)
    form.done()
    return thing


def empty_view(kind: Kind, room: Room) -> FormView:
    """The form of a new thing, with what can be guessed."""
    typed: dict[str, tuple[str, ...]] = {
        line.name: (line.default,) for line in kind.lines if line.default
    }
    if kind.part == "throw_walls":
        wall = max(
            sides(room.outline), key=lambda w: abs(w[1][0] - w[0][0]) + abs(w[1][1] - w[0][1])
        )
        typed |= _ends(wall)
    return FormView(typed)


def view_of(thing: Thing) -> FormView:
    """The form of a thing as it is kept."""
    if isinstance(thing, ThrowWall):
        typed = {"name": (thing.name,), "line_m": (f"{thing.line_m:g}",)}
        return FormView({**typed, **_ends((thing.start, thing.end))})
    names = ("name", "x_m", "y_m", "width_m", "depth_m", "ceiling_m")
    return FormView.of(**{name: getattr(thing, name) for name in names if hasattr(thing, name)})


def _ends(
    ends: tuple[tuple[float, float], tuple[float, float]],
) -> dict[str, tuple[str, ...]]:
    (x1, y1), (x2, y2) = ends
    values = {"start_x_m": x1, "start_y_m": y1, "end_x_m": x2, "end_y_m": y2}
    return {name: (f"{value:.10g}",) for name, value in values.items()}
