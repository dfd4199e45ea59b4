"""How often a complex was finished, by routine, rounds and rest; and which differ beyond chance."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import sqrt

from squadwright.learning.history import Trial
from squadwright.learning.scores import wilson_interval

SHARE = 0.9
FEWEST = 8
"""Below so many nothing is said of a share: our default, no source."""
REST_STEP_S = 5


@dataclass(frozen=True, order=True)
class Template:
    """A complex as it was asked for: routine, rounds, and rest to the nearest 5 s."""

    routine: str
    rounds: int
    rest_s: int


@dataclass(frozen=True)
class Finished:
    """Of ``count`` athletes, each counted once a session, ``finished`` did every repetition."""

    template: Template
    finished: int
    count: int

    @property
    def is_few(self) -> bool:
        """Whether they are too few to say anything."""
        return self.count < FEWEST

    @property
    def interval(self) -> tuple[float, float]:
        """Bounds of the share in the long run, nine times in ten."""
        return wilson_interval(self.finished, self.count, SHARE)


@dataclass(frozen=True)
class Difference:
    """One template finished more often than another beyond chance; the bounds of how much."""

    more: Finished
    less: Finished
    low: float
    high: float


def is_counted(trial: Trial) -> bool:
    """Whether a trial says if the whole can be done: pain, lateness and plates do not count."""
    return trial.is_decided and not trial.spared and not trial.kit_limited


def finished_by_template(trials: Iterable[tuple[str, Trial]]) -> tuple[Finished, ...]:
    """The counts of each template, from trials with the name of their routine."""
    counts: dict[Template, list[bool]] = {}
    for routine, trial in trials:
        if is_counted(trial):
            rest_s = REST_STEP_S * round(trial.work.rest_s / REST_STEP_S)
            template = Template(routine, trial.work.rounds, rest_s)
            counts.setdefault(template, []).append(trial.is_whole)
    return tuple(Finished(t, sum(done), len(done)) for t, done in sorted(counts.items()))


def differences(rows: Sequence[Finished]) -> tuple[Difference, ...]:
    """Pairs that differ beyond chance, all pairs looked at together.

    The bounds are wider the more pairs there are (Bonferroni), so that one false difference among
    all of them comes up once in ten times at most.
    """
    pairs = list(combinations([row for row in rows if not row.is_few], 2))
    found = []
    for one, other in pairs:
        share = 1 - (1 - SHARE) / len(pairs)
        low, high = difference_interval(one, other, share)
        if low > 0:
            found.append(Difference(one, other, low, high))
        elif high < 0:
            found.append(Difference(other, one, -high, -low))
    return tuple(found)


def difference_interval(one: Finished, other: Finished, share: float) -> tuple[float, float]:
    """Bounds of the difference of two shares in the long run.

    Parameters
    ----------
    one, other
        Two independent counts, each of at least 1.
    share
        How sure the bounds are, 0 to 1.

    Returns
    -------
    tuple of float
        Least and greatest difference, -1 to 1.

    Notes
    -----
    From the Wilson bounds of each: Newcombe 1998, Statistics in Medicine 17:873-890, method 10.
    Both from memory.
    """
    a, b = one.finished / one.count, other.finished / other.count
    low_a, high_a = wilson_interval(one.finished, one.count, share)
    low_b, high_b = wilson_interval(other.finished, other.count, share)
    return (
        a - b - sqrt((a - low_a) ** 2 + (high_b - b) ** 2),
        a - b + sqrt((high_a - a) ** 2 + (b - low_b) ** 2),
    )
