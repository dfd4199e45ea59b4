"""The first day, step by step. Every step may be left and come back to."""

from collections.abc import Callable
from functools import wraps

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.library import routines
from squadwright.library.starting_stores import STARTING_STORES, kit_of, starting_store
from squadwright.model.club import Club
from squadwright.services.club_changes import Changed
from squadwright.services.clubs import present_club
from squadwright.services.first_run import (
    first_session,
    first_steps,
    found_club,
    look_at_squad,
    take_kit,
    take_room,
    take_routine,
    take_squad,
)
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.question import answered_form, asked_or_refused
from squadwright.web.site import site
from squadwright.web.start.contexts import NamePage
from squadwright.web.start.forms import (
    read_club_name,
    read_counts,
    read_room,
    read_typed_squad,
    read_when,
)
from squadwright.web.start.pages import (
    kit_page,
    new_squad_view,
    room_page,
    routine_page,
    session_page,
    squad_page,
    steps_page,
)
from squadwright.web.wording import count_text, day_text

START = "/start"
IMPORT = "/squad/import"
Step = Callable[[Request, Club], Response]


def start(request: Request) -> Response:
    """The name of the club first; then the steps."""
    club = present_club(site(request).keeper)
    return render(request, NamePage(FormView()) if club is None else steps_page(club))


def name_club(request: Request) -> Response:
    """Begin the club."""
    form = Form.of(request)
    try:
        club = found_club(site(request).keeper, read_club_name(form))
    except InvalidInput as error:
        return render(request, NamePage(form.refused(error)), status=422)
    return see_other(f"{START}/squad", changed=f"{club.name} begins.")


def with_club(step: Step) -> Callable[[Request], Response]:
    """A step needs the club; without one the first thing is its name."""

    @wraps(step)
    def route(request: Request) -> Response:
        club = present_club(site(request).keeper)
        if club is None:
            return RedirectResponse(START, status_code=303)
        return step(request, club)

    return route


@with_club
def squad(request: Request, club: Club) -> Response:
    """A box for names."""
    page = squad_page(club, new_squad_view(), import_path=_import_path(request))
    return render(request, page)


@with_club
def add_squad(request: Request, club: Club) -> Response:
    """Show what was understood; take it once that was seen."""
    here, form = site(request), Form.of(request)
    try:
        typed = read_typed_squad(form)
    except InvalidInput as error:
        page = squad_page(club, form.refused(error), import_path=_import_path(request))
        return render(request, page, status=422)
    lines, code = look_at_squad(club, typed.text, unit=typed.unit, today=here.today())
    view = FormView.of(squad=typed.text, sport=typed.sport, unit=typed.unit)
    try:
        done = take_squad(
            here.keeper,
            typed.text,
            unit=typed.unit,
            sport=typed.sport,
            code=typed.code,
            today=here.today(),
        )
    except InvalidInput as error:
        view = FormView(view.typed, {"squad": str(error)})
        page = squad_page(club, view, lines=lines, import_path=_import_path(request))
        return render(request, page, status=422)
    if done is None:
        page = squad_page(club, view, lines=lines, code=code, import_path=_import_path(request))
        return render(request, page)
    return _on(done, f"{count_text(len(lines), 'athlete')} in the squad.")


@with_club
def kit(request: Request, club: Club) -> Response:
    """A store to start from."""
    named = request.query_params.get("from", "")
    store = next((s for s in STARTING_STORES if s.id == named), STARTING_STORES[0])
    return render(request, kit_page(club, store))


@with_club
def add_kit(request: Request, club: Club) -> Response:
    """Put the store in order."""
    here, form = site(request), Form.of(request)
    store = starting_store(form.raw("store"))
    try:
        counts = read_counts(form, store)
        done = take_kit(here.keeper, kit_of(store, counts), today=here.today())
    except InvalidInput as error:
        return render(request, kit_page(club, store, form.refused(error)), status=422)
    return _on(done, "The store is filled.")


@with_club
def room(request: Request, club: Club) -> Response:
    """A room to be measured."""
    return render(request, room_page(club))


@with_club
def add_room(request: Request, club: Club) -> Response:
    """Add the room."""
    here, form = site(request), Form.of(request)
    try:
        entry = read_room(form)
        done = take_room(here.keeper, entry, today=here.today())
    except InvalidInput as error:
        return render(request, room_page(club, form.refused(error)), status=422)
    return _on(done, f"{entry.name} is known.")


@with_club
def routine(request: Request, club: Club) -> Response:
    """The shelf."""
    return render(request, routine_page(club, FormView(), today=site(request).today()))


@with_club
def add_routine(request: Request, club: Club) -> Response:
    """Take a routine from the shelf."""
    here, form = site(request), Form.of(request)
    try:
        chosen = form.choice("routine", "Routine", [each.id for each in routines()])
        form.done()
        saved = take_routine(here.keeper, chosen, today=here.today())
    except InvalidInput as error:
        page = routine_page(club, form.refused(error), today=here.today())
        return render(request, page, status=422)
    return _on(saved.changed, f"{saved.routine.name} is yours.")


@with_club
def session(request: Request, club: Club) -> Response:
    """When the first session is; what is missing comes first."""
    missing = first_steps(club).next_step()
    if missing not in (None, "session"):
        return RedirectResponse(f"{START}/{missing}", status_code=303)
    return render(request, session_page(club, None, today=site(request).today()))


@with_club
def add_session(request: Request, club: Club) -> Response:
    """Store the first session; its plan is on the next page."""
    here = site(request)
    form, answer = answered_form(request)
    try:
        when = read_when(form, here.today())
        stored = first_session(
            here.keeper,
            when.held_on,
            when.starts_at,
            when.minutes,
            coach=when.coach,
            today=here.today(),
            answer=answer,
        )
    except InvalidInput as error:
        view, question = asked_or_refused(form, error)
        page = session_page(club, view, today=here.today(), question=question)
        return render(request, page, status=422)
    held = stored.session
    said = f"{held.name} on {day_text(held.held_on)} is planned. Print the sheets."
    undo = f"/undo/{stored.changed.step}"
    return see_other(f"/today/{held.id}", changed=said, undo=undo)


def _on(done: Changed, said: str) -> Response:
    """Go to the next step that is not done."""
    following = first_steps(done.club).next_step()
    path = f"{START}/{following}" if following else START
    return see_other(path, changed=said, undo=f"/undo/{done.step}")


def _import_path(request: Request) -> str:
    """Where a roster is imported, if that part of the site is there."""
    has_import = any(part.path == IMPORT for part in site(request).parts)
    return IMPORT if has_import else ""


PART = Part(
    "First steps",
    START,
    routes=(
        Route("/start", start),
        Route("/start", name_club, methods=["POST"]),
        Route("/start/squad", squad),
        Route("/start/squad", add_squad, methods=["POST"]),
        Route("/start/kit", kit),
        Route("/start/kit", add_kit, methods=["POST"]),
        Route("/start/room", room),
        Route("/start/room", add_room, methods=["POST"]),
        Route("/start/routine", routine),
        Route("/start/routine", add_routine, methods=["POST"]),
        Route("/start/session", session),
        Route("/start/session", add_session, methods=["POST"]),
    ),
    in_navigation=False,
)
