"""A block looked back on, as a page and as a sheet; nothing is written."""

from datetime import UTC, datetime

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.printing.block_sheet import set_block_sheet
from squadwright.services.block_review import BlockReview, block_review
from squadwright.services.clubs import load_club
from squadwright.web.file import attachment
from squadwright.web.forms import Form
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.review.pages import PATH, block_page, read_block_wanted, shown_form
from squadwright.web.site import site


def review(request: Request) -> Response:
    """The block that is asked for, else the last six weeks."""
    here = site(request)
    club, form = load_club(here.keeper), Form.in_address(request)
    try:
        found = _found(request, form)
    except InvalidInput as error:
        page = block_page(club, None, form.refused(error), today=here.today())
        return render(request, page, status=422)
    return render(request, block_page(club, found, shown_form(found.wanted), today=here.today()))


def printed(request: Request) -> Response:
    """The same on one page of paper."""
    found = _found(request, Form.in_address(request))
    name = f"{found.wanted.since}-{found.wanted.until}-review.pdf"
    return attachment(set_block_sheet(found), name, "application/pdf")


def _found(request: Request, form: Form) -> BlockReview:
    here = site(request)
    wanted = read_block_wanted(form, load_club(here.keeper), today=here.today())
    return block_review(here.keeper, wanted, today=here.today(), now=datetime.now(UTC))


PART = Part(
    "Review",
    PATH,
    routes=(Route(PATH, review), Route(f"{PATH}/review.pdf", printed)),
    in_navigation=False,
)
