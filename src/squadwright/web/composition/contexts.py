"""What the page of body composition shows."""

from dataclasses import dataclass

from squadwright.web.body_mass.said import Said
from squadwright.web.forms import FormView
from squadwright.web.page import template

Options = tuple[tuple[str, str], ...]
Facts = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class ClassRow:
    """One event to come with its class: what his minimum is on that day, and what follows."""

    event: str
    limit: str
    minimum: str
    verdict: str


@dataclass(frozen=True)
class AssessmentRow:
    """One assessment as a line."""

    day: str
    words: str
    by: str
    note: str
    remove_path: str


@dataclass(frozen=True)
@template("composition/composition.html")
class CompositionPage:
    """One athlete's body composition."""

    title: str
    path: str
    mass_path: str
    facts: Facts
    sources: tuple[str, ...]
    is_minor: bool
    said: tuple[Said, ...]
    classes: tuple[ClassRow, ...]
    rows: tuple[AssessmentRow, ...]
    view: FormView
    methods: Options
    floors: Options
    sites: Options
    caution: str
