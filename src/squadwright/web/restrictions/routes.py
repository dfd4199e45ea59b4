"""The register, the restrictions of an athlete, and answers to what has ended."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.model.club import Club
from squadwright.planning.restriction_words import bars_words, day_words, term_words
from squadwright.services import restrictions as use
from squadwright.services.club_changes import Changed
from squadwright.services.clubs import load_club
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.restrictions.forms import (
    read_clearance,
    read_goes_on,
    read_over,
    read_restriction,
)
from squadwright.web.restrictions.medical_routes import ROUTES as MEDICAL_ROUTES
from squadwright.web.restrictions.pages import (
    athlete_restrictions_page,
    new_page,
    one_page,
    register_page,
)
from squadwright.web.restrictions.rows import restrictions_path
from squadwright.web.restrictions.swap_routes import ROUTES, told
from squadwright.web.site import site


def show_register(request: Request) -> Response:
    """What waits for an answer, what is in force, what is coming."""
    return render(request, register_page(_club(request), site(request).today()))


def choose_athlete(request: Request) -> Response:
    """Go on to the form of the athlete chosen on the register."""
    athlete = _club(request).athlete(request.query_params.get("athlete", ""))
    return see_other(f"{restrictions_path(athlete.id)}/new")


def of_athlete(request: Request) -> Response:
    """All restrictions of one athlete."""
    page = athlete_restrictions_page(_club(request), _athlete(request), site(request).today())
    return render(request, page)


def new(request: Request) -> Response:
    """The form of a restriction; ``about=head-knock`` fills it in."""
    about = request.query_params.get("about", "")
    page = new_page(_club(request), _athlete(request), site(request).today(), about=about)
    return render(request, page)


def add(request: Request) -> Response:
    """Enter a restriction."""
    club, athlete, today = _club(request), _athlete(request), site(request).today()
    form = Form.of(request)
    try:
        typed = read_restriction(form, "new")
        done, made = use.add_restriction(site(request).keeper, athlete, typed, today=today)
    except InvalidInput as error:
        page = new_page(club, athlete, today, view=form.refused(error))
        return render(request, page, status=422)
    return _told(request, done, f"must not: {bars_words(made)}, {term_words(made)}.")


def one(request: Request) -> Response:
    """One restriction."""
    page = one_page(_club(request), _athlete(request), _id(request), site(request).today())
    return render(request, page)


def change(request: Request) -> Response:
    """Change what it says."""
    use.open_restriction(_club(request), _athlete(request), _id(request))
    form = Form.of(request)
    try:
        typed = read_restriction(form, _id(request))
        done = use.change_restriction(
            site(request).keeper,
            _athlete(request),
            typed,
            form.raw("shown"),
            today=site(request).today(),
        )
    except InvalidInput as error:
        return _refused(request, change=form.refused(error))
    return _told(request, done, f"must not: {bars_words(typed)}, {term_words(typed)}.")


def goes_on(request: Request) -> Response:
    """It goes on until a later day."""
    use.open_restriction(_club(request), _athlete(request), _id(request))
    form = Form.of(request)
    today = site(request).today()
    try:
        until, by = read_goes_on(form)
        done = use.lengthen(
            site(request).keeper, _athlete(request), _id(request), until, by, today=today
        )
    except InvalidInput as error:
        return _refused(request, goes_on=form.refused(error))
    return _told(request, done, f"the restriction goes on until {day_words(until)}.")


def over(request: Request) -> Response:
    """It is over, by the word of the coach."""
    use.open_restriction(_club(request), _athlete(request), _id(request))
    form = Form.of(request)
    today = site(request).today()
    try:
        by = read_over(form)
        done = use.lift(site(request).keeper, _athlete(request), _id(request), by, today=today)
    except InvalidInput as error:
        return _refused(request, over=form.refused(error))
    return _told(request, done, "the restriction is over.")


def clear(request: Request) -> Response:
    """A written clearance ends it."""
    use.open_restriction(_club(request), _athlete(request), _id(request))
    form = Form.of(request)
    today = site(request).today()
    try:
        written = read_clearance(form, _id(request))
        done = use.clear(site(request).keeper, _athlete(request), written, today=today)
    except InvalidInput as error:
        return _refused(request, clearance=form.refused(error))
    return _told(request, done, f"cleared in writing by {written.author}.")


def _club(request: Request) -> Club:
    return load_club(site(request).keeper)


def _athlete(request: Request) -> str:
    return str(request.path_params["athlete"])


def _id(request: Request) -> str:
    return str(request.path_params["restriction"])


def _refused(request: Request, **forms: object) -> Response:
    page = one_page(
        _club(request),
        _athlete(request),
        _id(request),
        site(request).today(),
        **forms,  # type: ignore[arg-type]
    )
    return render(request, page, status=422)


def _told(request: Request, done: Changed, words: str) -> Response:
    athlete = _athlete(request)
    return told(done, athlete, f": {words}", restrictions_path(athlete))


_OF = "/squad/athlete/{athlete}/restrictions"
_ONE = f"{_OF}/of/{{restriction}}"

PART = Part(
    "Restrictions",
    "/squad",
    routes=(
        Route("/squad/restrictions", show_register),
        Route("/squad/restrictions/new", choose_athlete),
        *ROUTES,
        *MEDICAL_ROUTES,
        Route(_OF, of_athlete),
        Route(f"{_OF}/new", new, methods=["GET"]),
        Route(f"{_OF}/new", add, methods=["POST"]),
        Route(_ONE, one, methods=["GET"]),
        Route(_ONE, change, methods=["POST"]),
        Route(f"{_ONE}/goes-on", goes_on, methods=["POST"]),
        Route(f"{_ONE}/over", over, methods=["POST"]),
        Route(f"{_ONE}/clearance", clear, methods=["POST"]),
    ),
    in_navigation=False,
)
