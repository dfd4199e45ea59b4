"""What comes next in a session; nothing is written here, changes go to the coach's override."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.services.next_step import next_steps
from squadwright.web.next_step.pages import next_page
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.site import site


def next_session(request: Request) -> Response:
    """Where each load goes from the last session, and why."""
    here = site(request)
    found = next_steps(here.keeper, request.path_params["session"], today=here.today())
    return render(request, next_page(found))


PART = Part(
    "What comes next",
    "/next",
    routes=(Route("/next/{session}", next_session),),
    in_navigation=False,
)
