"""The calendar of the club: what is in it, another entry, a change, and taking one out."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NotFound
from squadwright.services.calendar import (
    NEW,
    add_entry,
    edit_entry,
    entry_named,
    remove_entry,
    set_time_zone,
)
from squadwright.services.clubs import load_club
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.sessions.calendar_page import (
    CALENDAR,
    KINDS,
    calendar_page,
    entry_page,
    read_entry,
)
from squadwright.web.site import site


def show(request: Request) -> Response:
    """Everything in the calendar."""
    return render(request, calendar_page(load_club(site(request).keeper)))


def keep_zone(request: Request) -> Response:
    """Store the time zone of the club."""
    here, form = site(request), Form.of(request)
    try:
        name = form.text("time_zone", "Time zone", is_required=False)
        form.done()
        done = set_time_zone(here.keeper, name, today=here.today())
    except InvalidInput as error:
        page = calendar_page(load_club(here.keeper), form.refused(error))
        return render(request, page, status=422)
    said = f"The club is in {name}." if name else "The time zone is taken out."
    return see_other(CALENDAR, changed=said, undo=f"/undo/{done.step}")


def edit(request: Request) -> Response:
    """A new entry, or one in its form."""
    club, part, name = load_club(site(request).keeper), _part(request), _name(request)
    entry = None if name == NEW else entry_named(club, KINDS[part].kind, name)
    return render(request, entry_page(club, part, entry))


def keep(request: Request) -> Response:
    """Store a new or a changed entry."""
    here, form = site(request), Form.of(request)
    club, part, name = load_club(here.keeper), _part(request), _name(request)
    former = None if name == NEW else entry_named(club, KINDS[part].kind, name)
    try:
        entry = read_entry(form, club, part, name)
        if former is None:
            done = add_entry(here.keeper, entry, today=here.today())
        else:
            done = edit_entry(here.keeper, entry, form.raw("shown"), today=here.today())
    except InvalidInput as error:
        page = entry_page(club, part, former, form.refused(error))
        return render(request, page, status=422)
    said = f"{entry.name} is in the calendar."
    return see_other(CALENDAR, changed=said, undo=f"/undo/{done.step}")


def remove(request: Request) -> Response:
    """Take an entry out."""
    here, kind = site(request), KINDS[_part(request)].kind
    entry = entry_named(load_club(here.keeper), kind, _name(request))
    done = remove_entry(here.keeper, kind, entry.id, today=here.today())
    said = f"{entry.name} is taken out of the calendar."
    return see_other(CALENDAR, changed=said, undo=f"/undo/{done.step}")


def _part(request: Request) -> str:
    part = str(request.path_params["part"])
    if part not in KINDS:
        raise NotFound("The calendar has no such part. Go back to the calendar")
    return part


def _name(request: Request) -> str:
    return str(request.path_params["entry"])


ROUTES = (
    Route(CALENDAR, show, methods=["GET"]),
    Route(CALENDAR, keep_zone, methods=["POST"]),
    Route(f"{CALENDAR}/{{part}}/{{entry}}", edit, methods=["GET"]),
    Route(f"{CALENDAR}/{{part}}/{{entry}}", keep, methods=["POST"]),
    Route(f"{CALENDAR}/{{part}}/{{entry}}/remove", remove, methods=["POST"]),
)
