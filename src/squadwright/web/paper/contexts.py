"""What the page for entering from paper shows."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template


@dataclass(frozen=True)
class PaperLine:
    """One line of the score sheet, as planned; ``is_open`` where something else was typed."""

    athlete: str
    name: str
    planned: str
    rounds: tuple[int, ...]
    has_load: bool
    is_open: bool


@dataclass(frozen=True)
@template("paper/page.html")
class PaperPage:
    """Everybody in the order of the score sheet; ``undo_path`` takes an earlier entry back."""

    title: str
    line: str
    closed: str
    undo_path: str
    action: str
    sheet_path: str
    plan_path: str
    done_path: str
    view: FormView
    lines: tuple[PaperLine, ...]
