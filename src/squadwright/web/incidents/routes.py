"""Incidents of the club or of one athlete, and the emergency card."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.services.clubs import load_club
from squadwright.services.incidents import change_card, incidents
from squadwright.web.forms import Form
from squadwright.web.incidents.forms import read_card
from squadwright.web.incidents.pages import card_page, incidents_page
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.site import site


def show_incidents(request: Request) -> Response:
    """What was noted when somebody was hurt."""
    of = request.query_params.get("athlete", "")
    return render(request, incidents_page(incidents(site(request).keeper, of=of), of=of))


def show_card(request: Request) -> Response:
    """The emergency card."""
    return render(request, card_page(load_club(site(request).keeper)))


def keep_card(request: Request) -> Response:
    """Write the emergency card."""
    here, form = site(request), Form.of(request)
    try:
        typed = read_card(form)
        done = change_card(here.keeper, typed, form.raw("shown"), today=here.today())
    except InvalidInput as error:
        page = card_page(load_club(here.keeper), form.refused(error))
        return render(request, page, status=422)
    return see_other(
        "/incidents/card", changed="The emergency card is written.", undo=f"/undo/{done.step}"
    )


PART = Part(
    "Incidents",
    "/incidents",
    routes=(
        Route("/incidents", show_incidents),
        Route("/incidents/card", show_card, methods=["GET"]),
        Route("/incidents/card", keep_card, methods=["POST"]),
    ),
    in_navigation=False,
)
