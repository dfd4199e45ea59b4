"""Every error becomes a page with the status that says what it is."""

import logging

import pytest
from lxml import html
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from site_server import Browse, browse_on
from squadwright.errors import (
    Conflict,
    InvalidInput,
    NoSolution,
    NotAllowed,
    NotFound,
    OutOfTime,
    OutsidePublishedRange,
    SquadwrightError,
)
from squadwright.web.part import Part
from squadwright.web.parts import PARTS

SECRET = "password of the database"
ERRORS: dict[str, tuple[Exception, int]] = {
    "invalid": (InvalidInput("rounds", "is <b>0</b>", "Write 1 or more"), 400),
    "missing": (NotFound("There is no athlete 'X'"), 404),
    "conflict": (Conflict("It was changed on another device"), 409),
    "forbidden": (NotAllowed("A clearance is missing"), 403),
    "unsolvable": (NoSolution("Seven stations do not fit"), 422),
    "range": (OutsidePublishedRange("repetitions", 40, 1, 36, "a table"), 422),
    "late": (OutOfTime("No answer in 5 s"), 503),
    "other": (SquadwrightError("Something known"), 400),
    "unknown": (RuntimeError(SECRET), 500),
}


def raising(request: Request) -> Response:
    """Raise the error that the address names."""
    raise ERRORS[request.path_params["which"]][0]


def writing(request: Request) -> Response:
    """Raise an error of input in answer to a form."""
    raise ERRORS["invalid"][0]


@pytest.fixture
def broken(browse: Browse) -> Browse:
    """The site with a part that only fails."""
    routes = (Route("/t/write", writing, methods=["POST"]), Route("/t/{which}", raising))
    part = Part("T", "/t", routes=routes)
    return browse_on(browse.keeper, parts=(*PARTS, part))


@pytest.mark.parametrize("which", [name for name in ERRORS if name != "unknown"])
def test_a_known_error_is_told_in_its_own_words(broken: Browse, which: str) -> None:
    error, status = ERRORS[which]
    answer = broken.get(f"/t/{which}")
    assert answer.status_code == status
    page = html.fromstring(answer.text)
    assert str(error) in page.text_content()
    assert len(page.findall(".//h1")) == 1


def test_words_of_an_error_are_never_read_as_markup(broken: Browse) -> None:
    assert "<b>0</b>" not in broken.get("/t/invalid").text


def test_wrong_input_in_a_form_is_unprocessable(broken: Browse) -> None:
    assert broken.post("/t/write").status_code == 422


def test_an_unknown_error_is_a_plain_page_and_its_detail_is_logged(
    broken: Browse, caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level(logging.ERROR, logger="squadwright.web"):
        answer = broken.get("/t/unknown")
    assert answer.status_code == 500
    assert SECRET not in answer.text
    assert "Traceback" not in answer.text
    assert "Content-Security-Policy" in answer.headers
    assert SECRET in caplog.text


@pytest.mark.parametrize("path", ["/nothing", "/patterns/", "/static/0/site.css", "/%00", "/..%2f"])
def test_an_address_that_leads_nowhere_is_a_page_of_the_site(browse: Browse, path: str) -> None:
    answer = browse.get(path)
    assert answer.status_code == 404
    assert html.fromstring(answer.text).find(".//a[@href='/']") is not None


def test_a_page_used_the_wrong_way_says_so(browse: Browse) -> None:
    answer = browse.get("/look/theme")
    assert answer.status_code == 405
    assert answer.headers["Allow"] == "POST"
    assert browse.post("/patterns").status_code == 405
