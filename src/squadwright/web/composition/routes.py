"""Body composition of one athlete: what was assessed, kept, taken out."""

from datetime import UTC, datetime

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NotFound, OutsidePublishedRange
from squadwright.services.body_composition import keep_assessment, show_composition
from squadwright.services.diary import take_out
from squadwright.web.composition.forms import beside_its_field, read_assessment
from squadwright.web.composition.pages import composition_page, composition_path
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.undo.routes import diary_undo


def composition(request: Request) -> Response:
    """What is known, and the form of another assessment."""
    here = site(request)
    found = show_composition(here.keeper, request.path_params["athlete"], today=here.today())
    return render(request, composition_page(found))


def keep(request: Request) -> Response:
    """Keep an assessment."""
    here, form = site(request), Form.of(request)
    found = show_composition(here.keeper, request.path_params["athlete"], today=here.today())
    try:
        content, day = read_assessment(form)
        mark = keep_assessment(
            here.keeper, found.athlete.id, content, day, today=here.today(), now=datetime.now(UTC)
        )
    except OutsidePublishedRange as error:
        wrong = InvalidInput("folds", str(error), "Check the folds, and measure again")
        return render(request, composition_page(found, beside_its_field(form, wrong)), status=422)
    except InvalidInput as error:
        return render(request, composition_page(found, beside_its_field(form, error)), status=422)
    words = f"The assessment of {found.shown_name} is kept."
    return see_other(composition_path(found.athlete.id), changed=words, undo=diary_undo(mark))


def remove(request: Request) -> Response:
    """Take an assessment out of the diary."""
    here = site(request)
    found = show_composition(here.keeper, request.path_params["athlete"], today=here.today())
    entry_id = request.path_params["entry"]
    if entry_id not in {each.entry.id for each in found.assessments}:
        raise NotFound("This assessment is not there any more. Open the page afresh")
    mark = take_out(
        here.keeper, (entry_id,), author="coach", today=here.today(), now=datetime.now(UTC)
    )
    path = composition_path(found.athlete.id)
    return see_other(path, changed="The assessment is taken out.", undo=diary_undo(mark))


_OF = "/squad/athlete/{athlete}/body-composition"

PART = Part(
    "Body composition",
    "/squad",
    routes=(
        Route(_OF, composition, methods=["GET"]),
        Route(_OF, keep, methods=["POST"]),
        Route(f"{_OF}/{{entry}}/remove", remove, methods=["POST"]),
    ),
    in_navigation=False,
)
