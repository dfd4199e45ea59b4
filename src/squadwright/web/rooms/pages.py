"""The pages of the rooms, put together from the club."""

from urllib.parse import quote

from markupsafe import Markup

from squadwright.exchange.room_shape import misplaced
from squadwright.model.club import Club
from squadwright.model.plan import StationPlace
from squadwright.model.room import Room
from squadwright.planning.floor.drawing import MARGIN_CM
from squadwright.planning.room_capacity import (
    HowMany,
    Layout,
    TooLow,
    Usual,
    how_many,
    layout,
    too_low,
    walking_order,
)
from squadwright.printing.wording import as_sentence
from squadwright.services.club_changes import fingerprint
from squadwright.services.rooms import is_rectangle, thing_at
from squadwright.web.drawing.floor import room_picture
from squadwright.web.forms import FormView
from squadwright.web.question import Question
from squadwright.web.rooms.contexts import (
    EditorFrame,
    FitRow,
    LowRow,
    MovePage,
    NewRoomPage,
    RoomCard,
    RoomPage,
    RoomsPage,
    ShapePage,
    ThingPage,
    ThingRow,
    ThingSection,
)
from squadwright.web.rooms.forms import SHAPES, SURFACES, shape_view
from squadwright.web.rooms.kinds import KINDS, Kind, empty_view, view_of
from squadwright.web.rooms.positions import positions, positions_view
from squadwright.web.wording import count_text

ROOMS_PATH = "/store/rooms"


def room_path(room: Room) -> str:
    """Where the page of a room is."""
    return f"{ROOMS_PATH}/{quote(room.id, safe='')}"


def rooms_page(club: Club) -> RoomsPage:
    """All rooms with a small drawing each."""
    return RoomsPage(
        tuple(
            RoomCard(
                name=room.name,
                path=room_path(room),
                line=size_words(room),
                fits=next((f"{h.sentence}." for h in how_many(room)), ""),
                picture=room_picture(room, number=number),
            )
            for number, room in enumerate(club.rooms, start=1)
        )
    )


def new_room_page(view: FormView | None = None, question: Question | None = None) -> NewRoomPage:
    """A room in one line."""
    return NewRoomPage(view or FormView(), question, SURFACES)


def room_page(club: Club, room: Room, wanted: str = "") -> RoomPage:
    """One room; ``wanted`` is the kind of station to draw."""
    fits = how_many(room)
    kind = next((h.kind for h in fits if h.kind.value == wanted and h.count), None)
    laid = layout(room, kind) if kind is not None else None
    path = room_path(room)
    return RoomPage(
        title=room.name,
        line=size_words(room),
        path=path,
        picture=room_picture(room, laid.plan if laid else None),
        caption=_caption(room, laid),
        wrong=tuple((as_sentence(c.problem), as_sentence(c.advice)) for c in misplaced(room)),
        fits=tuple(_fit_row(h, path, kind) for h in fits),
        walk=tuple(walk_words(s) for s in walking_order(laid.plan)) if laid else (),
        walk_line=_walk_line(laid) if laid else "",
        low=tuple(_low_row(each) for each in too_low(room)),
        sections=tuple(_section(room, each) for each in KINDS),
        note=room.note,
        used_by=tuple(s.name for s in club.sessions if s.room == room.id),
    )


def shape_page(
    room: Room,
    view: FormView | None = None,
    question: Question | None = None,
    *,
    shown: str = "",
) -> ShapePage:
    """The form of a room itself."""
    return ShapePage(
        title=f"Size of {room.name}",
        path=room_path(room),
        view=view or shape_view(room),
        question=question,
        shown=shown or fingerprint(room),
        shapes=SHAPES,
        surfaces=SURFACES,
    )


