"""The time of a session and an odd number: how many minutes are left, pairs or threes."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.model.session import OddSquad
from squadwright.services.session_settings import set_minutes_left, set_odd_squad
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.site import site
from squadwright.web.today.answers import changed, named_session
from squadwright.web.today.forms import read_minutes_left
from squadwright.web.today.minutes import minutes_page
from squadwright.web.today.paths import session_path


def minutes_left(request: Request) -> Response:
    """How many minutes are left: buttons and a field."""
    _, session = named_session(request)
    return render(request, minutes_page(session))


def leave_minutes(request: Request) -> Response:
    """Time the session for the minutes that are left."""
    _, session = named_session(request)
    form, here = Form.of(request), site(request)
    try:
        minutes = read_minutes_left(form, session)
        done = set_minutes_left(here.keeper, session.id, minutes, today=here.today())
    except InvalidInput as error:
        return render(request, minutes_page(session, form.refused(error)), status=422)
    return changed(session, done)


def divide(request: Request) -> Response:
    """Choose how an odd number is divided."""
    _, session = named_session(request)
    form, here = Form.of(request), site(request)
    choice = form.member("odd_squad", "Groups", OddSquad)
    try:
        form.done()
    except InvalidInput as error:
        return see_other(session_path(session), changed=f"Nothing was stored. {error}")
    return changed(session, set_odd_squad(here.keeper, session.id, choice, today=here.today()))


ROUTES = (
    Route("/today/{session}/minutes-left", minutes_left),
    Route("/today/{session}/minutes-left", leave_minutes, methods=["POST"]),
    Route("/today/{session}/odd-squad", divide, methods=["POST"]),
)
