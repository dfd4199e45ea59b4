"""What the pages of measures show."""

from dataclasses import dataclass

from squadwright.web.body_mass.said import Said
from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.restrictions.medical_contexts import Field


@dataclass(frozen=True)
class MeasureForm:
    """One kind to enter: what is said before it, its fields and what stands in them."""

    words: str
    before: str
    path: str
    fields: tuple[Field, ...]
    view: FormView
    button_words: str


@dataclass(frozen=True)
class MeasureSection:
    """One kind as a part of a page: what was kept, the newest first, and the form of the next."""

    id: str
    heading: str
    kept: tuple[tuple[str, ...], ...]
    none_words: str
    form: MeasureForm


@dataclass(frozen=True)
@template("measured/said.html")
class SaidPage:
    """What follows from an entry, shown once to whoever entered it."""

    title: str
    back: str
    line: str
    said: tuple[Said, ...]
    undo_path: str


@dataclass(frozen=True)
@template("measured/form.html")
class MeasurePage:
    """The form of one kind by itself."""

    title: str
    back: str
    form: MeasureForm
