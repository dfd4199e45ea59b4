"""A world made so that the fit must lose: people can do what they did last, whatever their tests.

Nobody should take it for how people are. There is no strength in it that tests, muscles, rounds or
rests could tell of: each bears the load he last did whole and a little over, so that a light day
makes him weak, and how much he says he had left is a guess. It shows whether a plain rule takes
over where one is nearer. No real data.
"""

from dataclasses import replace

import numpy as np

from learning.invented_squad import STEP_KG, InventedSquad, InventedWorld, invented_squad
from learning.invented_work import COMPLEXES, invented_works
from squadwright.learning.history import History, Trial, Work
from squadwright.planning.dose.draws import FloatArray

NAME = "made for it: all that counts is the load last done"
# What he bears over the load last done [log], on average and from day to day.
OVER_LAST, DAY_SD = 0.04, 0.01
# What the coach has him try over it [log].
STEP_MEAN, STEP_SD = 0.02, 0.07
# How far his first load is from one that a test would give [log SD].
APART_SD = 0.15


def habit_squad(count: int = 100, sessions: int = 12, *, seed: int = 1) -> InventedSquad:
    """A squad of that world, training by one complex; its oracle's dose is unknown (NaN)."""
    plain = invented_squad(count, sessions, world=InventedWorld(NAME), seed=seed)
    works = invented_works()[:: len(COMPLEXES)]
    chosen = tuple(works[number % len(works)] for number in range(sessions))
    rng = np.random.default_rng([seed, 1])
    lived = [_lived(rng, history, chosen) for history in plain.histories]
    return replace(
        plain,
        histories=tuple(
            replace(history, trials=trials)
            for history, (trials, _) in zip(plain.histories, lived, strict=True)
        ),
        works=chosen,
        log_critical=np.array([borne for _, borne in lived]),
        oracle_kg=np.full((count, sessions), np.nan),
    )


def _lived(
    rng: np.random.Generator, history: History, works: tuple[Work, ...]
) -> tuple[tuple[Trial, ...], FloatArray]:
    """The days of a history, as this world has them, with what he bore on each [log kg]."""
    last = np.log(history.trials[0].load_kg) + rng.normal(0, APART_SD)
    trials, borne = [], []
    for old, work in zip(history.trials, works, strict=True):
        tried_kg = float(np.exp(last + rng.normal(STEP_MEAN, STEP_SD)))
        load_kg = max(STEP_KG * round(tried_kg / STEP_KG), 2 * STEP_KG)
        borne.append(last + rng.normal(OVER_LAST, DAY_SD))
        if borne[-1] >= np.log(load_kg):
            last = np.log(load_kg)
            said = float(rng.integers(0, 5))
            trials.append(Trial(old.session, old.held_on, work, load_kg, work.rounds, 0, said))
        else:
            clean, lost = int(rng.integers(0, work.rounds)), int(rng.integers(1, 4))
            trials.append(Trial(old.session, old.held_on, work, load_kg, clean, lost))
    return tuple(trials), np.array(borne)
