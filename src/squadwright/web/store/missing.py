"""What a session needs from the store: ticked when found, and planned anew when missing."""

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NotFound
from squadwright.planning.kit.problem import MOST_WAVES
from squadwright.services.planning import ShownSession, show_session
from squadwright.services.session_changes import Replanned
from squadwright.services.session_waves import choose_waves
from squadwright.services.store import found_again, report_missing
from squadwright.services.thin_kit import ways_in_mind, work_out_ways
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.store.missing_page import fetch_needs, missing_page
from squadwright.web.store.pages import missing_path
from squadwright.web.store.ticks import found_keys, keep_ticks

WAVES = ("", *map(str, range(1, MOST_WAVES + 1)))


def fetch_list(request: Request) -> Response:
    """The list with its ticks; nothing is stored."""
    return _page(request, _shown(request))


def tick(request: Request) -> Response:
    """Keep what is ticked."""
    shown, form = _shown(request), Form.of(request)
    response = RedirectResponse(missing_path(shown.session), status_code=303)
    keep_ticks(response, shown.session.id, _ticked(shown, form))
    return response


def lack(request: Request) -> Response:
    """So many of a line are missing; what was ticked beside it is kept."""
    here, shown, form = site(request), _shown(request), Form.of(request)
    try:
        count, pieces = _lacking(shown, form)
        done = report_missing(here.keeper, shown.session.id, pieces, count, today=here.today())
    except InvalidInput as error:
        return _page(request, shown, wrong=str(error))
    response = _changed(shown, done)
    keep_ticks(response, shown.session.id, _ticked(shown, form))
    return response


def found(request: Request) -> Response:
    """All that was missing of a piece is there after all."""
    here, shown, form = site(request), _shown(request), Form.of(request)
    piece = form.raw("piece")
    if all(each.piece != piece for each in shown.session.missing):
        raise NotFound(f"{piece[:60]!r} is not missing any more. Look at the list as it is now")
    try:
        count = form.whole("count", "How many", low=1, high=1000)
        form.done()
        done = found_again(here.keeper, shown.session.id, piece, count, today=here.today())
    except InvalidInput as error:
        return _page(request, shown, wrong=str(error))
    return _changed(shown, done)


def ways(request: Request) -> Response:
    """Plan the other ways; they stand on the page while nothing changes."""
    shown = _shown(request)
    work_out_ways(site(request).keeper, shown)
    return see_other(f"{missing_path(shown.session)}#ways")


def waves(request: Request) -> Response:
    """Run the session in so many waves, or as the routine is written."""
    here, shown, form = site(request), _shown(request), Form.of(request)
    chosen = form.raw("waves")
    if chosen not in WAVES:
        raise NotFound(f"{chosen[:20]!r} waves cannot be chosen. Choose 1 to {MOST_WAVES}")
    number = int(chosen) if chosen else None
    return _changed(shown, choose_waves(here.keeper, shown.session.id, number, today=here.today()))


def _page(request: Request, shown: ShownSession, *, wrong: str = "") -> Response:
    found = found_keys(request, shown.session.id)
    ways = ways_in_mind(site(request).keeper, shown)
    page = missing_page(shown, found, ways, wrong=wrong)
    return render(request, page, status=422 if wrong else 200)


def _shown(request: Request) -> ShownSession:
    here = site(request)
    shown = show_session(here.keeper, request.path_params["session"], today=here.today())
    if not isinstance(shown, ShownSession):
        raise NotFound("There is no club yet. Name it first, or run `squadwright import FILE`")
    return shown


def _ticked(shown: ShownSession, form: Form) -> tuple[str, ...]:
    known = [need.key for need in fetch_needs(shown.plan)] if shown.plan else []
    return form.choices("found", "Found", known)


def _lacking(shown: ShownSession, form: Form) -> tuple[int, tuple[str, ...]]:
    """The number and the pieces of the line whose button was pressed: "2 plates-10"."""
    number, _, piece = form.raw("lack").partition(" ")
    needs = fetch_needs(shown.plan) if shown.plan else ()
    need = next((n for n in needs if piece in n.pieces), None)
    if need is None or not (number.isascii() and number.isdigit() and len(number) <= 4):
        raise InvalidInput(
            "missing", f"{form.raw('lack')[:60]!r} is not on the list", "Look at the list as it is"
        )
    return int(number), need.pieces


def _changed(shown: ShownSession, done: Replanned) -> Response:
    path = missing_path(shown.session)
    return see_other(path, changed=done.words, undo=f"/undo/{done.step}")


PART = Part(
    "Missing",
    "/missing",
    routes=(
        Route("/missing/{session}", fetch_list),
        Route("/missing/{session}/ticks", tick, methods=["POST"]),
        Route("/missing/{session}/lack", lack, methods=["POST"]),
        Route("/missing/{session}/found", found, methods=["POST"]),
        Route("/missing/{session}/ways", ways, methods=["POST"]),
        Route("/missing/{session}/waves", waves, methods=["POST"]),
    ),
    in_navigation=False,
)
