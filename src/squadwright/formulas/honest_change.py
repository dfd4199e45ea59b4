"""Whether one athlete's change between two tests is more than the noise of the test.

The words go no further than the numbers: within the measuring error, or beyond it; and beyond it
only by the middle of what the error may be, where few athletes stand behind it. The limit is the
minimal detectable change (minimal_detectable_change); a raw percentage is never the reason.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from squadwright.errors import InvalidInput
from squadwright.formulas.detectable_change import (
    ERROR,
    Z_95,
    Chances,
    chances_of_change,
    minimal_detectable_change_95,
)
from squadwright.formulas.measured import Measured, refuse_mixed
from squadwright.formulas.published import PROGRAM_LIMIT, Range
from squadwright.formulas.trial_table import TrialTable

PERCENT = Range(low=0, is_low_open=True, high=50, reason=PROGRAM_LIMIT)


class Better(StrEnum):
    """Which way of a number is the better one."""

    HIGHER = "higher"
    LOWER = "lower"


class Verdict(StrEnum):
    """What may be said of a change."""

    WITHIN = "within measuring error"
    UNSURE = "beyond the measuring error, if it is no larger than found from few athletes"
    BEYOND = "beyond measuring error"


@dataclass(frozen=True)
class TestError:
    """Typical error of a test by one method, in its unit, with its upper 95 % limit if known.

    ``source`` says where it is from: one's own trials, or a paper about other people.
    """

    __test__ = False

    typical_error: float
    unit: str
    method: str
    source: str
    upper: float | None = None

    def __post_init__(self) -> None:
        ERROR.check("typical_error", self.typical_error, lambda: PROGRAM_LIMIT)
        if self.upper is not None and not self.upper >= self.typical_error:
            raise InvalidInput(
                "upper",
                f"{self.upper:g} {self.unit} lies below the typical error "
                f"{self.typical_error:g} {self.unit}",
                "Give the upper limit of its interval",
            )


def own_error(table: TrialTable, *, unit: str, method: str) -> TestError:
    """The error of a test from trials of one's own squad, with its upper limit."""
    found = table.typical_error_with_limits()
    source = f"own trials of {table.athletes} athletes"
    return TestError(found.value, unit, method, source, found.high)


def published_error(percent: float, earlier: Measured, *, source: str) -> TestError:
    """The error of a test from a coefficient of variation in a paper about other people [%]."""
    PERCENT.check("percent", percent, lambda: PROGRAM_LIMIT)
    error = percent / 100 * abs(earlier.value)
    return TestError(error, earlier.unit, earlier.method, f"{source}, other people")


@dataclass(frozen=True)
class Change:
    """One athlete's change: later less earlier, with its 95 % interval.

    ``chances`` need a smallest worthwhile change; they count the better way as better.
    """

    change: float
    unit: str
    low: float
    high: float
    detectable: float
    is_better: bool
    verdict: Verdict
    chances: Chances | None
    error_source: str

    @property
    def text(self) -> str:
        """The change in one line."""
        way = "" if self.change == 0 else ", better" if self.is_better else ", worse"
        if self.verdict is Verdict.WITHIN:
            way = ""
        return (
            f"{self.change:+.3g} {self.unit} ({self.low:+.3g} to {self.high:+.3g}): "
            f"{self.verdict.value}{way}. A change counts from {self.detectable:.3g} {self.unit} on "
            f"({self.error_source})."
        )


def change_between(
    earlier: Measured,
    later: Measured,
    error: TestError | None,
    *,
    better: Better,
    smallest_worthwhile: float | None = None,
) -> Change:
    """Judge a change; numbers of two methods, and a test of unknown error, are refused."""
    refuse_mixed("later", earlier, later)
    if error is None:
        raise InvalidInput(
            "error",
            f"the typical error of {earlier.quantity} by this method is not known",
            "Test the squad twice within a few days first, or take the error of a paper",
        )
    for name in ("unit", "method"):
        if getattr(error, name) != getattr(earlier, name):
            raise InvalidInput(
                f"error.{name}",
                f"is {getattr(error, name)!r} and that of the tests {getattr(earlier, name)!r}",
                "Take the error of the same method in the same unit",
            )
    change = later.value - earlier.value
    improvement = change if better is Better.HIGHER else -change
    spread = Z_95 * math.sqrt(2) * error.typical_error
    chances = None
    if smallest_worthwhile is not None:
        chances = chances_of_change(improvement, error.typical_error, smallest_worthwhile)
    return Change(
        change=change,
        unit=earlier.unit,
        low=change - spread,
        high=change + spread,
        detectable=minimal_detectable_change_95(error.typical_error),
        is_better=improvement > 0,
        verdict=_verdict(abs(change), error),
        chances=chances,
        error_source=error.source,
    )


def _verdict(size: float, error: TestError) -> Verdict:
    if size <= minimal_detectable_change_95(error.typical_error):
        return Verdict.WITHIN
    if error.upper is not None and size <= minimal_detectable_change_95(error.upper):
        return Verdict.UNSURE
    return Verdict.BEYOND
