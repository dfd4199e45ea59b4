"""How much of a change between two tests is more than noise.

A change counts against the minimal detectable change, or as the chances that it is real: never as a
raw percentage.
"""

import math
from dataclasses import dataclass

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

CHANGE = Range(low=-1e6, high=1e6, reason=PROGRAM_LIMIT)
ERROR = Range(low=0, is_low_open=True, high=1e6, reason=PROGRAM_LIMIT)
DEVIATION = Range(low=0, high=1e6, reason=PROGRAM_LIMIT)
CORRELATION = Range(low=0, high=1, reason="a share of the spread that is between athletes")

Z_95 = 1.96
Z_90 = 1.645


@published(standard_deviation_between=DEVIATION)
def smallest_worthwhile_change(standard_deviation_between: float) -> float:
    """Smallest worthwhile change of a test.

    Parameters
    ----------
    standard_deviation_between : standard deviation between athletes [unit of the test],
        0 to 1000000

    Returns
    -------
    smallest worthwhile change [unit of the test]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    0.2 SD between athletes; take the noise out of the SD first. 0.5 SD is moderate and 0.8
    SD large.

    References
    ----------
    hopkins_2000
    """
    return 0.2 * standard_deviation_between


@published(standard_deviation_between=DEVIATION, typical_error=DEVIATION)
def noise_free_standard_deviation(standard_deviation_between: float, typical_error: float) -> float:
    """Standard deviation between athletes with the noise taken out.

    Parameters
    ----------
    standard_deviation_between : standard deviation between athletes [unit of the test],
        0 to 1000000
    typical_error : typical error of the test [unit of the test],
        0 to 1000000

    Returns
    -------
    standard deviation [unit of the test]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or more noise than spread

    Notes
    -----
    sqrt(SD^2 - TE^2).

    References
    ----------
    hopkins_2000
    """
    if typical_error > standard_deviation_between:
        raise OutsidePublishedRange(
            "typical_error", typical_error, 0, standard_deviation_between, "noise above the spread"
        )
    return math.sqrt(standard_deviation_between**2 - typical_error**2)


@published(standard_deviation_between=DEVIATION, intraclass_correlation=CORRELATION)
def standard_error_of_measurement(
    standard_deviation_between: float, intraclass_correlation: float
) -> float:
    """Standard error of measurement from spread and correlation.

    Parameters
    ----------
    standard_deviation_between : standard deviation between athletes [unit of the test],
        0 to 1000000
    intraclass_correlation : intraclass correlation of the test [1], 0 to 1

    Returns
    -------
    standard error [unit of the test]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    SEM = SD sqrt(1 - ICC).

    References
    ----------
    hopkins_2000
    """
    return standard_deviation_between * math.sqrt(1 - intraclass_correlation)


@published(measurement_error=DEVIATION)
def minimal_detectable_change_95(measurement_error: float) -> float:
    """Minimal detectable change of one athlete at 95 %.

    Parameters
    ----------
    measurement_error : standard error of measurement or typical error [unit of the test],
        0 to 1000000

    Returns
    -------
    minimal detectable change [unit of the test]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1.96 sqrt(2) SEM. Pages that print 1.96 SEM leave out the error of the first test.

    References
    ----------
    minimal_detectable_change
    """
    return Z_95 * math.sqrt(2) * measurement_error


@published(measurement_error=DEVIATION)
def minimal_detectable_change_90(measurement_error: float) -> float:
    """Minimal detectable change of one athlete at 90 %.

    Parameters
    ----------
    measurement_error : standard error of measurement or typical error [unit of the test],
        0 to 1000000

    Returns
    -------
    minimal detectable change [unit of the test]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1.645 sqrt(2) SEM.

    References
    ----------
    minimal_detectable_change
    """
    return Z_90 * math.sqrt(2) * measurement_error


@dataclass(frozen=True)
class Chances:
    """Chances that a true change is better, trivial or worse; they sum to one."""

    better: float
    trivial: float
    worse: float


def chances_of_change(change: float, typical_error: float, smallest_worthwhile: float) -> Chances:
    """Chances that a seen change is real, by the normal curve.

    The error of a change is the typical error times the square root of two; ``change`` counts
    upwards as better. All three in the unit of the test, the last two more than 0.
    """
    for name, value in (
        ("typical_error", typical_error),
        ("smallest_worthwhile", smallest_worthwhile),
    ):
        ERROR.check(name, value, lambda: PROGRAM_LIMIT)
    CHANGE.check("change", change, lambda: PROGRAM_LIMIT)
    spread = typical_error * math.sqrt(2)
    better = _normal((change - smallest_worthwhile) / spread)
    worse = _normal((-change - smallest_worthwhile) / spread)
    return Chances(better, 1 - better - worse, worse)


def _normal(z: float) -> float:
    return math.erfc(-z / math.sqrt(2)) / 2
