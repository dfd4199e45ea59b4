"""Force recordings for tests: an exact one in steps, and two open ones read from their files.

The open recordings come with a general package under the MIT licence (1,000 Hz, newtons, no name
of a person in them). The numbers they are held against were worked out apart from this program.
"""

import numpy as np
from numpy.typing import NDArray

from open_data import open_data
from squadwright.exchange.force_time_file import ForceTable, read_force_file
from squadwright.formulas.force_time.trace import ForceTrace, force_trace

FOLDER = "biomdp/tests/datasets"
COUNTERMOVEMENT = (
    f"{FOLDER}/kistler_CMJ_1plate.txt",
    "a2287a95e02fa47c300aed7715f4130c2cd1619c80804b37a77a0dd73d751372",
)
DROP_JUMP = (
    f"{FOLDER}/kistler_DJ_2plates.txt",
    "73990fc2979b5501ea9cfb3303a4b4330bc32a75c21c9f51b30a5f26c84ba3c3",
)
FORCE_COLUMN, TIME_COLUMN, BOX_COLUMN = 4, 1, 21

BODY_WEIGHT_N = 784.8
STEPS = ((1.0, BODY_WEIGHT_N), (0.3, 392.4), (0.45, 1569.6), (0.6, 0.0), (1.5, BODY_WEIGHT_N))
"""80 kg at 9.81 m/s^2: seconds and newtons. Each part of it can be worked out by hand."""


def open_table(recording: tuple[str, str]) -> ForceTable:
    """An open recording, read like any file a coach may choose."""
    return read_force_file(open_data("biomdp", *recording).read_bytes())


def steps(
    rate_hz: int = 1000, parts: tuple[tuple[float, float], ...] = STEPS
) -> NDArray[np.float64]:
    """Force in steps."""
    return np.concatenate([np.full(round(length * rate_hz), force) for length, force in parts])


def step_trace(rate_hz: int = 1000) -> ForceTrace:
    """The exact jump in steps."""
    return force_trace(steps(rate_hz), rate_hz)
