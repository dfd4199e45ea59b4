"""The week: its slots, a new one, a change, and taking one out."""

from starlette.requests import Request
from starlette.responses import Response

from squadwright.errors import InvalidInput
from squadwright.services.clubs import load_club
from squadwright.services.week import add_slot, edit_slot, remove_slot, slot_named
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.sessions.forms import read_slot
from squadwright.web.sessions.pages import new_slot_view, slot_page, week_page
from squadwright.web.site import site

WEEK = "/sessions/week"


def show(request: Request) -> Response:
    """The week, day by day."""
    here = site(request)
    return render(request, week_page(load_club(here.keeper), here.today(), new_slot_view()))


def add(request: Request) -> Response:
    """Store another slot."""
    here = site(request)
    club = load_club(here.keeper)
    form = Form.of(request)
    try:
        entry = read_slot(form, club)
        done = add_slot(here.keeper, entry, today=here.today())
    except InvalidInput as error:
        page = week_page(club, here.today(), form.refused(error))
        return render(request, page, status=422)
    return see_other(WEEK, changed=f"{entry.name} is in the week.", undo=f"/undo/{done.step}")


def edit(request: Request) -> Response:
    """One slot in its form."""
    club = load_club(site(request).keeper)
    return render(request, slot_page(club, slot_named(club, request.path_params["slot"])))


def change(request: Request) -> Response:
    """Store a changed slot."""
    here = site(request)
    club = load_club(here.keeper)
    slot = slot_named(club, request.path_params["slot"])
    form = Form.of(request)
    try:
        entry = read_slot(form, club)
        done = edit_slot(here.keeper, slot.id, entry, form.raw("shown"), today=here.today())
    except InvalidInput as error:
        return render(request, slot_page(club, slot, form.refused(error)), status=422)
    return see_other(WEEK, changed=f"{entry.name} is changed.", undo=f"/undo/{done.step}")


def remove(request: Request) -> Response:
    """Take a slot out of the week."""
    here = site(request)
    slot = slot_named(load_club(here.keeper), request.path_params["slot"])
    done = remove_slot(here.keeper, slot.id, today=here.today())
    said = f"{slot.name} is taken out of the week."
    return see_other(WEEK, changed=said, undo=f"/undo/{done.step}")
