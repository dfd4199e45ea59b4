"""A session away from home, as a page and as a card on paper; nothing is written."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.planning.travel import TravelKit
from squadwright.printing.travel_sheet import set_travel_sheet
from squadwright.services.travel import Journey, journey
from squadwright.web.file import attachment
from squadwright.web.forms import Form
from squadwright.web.journey.pages import PATH, asked, filled, journey_page, read_kit
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.site import site


def card(request: Request) -> Response:
    """The card for what is there."""
    form = Form.in_address(request)
    athlete = form.raw("athlete")
    try:
        found = _found(request, read_kit(form), athlete)
    except InvalidInput as error:
        usual = _found(request, TravelKit(), "")
        page = journey_page(usual, form.refused(error), "", is_refused=True)
        return render(request, page, status=422)
    view = filled(asked(found.card.kit, athlete))
    return render(request, journey_page(found, view, athlete, is_refused=False))


def printed(request: Request) -> Response:
    """The same on one page of paper."""
    form = Form.in_address(request)
    found = _found(request, read_kit(form), form.raw("athlete"))
    name = f"{found.session.held_on}-travel-card.pdf"
    return attachment(set_travel_sheet(found), name, "application/pdf")


def _found(request: Request, kit: TravelKit, athlete: str) -> Journey:
    return journey(site(request).keeper, request.path_params["session"], kit, athlete)


PART = Part(
    "Away from home",
    PATH,
    routes=(Route(f"{PATH}/{{session}}", card), Route(f"{PATH}/{{session}}/card.pdf", printed)),
    in_navigation=False,
)
