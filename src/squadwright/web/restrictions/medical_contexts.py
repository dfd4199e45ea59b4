"""What the pages of medical entries show."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.restrictions.contexts import Choice, Options


@dataclass(frozen=True)
class EntryRow:
    """One entry: what it is, what stands of it, and what may be done next."""

    title: str
    lines: tuple[str, ...]
    links: tuple[Choice, ...] = ()


@dataclass(frozen=True)
@template("restrictions/medical.html")
class MedicalPage:
    """All medical entries of an athlete."""

    name: str
    back: str
    line: str
    held: tuple[str, ...]
    entries: tuple[EntryRow, ...]
    enter: tuple[Choice, ...]


@dataclass(frozen=True)
class Field:
    """One field of a form: its kind, name, label, what may be chosen, and a number's unit."""

    kind: str
    name: str
    label: str
    hint: str = ""
    is_required: bool = True
    options: Options = ()
    unit: str = ""


@dataclass(frozen=True)
@template("restrictions/medical_form.html")
class MedicalFormPage:
    """One medical entry to write down."""

    title: str
    name: str
    path: str
    back: str
    before: str
    fields: tuple[Field, ...]
    view: FormView
    button_words: str
