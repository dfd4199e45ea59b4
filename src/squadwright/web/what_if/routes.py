"""What if: other rest, rounds, repetitions or load tried on one dose; nothing is stored."""

from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.planning.what_if import what_if
from squadwright.services.coach_override import Place
from squadwright.services.what_if import DoseInPlan, dose_in_plan
from squadwright.web.forms import FormView
from squadwright.web.page import html, render
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.what_if.contexts import Answer, DetailsPart, HeadlinePart
from squadwright.web.what_if.forms import read_trial, typed_form
from squadwright.web.what_if.page import answer_of, what_if_page


def show(request: Request) -> Response:
    """The page: with the values of the address, else with those of the plan."""
    found = _found(request)
    answer, view = _answer(request, found)
    status = 422 if answer is None else 200
    return render(request, what_if_page(found, answer, view), status=status)


def answer(request: Request) -> Response:
    """The two parts of the page that move with the values."""
    given, view = _answer(request, _found(request))
    parts = {
        "headline": html(request, HeadlinePart(given, view)),
        "details": html(request, DetailsPart(given)),
        "told": "" if given is None else given.sentence,
        "wrong": dict(view.errors),
    }
    return JSONResponse(parts, status_code=422 if given is None else 200)


def _found(request: Request) -> DoseInPlan:
    named, block = request.path_params, request.query_params.get("block", "")[:120]
    return dose_in_plan(site(request).keeper, Place(named["session"], named["athlete"], block))


def _answer(request: Request, found: DoseInPlan) -> tuple[Answer | None, FormView]:
    form = typed_form(request.query_params, found.planned)
    view = FormView({name: (value,) for name, value in form.items()})
    try:
        return answer_of(found, what_if(found.planned, read_trial(form, found.planned))), view
    except InvalidInput as error:
        return None, form.refused(error)


PART = Part(
    "What if",
    "/what-if",
    routes=(
        Route("/what-if/{session}/{athlete}", show),
        Route("/what-if/{session}/{athlete}/answer", answer),
    ),
    in_navigation=False,
)
