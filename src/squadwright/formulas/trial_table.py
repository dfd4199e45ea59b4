"""How well a test repeats itself over two trials or more, with limits that show few athletes.

A typical error from eight athletes may be half or twice as large in truth: the limits go with it
(hopkins_2000 asks for about fifty people and three trials; the limits are those of textbooks,
reliability_recalled and shrout_fleiss_recalled).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from squadwright.errors import InvalidInput
from squadwright.formulas.detectable_change import smallest_worthwhile_change
from squadwright.formulas.measured import VALUE
from squadwright.formulas.published import PROGRAM_LIMIT

FEWEST_ATHLETES = 3
FEWEST_TRIALS = 2
WANTED_ATHLETES = 50
WANTED_TRIALS = 3
CONFIDENCE = 0.95


@dataclass(frozen=True)
class WithLimits:
    """A number and the limits of its 95 % interval."""

    value: float
    low: float
    high: float


@dataclass(frozen=True)
class TrialTable:
    """Mean squares of athletes by trials, and what follows from them.

    ``correlation_1_1``, ``_2_1`` and ``_3_1`` are intraclass correlations of one trial: trials
    nested, random, fixed; ``average_...`` are those of the mean of all trials.
    """

    athletes: int
    trials: int
    between_athletes: float
    between_trials: float
    within_athletes: float
    error: float

    @property
    def correlation_1_1(self) -> float:
        """Each athlete with trials of his own."""
        noise = self.within_athletes
        return _share(
            self.between_athletes - noise, self.between_athletes + (self.trials - 1) * noise
        )

    @property
    def average_1_k(self) -> float:
        """The same, of the mean."""
        return _share(self.between_athletes - self.within_athletes, self.between_athletes)

    @property
    def _trials_in_athletes(self) -> float:
        return (self.between_trials - self.error) / self.athletes

    @property
    def correlation_2_1(self) -> float:
        """Trials as a sample of all trials: a shift of everybody counts as noise."""
        whole = self.between_athletes + (self.trials - 1) * self.error
        return _share(
            self.between_athletes - self.error, whole + self.trials * self._trials_in_athletes
        )

    @property
    def average_2_k(self) -> float:
        """The same, of the mean."""
        return _share(
            self.between_athletes - self.error, self.between_athletes + self._trials_in_athletes
        )

    @property
    def correlation_3_1(self) -> float:
        """These trials only: a shift of everybody is no noise."""
        whole = self.between_athletes + (self.trials - 1) * self.error
        return _share(self.between_athletes - self.error, whole)

    @property
    def average_3_k(self) -> float:
        """The same, of the mean."""
        return _share(self.between_athletes - self.error, self.between_athletes)

    @property
    def error_freedom(self) -> int:
        """Degrees of freedom behind the error."""
        return (self.athletes - 1) * (self.trials - 1)

    @property
    def smallest_worthwhile(self) -> float:
        """0.2 of the standard deviation between athletes, its noise taken out (hopkins_2000)."""
        true = max(self.between_athletes - self.error, 0.0) / self.trials
        return smallest_worthwhile_change(math.sqrt(true))

    def correlation_with_limits(self) -> WithLimits:
        """Intraclass correlation (3,1) with its 95 % limits, from the F distribution."""
        from scipy import stats

        if self.error <= 0:
            return WithLimits(self.correlation_3_1, 1.0, 1.0)
        ratio = self.between_athletes / self.error
        tail, over, under = (1 - CONFIDENCE) / 2, self.athletes - 1, self.error_freedom
        low = ratio / float(stats.f.isf(tail, over, under))
        high = ratio * float(stats.f.isf(tail, under, over))
        return WithLimits(self.correlation_3_1, *(_of_ratio(f, self.trials) for f in (low, high)))

    def typical_error_with_limits(self) -> WithLimits:
        """Typical error with its 95 % limits, from the chi-square distribution."""
        from scipy import stats

        error, freedom = math.sqrt(self.error), self.error_freedom
        tail = (1 - CONFIDENCE) / 2
        high, low = (float(stats.chi2.ppf(p, freedom)) for p in (tail, 1 - tail))
        return WithLimits(
            error, error * math.sqrt(freedom / low), error * math.sqrt(freedom / high)
        )

    @property
    def cautions(self) -> tuple[str, ...]:
        """What limits the use of these numbers."""
        if self.athletes >= WANTED_ATHLETES and self.trials >= WANTED_TRIALS:
            return ()
        return (
            f"From {self.athletes} athletes and {self.trials} trials; about {WANTED_ATHLETES} and "
            f"{WANTED_TRIALS} are wanted. Read the limits, not the number alone.",
        )


def trial_table(rows: Sequence[Sequence[float]]) -> TrialTable:
    """Mean squares of a table: one row for each athlete, one number for each trial."""
    widths = {len(row) for row in rows}
    if len(rows) < FEWEST_ATHLETES or widths - {max(widths)} or max(widths) < FEWEST_TRIALS:
        raise InvalidInput(
            "rows",
            f"holds {len(rows)} athletes with {sorted(widths)} trials",
            f"Give {FEWEST_ATHLETES} athletes or more, each with the same {FEWEST_TRIALS} trials "
            "or more; leave out who missed one",
        )
    for number, row in enumerate(rows):
        for trial, value in enumerate(row):
            VALUE.check(f"rows[{number}][{trial}]", value, lambda: PROGRAM_LIMIT)
    table = np.array(rows, dtype=np.float64)
    people, trials = table.shape
    of_athletes, of_trials = table.mean(axis=1), table.mean(axis=0)
    rest = table - of_athletes[:, None] - of_trials[None, :] + table.mean()
    own = table - of_athletes[:, None]
    return TrialTable(
        athletes=people,
        trials=trials,
        between_athletes=trials * float(of_athletes.var(ddof=1)),
        between_trials=people * float(of_trials.var(ddof=1)),
        within_athletes=float((own**2).sum()) / (people * (trials - 1)),
        error=float((rest**2).sum()) / ((people - 1) * (trials - 1)),
    )


def _of_ratio(ratio: float, trials: int) -> float:
    return (ratio - 1) / (ratio + trials - 1)


def _share(part: float, whole: float) -> float:
    if whole <= 0:
        raise InvalidInput(
            "rows", "holds no difference between athletes", "Test athletes who differ"
        )
    return part / whole
