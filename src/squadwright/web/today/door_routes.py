"""The door: who is here, late or absent, what hurts, what is said, who comes late together."""

from collections.abc import Callable

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.model.session import Session
from squadwright.services.check_in import mark_late, mark_pain, mark_presence, write_note
from squadwright.services.session_changes import Replanned, take_back
from squadwright.web.forms import Form
from squadwright.web.page import render
from squadwright.web.security import is_own_path
from squadwright.web.site import site
from squadwright.web.today.answers import changed, named_session
from squadwright.web.today.door import arrival_page, check_in_page, check_in_path, late_page
from squadwright.web.today.forms import read_late, read_note, read_pain, read_presence


def door(request: Request) -> Response:
    """Everybody who is expected, each with his two taps."""
    return render(request, check_in_page(*named_session(request)))


def arrival(request: Request) -> Response:
    """One athlete at the door."""
    return render(request, arrival_page(*named_session(request), request.path_params["athlete"]))


def tap(request: Request) -> Response:
    """Here or absent, by a button of the list."""
    club, session = named_session(request)
    try:
        done = _presence(request, session, Form.of(request))
    except InvalidInput as error:
        return render(request, check_in_page(club, session, wrong=str(error)), status=422)
    return changed(session, done, check_in_path(session))


def set_arrival(request: Request) -> Response:
    """Here, absent or late, by the form of one athlete."""
    return _of_one(request, "late", _presence)


def set_pain(request: Request) -> Response:
    """What hurts, and how much."""

    def store(request: Request, session: Session, form: Form) -> Replanned:
        athlete, here = request.path_params["athlete"], site(request)
        return mark_pain(here.keeper, session.id, athlete, read_pain(form), today=here.today())

    return _of_one(request, "pain", store)


def set_note(request: Request) -> Response:
    """What he says, in words."""

    def store(request: Request, session: Session, form: Form) -> Replanned:
        athlete, here = request.path_params["athlete"], site(request)
        return write_note(here.keeper, session.id, athlete, read_note(form), today=here.today())

    return _of_one(request, "note", store)


def several_late(request: Request) -> Response:
    """Everybody who is expected, to be ticked."""
    return render(request, late_page(*named_session(request)))


def set_several_late(request: Request) -> Response:
    """Several come late together: one action marks them all."""
    club, session = named_session(request)
    form, here = Form.of(request), site(request)
    try:
        athletes, minutes = read_late(form, session)
        done = mark_late(here.keeper, session.id, athletes, minutes, today=here.today())
    except InvalidInput as error:
        return render(request, late_page(club, session, form.refused(error)), status=422)
    return changed(session, done, check_in_path(session))


def undo(request: Request) -> Response:
    """Put back what stood before a step."""
    _, session = named_session(request)
    here = site(request)
    done = take_back(here.keeper, session.id, request.path_params["step"], today=here.today())
    form = Form.of(request)
    back = form.text("back", "Page to go back to", is_required=False, longest=500)
    is_here = is_own_path(back) and back.startswith("/today/")
    return changed(session, done, back if is_here else check_in_path(session))


def _of_one(
    request: Request, part: str, store: Callable[[Request, Session, Form], Replanned]
) -> Response:
    """Store one form of the page of an athlete; refused, it stands there as it was typed."""
    club, session = named_session(request)
    form = Form.of(request)
    try:
        done = store(request, session, form)
    except InvalidInput as error:
        refused = {part: form.refused(error)}
        page = arrival_page(club, session, request.path_params["athlete"], **refused)
        return render(request, page, status=422)
    return changed(session, done, check_in_path(session))


def _presence(request: Request, session: Session, form: Form) -> Replanned:
    presence, minutes = read_presence(form, session.minutes)
    athlete, here = request.path_params["athlete"], site(request)
    return mark_presence(here.keeper, session.id, athlete, presence, minutes, today=here.today())


ROUTES = (
    Route("/today/{session}/check-in", door),
    Route("/today/{session}/check-in/{athlete}", arrival),
    Route("/today/{session}/check-in/{athlete}/presence", tap, methods=["POST"]),
    Route("/today/{session}/check-in/{athlete}/arrival", set_arrival, methods=["POST"]),
    Route("/today/{session}/check-in/{athlete}/pain", set_pain, methods=["POST"]),
    Route("/today/{session}/check-in/{athlete}/note", set_note, methods=["POST"]),
    Route("/today/{session}/late", several_late),
    Route("/today/{session}/late", set_several_late, methods=["POST"]),
    Route("/today/{session}/undo/{step}", undo, methods=["POST"]),
)
