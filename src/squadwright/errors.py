"""Errors a coach may see: each says the name, the value, the limit, the unit and what to do."""


class SquadwrightError(Exception):
    """Root of every error this program raises on purpose."""

    exit_code = 1


class InvalidInput(SquadwrightError, ValueError):
    """A value that cannot be used.

    Parameters
    ----------
    place : where it stands, as a path (``athletes[3].tests[0].load``) or a field name.
    problem : what is wrong, with the value, the limit and the unit.
    advice : what to do next.
    """

    exit_code = 2

    def __init__(self, place: str, problem: str, advice: str) -> None:
        super().__init__(f"{place}: {problem}. {advice}")
        self.place = place
        self.problem = problem
        self.advice = advice


def range_text(
    low: float | None, high: float | None, *, is_low_open: bool = False, is_high_open: bool = False
) -> str:
    """Say a range in words: "1 to 36", "more than 0", "more than 0 and at most 1.2"."""
    below = "less than" if is_high_open else "at most"
    above = "more than" if is_low_open else "at least"
    if low is None and high is None:
        return "any number"
    if low is None:
        return f"{below} {_bound(high)}"
    if high is None:
        return f"{above} {_bound(low)}"
    if is_low_open or is_high_open:
        return f"{above} {_bound(low)} and {below} {_bound(high)}"
    return f"{_bound(low)} to {_bound(high)}"


def _bound(value: float | None) -> str:
    assert value is not None
    return f"{value:.0f}" if abs(value) >= 1000 else f"{value:.4g}"


class OutsidePublishedRange(SquadwrightError, ValueError):
    """A formula was asked for a value its source does not cover."""

    exit_code = 3

    def __init__(
        self,
        name: str,
        value: float,
        low: float | None,
        high: float | None,
        source: str,
        *,
        is_low_open: bool = False,
        is_high_open: bool = False,
    ) -> None:
        bounds = range_text(low, high, is_low_open=is_low_open, is_high_open=is_high_open)
        super().__init__(
            f"{name} is {value:.10g}; the valid range is {bounds} ({source}). "
            f"Give a value inside it, or choose another formula."
        )
        self.name = name
        self.value = value
        self.low = low
        self.high = high
        self.source = source


class NotFound(SquadwrightError, LookupError):
    """Something was named that does not exist."""

    exit_code = 4


class Conflict(SquadwrightError):
    """Two things that cannot both hold (a name taken, a newer version stored)."""

    exit_code = 5


class NoSolution(SquadwrightError):
    """The input is sound, and it is proven that nothing satisfies it."""

    exit_code = 6


class NotAllowed(SquadwrightError):
    """A safety gate or a role forbids it."""

    exit_code = 7


class OutOfTime(SquadwrightError, TimeoutError):
    """The time limit passed before any answer was found, nor the proof that there is none."""

    exit_code = 8
