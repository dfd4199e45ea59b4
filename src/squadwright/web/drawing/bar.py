"""One end of a loaded bar as a drawing.

Diameters are to scale with each other. A disc is drawn wide enough for its mass to be written on
it, whatever its thickness.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from squadwright.printing.loaded_bars import FULL_SIZE_DISC_MM, Disc

PIXELS_PER_MM = 0.36
DISC_WIDTH_PX = 26.0
GAP_PX = 3.0
SHAFT_PX = 34.0
COLLAR_PX = 8.0
COLLAR_MM = 80.0
SLEEVE_END_PX = 20.0
SHAFT_MM = 28.0
SLEEVE_MM = 50.0


@dataclass(frozen=True)
class Block:
    """A rectangle, with what is written on it."""

    x: float
    y: float
    width: float
    height: float
    label: str = ""

    @property
    def centre_x(self) -> float:
        """Where its label stands, across."""
        return self.x + self.width / 2


@dataclass(frozen=True)
class BarDrawing:
    """One end of a bar, from the hands outwards."""

    width: float
    height: float
    metal: tuple[Block, ...]
    discs: tuple[Block, ...]

    @property
    def middle(self) -> float:
        """The height of the bar's axis."""
        return self.height / 2


def draw_bar(discs: Sequence[Disc]) -> BarDrawing:
    """Draw discs from the inside out on a sleeve that is just long enough for them."""
    height = FULL_SIZE_DISC_MM * PIXELS_PER_MM + 2
    drawn = []
    x = SHAFT_PX + COLLAR_PX + GAP_PX
    for disc in discs:
        drawn.append(_block(x, DISC_WIDTH_PX, disc.diameter_mm, height, disc.label))
        x += DISC_WIDTH_PX + GAP_PX
    width = x + SLEEVE_END_PX
    metal = (
        _block(0, SHAFT_PX, SHAFT_MM, height),
        _block(SHAFT_PX, COLLAR_PX, COLLAR_MM, height),
        _block(SHAFT_PX + COLLAR_PX, width - SHAFT_PX - COLLAR_PX, SLEEVE_MM, height),
    )
    return BarDrawing(round(width, 1), round(height, 1), metal, tuple(drawn))


def _block(x: float, width: float, size_mm: float, height: float, label: str = "") -> Block:
    size = size_mm * PIXELS_PER_MM
    return Block(round(x, 1), round((height - size) / 2, 1), round(width, 1), round(size, 1), label)
