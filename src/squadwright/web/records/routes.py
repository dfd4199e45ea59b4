"""Records: what was noted."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.services.clubs import present_club
from squadwright.services.record import recorded_sessions
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.records.pages import records_page
from squadwright.web.site import site

HERE = "/records"


def show(request: Request) -> Response:
    """What there is to look back on."""
    keeper = site(request).keeper
    return render(request, records_page(present_club(keeper), recorded_sessions(keeper)))


PART = Part("Records", HERE, routes=(Route(HERE, show),))
