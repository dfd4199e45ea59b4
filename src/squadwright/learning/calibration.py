"""How often the forecast was right: each chance, as it was known that morning, against what came.

A trial counts where it shows whether he can: he did everything, or lost repetitions. Who came
late, had pain or worked under a restriction is left out, whatever he did: to keep only those of
them who did it all would flatter the forecast and the athlete.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from functools import cached_property
from itertools import pairwise

import numpy as np

from squadwright.learning.baselines import BASELINES, Forecaster, forecaster, seen
from squadwright.learning.fit import fit_many
from squadwright.learning.forecast import forecast
from squadwright.learning.history import History, Trial
from squadwright.learning.scores import (
    Average,
    average_of,
    brier_score,
    crps_of_counts,
    wilson_interval,
)
from squadwright.planning.dose.draws import FloatArray

# Older forecasts say less of how the next one will be, and each takes a fit: our choice.
MOST_OF_AN_ATHLETE = 30
# Doses aim at about 90 %, so the bands are narrower there: our choice.
BAND_ENDS = (0.0, 0.5, 0.7, 0.8, 0.9, 1.0)
_FITTED_AT_ONCE = 100


class Rule(StrEnum):
    """What a chance, or a dose, goes by. The plain ones are named as in ``baselines``."""

    MODEL = "forecast"
    LAST_LOAD = "last load"
    WEAKEST_LIFT = "share of the weakest lift"
    SAME_AS_EVERYONE = "same as everyone"


PLAIN_RULES = (Rule.LAST_LOAD, Rule.WEAKEST_LIFT, Rule.SAME_AS_EVERYONE)


@dataclass(frozen=True)
class Asked:
    """A trial, and what was known of the athlete in the morning of its day."""

    before: History
    trial: Trial


@dataclass(frozen=True)
class Said:
    """What one rule said of a trial, and how near that came; ``crps`` is in rounds."""

    chance: float
    brier: float
    crps: float


@dataclass(frozen=True, eq=False)
class Judged:
    """A trial with what each rule had said of it."""

    athlete: str
    session: str
    held_on: date
    rounds: int
    clean_rounds: int
    said: Mapping[Rule, Said]

    @property
    def was_done(self) -> bool:
        """Whether he did every repetition of every round."""
        return self.clean_rounds == self.rounds

    @property
    def chance(self) -> float:
        """The chance that the forecast gave."""
        return self.said[Rule.MODEL].chance


@dataclass(frozen=True)
class Band:
    """Forecasts whose chance lay between two bounds: what was expected of them, what came."""

    low: float
    high: float
    count: int
    expected: float
    done: int

    @property
    def mean_chance(self) -> float:
        """The chance that was said, on average; of none, the middle of the band."""
        return self.expected / self.count if self.count else (self.low + self.high) / 2

    @property
    def interval(self) -> tuple[float, float]:
        """Bounds of the share that is done in the long run, 95 %; of none, 0 to 1."""
        return wilson_interval(self.done, self.count) if self.count else (0.0, 1.0)


@dataclass(frozen=True, eq=False)
class Tally:
    """Forecasts in order of time, summed up. ``groups`` are those that hang together.

    ``left_out`` counts trials that say nothing: stopped by something else than strength.
    """

    judged: tuple[Judged, ...]
    groups: tuple[str, ...]
    left_out: int

    @property
    def count(self) -> int:
        """How many forecasts."""
        return len(self.judged)

    @property
    def done(self) -> int:
        """How many were done whole."""
        return sum(each.was_done for each in self.judged)

    @property
    def expected(self) -> float:
        """How many were to be expected by the chances."""
        return float(sum(each.chance for each in self.judged))

    @cached_property
    def bands(self) -> tuple[Band, ...]:
        """The forecasts by the chance that was said; each band takes its lower bound in."""
        return tuple(self._band(low, high) for low, high in pairwise(BAND_ENDS))

    @cached_property
    def excess(self) -> Average | None:
        """What came, less the chance said, on average: below zero, the chances were too high."""
        return self._average([each.was_done - each.chance for each in self.judged])

    def brier(self, rule: Rule) -> float:
        """Mean Brier score of a rule."""
        return float(np.mean([each.said[rule].brier for each in self.judged]))

    def crps(self, rule: Rule) -> float:
        """Mean continuous ranked probability score of a rule, in rounds."""
        return float(np.mean([each.said[rule].crps for each in self.judged]))

    @cached_property
    def against(self) -> Mapping[Rule, Average]:
        """Brier score of the forecast less that of each plain rule: below zero it was nearer."""
        found = {}
        for rule in PLAIN_RULES:
            differences = [e.said[Rule.MODEL].brier - e.said[rule].brier for e in self.judged]
            average = self._average(differences)
            if average is not None:
                found[rule] = average
        return found

    def _average(self, values: Sequence[float]) -> Average | None:
        return average_of(values, self.groups) if values else None

    def _band(self, low: float, high: float) -> Band:
        inside = [
            each
            for each in self.judged
            if low <= each.chance < high or (each.chance == high == BAND_ENDS[-1])
        ]
        expected = float(sum(each.chance for each in inside))
        return Band(low, high, len(inside), expected, sum(each.was_done for each in inside))


@dataclass(frozen=True, eq=False)
class Calibration:
    """How often the forecast was right, over the club and of each athlete by his id."""

    club: Tally
    athletes: Mapping[str, Tally]


Foretell = Callable[[Sequence[Asked]], Sequence[FloatArray]]


def foretold(asked: Sequence[Asked]) -> tuple[FloatArray, ...]:
    """The forecast of each: the chance of exactly 0, 1, ... all rounds.

    People with about as many sessions are fitted together, as many at once as go well.
    """
    order = sorted(range(len(asked)), key=lambda n: len(asked[n].before.trials))
    found: dict[int, FloatArray] = {}
    for start in range(0, len(order), _FITTED_AT_ONCE):
        places = order[start : start + _FITTED_AT_ONCE]
        fits = fit_many([asked[n].before for n in places])
        for n, fitted in zip(places, fits, strict=True):
            trial, known = asked[n].trial, asked[n].before.capacities
            learned = fitted.on(trial.held_on)
            found[n] = forecast(learned, trial.work, trial.load_kg, known).chance_of_rounds
    return tuple(found[n] for n in range(len(asked)))


def calibrate(histories: Iterable[History], *, foretell: Foretell = foretold) -> Calibration:
    """The last forecasts of each athlete, as they would have been made, against what came.

    ``foretell`` may remember: the same question has the same answer for ever.
    """
    squad = tuple(sorted(histories, key=lambda history: history.athlete))
    asked = sorted(
        (each for history in squad for each in _asked(history)),
        key=lambda each: (each.trial.held_on, each.before.athlete),
    )
    plain = _plain_chances(squad, asked)
    judged = [
        _judged(each, rounds, chances)
        for each, rounds, chances in zip(asked, foretell(asked), plain, strict=True)
    ]
    left_out = {history.athlete: _left_out(history) for history in squad}
    club = Tally(tuple(judged), tuple(j.athlete for j in judged), sum(left_out.values()))
    return Calibration(club, {a: _own(judged, a, count) for a, count in left_out.items()})


def _asked(history: History) -> list[Asked]:
    """His last trials that count, each with what was known before it."""
    shown = [trial for trial in history.trials if _counts(trial)][-MOST_OF_AN_ATHLETE:]
    return [Asked(history.before(trial.held_on), trial) for trial in shown]


def _counts(trial: Trial) -> bool:
    return trial.is_decided and not trial.spared


def _left_out(history: History) -> int:
    """Trials that do not count, since the first of those that are looked at."""
    shown = _asked(history)
    first = shown[0].trial.held_on if shown else date.min
    return sum(not _counts(t) for t in history.trials if t.held_on >= first)


def _own(judged: Sequence[Judged], athlete: str, left_out: int) -> Tally:
    own = tuple(each for each in judged if each.athlete == athlete)
    return Tally(own, tuple(each.session for each in own), left_out)


def _plain_chances(
    squad: Sequence[History], asked: Sequence[Asked]
) -> list[dict[Rule, FloatArray]]:
    """What each plain rule says of the chances of 0, 1, ... all rounds, from earlier days only."""
    past = {b.name: [each for history in squad for each in seen(b, history)] for b in BASELINES}
    short = [t for history in squad for t in history.trials if _counts(t) and not t.is_whole]
    rules: dict[date, list[Forecaster]] = {}
    found = []
    for each in asked:
        day, trial = each.trial.held_on, each.trial
        if day not in rules:
            rules[day] = [
                forecaster(b, [p for p in past[b.name] if p.held_on < day]) for b in BASELINES
            ]
        fell = Counter(
            t.clean_rounds for t in short if t.held_on < day and t.work.rounds == trial.work.rounds
        )
        chances = {
            Rule(rule.baseline.name): rule.chance(each.before, trial.work, trial.load_kg)
            for rule in rules[day]
        }
        found.append({r: _spread(c, trial.work.rounds, fell) for r, c in chances.items()})
    return found


def _spread(chance: float, rounds: int, fell: Mapping[int, int]) -> FloatArray:
    """The chances of 0, 1, ... all rounds, where only that of all is known.

    Short of all, as often after each round as in the squad's earlier trials; each round counts
    once more, so that none is ruled out.
    """
    short = np.array([1.0 + fell.get(number, 0) for number in range(rounds)])
    return np.append((1 - chance) * short / short.sum(), chance)


def _judged(asked: Asked, rounds: FloatArray, plain: Mapping[Rule, FloatArray]) -> Judged:
    trial = asked.trial
    return Judged(
        asked.before.athlete,
        trial.session,
        trial.held_on,
        trial.work.rounds,
        trial.clean_rounds,
        {rule: _said(spread, trial) for rule, spread in ({Rule.MODEL: rounds, **plain}).items()},
    )


def _said(spread: FloatArray, trial: Trial) -> Said:
    chance = float(spread[-1])
    return Said(
        chance, brier_score(chance, trial.is_whole), crps_of_counts(spread, trial.clean_rounds)
    )
