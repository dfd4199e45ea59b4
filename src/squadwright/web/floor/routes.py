"""Less floor today, or another room: seen first, then stored, then told again."""

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.services.clubs import load_club
from squadwright.services.floor_today import preview, set_floor
from squadwright.web.floor.forms import FIELDS, read_change
from squadwright.web.floor.page import change_of, floor_page, floor_path
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.site import site


def floor(request: Request) -> Response:
    """The floor of a session; with something free in the address, what that would change."""
    form = Form(FormData([(n, v) for n, v in request.query_params.multi_items() if n in FIELDS]))
    return _page(request, form)


def store(request: Request) -> Response:
    """Store the floor of a session."""
    keeper, session_id = site(request).keeper, request.path_params["session"]
    club = load_club(keeper)
    session = club.session(session_id)
    form = Form.of(request)
    try:
        change = read_change(form, club, session)
        done = set_floor(keeper, session_id, change, today=site(request).today())
    except InvalidInput as error:
        return _page(request, form, error)
    return see_other(floor_path(session), changed=done.words, undo=f"/undo/{done.step}")


def _page(request: Request, form: Form, error: InvalidInput | None = None) -> Response:
    keeper, session_id = site(request).keeper, request.path_params["session"]
    club = load_club(keeper)
    session = club.session(session_id)
    typed = tuple((name, form.raw(name)) for name in FIELDS)
    look, view = None, FormView()
    if form.raw("free") and error is None:
        try:
            look = preview(keeper, session_id, read_change(form, club, session))
        except InvalidInput as wrong:
            error = wrong
    if error is not None:
        view = form.refused(error)
    now = preview(keeper, session_id, change_of(session)) if session.floor_today else None
    page = floor_page(club, session, now=now, look=look, typed=typed, view=view)
    return render(request, page, status=200 if error is None else 422)


PART = Part(
    "Floor today",
    "/floor",
    routes=(
        Route("/floor/{session}", floor),
        Route("/floor/{session}", store, methods=["POST"]),
    ),
    in_navigation=False,
)
