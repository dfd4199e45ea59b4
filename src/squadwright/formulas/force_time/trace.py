"""A recording of vertical force, and where in it somebody is in the air."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

from squadwright.errors import InvalidInput
from squadwright.formulas.published import PROGRAM_LIMIT, Range

RATE = Range(low=100, high=20_000, reason=PROGRAM_LIMIT)
LARGEST_FORCE_N = 50_000
MOST_SAMPLES = 1_200_000
SHORTEST_S = 0.5

SURELY_AIR_N = 30.0
"""Below this the plate is taken as empty while its zero is not known yet [N]."""
TRIM_S = 0.030
"""Left out at both ends of a flight when the zero is taken, where the plate still swings [s]."""
SHORTEST_FLIGHT_S = 0.1
"""A shorter time under the threshold is a hop or noise, not the jump [s]: our choice."""
SHORTEST_CONTACT_S = 0.010
"""How long the force must stay above the threshold to count as a contact [s].

A real plate is noisy: single samples of an empty one pass 10 N.
"""

Samples = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class ForceTrace:
    """Vertical force of one plate [N], evenly spaced; upwards on the athlete is positive."""

    force_n: Samples
    rate_hz: float

    def __post_init__(self) -> None:
        RATE.check("rate_hz", self.rate_hz, lambda: PROGRAM_LIMIT)
        force = self.force_n
        if force.ndim != 1 or not SHORTEST_S * self.rate_hz <= force.size <= MOST_SAMPLES:
            raise InvalidInput(
                "force_n",
                f"holds {force.size} samples at {self.rate_hz:g} Hz",
                f"Give one row of {SHORTEST_S:g} s or more and at most {MOST_SAMPLES} samples",
            )
        bad = np.flatnonzero(~(np.abs(force) <= LARGEST_FORCE_N))
        if bad.size:
            raise InvalidInput(
                f"force_n[{bad[0]}]",
                f"{force[bad[0]]:g} N at {bad[0] / self.rate_hz:.3f} s is no number "
                f"from -{LARGEST_FORCE_N} to {LARGEST_FORCE_N} N",
                "Record again, or cut that part off",
            )

    def seconds(self, samples: int) -> float:
        """How long a number of samples lasts [s]."""
        return samples / self.rate_hz

    def samples(self, seconds: float) -> int:
        """How many samples a time holds."""
        return round(seconds * self.rate_hz)


def force_trace(force_n: ArrayLike, rate_hz: float) -> ForceTrace:
    """A recording from any list of numbers."""
    return ForceTrace(np.asarray(force_n, dtype=np.float64), rate_hz)


@dataclass(frozen=True)
class Span:
    """Samples from ``start`` up to but not including ``stop``."""

    start: int
    stop: int

    @property
    def length(self) -> int:
        """Number of samples."""
        return self.stop - self.start


def spans_where(claim: NDArray[np.bool_]) -> list[Span]:
    """The longest stretches on which ``claim`` holds."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], claim.astype(np.int8), [0]))))
    return [Span(int(a), int(b)) for a, b in zip(edges[::2], edges[1::2], strict=True)]


def contacts(trace: ForceTrace, threshold_n: float) -> list[Span]:
    """Stretches on the plate, each at or above the threshold for long enough to be real."""
    shortest = max(1, trace.samples(SHORTEST_CONTACT_S))
    return [s for s in spans_where(trace.force_n >= threshold_n) if s.length >= shortest]


def flights(trace: ForceTrace, threshold_n: float) -> list[Span]:
    """Stretches in the air between two contacts, long enough to be a jump."""
    on_plate = contacts(trace, threshold_n)
    between = [Span(before.stop, after.start) for before, after in pairwise(on_plate)]
    return [s for s in between if trace.seconds(s.length) >= SHORTEST_FLIGHT_S]


def the_flight(trace: ForceTrace, threshold_n: float) -> Span:
    """The only flight; raise InvalidInput where there is none, or where there are several."""
    found = flights(trace, threshold_n)
    if len(found) == 1:
        return found[0]
    if not found:
        raise InvalidInput(
            "force_n",
            f"stays never below {threshold_n:g} N for {SHORTEST_FLIGHT_S:g} s between two contacts",
            "Give one whole jump, from standing still to after the landing, in newtons",
        )
    times = ", ".join(f"{trace.seconds(s.start):.2f} s" for s in found[:5])
    raise InvalidInput(
        "force_n",
        f"holds {len(found)} flights (they begin at {times})",
        "Cut the recording so that one jump is left",
    )


def empty_plate(trace: ForceTrace, span: Span) -> Samples:
    """The samples of a flight without its swinging ends."""
    trim = trace.samples(TRIM_S)
    inner = trace.force_n[span.start + trim : span.stop - trim]
    return inner if inner.size else trace.force_n[span.start : span.stop]


@dataclass(frozen=True)
class Stillness:
    """A window of standing still: mean is body weight, deviation is noise [N]."""

    window: Span
    mean_n: float
    deviation_n: float


def stillness(trace: ForceTrace, window: Span) -> Stillness:
    """Mean and deviation over a window."""
    force = trace.force_n[window.start : window.stop]
    return Stillness(window, float(force.mean()), float(force.std(ddof=1)))


def quietest_window(trace: ForceTrace, within: Span, length_s: float) -> Stillness | None:
    """The window of this length with the smallest deviation, or nothing where none fits."""
    length = trace.samples(length_s)
    force = trace.force_n[within.start : within.stop]
    if length < 2 or force.size < length:
        return None
    centred = force - force.mean()
    sums = np.concatenate(([0.0], np.cumsum(centred)))
    squares = np.concatenate(([0.0], np.cumsum(centred**2)))
    spread = (squares[length:] - squares[:-length]) - (sums[length:] - sums[:-length]) ** 2 / length
    first = within.start + int(np.argmin(spread))
    return stillness(trace, Span(first, first + length))
