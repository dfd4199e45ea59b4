"""What is measured of one athlete: the form of each kind, and keeping what was typed."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.services.clubs import load_club
from squadwright.services.measured import enter_energy, enter_measure, fat_free_of, tell_pain
from squadwright.web.forms import Form
from squadwright.web.measured.forms import READ, beside, read_energy, read_pain_told
from squadwright.web.measured.pages import HEADINGS, measure_page, said_page
from squadwright.web.measured.paths import ENERGY, PAIN_READING, back_path
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.site import site


def show(request: Request) -> Response:
    """The form of one kind."""
    kind, about = _kind(request), _about(request)
    club, athlete = _asked(request)
    here, fat_free = site(request), None
    if kind == ENERGY:
        fat_free = fat_free_of(here.keeper, athlete.id, today=here.today())
    page = measure_page(kind, club, athlete, here.today(), about=about, fat_free=fat_free)
    return render(request, page)


def keep(request: Request) -> Response:
    """Keep what was typed; a form that is refused keeps it."""
    here, kind, about = site(request), _kind(request), _about(request)
    (club, athlete), form, today = _asked(request), Form.of(request), here.today()
    try:
        if kind == ENERGY:
            told, by = read_energy(form, athlete.id)
            done = enter_energy(here.keeper, athlete.id, told, by=by, today=today)
            return render(request, said_page(club, athlete, told, done.step))
        if kind == PAIN_READING:
            reading = read_pain_told(form)
            done = tell_pain(here.keeper, athlete.id, about, reading, today=today)
        else:
            entry = READ[kind](form, athlete.id)
            done = enter_measure(here.keeper, athlete.id, entry, today=today)
    except InvalidInput as error:
        page = measure_page(kind, club, athlete, today, beside(kind, form, error), about=about)
        return render(request, page, status=422)
    words = f"{HEADINGS[kind]} of {club.shown_names()[athlete.id]}: kept."
    return see_other(back_path(athlete.id, kind), changed=words, undo=f"/undo/{done.step}")


def _asked(request: Request) -> tuple[Club, Athlete]:
    club = load_club(site(request).keeper)
    return club, club.athlete(request.path_params["athlete"])


def _about(request: Request) -> str:
    return str(request.path_params.get("about", ""))


def _kind(request: Request) -> str:
    if _about(request):
        return PAIN_READING
    kind = str(request.path_params["kind"])
    if kind not in READ and kind != ENERGY:
        raise NotFound(f"nothing called {kind!r} is measured here; see the page of body mass")
    return kind


_OF = "/squad/athlete/{athlete}/measures"

PART = Part(
    "Measures",
    "/squad",
    routes=tuple(
        Route(path, endpoint, methods=[method])
        for path in (f"{_OF}/{{kind}}", f"{_OF}/{PAIN_READING}/{{about}}")
        for endpoint, method in ((show, "GET"), (keep, "POST"))
    ),
    in_navigation=False,
)
