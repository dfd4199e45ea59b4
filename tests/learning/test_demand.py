"""The closed form of what a complex demands, against every repetition done in turn."""

from datetime import date

import numpy as np
import pytest

from learning.invented_work import Bodies, Nature, critical_load_kg, invented_works
from squadwright.learning.demand import Asked, Demand
from squadwright.learning.history import History, Trial, Work
from squadwright.learning.prior import prior_of
from squadwright.learning.world import World
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.fatigue import FatigueModel
from squadwright.planning.dose.problem import CapacityBasis, LiftCapacity

MODEL = FatigueModel()
WORKS = invented_works()[:5]


def people(work: Work, count: int) -> tuple[Demand, FloatArray]:
    """The demand of a work, and some people drawn from the prior (logs)."""
    known = {
        lift: LiftCapacity(100.0, 0.065, CapacityBasis.TESTED) for lift in work.reference_lifts
    }
    done = Trial("one", date(2026, 1, 7), work, 20.0, work.rounds)
    prior = prior_of(History("somebody", date(2026, 1, 5), known, (done,)), World())
    drawn = np.random.default_rng(7).multivariate_normal(prior.mean, prior.covariance, count)
    return Demand.of(work.movements, prior.names, MODEL), drawn


def asked(work: Work, points: list[tuple[int, float]], count: int) -> Asked:
    return Asked(
        np.full((count, len(points)), work.rest_s),
        np.tile([number for number, _ in points], (count, 1)),
        np.tile([reserve for _, reserve in points], (count, 1)),
    )


@pytest.mark.parametrize("work", WORKS)
@pytest.mark.parametrize("reserve", [0, 2])
def test_the_load_is_the_heaviest_at_which_no_repetition_is_lost(work: Work, reserve: int) -> None:
    demand, drawn = people(work, 12)
    place = {name: index for index, name in enumerate(demand.names)}
    bodies = Bodies(
        np.exp(drawn @ demand.picks.T),
        *(np.exp(drawn[:, place[n]]) for n in ("endurance", "recovery", "slow recovery")),
    )
    in_turn = critical_load_kg(work, bodies, Nature(), [reserve] * len(work.movements))
    loads = demand.log_loads(drawn, asked(work, [(work.rounds, float(reserve))], 12), MODEL)
    np.testing.assert_allclose(loads[:, 0], np.log(in_turn), atol=1e-6)


@pytest.mark.parametrize("work", WORKS)
def test_slopes_are_those_of_small_differences(work: Work) -> None:
    demand, drawn = people(work, 10)
    points = asked(work, [(work.rounds, 0.0), (1, -2.0), (2, 0.5), (work.rounds, 3.0)], 10)
    loads, slopes = demand.slopes(drawn, points, MODEL)
    np.testing.assert_allclose(loads, demand.log_loads(drawn, points, MODEL))
    small = 1e-5
    for place in range(drawn.shape[1]):
        step = small * np.eye(drawn.shape[1])[place]
        up, down = (demand.log_loads(drawn + sign * step, points, MODEL) for sign in (1, -1))
        np.testing.assert_allclose(slopes[..., place], (up - down) / (2 * small), atol=1e-7)
