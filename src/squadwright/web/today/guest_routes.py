"""Guests: taken in at the door, asked about when their month is over."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.services.clubs import load_club
from squadwright.services.guests import add_guest, make_member, remove_guest
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.site import site
from squadwright.web.today.answers import changed, named_session
from squadwright.web.today.door import check_in_page, check_in_path
from squadwright.web.today.forms import read_guest, read_member
from squadwright.web.today.guest_pages import GUESTS_PATH, guests_page


def take_in(request: Request) -> Response:
    """Take a guest into the session."""
    club, session = named_session(request)
    form, here = Form.of(request), site(request)
    try:
        guest = read_guest(form, today=here.today())
        done = add_guest(here.keeper, session.id, guest, today=here.today())
    except InvalidInput as error:
        page = check_in_page(club, session, guest=form.refused(error))
        return render(request, page, status=422)
    return changed(session, done, check_in_path(session))


def list_of_guests(request: Request) -> Response:
    """Every guest, and whose month is over."""
    here = site(request)
    return render(request, guests_page(load_club(here.keeper), today=here.today()))


def becomes_member(request: Request) -> Response:
    """A guest becomes a member."""
    here, athlete = site(request), request.path_params["athlete"]
    form = Form.of(request)
    club = load_club(here.keeper)
    name = club.athlete(athlete).name
    try:
        birth_date, sex = read_member(form)
        done = make_member(here.keeper, athlete, birth_date, sex, today=here.today())
    except InvalidInput as error:
        page = guests_page(club, today=here.today(), form_of=athlete, view=form.refused(error))
        return render(request, page, status=422)
    words = f"{name} is a member of the squad now."
    return see_other(GUESTS_PATH, changed=words, undo=f"/undo/{done.step}")


def is_removed(request: Request) -> Response:
    """A guest is removed."""
    here, athlete = site(request), request.path_params["athlete"]
    name = load_club(here.keeper).athlete(athlete).name
    done = remove_guest(here.keeper, athlete, today=here.today())
    words = f"{name} is removed, with everything kept of the guest."
    return see_other(GUESTS_PATH, changed=words, undo=f"/undo/{done.step}")


ROUTES = (
    Route(GUESTS_PATH, list_of_guests),
    Route(f"{GUESTS_PATH}/{{athlete}}/member", becomes_member, methods=["POST"]),
    Route(f"{GUESTS_PATH}/{{athlete}}/removed", is_removed, methods=["POST"]),
    Route("/today/{session}/guest", take_in, methods=["POST"]),
)
