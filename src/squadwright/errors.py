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


class OutsidePublishedRange(SquadwrightError, ValueError):
    """A formula was asked for a value its source does not cover."""

    exit_code = 3

    def __init__(
        self, name: str, value: float, low: float | None, high: float | None, source: str
    ) -> None:
        bounds = (
            f"at most {high:g}"
            if low is None and high is not None
            else f"at least {low:g}"
            if high is None and low is not None
            else f"{low:g} to {high:g}"
        )
        super().__init__(
            f"{name} is {value:g}; the published range is {bounds} ({source}). "
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
