"""The score sheet: one page to write on when there is no device, and the code that opens its page.

Rows stand in the order of the session sheet; the page for entering has the same order.
"""

import io
from dataclasses import dataclass

import segno

from squadwright.model.plan import Plan
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.dose_rows import dose_rows
from squadwright.printing.typesetting import Heading, Settled, heading, largest_size_on
from squadwright.services.paper import rounds_of

SIZES_PT = (10.0, 9.5, 9.0, 8.5, 8.0, 7.5, 7.0, 6.6)
TEMPLATE = "score_sheet.typ"


@dataclass(frozen=True)
class ScoreLine:
    """One athlete: his share as planned, and the numbers of his rounds, a box for each."""

    athlete: str
    name: str
    bar: str
    load: str
    rounds: tuple[int, ...]

    @property
    def planned(self) -> str:
        """His share in words."""
        count = len(self.rounds)
        rounds = "" if count == 0 else f"{count} round{'' if count == 1 else 's'}"
        return ", ".join(filter(None, (self.load, rounds)))


@dataclass(frozen=True)
class ScoreSheet:
    """Context of ``score_sheet.typ``; ``code`` is a drawing of the address as SVG."""

    heading: Heading
    lines: tuple[ScoreLine, ...]
    rounds: tuple[int, ...]
    code: str
    address: str
    has_loads: bool


def score_lines(plan: Plan) -> tuple[ScoreLine, ...]:
    """Everybody who has a dose, once, in the order of the session sheet."""
    ids = {plan.shown_name(dose.athlete): dose.athlete for dose in plan.doses}
    seen: dict[str, ScoreLine] = {}
    for row in dose_rows(plan, PrintedUnit.KILOGRAM):
        athlete = ids[row.name]
        rounds = rounds_of(plan, athlete)
        seen.setdefault(athlete, ScoreLine(athlete, row.name, row.bar, row.load, rounds))
    return tuple(seen.values())


def score_sheet(plan: Plan, address: str) -> ScoreSheet:
    """The context of the sheet; ``address`` is where it is entered."""
    lines = score_lines(plan)
    return ScoreSheet(
        heading=heading(plan),
        lines=lines,
        rounds=tuple(sorted({number for line in lines for number in line.rounds})),
        code=code_of(address),
        address=address,
        has_loads=any(line.bar or line.load for line in lines),
    )


def code_of(address: str) -> str:
    """An address as a QR code, as SVG (ISO/IEC 18004: level M, a margin of 4 cells)."""
    drawn = io.BytesIO()
    segno.make(address, error="m", micro=False).save(drawn, kind="svg", border=4, light="#fff")
    return drawn.getvalue().decode()


def set_score_sheet(plan: Plan, address: str) -> bytes:
    """The sheet as PDF, in the largest text that keeps it to one page."""
    document = Settled(TEMPLATE, score_sheet(plan, address))
    return document.pdf(largest_size_on(document, SIZES_PT, most_pages=1))
