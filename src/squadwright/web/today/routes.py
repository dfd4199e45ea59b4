"""Today's session or one that is named, and everything that may be changed about it."""

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from squadwright.services.notice import notice_today
from squadwright.services.planning import ShownSession, show_session
from squadwright.services.running import pinned
from squadwright.web.notice.pages import notice_block
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.today import change_routes, door_routes, guest_routes, hour_routes
from squadwright.web.today.day import day_page, no_session_page, unplanned_page
from squadwright.web.today.odd_number import odd_number
from squadwright.web.today.run_note import run_note


def today(request: Request) -> Response:
    """The plan of a session; nothing is stored. On the first day the first steps come first."""
    here = site(request)
    named = request.path_params.get("session")
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
