"""The planner's optimum on small camps is the one of SciPy's linear programme."""

import numpy as np
import pytest
from scipy.optimize import linprog

from camp.camp_cases import athlete, camp, weekly_sessions
from squadwright.camp.problem import CampProblem
from squadwright.camp.solve import build_camp, solve_camp

SESSIONS = weekly_sessions(4)
PEOPLE = (
    athlete("one", SESSIONS, (20, True)),
    athlete("two", SESSIONS, (12, False), (27, True), off=(7, 9)),
    athlete("three", SESSIONS, returns_on=4, before=4),
)


def by_scipy(problem: CampProblem, *, is_whole: bool) -> float:
    """The best value of the programme of a camp, in whole rounds or in parts of them."""
    program = build_camp(problem).program
    rows = np.zeros((len(program.lows), len(program.worths)))
    for row in range(len(program.lows)):
        span = slice(program.starts[row], program.starts[row + 1])
        rows[row, program.columns[span]] = program.factors[span]
    lows, highs = np.array(program.lows), np.array(program.highs)
    upper, lower = np.isfinite(highs), np.isfinite(lows)
    found = linprog(
        -np.array(program.worths),
        A_ub=np.vstack([rows[upper], -rows[lower]]),
        b_ub=np.concatenate([highs[upper], -lows[lower]]),
        bounds=list(zip(program.bottoms, program.tops, strict=True)),
        integrality=np.array(program.whole, dtype=int) if is_whole else None,
    )
    assert found.success, found.message
    return -float(found.fun)


@pytest.mark.parametrize("people", [PEOPLE[:1], PEOPLE[1:2], PEOPLE[2:], PEOPLE], ids=len)
def test_the_optimum_is_that_of_scipy(people: tuple[object, ...]) -> None:
    problem = camp(4, SESSIONS, *people)  # type: ignore[arg-type]
    found = solve_camp(problem)
    # The search may stop within 0.05 % of the best.
    best = by_scipy(problem, is_whole=True)
    assert found.value == pytest.approx(best, rel=5e-4)
    assert found.value <= best + 1e-6
    assert found.bound >= best - 1e-6
    assert by_scipy(problem, is_whole=False) >= found.value - 1e-6
