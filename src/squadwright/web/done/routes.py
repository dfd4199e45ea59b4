"""After a session: what was done, effort at the door, the review, and taking each back."""

from datetime import UTC, datetime

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.exchange.record_out import done_csv, record_csv, write_record
from squadwright.model.record import EventKind
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.done_sheet import set_done_sheet
from squadwright.printing.sheets import session_stem
from squadwright.services.after import Noted, accept_review, note_at_door, take_back_noted
from squadwright.services.done import SessionDone, record_file, session_done
from squadwright.web.done.forms import read_at_door, read_review
from squadwright.web.done.pages import done_page, effort_page
from squadwright.web.done.paths import done_path
from squadwright.web.file import attachment
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.security import is_own_path
from squadwright.web.site import site

LONGEST_PATH = 500


def done(request: Request) -> Response:
    """What was done in a session."""
    return render(request, done_page(found_of(request)))


def effort(request: Request) -> Response:
    """How hard was it, athlete by athlete."""
    return render(request, effort_page(found_of(request)))


def note_effort(request: Request) -> Response:
    """Keep one answer at the door."""
    found = found_of(request)
    form, here = Form.of(request), site(request)
    try:
        athlete, kind, value = read_at_door(form)
        noted = note_at_door(here.keeper, found.session.id, athlete, kind, value, now=now())
    except InvalidInput as error:
        return render(request, effort_page(found, str(error)), status=422)
    what = "effort" if kind is EventKind.EFFORT else "reserve"
    words = f"{found.shown_name(athlete)}: {what} {value}."
    return _answer(found, noted, words, done_path(found.session.id, "effort"))


def keep_review(request: Request) -> Response:
    """Keep the review."""
    found = found_of(request)
    form, here = Form.of(request), site(request)
    try:
        noted = accept_review(here.keeper, found.session.id, read_review(form), now=now())
    except InvalidInput as error:
        return render(request, done_page(found, form.refused(error)), status=422)
    return _answer(found, noted, "The review is kept.", done_path(found.session.id))


def record_json(request: Request) -> Response:
    """The whole record as JSON."""
    found = found_of(request)
    return _file(write_record(record_file(found)).encode(), found, "record.json")


def record_lines(request: Request) -> Response:
    """The record as CSV, one line for each event."""
    found = found_of(request)
    return _file(record_csv(record_file(found), found.club.shown_names()), found, "record.csv")


def done_lines(request: Request) -> Response:
    """What was done as CSV, one line for each athlete."""
    found = found_of(request)
    return _file(done_csv(record_file(found), found.club.shown_names()), found, "done.csv")


def undo(request: Request) -> Response:
    """Take back one write to the record."""
    found = found_of(request)
    back, here = Form.of(request).raw("back"), site(request)
    mark = request.path_params["mark"]
    noted = take_back_noted(here.keeper, found.session.id, mark, now=now())
    is_here = is_own_path(back) and len(back) <= LONGEST_PATH
    return _answer(found, noted, "Taken back.", back if is_here else done_path(found.session.id))


def found_of(request: Request) -> SessionDone:
    """What was done in the session that the path names."""
    here, named = site(request), request.path_params["session"]
    return session_done(here.keeper, named, today=here.today(), now=now())


def now() -> datetime:
    """The time of day on this machine."""
    return datetime.now(UTC)


def printed(request: Request) -> Response:
    """What was done as one printed page."""
    found = found_of(request)
    return _file(set_done_sheet(found, PrintedUnit.KILOGRAM), found, "done.pdf")


def _file(content: bytes, found: SessionDone, ending: str) -> Response:
    kinds = {"pdf": "application/pdf", "json": "application/json", "csv": "text/csv; charset=utf-8"}
    session = found.session
    name = f"{session_stem(session.id, session.held_on)}-{ending}"
    return attachment(content, name, kinds[ending.rpartition(".")[2]])


def _answer(found: SessionDone, noted: Noted, words: str, path: str) -> Response:
    if not noted.mark:
        return see_other(path, changed=f"{words} It stood so already.")
    return see_other(path, changed=words, undo=done_path(found.session.id, f"undo/{noted.mark}"))


PART = Part(
    "What was done",
    "/done",
    routes=(
        Route("/done/{session}", done),
        Route("/done/{session}/effort", effort),
        Route("/done/{session}/effort", note_effort, methods=["POST"]),
        Route("/done/{session}/review", keep_review, methods=["POST"]),
        Route("/done/{session}/record.json", record_json),
        Route("/done/{session}/record.csv", record_lines),
        Route("/done/{session}/done.csv", done_lines),
        Route("/done/{session}/done.pdf", printed),
        Route("/done/{session}/undo/{mark}", undo, methods=["POST"]),
    ),
    in_navigation=False,
)
