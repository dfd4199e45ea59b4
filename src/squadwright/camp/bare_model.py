"""What the model of load and performance would order if nothing else were asked: a warning.

Loads of days are free numbers here, not rounds. Without floors the best plan is all or nothing,
with days of rest before the event that no study of tapers supports; that is why a camp has rules.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import inf

import highspy
import numpy as np
import numpy.typing as npt

from squadwright.camp.problem import DAYS_IN_A_WEEK
from squadwright.errors import InvalidInput, NoSolution
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.kit.linear import QuietHighs


@dataclass(frozen=True)
class BareLimits:
    """Limits of the loads of days [usual loads].

    ``first_week`` limits the sum of the first seven days, ``most_ratio`` each week by the one
    before it, ``total`` the sum of all. ``pull`` draws each day towards ``middle`` by
    pull/2 (load - middle)^2.
    """

    low: float = 0.0
    high: float = 1.0
    total: float = inf
    first_week: float = inf
    most_ratio: float = inf
    pull: float = 0.0
    middle: float = 0.0


@dataclass(frozen=True)
class BareLoads:
    """Load of each day, and the effect on the day after the last, less the pull."""

    loads: tuple[float, ...]
    value: float


def best_loads(influence: npt.ArrayLike, limits: BareLimits) -> BareLoads:
    """The loads with the largest effect; ``influence`` has one number a day, the first day first.

    A linear program, or a quadratic one where there is a pull. NoSolution where the limits
    contradict each other.
    """
    effect = np.asarray(influence, dtype=np.float64)
    if effect.ndim != 1 or not len(effect):
        raise InvalidInput("influence", "holds no day", "Give one number a day")
    if not limits.low <= limits.high:
        raise InvalidInput("low", f"{limits.low:g} is above {limits.high:g}", "Give a lower one")
    solver = QuietHighs()
    solver.passModel(_model(effect, limits))
    if limits.pull > 0:
        solver.passHessian(_hessian(len(effect), limits.pull))
    solver.run()
    if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        raise NoSolution("no loads keep these limits. Lower the floor, or raise the others.")
    loads = np.array(solver.getSolution().col_value)
    value = effect @ loads - limits.pull / 2 * float(((loads - limits.middle) ** 2).sum())
    return BareLoads(tuple(float(load) for load in loads), float(value))


def pulled_loads(influence: npt.ArrayLike, limits: BareLimits) -> FloatArray:
    """The closed form where only the limits of single days hold and there is a pull."""
    effect = np.asarray(influence, dtype=np.float64)
    loads: FloatArray = np.clip(limits.middle + effect / limits.pull, limits.low, limits.high)
    return loads


def _model(effect: FloatArray, limits: BareLimits) -> highspy.HighsLp:
    rows = _rows(len(effect), limits)
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(effect), len(rows)
    # Small, since not every version takes a quadratic program to be made large.
    model.sense_ = highspy.ObjSense.kMinimize
    model.col_cost_ = -(effect + limits.pull * limits.middle)
    model.col_lower_ = np.full(len(effect), limits.low)
    model.col_upper_ = np.full(len(effect), limits.high)
    model.row_lower_ = np.full(len(rows), -inf)
    model.row_upper_ = np.array([high for _, high in rows])
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    sizes = [len(terms) for terms, _ in rows]
    model.a_matrix_.start_ = np.array([0, *np.cumsum(sizes)], dtype=np.int32)
    terms = [term for row, _ in rows for term in row]
    model.a_matrix_.index_ = np.array([day for day, _ in terms], dtype=np.int32)
    model.a_matrix_.value_ = np.array([factor for _, factor in terms])
    return model


def _rows(days: int, limits: BareLimits) -> list[tuple[list[tuple[int, float]], float]]:
    weeks = [
        range(begin, min(begin + DAYS_IN_A_WEEK, days)) for begin in range(0, days, DAYS_IN_A_WEEK)
    ]
    rows: list[tuple[list[tuple[int, float]], float]] = []
    if limits.total < inf:
        rows.append(([(day, 1.0) for day in range(days)], limits.total))
    if limits.first_week < inf:
        rows.append(([(day, 1.0) for day in weeks[0]], limits.first_week))
    if limits.most_ratio < inf:
        for before, week in pairwise(weeks):
            terms = [(day, 1.0) for day in week] + [(day, -limits.most_ratio) for day in before]
            rows.append((terms, 0.0))
    return rows


def _hessian(days: int, pull: float) -> highspy.HighsHessian:
    hessian = highspy.HighsHessian()
    hessian.dim_ = days
    hessian.format_ = highspy.HessianFormat.kTriangular
    hessian.start_ = np.arange(days + 1, dtype=np.int32)
    hessian.index_ = np.arange(days, dtype=np.int32)
    hessian.value_ = np.full(days, pull)
    return hessian
