"""The page of components, in the chosen theme or in one named."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NotFound
from squadwright.web.drawing.shares import TICKS
from squadwright.web.forms import Form, FormView
from squadwright.web.look.themes import THEMES, chosen_theme
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.patterns.contexts import PatternsPage
from squadwright.web.patterns.specimens import (
    QUESTION,
    ROWS,
    loaded_bars,
    ranges,
    run_sheet_band,
    said_and_come,
)

SIDES = ("left", "right", "both")
AREAS = ("knee", "shoulder", "lower back")


def patterns(request: Request) -> Response:
    """Every component, each as it is used."""
    theme = request.path_params.get("theme", chosen_theme(request))
    if theme not in THEMES:
        raise NotFound(f"There is no theme {theme!r}. There are {', '.join(THEMES)}")
    return _page(request, FormView.of(unit="kg", side="both"), theme)


def try_form(request: Request) -> Response:
    """Read every kind of field; nothing is stored."""
    form = Form.of(request)
    try:
        name = form.text("name", "Name", longest=40)
        form.text("note", "Note", is_required=False, longest=200)
        form.whole("rounds", "Rounds", low=1, high=10)
        form.maybe_number("height", "Height", low=0.9, high=2.6, unit="m")
        form.mass("mass", "Body mass")
        form.day("from", "From")
        form.clock("at", "At")
        form.choice("wave", "Wave", ("A", "B"))
        form.choice("side", "Side", SIDES)
        form.choices("areas", "Body areas", AREAS)
        form.done()
    except InvalidInput as error:
        return _page(request, form.refused(error), chosen_theme(request), status=422)
    return see_other("/patterns", changed=f"{name} was read and not stored.", undo="/patterns/undo")


def undo(request: Request) -> Response:
    """What Undo leads to here: nothing was stored, so nothing is taken back."""
    return see_other("/patterns", changed="Taken back: there was nothing to take back.")


def _page(request: Request, fresh: FormView, theme: str, *, status: int = 200) -> Response:
    page = PatternsPage(
        theme,
        ROWS,
        loaded_bars(),
        run_sheet_band(),
        ranges(),
        said_and_come(),
        TICKS,
        QUESTION,
        fresh,
        page_number=2,
    )
    return render(request, page, status=status)


PART = Part(
    "Patterns",
    "/patterns",
    routes=(
        Route("/patterns", patterns),
        Route("/patterns/form", try_form, methods=["POST"]),
        Route("/patterns/undo", undo, methods=["POST"]),
        Route("/patterns/in/{theme}", patterns),
    ),
    in_navigation=False,
)
