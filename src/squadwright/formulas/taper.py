"""Tapers: what is left of the usual load on each day before an event.

A share of load at unchanged effort is a share of minutes or rounds. Evidence in combat sports is
thin: one study of eleven judo athletes, one of twelve in taekwondo without a difference of groups.
"""

import math

from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

LENGTH = Range(low=1, high=60, is_whole=True, reason=PROGRAM_LIMIT)
DAY = Range(low=0, high=60, reason=PROGRAM_LIMIT)
FOLD = Range(low=0.1, high=1000, reason=PROGRAM_LIMIT)
CUT = Range(low=0, is_low_open=True, high=0.95, reason=PROGRAM_LIMIT)


@published(day=DAY, fold_d=FOLD)
def taper_share_exponential(day: float, fold_d: float) -> float:
    """Share of the usual load that is left on a day of an exponential taper.

    Parameters
    ----------
    day : day of the taper, counted from 1 [d], 0 to 60
    fold_d : days in which the load falls to 37 % [d], 0.1 to 1000

    Returns
    -------
    share of the usual load [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    exp(-t/tau). In triathletes a fall with 4 d did better than one with 8 d, and an exponential
    taper better than a step (banister_1999).

    References
    ----------
    banister_1999 taper_arithmetic
    """
    return math.exp(-day / fold_d)


@published(day=DAY, length_d=LENGTH)
def taper_share_linear(day: float, length_d: int) -> float:
    """Share of the usual load that is left on a day of a taper along a straight line.

    Parameters
    ----------
    day : day of the taper, counted from 1 [d], 0 to 60
    length_d : days of the taper [d], whole, 1 to 60

    Returns
    -------
    share of the usual load [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1 - t/(D + 1), and 0 beyond.

    References
    ----------
    taper_arithmetic
    """
    return max(0.0, 1 - day / (length_d + 1))


@published(length_d=LENGTH, fold_d=FOLD, first_day=Range(low=0, high=1, is_whole=True))
def taper_mean_share(length_d: int, fold_d: float, first_day: int = 1) -> float:
    """Mean share of the usual load over an exponential taper.

    Parameters
    ----------
    length_d : days of the taper [d], whole, 1 to 60
    fold_d : days in which the load falls to 37 % [d], 0.1 to 1000
    first_day : number of the first day [d], whole, 0 to 1

    Returns
    -------
    mean share of the usual load [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Mean of exp(-t/tau) over the days. Counted from 0, the first day is a full one and the mean
    lies higher.

    References
    ----------
    taper_arithmetic
    """
    days = range(first_day, first_day + length_d)
    return math.fsum(taper_share_exponential(day, fold_d) for day in days) / length_d


@published(length_d=LENGTH, cut_fraction=CUT)
def taper_fold_time(length_d: int, cut_fraction: float) -> float:
    """Days in which an exponential taper falls to 37 % so that it cuts a wanted share in all.

    Parameters
    ----------
    length_d : days of the taper [d], whole, 1 to 60
    cut_fraction : mean cut of the usual load [1], more than 0 and at most 0.95

    Returns
    -------
    days in which the load falls to 37 % [d]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or a cut too small to be one

    Notes
    -----
    The tau at which the mean of exp(-t/tau), t = 1 to D, is 1 minus the cut. A cut of 41 to 60 %
    of volume with intensity and frequency kept went with the largest effect (27 studies,
    effect 0.72, spread 0.36).

    References
    ----------
    bosquet_2007 taper_arithmetic
    """
    from scipy.optimize import brentq

    wanted = 1 - cut_fraction
    low, high = 0.02, 1e5

    def off(fold_d: float) -> float:
        return math.fsum(math.exp(-day / fold_d) for day in range(1, length_d + 1)) / length_d - (
            wanted
        )

    return float(brentq(off, low, high, xtol=1e-12, rtol=1e-14))
