"""Sessions: the list, a new one, a change, a copy, and taking one out."""

from datetime import date

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from squadwright.errors import Conflict, InvalidInput
from squadwright.model.club import Club
from squadwright.model.session import Session, Settings
from squadwright.services.clubs import load_club, present_club
from squadwright.services.done import recorded_sessions
from squadwright.services.session_heat import heat_words
from squadwright.services.sessions import (
    Stored,
    add_session,
    copy_session,
    edit_session,
    remove_session,
)
from squadwright.services.week import slot_named
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.question import answered_form, asked_or_refused
from squadwright.web.sessions import calendar, week
from squadwright.web.sessions.forms import read_session
from squadwright.web.sessions.pages import (
    copy_page,
    edit_view,
    form_page,
    known_routines,
    list_page,
    missing,
    new_view,
    plan_path,
)
from squadwright.web.sessions.printed import sheets, sheets_together, single_sheet
from squadwright.web.site import site
from squadwright.web.wording import day_text


def sessions(request: Request) -> Response:
    """Every session by date."""
    typed = request.query_params.get("page", "1")
    page = int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 6 else 1
    here = site(request)
    club = present_club(here.keeper)
    if club is None:
        return RedirectResponse("/start", status_code=303)
    return render(request, list_page(club, here.today(), page, recorded_sessions(here.keeper)))


def new(request: Request) -> Response:
    """A new session; from a slot of the week its fields are filled."""
    club = _club(request)
    lacking = missing(club)
    if lacking is not None:
        return render(request, lacking)
    named = request.query_params.get("slot")
    slot = slot_named(club, named) if named else None
    today = site(request).today()
    view = new_view(club, today, slot, _day(request.query_params.get("day", "")))
    return render(request, form_page(club, view))


def add(request: Request) -> Response:
    """Store a new session."""
    club = _club(request)
    lacking = missing(club)
    if lacking is not None:
        raise Conflict(f"{lacking.words}. {lacking.link_words} first")
    form, answer = answered_form(request)
    today = site(request).today()
    try:
        entry = read_session(form, club, Settings(), known_routines(club))
        stored = add_session(site(request).keeper, entry, today=today, answer=answer)
    except InvalidInput as error:
        return _refused(request, club, form, error)
    return _stored(stored, "is in the diary")


def edit(request: Request) -> Response:
    """A session in its form."""
    club, session = _session(request)
    return render(request, form_page(club, edit_view(club, session), session=session))


def change(request: Request) -> Response:
    """Store a changed session."""
    club, session = _session(request)
    form, answer = answered_form(request)
    here = site(request)
    try:
        entry = read_session(form, club, session.settings, known_routines(club, session))
        stored = edit_session(
            here.keeper, session.id, entry, form.raw("shown"), today=here.today(), answer=answer
        )
    except InvalidInput as error:
        return _refused(request, club, form, error, session)
    return _stored(stored, "is changed")


def copy(request: Request) -> Response:
    """The day a session is copied to."""
    club, session = _session(request)
    return render(request, copy_page(club, session, FormView()))


def make_copy(request: Request) -> Response:
    """Store a session on another day."""
    club, session = _session(request)
    form, answer = answered_form(request)
    here = site(request)
    try:
        held_on = form.day("held_on", "Day")
        form.done()
        stored = copy_session(here.keeper, session.id, held_on, today=here.today(), answer=answer)
    except InvalidInput as error:
        page = copy_page(club, session, *asked_or_refused(form, error))
        return render(request, page, status=422)
    return _stored(stored, "is in the diary")


def remove(request: Request) -> Response:
    """Take a session out."""
    _, session = _session(request)
    here = site(request)
    done = remove_session(here.keeper, session.id, today=here.today())
    said = f"{session.name} on {day_text(session.held_on)} is taken out."
    return see_other("/sessions", changed=said, undo=f"/undo/{done.step}")


def _refused(
    request: Request, club: Club, form: Form, error: InvalidInput, session: Session | None = None
) -> Response:
    view, question = asked_or_refused(form, error)
    page = form_page(club, view, session=session, question=question)
    return render(request, page, status=422)


def _stored(stored: Stored, done: str) -> Response:
    session = stored.session
    heat = heat_words(stored.changed.club, session)
    said = " ".join(filter(None, (f"{session.name} on {day_text(session.held_on)} {done}.", heat)))
    return see_other(plan_path(session.id), changed=said, undo=f"/undo/{stored.changed.step}")


def _club(request: Request) -> Club:
    return load_club(site(request).keeper)


def _session(request: Request) -> tuple[Club, Session]:
    club = _club(request)
    return club, club.session(request.path_params["session"])


def _day(typed: str) -> date | None:
    try:
        return date.fromisoformat(typed)
    except ValueError:
        return None


PART = Part(
    "Sessions",
    "/sessions",
    routes=(
        Route("/sessions", sessions),
        Route("/sessions/new", new),
        Route("/sessions/new", add, methods=["POST"]),
        Route("/sessions/week", week.show),
        Route("/sessions/week", week.add, methods=["POST"]),
        Route("/sessions/week/{slot}", week.edit),
        Route("/sessions/week/{slot}", week.change, methods=["POST"]),
        Route("/sessions/week/{slot}/remove", week.remove, methods=["POST"]),
        *calendar.ROUTES,
        Route("/sessions/{session}/edit", edit),
        Route("/sessions/{session}/edit", change, methods=["POST"]),
        Route("/sessions/{session}/copy", copy),
        Route("/sessions/{session}/copy", make_copy, methods=["POST"]),
        Route("/sessions/{session}/remove", remove, methods=["POST"]),
        Route("/sessions/{session}/sheets", sheets),
        Route("/sessions/{session}/sheets/all.zip", sheets_together),
        Route("/sessions/{session}/sheets/{sheet}.pdf", single_sheet),
    ),
    in_navigation=False,
)
