"""The camp that lifts the squad's mean performance on its events most, with a proven bound.

The aim is linear in the rounds: over draws of the response it collapses to one number a round.
Rounds are whole, and whole rounds are counted in every limit; limits in units of load would make
a knapsack that takes hours to prove.
"""

from dataclasses import dataclass, field
from math import inf

import highspy
import numpy as np

from squadwright.camp.effect import mean_worth
from squadwright.camp.limits import Limits, Place, limits_of
from squadwright.camp.problem import CampProblem, CampSolution
from squadwright.errors import NoSolution, OutOfTime
from squadwright.planning.kit.linear import QuietHighs

GAP = 5e-4
"""The search ends when the bound lies so near, as a share of the value."""


@dataclass
class CampProgram:
    """A program to make large: columns, rows between two limits."""

    tops: list[float] = field(default_factory=list)
    bottoms: list[float] = field(default_factory=list)
    worths: list[float] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    lows: list[float] = field(default_factory=list)
    highs: list[float] = field(default_factory=list)
    starts: list[int] = field(default_factory=lambda: [0])
    columns: list[int] = field(default_factory=list)
    factors: list[float] = field(default_factory=list)

    def column(self, low: float, high: float, worth: float = 0.0, *, whole: bool = True) -> int:
        """Add a variable and give its number."""
        self.bottoms.append(low)
        self.tops.append(high)
        self.worths.append(worth)
        self.whole.append(whole)
        return len(self.worths) - 1

    def row(self, terms: list[tuple[int, float]], low: float, high: float) -> None:
        """Add a row: columns with their factors, between two limits."""
        self.columns.extend(column for column, _ in terms)
        self.factors.extend(factor for _, factor in terms)
        self.starts.append(len(self.columns))
        self.lows.append(low)
        self.highs.append(high)


@dataclass(frozen=True)
class BuiltCamp:
    """The program of a camp, and which column holds what."""

    program: CampProgram
    squad: dict[int, int]
    own: tuple[dict[int, int], ...]


def solve_camp(problem: CampProblem) -> CampSolution:
    """The best plan found and its bound.

    NoSolution where the limits contradict each other, OutOfTime where nothing was found in time.
    """
    built = build_camp(problem)
    if not built.program.worths:
        return _solution(problem, built, [], 0.0, 0.0)
    solver = _highs(built.program, problem.time_limit_s)
    solver.run()
    status, info = solver.getModelStatus(), solver.getInfo()
    if status in (
        highspy.HighsModelStatus.kInfeasible,
        highspy.HighsModelStatus.kUnboundedOrInfeasible,
    ):
        raise NoSolution(
            "no camp keeps all its rules: proven. Allow more rounds a week, a larger rise, or "
            "more rounds apart from the squad."
        )
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        raise OutOfTime(
            f"no camp was found in {problem.time_limit_s:g} s, nor a proof that there is none. "
            "Give more time, or plan fewer weeks."
        )
    values = [float(value) for value in solver.getSolution().col_value]
    found = float(info.objective_function_value)
    return _solution(problem, built, values, found, max(found, float(info.mip_dual_bound)))


def build_camp(problem: CampProblem) -> BuiltCamp:
    """The program of a camp: variables, then what holds for each athlete."""
    program = CampProgram()
    squad = {
        number: program.column(1, session.most_rounds)
        for number, session in enumerate(problem.sessions)
        if session.is_shared
    }
    own = []
    for athlete in problem.athletes:
        limits, worth = limits_of(problem, athlete), mean_worth(problem, athlete)
        mine = {
            place.session: program.column(place.least, place.most, float(worth[place.session]))
            for place in limits.places
        }
        for place in limits.places:
            if problem.sessions[place.session].is_shared:
                _tie_to_squad(program, problem, place, mine[place.session], squad[place.session])
        _add_limits(program, limits, mine)
        own.append(mine)
    return BuiltCamp(program, squad, tuple(own))


def _tie_to_squad(
    program: CampProgram, problem: CampProblem, place: Place, mine: int, squad: int
) -> None:
    """He is so many rounds from the squad at most, and each round apart has its cost."""
    program.row([(mine, 1.0), (squad, -1.0)], -place.fewer, place.more)
    apart = program.column(0, inf, -problem.rules.change_cost, whole=False)
    program.row([(apart, 1.0), (mine, -1.0), (squad, 1.0)], 0, inf)
    program.row([(apart, 1.0), (mine, 1.0), (squad, -1.0)], 0, inf)


def _add_limits(program: CampProgram, limits: Limits, mine: dict[int, int]) -> None:
    for each in limits.sums:
        program.row([(mine[n], 1.0) for n in each.sessions], each.least, each.most)
    for ramp in limits.ramps:
        terms = [(mine[n], 1.0) for n in ramp.later] + [(mine[n], -1.0) for n in ramp.earlier]
        program.row(terms, -inf, ramp.most_rise)


def _highs(program: CampProgram, time_limit_s: float) -> QuietHighs:
    solver = QuietHighs()
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(program.worths), len(program.lows)
    model.sense_ = highspy.ObjSense.kMaximize
    model.col_cost_ = np.array(program.worths)
    model.col_lower_ = np.array(program.bottoms, dtype=float)
    model.col_upper_ = np.array(program.tops, dtype=float)
    model.row_lower_ = np.array(program.lows, dtype=float)
    model.row_upper_ = np.array(program.highs, dtype=float)
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.start_ = np.array(program.starts, dtype=np.int32)
    model.a_matrix_.index_ = np.array(program.columns, dtype=np.int32)
    model.a_matrix_.value_ = np.array(program.factors)
    kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
    model.integrality_ = [kinds[is_whole] for is_whole in program.whole]
    options: dict[str, str | int | float] = {
        "parallel": "off",
        "random_seed": 1,
        "mip_rel_gap": GAP,
        "time_limit": time_limit_s,
    }
    for name, value in options.items():
        solver.setOptionValue(name, value)
    solver.passModel(model)
    return solver


def _solution(
    problem: CampProblem, built: BuiltCamp, values: list[float], value: float, bound: float
) -> CampSolution:
    everything = range(len(problem.sessions))
    rounds = []
    for athlete, mine in zip(problem.athletes, built.own, strict=True):
        expected = {number for number, _ in problem.sessions_of(athlete)}
        rounds.append(
            tuple(
                (round(values[mine[n]]) if n in mine else 0) if n in expected else None
                for n in everything
            )
        )
    squad = tuple(round(values[built.squad[n]]) if n in built.squad else 0 for n in everything)
    return CampSolution(squad, tuple(rounds), value, bound)
