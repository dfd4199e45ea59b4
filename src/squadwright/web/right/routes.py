"""How often the forecast was right: the club, and one athlete."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.services.how_often_right import how_often_right
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.right.pages import right_page
from squadwright.web.right.paths import RIGHT_PATH
from squadwright.web.site import site


def show_right(request: Request) -> Response:
    """How often the forecast was right."""
    here, athlete = site(request), request.path_params.get("athlete", "")
    return render(request, right_page(how_often_right(here.keeper, athlete, today=here.today())))


PART = Part(
    "How often it was right",
    RIGHT_PATH,
    routes=(Route(RIGHT_PATH, show_right), Route(f"{RIGHT_PATH}/{{athlete}}", show_right)),
    in_navigation=False,
)
