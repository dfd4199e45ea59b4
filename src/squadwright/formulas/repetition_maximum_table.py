"""Handbook tables of repetitions to failure and shares of the one-repetition maximum.

Two versions are in circulation and differ from eleven repetitions up (70 or 67 % at twelve), so
they are kept apart. Between printed entries the value is read off a straight line.
"""

from collections.abc import Mapping

from squadwright.formulas.published import Range, published
from squadwright.formulas.set_to_failure import LOAD

LOAD_CHART: dict[float, float] = {
    1: 1.00,
    2: 0.95,
    3: 0.93,
    4: 0.90,
    5: 0.87,
    6: 0.85,
    7: 0.83,
    8: 0.80,
    9: 0.77,
    10: 0.75,
    12: 0.70,
}
"""The association's load chart: share of 1RM by repetitions (no entry for eleven)."""

ESSENTIALS_TABLE: dict[float, float] = {**LOAD_CHART, 11: 0.70, 12: 0.67, 15: 0.65}
"""The handbook's own table, from memory: share of 1RM by repetitions."""

CHART_REPETITIONS = Range(low=1, high=12, reason="first and last entry of the chart")
CHART_SHARES = Range(low=0.70, high=1, reason="last and first entry of the chart")
ESSENTIALS_REPETITIONS = Range(low=1, high=15, reason="first and last entry of the table")
ESSENTIALS_SHARES = Range(low=0.65, high=1, reason="last and first entry of the table")


def _between(points: Mapping[float, float], at: float) -> float:
    """Read a table of points off the straight lines between neighbours."""
    if at in points:
        return points[at]
    below = max(place for place in points if place < at)
    above = min(place for place in points if place > at)
    weight = (at - below) / (above - below)
    return points[below] * (1 - weight) + points[above] * weight


@published(repetitions=CHART_REPETITIONS)
def fraction_at_repetitions_nsca_chart(repetitions: float) -> float:
    """Share of 1RM for a number of repetitions, load chart.

    Parameters
    ----------
    repetitions : repetitions to failure [1], 1 to 12

    Returns
    -------
    load as a share of the one-repetition maximum [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Tolerance quoted for the chart: 0.5 to 2 % of 1RM by training status. No entry for
    eleven repetitions. Straight line between entries.

    References
    ----------
    nsca_load_chart
    """
    return _between(LOAD_CHART, repetitions)


@published(fraction_1rm=CHART_SHARES)
def repetitions_at_fraction_nsca_chart(fraction_1rm: float) -> float:
    """Repetitions to failure at a share of 1RM, load chart.

    Parameters
    ----------
    fraction_1rm : load as a share of the one-repetition maximum [1], 0.7 to 1

    Returns
    -------
    repetitions to failure, not rounded [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Tolerance quoted for the chart: 0.5 to 2 % of 1RM by training status. No entry for
    eleven repetitions. Straight line between entries.

    References
    ----------
    nsca_load_chart
    """
    return _between({share: repetitions for repetitions, share in LOAD_CHART.items()}, fraction_1rm)


@published(load_kg=LOAD, repetitions=CHART_REPETITIONS)
def one_rep_max_nsca_chart(load_kg: float, repetitions: float) -> float:
    """One-repetition maximum, load chart.

    Parameters
    ----------
    load_kg : load lifted to failure [kg], more than 0 and at most 1000
    repetitions : repetitions to failure [1], 1 to 12

    Returns
    -------
    one-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Load divided by the share of its repetitions. Tolerance quoted for the chart: 0.5 to 2 %
    of 1RM by training status. No entry for eleven repetitions.

    References
    ----------
    nsca_load_chart
    """
    return load_kg / _between(LOAD_CHART, repetitions)


@published(repetitions=ESSENTIALS_REPETITIONS)
def fraction_at_repetitions_nsca_essentials(repetitions: float) -> float:
    """Share of 1RM for a number of repetitions, handbook table.

    Parameters
    ----------
    repetitions : repetitions to failure [1], 1 to 15

    Returns
    -------
    load as a share of the one-repetition maximum [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    The table is from memory, not confirmed; a second page also gives 65 % for fifteen
    repetitions. Straight line between entries.

    References
    ----------
    nsca_essentials_recalled
    """
    return _between(ESSENTIALS_TABLE, repetitions)


@published(fraction_1rm=ESSENTIALS_SHARES)
def repetitions_at_fraction_nsca_essentials(fraction_1rm: float) -> float:
    """Repetitions to failure at a share of 1RM, handbook table.

    Parameters
    ----------
    fraction_1rm : load as a share of the one-repetition maximum [1], 0.65 to 1

    Returns
    -------
    repetitions to failure, not rounded [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    The table is from memory, not confirmed; a second page also gives 65 % for fifteen
    repetitions. Straight line between entries.

    References
    ----------
    nsca_essentials_recalled
    """
    return _between(
        {share: repetitions for repetitions, share in ESSENTIALS_TABLE.items()}, fraction_1rm
    )


@published(load_kg=LOAD, repetitions=ESSENTIALS_REPETITIONS)
def one_rep_max_nsca_essentials(load_kg: float, repetitions: float) -> float:
    """One-repetition maximum, handbook table.

    Parameters
    ----------
    load_kg : load lifted to failure [kg], more than 0 and at most 1000
    repetitions : repetitions to failure [1], 1 to 15

    Returns
    -------
    one-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Load divided by the share of its repetitions. The table is from memory, not confirmed; a
    second page also gives 65 % for fifteen repetitions.

    References
    ----------
    nsca_essentials_recalled
    """
    return load_kg / _between(ESSENTIALS_TABLE, repetitions)
