"""Today's session or one that is named, and the check-in at its door."""

from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.model.club import Club
from squadwright.model.session import Session
from squadwright.services.check_in import CheckedIn, mark_pain, mark_presence, take_back
from squadwright.services.clubs import load_club
from squadwright.services.planning import ShownSession, show_session
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.today.day import day_page, no_session_page, session_path, unplanned_page
from squadwright.web.today.door import arrival_page, check_in_page, check_in_path
from squadwright.web.today.forms import read_pain, read_presence


def today(request: Request) -> Response:
    """The plan of a session; nothing is stored."""
    here = site(request)
    named = request.path_params.get("session")
    shown = show_session(here.keeper, named, today=here.today())
    if not isinstance(shown, ShownSession):
        return render(request, no_session_page(shown))
    if shown.plan is None:
        return render(request, unplanned_page(shown))
    return render(request, day_page(shown, shown.plan))


def door(request: Request) -> Response:
    """Everybody who is expected, each with his two taps."""
    return render(request, check_in_page(*_session(request)))


def arrival(request: Request) -> Response:
    """One athlete at the door."""
    return render(request, arrival_page(*_session(request), request.path_params["athlete"]))


def tap(request: Request) -> Response:
    """Here or absent, by a button of the list."""
    club, session = _session(request)
    try:
        done = _presence(request, session, Form.of(request))
    except InvalidInput as error:
        return render(request, check_in_page(club, session, wrong=str(error)), status=422)
    return _changed(session, done)


def set_arrival(request: Request) -> Response:
    """Here, absent or late, by the form of one athlete."""
    club, session = _session(request)
    form = Form.of(request)
    try:
        done = _presence(request, session, form)
    except InvalidInput as error:
        athlete = request.path_params["athlete"]
        page = arrival_page(club, session, athlete, late=form.refused(error))
        return render(request, page, status=422)
    return _changed(session, done)


def set_pain(request: Request) -> Response:
    """What hurts, and how much."""
    club, session = _session(request)
    athlete = request.path_params["athlete"]
    form = Form.of(request)
    try:
        done = mark_pain(site(request).keeper, session.id, athlete, read_pain(form))
    except InvalidInput as error:
        page = arrival_page(club, session, athlete, pain=form.refused(error))
        return render(request, page, status=422)
    return _changed(session, done)


def undo(request: Request) -> Response:
    """Put back what stood before a step."""
    _, session = _session(request)
    done = take_back(site(request).keeper, session.id, request.path_params["step"])
    return _changed(session, done)


def _session(request: Request) -> tuple[Club, Session]:
    club = load_club(site(request).keeper)
    return club, club.session(request.path_params["session"])


def _presence(request: Request, session: Session, form: Form) -> CheckedIn:
    presence, minutes = read_presence(form, session.minutes)
    athlete = request.path_params["athlete"]
    return mark_presence(site(request).keeper, session.id, athlete, presence, minutes)


def _changed(session: Session, done: CheckedIn) -> Response:
    back = f"{session_path(session)}/undo/{quote(done.step)}"
    return see_other(check_in_path(session), changed=done.words, undo=back)


PART = Part(
    "Today",
    "/today",
    routes=(
        Route("/today", today),
        Route("/today/{session}", today),
        Route("/today/{session}/check-in", door),
        Route("/today/{session}/check-in/{athlete}", arrival),
        Route("/today/{session}/check-in/{athlete}/presence", tap, methods=["POST"]),
        Route("/today/{session}/check-in/{athlete}/arrival", set_arrival, methods=["POST"]),
        Route("/today/{session}/check-in/{athlete}/pain", set_pain, methods=["POST"]),
        Route("/today/{session}/undo/{step}", undo, methods=["POST"]),
    ),
)
