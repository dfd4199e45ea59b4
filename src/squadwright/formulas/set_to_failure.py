"""What may be said of one set to failure: the ranges shared by the equations on it."""

from squadwright.formulas.published import PROGRAM_LIMIT, Range

MOST_REPETITIONS = 100
"""Longest set any equation here is used for: a limit of this program, no source gives one."""

LOAD = Range(low=0, is_low_open=True, high=1000, reason=PROGRAM_LIMIT)


def repetitions_up_to(high: float, reason: str = PROGRAM_LIMIT) -> Range:
    """Repetitions from one up to ``high``, with a caution beyond twelve."""
    return Range(
        low=1,
        high=high,
        reason=reason,
        trusted_high=12,
        caution="past 10 to 12 repetitions the equations part from each other; test heavier",
    )


def shares_between(
    low: float, high: float, at_twelve: float, at_one: float, reason: str = ""
) -> Range:
    """Shares of 1RM an equation can be turned round for.

    ``at_twelve`` and ``at_one`` are the shares it gives twelve and one repetitions at: outside
    them the answer carries a caution.
    """
    return Range(
        low=low,
        high=high,
        reason=reason or f"{MOST_REPETITIONS} repetitions to the maximum",
        trusted_low=at_twelve,
        trusted_high=at_one,
        caution="outside 1 to 12 repetitions the equations differ up to twofold; test at this load",
    )
