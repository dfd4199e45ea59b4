"""What is free of a room today, read from an address or a form."""

from collections.abc import Mapping

from squadwright.model.club import Club
from squadwright.model.room import Room
from squadwright.model.session import FloorPart, FloorToday, Session
from squadwright.services.floor_today import FloorChange, halves
from squadwright.web.forms import Form

WHOLE, METRES, ROOM = "whole", "metres", "room:"
SIZES = ("x_m", "y_m", "width_m", "depth_m")
FIELDS = ("free", *SIZES, "routine")
FURTHEST_M = 200.0
NEAR_M = 0.01


def read_change(form: Form, club: Club, session: Session) -> FloorChange:
    """The floor that is free, and the routine that is run on it where it is another one."""
    room = club.room(session.room)
    ways: Mapping[str, FloorToday | None] = {
        WHOLE: None,
        **{half.key: FloorToday(part=half.part) for half in halves(room)},
        **{f"{ROOM}{r.id}": FloorToday(room=r.id) for r in club.rooms if r.id != room.id},
    }
    free = form.choice("free", "What is free", (*ways, METRES))
    floor = _metres(form, room) if free == METRES else ways.get(free)
    form.done()
    return FloorChange(floor, form.raw("routine") or None)


def _metres(form: Form, room: Room) -> FloorToday:
    labels = ("From, along", "From, across", "Length along", "Width across")
    x, y, width, depth = (
        form.number(name, label, low=0.0 if name in SIZES[:2] else 0.5, high=FURTHEST_M, unit="m")
        for name, label in zip(SIZES, labels, strict=True)
    )
    form.done()
    for axis, (start, size, field, label) in enumerate(
        ((x, width, "width_m", labels[2]), (y, depth, "depth_m", labels[3]))
    ):
        end = max(corner[axis] for corner in room.outline)
        if start + size > end + NEAR_M:
            form.refuse(
                field,
                label,
                f"the free part reaches to {start + size:g} m and {room.name} ends at {end:g} m",
                "Give a part of the room in metres from its first corner",
            )
    form.done()
    return FloorToday(part=FloorPart(x, y, width, depth))
