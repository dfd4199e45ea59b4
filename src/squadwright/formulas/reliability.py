"""How well a test repeats itself: typical error and correlation from two trials of one group."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from squadwright.errors import InvalidInput
from squadwright.formulas.published import PROGRAM_LIMIT, Range, Series, published

VALUE = Range(low=-1e6, high=1e6, reason=PROGRAM_LIMIT)
RESULT = Range(low=0, is_low_open=True, high=1e6, reason=PROGRAM_LIMIT)
TRIAL = Series(VALUE, at_least=3)
POSITIVE_TRIAL = Series(RESULT, at_least=3)


def standard_deviation(values: Sequence[float]) -> float:
    """Standard deviation with n - 1."""
    middle = math.fsum(values) / len(values)
    return math.sqrt(math.fsum((value - middle) ** 2 for value in values) / (len(values) - 1))


def _differences(first: Sequence[float], second: Sequence[float]) -> list[float]:
    if len(first) != len(second):
        raise InvalidInput(
            "second",
            f"holds {len(second)} numbers where first holds {len(first)}",
            "Give both trials of the same athletes in the same order",
        )
    return [after - before for before, after in zip(first, second, strict=True)]


@dataclass(frozen=True)
class MeanSquares:
    """Mean squares of a table of athletes by two trials."""

    athletes: float
    trials: float
    error: float


def mean_squares(first: Sequence[float], second: Sequence[float]) -> MeanSquares:
    """Split the variation of two trials into athletes, trials and error."""
    changes = _differences(first, second)
    people = len(first)
    means = [(one + two) / 2 for one, two in zip(first, second, strict=True)]
    mean_change = math.fsum(changes) / people
    return MeanSquares(
        athletes=2 * standard_deviation(means) ** 2,
        trials=people * mean_change**2 / 2,
        error=standard_deviation(changes) ** 2 / 2,
    )


def _share(part: float, whole: float) -> float:
    if whole <= 0:
        raise InvalidInput(
            "first", "holds the same result for every athlete", "Test athletes who differ"
        )
    return part / whole


@published(first=TRIAL, second=TRIAL)
def typical_error(first: Sequence[float], second: Sequence[float]) -> float:
    """Typical error of a test from two trials.

    Parameters
    ----------
    first : results of the first trial, one per athlete [unit of the test],
        3 or more numbers, each -1000000 to 1000000
    second : results of the second trial, same athletes, same order [unit of the test],
        3 or more numbers, each -1000000 to 1000000

    Returns
    -------
    typical error [unit of the test]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : trials of unequal length

    Notes
    -----
    SD of the differences over the square root of two (not SD of the results over it).
    Better from fifty people and three trials.

    References
    ----------
    hopkins_2000
    """
    return standard_deviation(_differences(first, second)) / math.sqrt(2)


@published(first=POSITIVE_TRIAL, second=POSITIVE_TRIAL)
def typical_error_percent(first: Sequence[float], second: Sequence[float]) -> float:
    """Typical error as a percentage of the mean of both trials.

    Parameters
    ----------
    first : results of the first trial, one per athlete [unit of the test],
        3 or more numbers, each more than 0 and at most 1000000
    second : results of the second trial, same athletes, same order [unit of the test],
        3 or more numbers, each more than 0 and at most 1000000

    Returns
    -------
    coefficient of variation [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : trials of unequal length

    Notes
    -----
    100 TE / mean. From memory.

    References
    ----------
    hopkins_2000 reliability_recalled
    """
    mean = math.fsum([*first, *second]) / (2 * len(first))
    return 100 * typical_error(first, second) / mean


@published(first=POSITIVE_TRIAL, second=POSITIVE_TRIAL)
def typical_error_percent_log(first: Sequence[float], second: Sequence[float]) -> float:
    """Typical error as a percentage by logarithms.

    Parameters
    ----------
    first : results of the first trial, one per athlete [unit of the test],
        3 or more numbers, each more than 0 and at most 1000000
    second : results of the second trial, same athletes, same order [unit of the test],
        3 or more numbers, each more than 0 and at most 1000000

    Returns
    -------
    coefficient of variation [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : trials of unequal length

    Notes
    -----
    100 (exp(TE of the natural logarithms) - 1). From memory.

    References
    ----------
    hopkins_2000 reliability_recalled
    """
    error = typical_error([math.log(v) for v in first], [math.log(v) for v in second])
    return 100 * math.expm1(error)


@published(first=TRIAL, second=TRIAL)
def pooled_standard_deviation(first: Sequence[float], second: Sequence[float]) -> float:
    """Standard deviation between athletes, pooled over two trials.

    Parameters
    ----------
    first : results of the first trial, one per athlete [unit of the test],
        3 or more numbers, each -1000000 to 1000000
    second : results of the second trial, same athletes, same order [unit of the test],
        3 or more numbers, each -1000000 to 1000000

    Returns
    -------
    standard deviation [unit of the test]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : trials of unequal length

    Notes
    -----
    Root of the mean of both variances.

    References
    ----------
    hopkins_2000
    """
    _differences(first, second)
    return math.sqrt((standard_deviation(first) ** 2 + standard_deviation(second) ** 2) / 2)


@published(first=TRIAL, second=TRIAL)
def intraclass_correlation_3_1(first: Sequence[float], second: Sequence[float]) -> float:
    """Intraclass correlation (3,1) of two trials.

    Parameters
    ----------
    first : results of the first trial, one per athlete [unit of the test],
        3 or more numbers, each -1000000 to 1000000
    second : results of the second trial, same athletes, same order [unit of the test],
        3 or more numbers, each -1000000 to 1000000

    Returns
    -------
    intraclass correlation [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : trials of unequal length

    Notes
    -----
    (MS_athletes - MS_error) / (MS_athletes + MS_error), trials fixed, one trial. Negative
    when noise exceeds the differences between athletes.

    References
    ----------
    shrout_fleiss_recalled
    """
    found = mean_squares(first, second)
    return _share(found.athletes - found.error, found.athletes + found.error)


@published(first=TRIAL, second=TRIAL)
def intraclass_correlation_2_1(first: Sequence[float], second: Sequence[float]) -> float:
    """Intraclass correlation (2,1) of two trials.

    Parameters
    ----------
    first : results of the first trial, one per athlete [unit of the test],
        3 or more numbers, each -1000000 to 1000000
    second : results of the second trial, same athletes, same order [unit of the test],
        3 or more numbers, each -1000000 to 1000000

    Returns
    -------
    intraclass correlation [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : trials of unequal length

    Notes
    -----
    (MS_athletes - MS_error) / (MS_athletes + MS_error + 2 (MS_trials - MS_error) / n),
    trials random, one trial.

    References
    ----------
    shrout_fleiss_recalled
    """
    found = mean_squares(first, second)
    between_trials = 2 * (found.trials - found.error) / len(first)
    return _share(found.athletes - found.error, found.athletes + found.error + between_trials)


@published(first=TRIAL, second=TRIAL)
def intraclass_correlation_3_k(first: Sequence[float], second: Sequence[float]) -> float:
    """Intraclass correlation (3,k) of the mean of two trials.

    Parameters
    ----------
    first : results of the first trial, one per athlete [unit of the test],
        3 or more numbers, each -1000000 to 1000000
    second : results of the second trial, same athletes, same order [unit of the test],
        3 or more numbers, each -1000000 to 1000000

    Returns
    -------
    intraclass correlation [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : trials of unequal length

    Notes
    -----
    (MS_athletes - MS_error) / MS_athletes, trials fixed, mean of two.

    References
    ----------
    shrout_fleiss_recalled
    """
    found = mean_squares(first, second)
    return _share(found.athletes - found.error, found.athletes)
