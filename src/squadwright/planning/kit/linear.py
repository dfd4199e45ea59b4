"""Write down a linear program in whole numbers and hand it to HiGHS.

All costs and coefficients are whole numbers, so a value and its bound can be compared exactly
after rounding. The search is single-threaded and stops by counting nodes: the same program
gives the same answer. The clock is a guard only.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import ceil, inf
from time import perf_counter

import highspy
import numpy as np
import numpy.typing as npt

from squadwright.planning.kit.budget import Budget

NONZEROS_PER_WORK = 1_000_000
"""Nodes times nonzeros that count as one unit of work: about a second."""

_NEARLY = 1e-6

Array = npt.NDArray[np.float64]


class QuietHighs(highspy.Highs):
    """The solver without its banner, which it prints on standard output when callbacks are set."""

    def __init__(self) -> None:
        super().__init__()  # type: ignore[no-untyped-call]

    def enableCallbacks(self) -> None:  # noqa: N802, the name of the method it takes the place of
        """Turn all printing off; no callback is used here."""
        self.setOptionValue("output_flag", False)


@dataclass(frozen=True)
class Relaxed:
    """The optimum when fractions are allowed: a bound, with the price of every row."""

    objective: float
    values: Array
    row_prices: Array
    reduced_costs: Array


@dataclass(frozen=True)
class Searched:
    """What a search in whole numbers gave; ``bound`` is proven, whatever was found."""

    values: tuple[int, ...] | None
    is_impossible: bool
    bound: int | None


@dataclass
class LinearProgram:
    """Variables from 0 to a top, rows between two limits, a cost to make small."""

    tops: list[float] = field(default_factory=list)
    costs: list[int] = field(default_factory=list)
    lows: list[float] = field(default_factory=list)
    highs: list[float] = field(default_factory=list)
    starts: list[int] = field(default_factory=lambda: [0])
    columns: list[int] = field(default_factory=list)
    coefficients: list[int] = field(default_factory=list)

    def variable(self, top: float, cost: int = 0) -> int:
        """Add a variable and give its number."""
        self.tops.append(top)
        self.costs.append(cost)
        return len(self.tops) - 1

    def row(
        self, columns: Sequence[int], coefficients: Sequence[int], low: float, high: float
    ) -> int:
        """Add a row and give its number."""
        self.columns.extend(columns)
        self.coefficients.extend(coefficients)
        self.starts.append(len(self.columns))
        self.lows.append(low)
        self.highs.append(high)
        return len(self.lows) - 1

    def sum_row(self, columns: Sequence[int], low: float, high: float) -> int:
        """Add a row of ones."""
        return self.row(columns, [1] * len(columns), low, high)

    def _highs(self, budget: Budget, share: float, *, whole: bool) -> QuietHighs:
        solver = QuietHighs()
        program = highspy.HighsLp()
        program.num_col_, program.num_row_ = len(self.tops), len(self.lows)
        program.col_cost_ = np.array(self.costs, dtype=float)
        program.col_lower_ = np.zeros(len(self.tops))
        program.col_upper_ = np.array(self.tops, dtype=float)
        program.row_lower_ = np.array(self.lows, dtype=float)
        program.row_upper_ = np.array(self.highs, dtype=float)
        program.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        program.a_matrix_.start_ = np.array(self.starts, dtype=np.int32)
        program.a_matrix_.index_ = np.array(self.columns, dtype=np.int32)
        program.a_matrix_.value_ = np.array(self.coefficients, dtype=float)
        if whole:
            program.integrality_ = [highspy.HighsVarType.kInteger] * len(self.tops)
        options: dict[str, str | int | float] = {
            "parallel": "off",
            "random_seed": 1,
            "mip_rel_gap": 0.0,
            "mip_abs_gap": 0.99,
            "time_limit": max(0.01, (budget.ends_at - perf_counter()) * share),
            "mip_max_nodes": self._nodes(budget.work * share),
        }
        for name, value in options.items():
            solver.setOptionValue(name, value)
        solver.passModel(program)
        return solver

    def _nodes(self, work: float) -> int:
        return int(min(1e9, 1 + work * NONZEROS_PER_WORK / max(1, len(self.columns))))

    def relax(self, budget: Budget) -> Relaxed | None:
        """Solve with fractions allowed; None when even that is impossible.

        A relaxation is always solved to the end: it is short, and everything rests on it.
        """
        solver = self._highs(Budget(inf, inf), 1.0, whole=False)
        solver.run()
        budget.work -= len(self.columns) / NONZEROS_PER_WORK
        if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        found = solver.getSolution()
        return Relaxed(
            solver.getInfo().objective_function_value,
            np.array(found.col_value),
            np.array(found.row_dual),
            np.array(found.col_dual),
        )

    def search(self, budget: Budget, share: float = 1.0) -> Searched:
        """Solve in whole numbers, as far as a share of the budget goes."""
        if budget.work <= 0 or budget.ends_at <= perf_counter():
            budget.is_cut_by_clock |= budget.ends_at <= perf_counter()
            return Searched(None, False, None)
        solver = self._highs(budget, share, whole=True)
        solver.run()
        status, info = solver.getModelStatus(), solver.getInfo()
        nodes = max(1, info.mip_node_count)
        budget.work -= (nodes + 10) * len(self.columns) / NONZEROS_PER_WORK
        if status == highspy.HighsModelStatus.kTimeLimit:
            budget.is_cut_by_clock = True
        impossible = status in (
            highspy.HighsModelStatus.kInfeasible,
            highspy.HighsModelStatus.kUnboundedOrInfeasible,
        )
        bound = info.mip_dual_bound
        values = solver.getSolution().col_value
        is_found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
        return Searched(
            tuple(round(value) for value in values) if is_found else None,
            impossible,
            None if impossible or abs(bound) == inf else ceil(bound - _NEARLY),
        )
