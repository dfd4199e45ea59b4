"""What the page of a force file shows."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template


@dataclass(frozen=True)
class JumpView:
    """A jump that was worked out and is not kept yet; ``hidden`` goes along with it."""

    head: str
    facts: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    hidden: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
@template("testing/force_file.html")
class ForceFilePage:
    """Choose a file, look at the jump, keep it."""

    view: FormView
    athletes: tuple[tuple[str, str], ...]
    jump: JumpView | None
    back: str
