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
