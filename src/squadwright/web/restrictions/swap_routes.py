"""Swaps: look, take one, give it back; keep a pain that was named at the door."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.library import exercise as library_exercise
from squadwright.planning.restriction_words import term_words
from squadwright.services.club_changes import Changed
from squadwright.services.clubs import load_club
from squadwright.services.planning import choose_session
from squadwright.services.swaps import (
    StepPlace,
    give_back_swap,
    help_and_watch,
    keep_pain,
    take_swap,
)
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.restrictions.forms import read_pain_to_keep
from squadwright.web.restrictions.pages import swaps_path
from squadwright.web.restrictions.rows import restrictions_path
from squadwright.web.restrictions.swaps import pain_page, swaps_page
from squadwright.web.site import site


def show_swaps(request: Request) -> Response:
    """What he does instead in a session: the one named, else today's or the next."""
    club, athlete = load_club(site(request).keeper), _athlete(request)
    today = site(request).today()
    club.athlete(athlete)
    named = request.query_params.get("session") or None
    session = choose_session(club, named, today=today)
    return render(request, swaps_page(club, session, athlete, today))


def take(request: Request) -> Response:
    """The coach's word: this exercise instead."""
    keeper, today, athlete = site(request).keeper, site(request).today(), _athlete(request)
    form = Form.of(request)
    session, place, exercise = form.raw("session"), _place(form), form.raw("exercise")
    try:
        done = take_swap(keeper, session, athlete, place, exercise, today=today)
    except InvalidInput as error:
        club = load_club(keeper)
        page = swaps_page(club, club.session(session), athlete, today, wrong=str(error))
        return render(request, page, status=422)
    words = f"{library_exercise(exercise).name} in step {place.step}"
    return told(done, athlete, f": {words}.", swaps_path(athlete, session))


def give_back(request: Request) -> Response:
    """The exercise as written again, or the swap that is planned by itself."""
    keeper, today, athlete = site(request).keeper, site(request).today(), _athlete(request)
    form = Form.of(request)
    session, place = form.raw("session"), _place(form)
    done = give_back_swap(keeper, session, athlete, place, today=today)
    words = f": step {place.step} is planned by itself again."
    return told(done, athlete, words, swaps_path(athlete, session))


def watch(request: Request) -> Response:
    """He helps and watches in a block, or works in it again."""
    keeper, today, athlete = site(request).keeper, site(request).today(), _athlete(request)
    form = Form.of(request)
    session, block, helps = form.raw("session"), form.raw("block"), form.raw("helps") == "yes"
    done = help_and_watch(keeper, session, athlete, block, today=today, helps=helps)
    words = f" {'helps and watches in' if helps else 'works again in'} {block}."
    return told(done, athlete, words, swaps_path(athlete, session))


def show_pain(request: Request) -> Response:
    """The pains of the door that can be kept."""
    club = load_club(site(request).keeper)
    session = club.session(request.query_params.get("session", ""))
    return render(request, pain_page(club, session, _athlete(request)))


def keep(request: Request) -> Response:
    """Keep one of them."""
    keeper, today, athlete = site(request).keeper, site(request).today(), _athlete(request)
    form = Form.of(request)
    try:
        session, area = read_pain_to_keep(form)
        done, made = keep_pain(keeper, session, athlete, area, today=today)
    except InvalidInput as error:
        club = load_club(keeper)
        page = pain_page(club, club.session(form.raw("session")), athlete, wrong=str(error))
        return render(request, page, status=422)
    words = f": {made.reason}. It is kept {term_words(made)}, and asked about then."
    return told(done, athlete, words, restrictions_path(athlete))


def told(done: Changed, athlete: str, words: str, path: str) -> Response:
    """Go on with what changed for an athlete: his name, then the words."""
    name = done.club.shown_names()[athlete]
    return see_other(path, changed=f"{name}{words}", undo=f"/undo/{done.step}")


def _place(form: Form) -> StepPlace:
    return StepPlace(form.raw("block"), form.raw("step"))


def _athlete(request: Request) -> str:
    return str(request.path_params["athlete"])


_SWAPS = "/squad/athlete/{athlete}/swaps"
_PAIN = "/squad/athlete/{athlete}/restrictions/pain"

ROUTES = (
    Route(_SWAPS, show_swaps, methods=["GET"]),
    Route(f"{_SWAPS}/take", take, methods=["POST"]),
    Route(f"{_SWAPS}/give-back", give_back, methods=["POST"]),
    Route(f"{_SWAPS}/watch", watch, methods=["POST"]),
    Route(_PAIN, show_pain, methods=["GET"]),
    Route(_PAIN, keep, methods=["POST"]),
)
