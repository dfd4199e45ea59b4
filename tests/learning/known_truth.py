"""Scores of the fit on invented athletes, whose truth it never sees. No real data.

Before each session everything is fitted anew to the sessions before it; what was forecast is then
held against what happened, and against the truth.
"""

from collections.abc import Collection
from dataclasses import dataclass
from math import log

import numpy as np

from learning.invented_squad import InventedSquad
from squadwright.learning.baselines import BASELINES, Forecaster, Past, forecaster, seen
from squadwright.learning.fit import fit_many
from squadwright.learning.forecast import forecast
from squadwright.learning.history import Trial
from squadwright.planning.dose import solve_complex_dose
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.problem import ComplexDoseProblem, Learned

FIT = "the fit"
RESAMPLES = 2000


@dataclass(frozen=True)
class Scores:
    """What came of the forecasts, people x sessions; NaN where there was nothing to score.

    ``is_covered``: the true margin lay in the 80 % interval. ``brier``: squared error of the
    chance of completing, by forecaster, where strength decided. ``dose_error``: dose over the
    oracle's, less one.
    """

    is_covered: FloatArray
    brier: dict[str, FloatArray]
    chance: dict[str, FloatArray]
    dose_error: FloatArray

    def coverage(self) -> float:
        """Share of true margins within their 80 % interval."""
        return float(np.nanmean(self.is_covered))

    def gain(self, baseline: str, first: int, last: int) -> tuple[float, float, float]:
        """How much better the fit's Brier score is, sessions first to last, with its interval.

        The 95 % interval comes from drawing athletes anew, with their sessions.
        """
        over = slice(first - 1, last)
        better = (self.brier[baseline] - self.brier[FIT])[:, over]
        total, number = np.nansum(better, axis=1), (~np.isnan(better)).sum(axis=1)
        drawn = np.random.default_rng(5).integers(0, len(total), (RESAMPLES, len(total)))
        means = total[drawn].sum(axis=1) / number[drawn].sum(axis=1)
        low, high = np.quantile(means, [0.025, 0.975])
        return float(total.sum() / number.sum()), float(low), float(high)

    def dose_error_in(self, session: int) -> float:
        """Mean absolute error of the dose in a session, as a share of the oracle's."""
        return float(np.nanmean(np.abs(self.dose_error[:, session - 1])))


def score(squad: InventedSquad, *, doses_in: Collection[int]) -> Scores:
    """Everything forecast one session ahead, from nothing known but what came before.

    The dose is worked out in those sessions alone, counted from 1.
    """
    shape = (len(squad.histories), len(squad.days))
    empty = np.full(shape, np.nan)
    names = [FIT, *(baseline.name for baseline in BASELINES)]
    chance = {name: empty.copy() for name in names}
    covered, dose_error, done = empty.copy(), empty.copy(), empty.copy()
    past = [[p for h in squad.histories for p in seen(b, h)] for b in BASELINES]
    for s, day in enumerate(squad.days):
        before = [history.before(day) for history in squad.histories]
        lines = [_line(n, each, squad, s) for n, each in enumerate(past)]
        for n, fitted in enumerate(fit_many(before, world=squad.world.assumed)):
            trial, learned = squad.histories[n].trials[s], fitted.on(day)
            told = forecast(learned, trial.work, trial.load_kg, before[n].capacities)
            low, high = told.margin_interval(0.8)
            margin = squad.log_critical[n, s] - log(trial.load_kg)
            covered[n, s] = low <= margin <= high
            chance[FIT][n, s] = told.completes
            for line in lines:
                chance[line.baseline.name][n, s] = line.chance(before[n], trial.work, trial.load_kg)
            if trial.is_decided:
                done[n, s] = trial.is_whole
            if s + 1 in doses_in:
                dose_error[n, s] = _dose(squad, n, trial, learned) / squad.oracle_kg[n, s] - 1
    brier = {name: (each - done) ** 2 for name, each in chance.items()}
    return Scores(covered, brier, chance, dose_error)


def _line(place: int, past: list[Past], squad: InventedSquad, session: int) -> Forecaster:
    return forecaster(BASELINES[place], [p for p in past if p.held_on < squad.days[session]])


def _dose(squad: InventedSquad, athlete: int, trial: Trial, learned: Learned) -> float:
    work = trial.work
    problem = ComplexDoseProblem(
        work.movements,
        work.rounds,
        work.rest_s,
        squad.histories[athlete].capacities,
        learned=learned,
    )
    return solve_complex_dose(problem).modelled_limit_kg
