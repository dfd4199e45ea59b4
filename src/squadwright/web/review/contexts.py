"""What the page of a block shows."""

from dataclasses import dataclass

from squadwright.printing.block_words import BlockWords
from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.today.contexts import Rests


@dataclass(frozen=True)
@template("review/block.html")
class BlockPage:
    """A block looked back on; ``words`` is None where the days typed cannot be used."""

    line: str
    view: FormView
    routines: tuple[tuple[str, str], ...]
    words: BlockWords | None
    sheet_path: str
    rests: tuple[Rests, ...]
