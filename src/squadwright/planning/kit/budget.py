"""How much work a search may still do, so that the same problem gives the same plan.

Work is counted by the solver itself. The clock is only a guard for a slow or busy machine; when
it cuts in, two runs may differ, and the budget remembers it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from time import perf_counter

from ortools.sat.python import cp_model


@dataclass(frozen=True)
class Outcome:
    """What one search gave: values by variable index, or a proof that there are none."""

    values: Mapping[int, int] | None
    is_impossible: bool
    bound: float


@dataclass
class Budget:
    """Work left, in units the solver counts, and the moment at which the clock cuts in."""

    work: float
    ends_at: float
    is_cut_by_clock: bool = False

    def run(self, model: cp_model.CpModel, share: float = 1.0) -> Outcome | None:
        """Solve with a share of what is left; None when nothing is left."""
        left_s = self.ends_at - perf_counter()
        if left_s <= 0 or self.work <= 0:
            self.is_cut_by_clock |= left_s <= 0
            return None
        solver = cp_model.CpSolver()
        # Else Ctrl-C would end the whole program at once, from the first search on.
        solver.parameters.catch_sigint_signal = False
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 1
        solver.parameters.max_deterministic_time = self.work * share
        solver.parameters.max_time_in_seconds = left_s
        status = solver.solve(model)
        response = solver.response_proto
        self.work -= response.deterministic_time
        is_closed = status in (cp_model.OPTIMAL, cp_model.INFEASIBLE)
        self.is_cut_by_clock |= not is_closed and perf_counter() >= self.ends_at
        is_found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
        return Outcome(
            dict(enumerate(response.solution)) if is_found else None,
            status == cp_model.INFEASIBLE,
            response.best_objective_bound,
        )
