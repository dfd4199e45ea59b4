"""Today's session, or one that is named."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.services.planning import ShownSession, show_session
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.today.day import day_page, no_session_page, unplanned_page


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


PART = Part(
    "Today",
    "/today",
    routes=(
        Route("/today", today),
        Route("/today/{session}", today),
    ),
)
