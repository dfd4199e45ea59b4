"""The page of components."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.web.forms import FormView
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.patterns.contexts import PatternsPage


def patterns(request: Request) -> Response:
    """Every component, each as it is used."""
    return render(request, PatternsPage(fresh=FormView(), refused=FormView()))


PART = Part("Patterns", "/patterns", routes=(Route("/patterns", patterns),), in_navigation=False)
