"""Efforts from a CSV or XLSX file: choose it, look at every doubtful cell, take it in."""

from datetime import UTC, datetime

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.exchange.efforts import MOST_LINES, cells_of, read_lines
from squadwright.exchange.roster_file import read_roster_file
from squadwright.services.clubs import load_club
from squadwright.services.efforts_in import look_at, take_in_efforts
from squadwright.web.forms import Form, FormView
from squadwright.web.load.file_forms import SentLines, read_sent
from squadwright.web.load.file_pages import HERE, file_page, lines_page
from squadwright.web.load.paths import LOAD
from squadwright.web.page import render, see_other
from squadwright.web.site import site
from squadwright.web.undo.routes import diary_undo
from squadwright.web.wording import count_text


def choose(request: Request) -> Response:
    """Choose a file."""
    return render(request, file_page())


def upload(request: Request) -> Response:
    """Read the file, and show it; nothing is stored."""
    form = Form.of(request)
    try:
        name, data = form.file("efforts", "The file")
        form.done()
        cells = cells_of(read_roster_file(name, data, most_rows=MOST_LINES))
    except InvalidInput as error:
        return _choose_again(request, error)
    return _shown(request, SentLines(cells, frozenset(), frozenset()))


def look_again(request: Request) -> Response:
    """The preview with what was mended."""
    try:
        sent = read_sent(Form.of(request))
    except InvalidInput as error:
        return _choose_again(request, error)
    return _shown(request, sent)


def take(request: Request) -> Response:
    """Take in every line that is not left out."""
    here = site(request)
    try:
        sent = read_sent(Form.of(request))
    except InvalidInput as error:
        return _choose_again(request, error)
    lines = read_lines(sent.cells, load_club(here.keeper).athletes, today=here.today())
    try:
        mark, count = take_in_efforts(
            here.keeper, lines, sent.left_out, today=here.today(), now=datetime.now(UTC)
        )
    except InvalidInput as error:
        return _shown(request, sent, wrong=str(error))
    words = f"{count_text(count, 'effort is', 'efforts are')} in the diary."
    return see_other(LOAD, changed=words, undo=diary_undo(mark))


def back(request: Request) -> Response:
    """A preview cannot be asked for again by its address: choose the file."""
    return see_other(HERE)


def _choose_again(request: Request, error: InvalidInput) -> Response:
    return render(request, file_page(FormView(errors={"efforts": str(error)})), status=422)


def _shown(request: Request, sent: SentLines, *, wrong: str = "") -> Response:
    here = site(request)
    club = load_club(here.keeper)
    lines = read_lines(sent.cells, club.athletes, today=here.today())
    page = lines_page(club, sent, look_at(here.keeper, lines), wrong=wrong)
    return render(request, page, status=422 if wrong else 200)


ROUTES = (
    Route(HERE, choose, methods=["GET"]),
    Route(HERE, upload, methods=["POST"]),
    Route(f"{HERE}/preview", back, methods=["GET"]),
    Route(f"{HERE}/preview", look_again, methods=["POST"]),
    Route(f"{HERE}/take", back, methods=["GET"]),
    Route(f"{HERE}/take", take, methods=["POST"]),
)
