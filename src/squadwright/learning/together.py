"""Histories with the same unknowns, laid out as arrays so that they are fitted together.

Axis 0 is people, axis 1 what was seen of them in order of time.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
import numpy.typing as npt

from squadwright.learning.demand import Asked, Demand, Point
from squadwright.learning.history import History, Work
from squadwright.learning.prior import prior_of
from squadwright.learning.sight import Sight, sight_of, sight_of_test
from squadwright.learning.world import World
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.fatigue import FatigueModel
from squadwright.planning.dose.problem import ComplexMovement
from squadwright.planning.dose.unknowns import strength_name

IntArray = npt.NDArray[np.int64]
ROLES = ("floor", "ceiling", "call", "beyond", "strain")


@dataclass(frozen=True, eq=False)
class Together:
    """People whose histories have the same unknowns, as arrays.

    Each demand goes with what each person is asked of it. ``point`` (by role) and ``lift`` are
    people x sights places of points (those of all demands in a row) and of unknowns, -1 for none.
    ``pace`` (people x sights) is the inverse variance of each step of the walk.
    """

    names: tuple[str, ...]
    demands: tuple[tuple[Demand, Asked], ...]
    means: FloatArray
    precisions: FloatArray
    log_load: FloatArray
    point: dict[str, IntArray]
    lift: IntArray
    call_sd: FloatArray
    call_side: IntArray
    test_variance: FloatArray
    pace: FloatArray
    drift: FloatArray

    def only(self, who: IntArray) -> "Together":
        """Some of the people."""
        return Together(
            names=self.names,
            demands=tuple((demand, asked.only(who)) for demand, asked in self.demands),
            means=self.means[who],
            precisions=self.precisions[who],
            log_load=self.log_load[who],
            point={role: places[who] for role, places in self.point.items()},
            lift=self.lift[who],
            call_sd=self.call_sd[who],
            call_side=self.call_side[who],
            test_variance=self.test_variance[who],
            pace=self.pace[who],
            drift=self.drift[who],
        )


@dataclass(frozen=True)
class Dated:
    """Something seen of a person on a day; a test has no work."""

    day: date
    sight: Sight
    work: Work | None


def dated_sights(history: History, world: World) -> tuple[Dated, ...]:
    """What was seen of a person, in order of time."""
    seen = [Dated(t.held_on, sight_of(t, world), t.work) for t in history.trials]
    seen += [Dated(retest.taken_on, sight_of_test(retest), None) for retest in history.retests]
    return tuple(sorted(seen, key=lambda each: each.day))


def together(histories: Sequence[History], model: FatigueModel, world: World) -> Together:
    """The arrays of some histories; their priors name the same unknowns."""
    priors = [prior_of(history, world) for history in histories]
    names = priors[0].names
    dated = [dated_sights(history, world) for history in histories]
    demands, point = _asked(dated, names, model)
    shape = (len(histories), max((len(row) for row in dated), default=0))
    lift, call_side = np.full(shape, -1), np.zeros(shape, dtype=np.int64)
    log_load = np.zeros(shape)
    call_sd, test_variance = np.ones(shape), np.ones(shape)
    pace, drift = np.ones(shape), np.zeros(shape)
    for n, (history, row) in enumerate(zip(histories, dated, strict=True)):
        before = history.known_on
        for s, each in enumerate(row):
            gap = max(0, (each.day - before).days)
            before, sight = each.day, each.sight
            pace[n, s], drift[n, s] = 1 / world.drift_variance(gap), world.drift_mean(gap)
            log_load[n, s] = sight.log_load
            call_sd[n, s], call_side[n, s] = sight.call_sd or 1.0, sight.call_side
            test_variance[n, s] = sight.test_variance or 1.0
            lift[n, s] = names.index(strength_name(sight.lift)) if sight.lift else -1
    return Together(
        names=names,
        demands=demands,
        means=np.stack([prior.mean for prior in priors]),
        precisions=np.linalg.inv(np.stack([prior.covariance for prior in priors])),
        log_load=log_load,
        point=point,
        lift=lift,
        call_sd=call_sd,
        call_side=call_side,
        test_variance=test_variance,
        pace=pace,
        drift=drift,
    )


def _asked(
    dated: Sequence[Sequence[Dated]], names: tuple[str, ...], model: FatigueModel
) -> tuple[tuple[tuple[Demand, Asked], ...], dict[str, IntArray]]:
    """Each complex with what every person is asked of it, and where the answers stand by role."""
    complexes, place_of = _complexes(dated)
    questions: list[list[list[tuple[float, Point]]]] = [[[] for _ in dated] for _ in complexes]
    where: list[tuple[str, int, int, int, int]] = []
    for n, row in enumerate(dated):
        for s, each in enumerate(row):
            if each.work is None:
                continue
            place = place_of[id(each.work)]
            mine = questions[place][n]
            for role in ROLES:
                wanted: Point | None = getattr(each.sight, role)
                if wanted is not None:
                    where.append((role, n, s, place, len(mine)))
                    mine.append((each.work.rest_s, wanted))
    starts, demands, start = [], [], 0
    for movements, by_person in zip(complexes, questions, strict=True):
        starts.append(start)
        if not any(by_person):
            continue
        start += max(len(mine) for mine in by_person)
        demands.append((Demand.of(movements, names, model), _as_arrays(by_person)))
    shape = (len(dated), max((len(row) for row in dated), default=0))
    point = {role: np.full(shape, -1) for role in ROLES}
    for role, n, s, place, index in where:
        point[role][n, s] = starts[place] + index
    return tuple(demands), point


def _complexes(
    dated: Sequence[Sequence[Dated]],
) -> tuple[list[tuple[ComplexMovement, ...]], dict[int, int]]:
    """The movements of all works, each once, and which of them a work has (by its identity)."""
    complexes: list[tuple[ComplexMovement, ...]] = []
    place_of: dict[int, int] = {}
    for row in dated:
        for each in row:
            if each.work is None or id(each.work) in place_of:
                continue
            if each.work.movements not in complexes:
                complexes.append(each.work.movements)
            place_of[id(each.work)] = complexes.index(each.work.movements)
    return complexes, place_of


def _as_arrays(by_person: Sequence[Sequence[tuple[float, Point]]]) -> Asked:
    """Rows filled up with the first round of a fresh person, whom nobody asks about."""
    shape = (len(by_person), max(len(mine) for mine in by_person))
    asked = Asked(np.zeros(shape), np.ones(shape, dtype=np.int64), np.zeros(shape))
    for n, mine in enumerate(by_person):
        for index, (rest_s, (number, reserve)) in enumerate(mine):
            asked.rest_s[n, index], asked.round[n, index] = rest_s, number
            asked.reserve[n, index] = reserve
    return asked
