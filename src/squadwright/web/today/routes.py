"""Today's session or one that is named, and everything that may be changed about it."""

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from squadwright.services.notice import notice_today
from squadwright.services.planning import NothingAhead, ShownSession, nothing_ahead, show_session
from squadwright.services.running import pinned
from squadwright.web.notice.pages import notice_block
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.site import Site, site
from squadwright.web.today import change_routes, door_routes, guest_routes, hour_routes
from squadwright.web.today.day import (
    day_page,
    no_session_page,
    nothing_ahead_page,
    unplanned_page,
)
from squadwright.web.today.odd_number import odd_number
from squadwright.web.today.run_note import run_note


def today(request: Request) -> Response:
    """The plan of a session; nothing is stored. On the first day the first steps come first."""
    here = site(request)
    named = request.path_params.get("session")
    over = None if named is not None else _all_over(here)
    if over is not None:
        notice = notice_block(notice_today(here.keeper, today=here.today()))
        return render(request, nothing_ahead_page(over, notice, today=here.today()))
    shown = show_session(here.keeper, named, today=here.today())
    if shown is None:
        return RedirectResponse("/start", status_code=303)
    if not isinstance(shown, ShownSession):
        return render(request, no_session_page(shown))
    state = pinned(here.keeper, shown.session.id)
    run = run_note(shown.session, state, today=here.today())
    if shown.plan is None:
        return render(request, unplanned_page(shown, run, today=here.today()))
    odd = odd_number(here.keeper, shown, shown.plan)
    notice = notice_block(notice_today(here.keeper, today=here.today()))
    return render(request, day_page(shown, shown.plan, odd, run, notice, today=here.today()))


def _all_over(here: Site) -> NothingAhead | None:
    """The club whose sessions are all over; None while the last of them is still running."""
    over = nothing_ahead(here.keeper, today=here.today())
    if over is None:
        return None
    state = pinned(here.keeper, over.last.id)
    return over if state is None or state.is_ended else None


PART = Part(
    "Today",
    "/today",
    routes=(
        Route("/today", today),
        *guest_routes.ROUTES,
        Route("/today/{session}", today),
        *door_routes.ROUTES,
        *hour_routes.ROUTES,
        *change_routes.ROUTES,
    ),
)
