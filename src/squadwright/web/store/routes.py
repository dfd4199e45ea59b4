"""The store: the list, the form of a piece, and the taps that change the next session."""

from dataclasses import replace

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.club import Club
from squadwright.model.session import Session
from squadwright.model.shelf import Piece, Shelf, called, find_piece
from squadwright.services.asking import Asked
from squadwright.services.club_changes import fingerprint
from squadwright.services.clubs import load_club, present_club
from squadwright.services.next_piece import next_pieces_in_mind, work_out_next_pieces
from squadwright.services.session_changes import Replanned
from squadwright.services.store import (
    add_piece,
    change_piece,
    found_again,
    missing_of,
    next_session,
    remove_piece,
    report_missing,
    set_service,
)
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.question import answered_form, question_of
from squadwright.web.site import site
from squadwright.web.store.forms import empty_view, read_piece, view_of
from squadwright.web.store.next_page import next_page
from squadwright.web.store.pages import (
    facts,
    new_piece_page,
    piece_page,
    store_page,
)

HOME = "/store"
NEXT = "/store/next"


def store(request: Request) -> Response:
    """Everything in the store."""
    here = site(request)
    club = present_club(here.keeper)
    if club is None:
        return RedirectResponse("/start", status_code=303)
    return render(request, store_page(club, next_session(club, today=here.today())))


def new_piece(request: Request) -> Response:
    """The empty form of a shelf."""
    shelf = _shelf(request)
    return render(request, new_piece_page(shelf, empty_view(shelf)))


def add(request: Request) -> Response:
    """Store a new piece, or ask about what is seldom so."""
    here, shelf = site(request), _shelf(request)
    form, answer = answered_form(request)
    question = None
    try:
        piece = read_piece(form, shelf, None)
        return _changed(add_piece(here.keeper, shelf, piece, answer=answer, today=here.today()))
    except InvalidInput as error:
        view = form.refused(error)
        if isinstance(error, Asked):
            question = question_of(error, view)
    return render(request, new_piece_page(shelf, view, question), status=422)


def show_piece(request: Request) -> Response:
    """The form of one piece."""
    _, shelf, piece = _piece(request)
    return render(request, piece_page(shelf, piece, view_of(piece)))


def change(request: Request) -> Response:
    """Store a changed piece, or ask about what is seldom so."""
    here = site(request)
    _, shelf, now = _piece(request)
    form, answer = answered_form(request)
    shown, question, line = form.raw("shown"), None, ""
    try:
        piece = read_piece(form, shelf, now)
        done = change_piece(here.keeper, piece, shown, answer=answer, today=here.today())
        return _changed(done)
    except InvalidInput as error:
        view = form.refused(error)
        if isinstance(error, Asked):
            question = question_of(error, view)
        elif shown != fingerprint(now):
            # Both are shown: what is stored now above, what was typed in the form.
            line, shown = f"Stored now: {', '.join(facts(now))}.", ""
    page = piece_page(shelf, now, view, question, shown=shown, line=line)
    return render(request, page, status=422)


def remove(request: Request) -> Response:
    """Take a piece out of the store."""
    here = site(request)
    _, shelf, piece = _piece(request)
    try:
        done = remove_piece(here.keeper, piece.id, today=here.today())
    except InvalidInput as error:
        view = replace(view_of(piece), error=f"It stays in the store. {error}")
        return render(request, piece_page(shelf, piece, view), status=422)
    return _changed(done)


def service(request: Request) -> Response:
    """Out of service, or back."""
    here, form = site(request), Form.of(request)
    _, _, piece = _piece(request)
    try:
        is_in_service = form.choice("service", "Service", ("in", "out")) == "in"
        form.done()
        return _changed(set_service(here.keeper, piece.id, is_in_service, today=here.today()))
    except InvalidInput as error:
        return _refused(request, error)


def fewer(request: Request) -> Response:
    """One fewer for the next session."""
    here = site(request)
    club, _, piece = _piece(request)
    session = _next(club, request)
    try:
        done = report_missing(here.keeper, session.id, (piece.id,), 1, today=here.today())
    except InvalidInput as error:
        return _refused(request, error)
    return _changed(done)


def more(request: Request) -> Response:
    """One of the missing is there after all."""
    here = site(request)
    club, _, piece = _piece(request)
    session = _next(club, request)
    if missing_of(session, piece.id) == 0:
        raise NotFound(f"No {called(piece)} is missing any more. Look at the store as it is now")
    return _changed(found_again(here.keeper, session.id, piece.id, 1, today=here.today()))


def next_piece(request: Request) -> Response:
    """Which one piece helps most, where that is worked out."""
    here = site(request)
    return render(request, next_page(next_pieces_in_mind(here.keeper, today=here.today())))


def work_out(request: Request) -> Response:
    """Try every usual piece; nothing is stored in the club."""
    here = site(request)
    work_out_next_pieces(here.keeper, today=here.today())
    return see_other(NEXT)


def _shelf(request: Request) -> Shelf:
    named = request.path_params["shelf"]
    if named not in {shelf.value for shelf in Shelf}:
        raise NotFound(f"there is no shelf {named!r}. Look through the store")
    return Shelf(named)


def _piece(request: Request) -> tuple[Club, Shelf, Piece]:
    club = load_club(site(request).keeper)
    return club, *find_piece(club.kit, request.path_params["piece"])


def _next(club: Club, request: Request) -> Session:
    session = next_session(club, today=site(request).today())
    if session is None:
        raise NotFound("There is no coming session for which a piece could be missing")
    return session


def _refused(request: Request, error: InvalidInput) -> Response:
    here = site(request)
    club = load_club(here.keeper)
    page = store_page(club, next_session(club, today=here.today()), wrong=str(error))
    return render(request, page, status=422)


def _changed(done: Replanned) -> Response:
    return see_other(HOME, changed=done.words, undo=f"/undo/{done.step}")


PART = Part(
    "Store and rooms",
    HOME,
    routes=(
        Route(HOME, store),
        Route(NEXT, next_piece),
        Route("/store/next/work-out", work_out, methods=["POST"]),
        Route("/store/new/{shelf}", new_piece),
        Route("/store/add/{shelf}", add, methods=["POST"]),
        Route("/store/piece/{piece}/change", change, methods=["POST"]),
        Route("/store/piece/{piece}/remove", remove, methods=["POST"]),
        Route("/store/piece/{piece}/service", service, methods=["POST"]),
        Route("/store/piece/{piece}/fewer", fewer, methods=["POST"]),
        Route("/store/piece/{piece}/more", more, methods=["POST"]),
        Route("/store/piece/{piece}", show_piece),
    ),
)
