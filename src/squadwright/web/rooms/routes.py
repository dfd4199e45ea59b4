"""The rooms of the club: seen, made, changed by numbers, and everything moved at once."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.club import Club
from squadwright.model.room import Room
from squadwright.services import rooms as use
from squadwright.services.asking import Asked
from squadwright.services.club_changes import Changed, fingerprint
from squadwright.services.clubs import load_club
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.question import Question, answered_form, question_of
from squadwright.web.rooms.forms import in_words, read_new_room, read_shape
from squadwright.web.rooms.kinds import Kind, kind_of, read_thing
from squadwright.web.rooms.pages import (
    ROOMS_PATH,
    move_page,
    new_room_page,
    room_page,
    room_path,
    rooms_page,
    shape_page,
    thing_page,
)
from squadwright.web.rooms.positions import by_point, moved, read_positions
from squadwright.web.site import site


def show_rooms(request: Request) -> Response:
    """All rooms with a small drawing each."""
    return render(request, rooms_page(_club(request)))


def new_room(request: Request) -> Response:
    """The form of a room in one line."""
    return render(request, new_room_page())


def add_room(request: Request) -> Response:
    """Make a room."""
    form, so = answered_form(request)
    here = site(request)
    try:
        changed, room = use.add_room(here.keeper, read_new_room(form), today=here.today(), so=so)
    except InvalidInput as error:
        return render(request, new_room_page(*_refused(form, error)), status=422)
    words = f"{room.name} is a room of the club."
    return see_other(room_path(room), changed=words, undo=f"/undo/{changed.step}")


def show_room(request: Request) -> Response:
    """One room; ``show`` draws stations of a kind."""
    club, room = _room(request)
    return render(request, room_page(club, room, request.query_params.get("show", "")))


def shape(request: Request) -> Response:
    """The form of the room itself."""
    return render(request, shape_page(_room(request)[1]))


def reshape(request: Request) -> Response:
    """Change the room itself."""
    _, room = _room(request)
    form, so = answered_form(request)
    here = site(request)
    try:
        changed = use.reshape(
            here.keeper,
            room.id,
            read_shape(form),
            shown=form.raw("shown"),
            today=here.today(),
            so=so,
        )
    except InvalidInput as error:
        view, question = _refused(form, error)
        page = shape_page(room, view, question, shown=_shown(form, error, room))
        return render(request, page, status=422)
    return _told(room, changed, f"{changed.club.room(room.id).name} is changed.")


def thing(request: Request) -> Response:
    """The form of one thing, or of a new one."""
    _, room = _room(request)
    return render(request, thing_page(room, _kind(request), _index(request)))


def put_thing(request: Request) -> Response:
    """Add a thing, or change one."""
    _, room = _room(request)
    kind, index = _kind(request), _index(request)
    form = Form.of(request)
    here = site(request)
    try:
        made = read_thing(form, kind)
        changed = use.put_thing(
            here.keeper,
            room.id,
            kind.part,
            index,
            made,
            shown=form.raw("shown"),
            today=here.today(),
        )
    except InvalidInput as error:
        held = None if index is None else use.thing_at(room, kind.part, index)
        view = _refused(form, error)[0]
        page = thing_page(room, kind, index, view, shown=_shown(form, error, held))
        return render(request, page, status=422)
    done = "is changed" if index is not None else f"is in {room.name}"
    return _told(room, changed, f"{made.name}: {kind.one} {done}.")


def remove_thing(request: Request) -> Response:
    """Take a thing out of the room."""
    _, room = _room(request)
    kind, index = _kind(request), _index(request)
    if index is None:
        raise NotFound(f"There is no {kind.one} to remove")
    gone = use.thing_at(room, kind.part, index)
    here = site(request)
    try:
        changed = use.take_thing_out(
            here.keeper,
            room.id,
            kind.part,
            index,
            shown=Form.of(request).raw("shown"),
            today=here.today(),
        )
    except InvalidInput as error:
        # The button carries nothing typed: the page of the thing as it is now says why.
        thing_path = request.url.path.removesuffix("/remove")
        return see_other(thing_path, changed=f"Nothing was removed. {error}")
    return _told(room, changed, f"{gone.name} is removed from {room.name}.")


def move(request: Request) -> Response:
    """Everything by its numbers, beside the drawing."""
    return render(request, move_page(_room(request)[1]))


def store_moves(request: Request) -> Response:
    """Store where everything is now."""
    _, room = _room(request)
    form = by_point(Form.of(request), room)
    here = site(request)
    try:
        where = read_positions(form, room)
        changed = use.move_things(
            here.keeper,
            room.id,
            lambda stored: moved(stored, where),
            shown=form.raw("shown"),
            today=here.today(),
        )
    except InvalidInput as error:
        view = _refused(form, error)[0]
        page = move_page(room, view, shown=_shown(form, error, room))
        return render(request, page, status=422)
    return _told(room, changed, f"Things in {room.name} are moved.")


def remove_room(request: Request) -> Response:
    """Take the room out of the club."""
    _, room = _room(request)
    here = site(request)
    changed = use.remove_room(here.keeper, room.id, today=here.today())
    words = f"{room.name} is removed from the club."
    return see_other(ROOMS_PATH, changed=words, undo=f"/undo/{changed.step}")


def _club(request: Request) -> Club:
    return load_club(site(request).keeper)


def _room(request: Request) -> tuple[Club, Room]:
    club = _club(request)
    return club, club.room(request.path_params["room"])


def _kind(request: Request) -> Kind:
    return kind_of(request.path_params["kind"])


def _index(request: Request) -> int | None:
    """The number of a thing in the address; None for a new one."""
    typed = request.path_params["number"]
    if typed == "new":
        return None
    if not (typed.isascii() and typed.isdigit() and len(typed) < 4):
        raise NotFound(f"There is no number {typed[:40]!r} here")
    return int(typed)


def _refused(form: Form, error: InvalidInput) -> tuple[FormView, Question | None]:
    """What was typed, with what is wrong or what is asked."""
    if isinstance(error, Asked):
        view = FormView(form.refused(error).typed)
        return view, question_of(error, view)
    visible = form.refused(error).typed.keys() - {"shown", "_token"}
    return form.refused(in_words(error, visible)), None


def _shown(form: Form, error: InvalidInput, now: object) -> str:
    """The mark the form carries on: of what is stored now, where that was told."""
    return fingerprint(now) if error.place == use.SHOWN else form.raw("shown")


def _told(room: Room, changed: Changed, words: str) -> Response:
    return see_other(room_path(room), changed=words, undo=f"/undo/{changed.step}")


_ROOM = f"{ROOMS_PATH}/{{room}}"
_THING = f"{_ROOM}/{{kind}}/{{number}}"
PART = Part(
    "Rooms",
    ROOMS_PATH,
    routes=(
        Route(ROOMS_PATH, show_rooms),
        Route(f"{ROOMS_PATH}/new", new_room),
        Route(f"{ROOMS_PATH}/new", add_room, methods=["POST"]),
        Route(_ROOM, show_room),
        Route(f"{_ROOM}/shape", shape),
        Route(f"{_ROOM}/shape", reshape, methods=["POST"]),
        Route(f"{_ROOM}/move", move),
        Route(f"{_ROOM}/move", store_moves, methods=["POST"]),
        Route(f"{_ROOM}/remove", remove_room, methods=["POST"]),
        Route(_THING, thing),
        Route(_THING, put_thing, methods=["POST"]),
        Route(f"{_THING}/remove", remove_thing, methods=["POST"]),
    ),
    in_navigation=False,
)