def thing_page(
    room: Room,
    kind: Kind,
    index: int | None,
    view: FormView | None = None,
    *,
    shown: str = "",
) -> ThingPage:
    """The form of a new thing, or of one that is there."""
    path = f"{room_path(room)}/{kind.path}"
    thing = None if index is None else thing_at(room, kind.part, index)
    return ThingPage(
        title=f"{'New' if thing is None else 'Change'} {kind.one}: {room.name}",
        about=kind.about,
        action=f"{path}/new" if index is None else f"{path}/{index}",
        back=room_path(room),
        view=view or (empty_view(kind, room) if thing is None else view_of(thing)),
        lines=kind.lines,
        shown=shown or fingerprint(thing),
        remove="" if index is None else f"{path}/{index}/remove",
        one=kind.one,
        picture=room_picture(room),
    )


def move_page(room: Room, view: FormView | None = None, *, shown: str = "") -> MovePage:
    """Every corner and thing by its numbers."""
    every = positions(room)
    left, high = (100 * min(x for x, _ in room.outline), 100 * max(y for _, y in room.outline))
    return MovePage(
        title=f"Move things: {room.name}",
        path=room_path(room),
        view=view or positions_view(room),
        shown=shown or fingerprint(room),
        picture=Markup(str(room_picture(room)).replace('role="img"', 'role="group"', 1)),
        frame_of=EditorFrame(MARGIN_CM - left, MARGIN_CM + high),
        corners=tuple(each for each in every if each.shape == "corner"),
        things=tuple(each for each in every if each.shape != "corner"),
    )


def size_words(room: Room) -> str:
    """How large a room is: "11.5 x 8 m, 92 m2, ceiling 3.4 m, rubber"."""
    if is_rectangle(room):
        length, width = room.outline[2]
        size = f"{length:g} x {width:g} m"
    else:
        size = f"{len(room.outline)} corners"
    area = f"{room.area_m2:.0f} m\N{SUPERSCRIPT TWO}"
    return f"{size}, {area}, ceiling {room.ceiling_m:g} m, {room.surface}."


def walk_words(station: StationPlace) -> str:
    """A station of the walk: "bar 1 at 0.9, 0.9 m"."""
    held = f" ({', '.join(station.holds)})" if station.holds else ""
    return f"{station.id}{held}, from {station.x_m:g}, {station.y_m:g} m"


def _caption(room: Room, laid: Layout | None) -> str:
    metres = "Numbers at the edge are metres from the first corner."
    if laid is None:
        return f"{room.name}. {metres}"
    return f"{room.name} with {count_text(len(laid.plan.stations), 'station')}. {metres}"


def _walk_line(laid: Layout) -> str:
    shortest = "the shortest way there is" if laid.is_shortest else "a short way"
    return f"From the door past all of them it is {laid.walk_m:.0f} m, {shortest}. {laid.coach}"


def _fit_row(fit: HowMany, path: str, shown: Usual | None) -> FitRow:
    return FitRow(
        sentence=f"{fit.sentence}.",
        why=fit.why,
        size=fit.size,
        path=f"{path}?show={fit.kind.value}" if fit.count else "",
        is_shown=fit.kind is shown,
    )


def _low_row(low: TooLow) -> LowRow:
    name, need_m = low.exercises[0]
    where = f"Under {low.where} there are" if low.where else "The ceiling is"
    more = f" and {len(low.exercises) - 1} more" if len(low.exercises) > 1 else ""
    return LowRow(
        words=f"{where} {low.ceiling_m:g} m: too low for {name} ({need_m:g} m){more}.",
        advice="Keep overhead throws away from here, or swap them.",
        more=tuple(f"{each}: {height_m:g} m" for each, height_m in low.exercises),
    )


def _section(room: Room, kind: Kind) -> ThingSection:
    path = f"{room_path(room)}/{kind.path}"
    return ThingSection(
        heading=kind.heading,
        about=kind.about,
        one=kind.one,
        rows=tuple(
            ThingRow(thing.name, kind.words(thing), f"{path}/{index}", fingerprint(thing))
            for index, thing in enumerate(getattr(room, kind.part))
        ),
        new=f"{path}/new",
    )
