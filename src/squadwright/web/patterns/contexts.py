"""What the page of components shows."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template


@dataclass(frozen=True)
@template("patterns/patterns.html")
class PatternsPage:
    """Every component."""

    fresh: FormView
    refused: FormView
