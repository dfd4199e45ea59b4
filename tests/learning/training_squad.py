"""An invented squad that trains by one complex, for tests of what is made of its record.

How strong everybody is, and what he loses, follows from the fatigue model and from what the fit
assumes of people, so its forecasts should hold here, but for chance. Loads are chosen from what
was seen before, up after a whole complex and down after a lost one: a load chosen from the truth
would tell of it, to whoever looks at loads alone.
"""

from datetime import date, timedelta

import numpy as np

from squadwright.learning.demand import Asked, Demand
from squadwright.learning.history import History, Trial, Work
from squadwright.learning.prior import prior_of
from squadwright.learning.world import World
from squadwright.model.muscles import MuscleGroup
from squadwright.planning.dose.fatigue import FatigueModel
from squadwright.planning.dose.problem import (
    CapacityBasis,
    ComplexMovement,
    LiftCapacity,
    MovementPart,
)

FIRST = date(2026, 3, 2)
BETWEEN = timedelta(days=3)
PRESS, DEADLIFT = "overhead press", "deadlift"
CAPACITIES = {
    PRESS: LiftCapacity(60.0, 0.07, CapacityBasis.TESTED),
    DEADLIFT: LiftCapacity(140.0, 0.12, CapacityBasis.GUESSED),
}
COMPLEX = Work(
    (
        ComplexMovement(
            "stiff-leg deadlift",
            (MovementPart({MuscleGroup.HIP_EXTENSORS: 1.0}, DEADLIFT, 0.8),),
            6,
        ),
        ComplexMovement(
            "push press",
            (
                MovementPart(
                    {MuscleGroup.SHOULDERS: 1.0, MuscleGroup.ELBOW_EXTENSORS: 0.8}, PRESS, 1.1
                ),
            ),
            6,
        ),
    ),
    rounds=4,
    rest_s=90.0,
)


def trial(day: int, load_kg: float, clean: int, lost: int = 0, **more: object) -> Trial:
    """One session of the complex, so many sessions after the first."""
    held_on = FIRST + day * BETWEEN
    return Trial(f"s{day}", held_on, COMPLEX, load_kg, clean, lost, **more)  # type: ignore[arg-type]


def history_of(athlete: str, trials: tuple[Trial, ...]) -> History:
    """One athlete of the squad with what he did."""
    return History(athlete, FIRST - timedelta(days=7), CAPACITIES, trials)


def squad(people: int, sessions: int, seed: int = 1) -> tuple[History, ...]:
    """Histories of people who are as the fit assumes people to be."""
    rng = np.random.default_rng(seed)
    return tuple(_one(f"A{n:02d}", sessions, rng) for n in range(people))


def _one(athlete: str, sessions: int, rng: np.random.Generator) -> History:
    world, rounds = World(), COMPLEX.rounds
    prior = prior_of(history_of(athlete, (trial(0, 20.0, rounds),)), world)
    asked = Asked(
        np.full((1, rounds), COMPLEX.rest_s),
        np.arange(1, rounds + 1)[None, :],
        np.zeros((1, rounds)),
    )
    demand = Demand.of(COMPLEX.movements, prior.names, FatigueModel())
    truth = rng.multivariate_normal(prior.mean, prior.covariance)
    borne = demand.log_loads(truth[None, :], asked, FatigueModel())[0]
    expected = demand.log_loads(prior.mean[None, :], asked, FatigueModel())[0, -1]
    walk, trials, aim = 0.0, [], expected - 0.15
    for day in range(sessions):
        walk += rng.normal(0, np.sqrt(world.drift_variance(BETWEEN.days)))
        today = borne + walk + rng.normal(0, world.day_sd)
        load_kg = round(float(np.exp(aim + rng.normal(0, 0.03))) * 2) / 2
        clean = int(np.cumprod(today >= np.log(load_kg)).sum())
        lost = 0 if clean == rounds else int(rng.integers(1, 4))
        trials.append(trial(day, load_kg, clean, lost))
        aim += -0.06 if lost else 0.02
    return history_of(athlete, tuple(trials))
