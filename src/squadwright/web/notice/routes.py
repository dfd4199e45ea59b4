"""Whom to look at today; nothing is written."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.services.notice import notice_today
from squadwright.web.notice.pages import NOTICE, notice_page
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.site import site


def show(request: Request) -> Response:
    """Three names at most."""
    here = site(request)
    found = notice_today(here.keeper, today=here.today())
    return render(request, notice_page(found, today=here.today()))


PART = Part("Whom to look at", NOTICE, routes=(Route(NOTICE, show),), in_navigation=False)
