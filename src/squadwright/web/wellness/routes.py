"""Wellness: one tap for as usual, five items otherwise, and the chart of one athlete."""

from datetime import UTC, datetime

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.planning.wellness import ITEMS, STEP_WORDS, answers_of
from squadwright.services.clubs import load_club
from squadwright.services.wellness import answer_wellness, wellness_charts
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.undo.routes import diary_undo
from squadwright.web.wellness.pages import WELLNESS, wellness_list, wellness_page
from squadwright.web.wording import capital


def everybody(request: Request) -> Response:
    """Everybody, each with his two taps."""
    here = site(request)
    club = load_club(here.keeper)
    people = [athlete.id for athlete in club.athletes]
    charts = wellness_charts(here.keeper, people, today=here.today())
    return render(request, wellness_list(club, charts, today=here.today()))


def athlete(request: Request) -> Response:
    """One athlete's five items, and his chart."""
    return _page(request)


def answer(request: Request) -> Response:
    """Keep what an athlete answers today."""
    here, named, form = site(request), request.path_params["athlete"], Form.of(request)
    name = load_club(here.keeper).athlete(named).name
    is_usual = form.raw("all") == "as usual"
    try:
        answers = None if is_usual else answers_of(_read(form))
        mark = answer_wellness(
            here.keeper, named, answers, today=here.today(), now=datetime.now(UTC)
        )
    except InvalidInput as error:
        return _page(request, form, error)
    words = "as usual" if answers is None else f"{sum(a.value for a in answers.answers)} of 25"
    return see_other(WELLNESS, changed=f"{name}: {words}.", undo=diary_undo(mark))


def _read(form: Form) -> dict[str, int]:
    steps = [str(n) for n in range(1, len(STEP_WORDS) + 1)]
    chosen = {item: form.choice(item, capital(item), steps) for item in ITEMS}
    form.done()
    return {item: int(step) for item, step in chosen.items()}


def _page(
    request: Request, form: Form | None = None, error: InvalidInput | None = None
) -> Response:
    here, named = site(request), request.path_params["athlete"]
    club = load_club(here.keeper)
    club.athlete(named)
    chart = wellness_charts(here.keeper, [named], today=here.today())[named]
    view = form.refused(error) if form is not None and error is not None else None
    page = wellness_page(club, named, chart, view)
    return render(request, page, status=200 if error is None else 422)


PART = Part(
    "Wellness",
    WELLNESS,
    routes=(
        Route(WELLNESS, everybody),
        Route(f"{WELLNESS}/{{athlete}}", athlete),
        Route(f"{WELLNESS}/{{athlete}}", answer, methods=["POST"]),
    ),
    in_navigation=False,
)
