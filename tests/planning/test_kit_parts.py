"""Parts of the plate solver by themselves: loads that can be built, programs, work, limits."""

from dataclasses import replace
from fractions import Fraction
from itertools import product
from math import inf
from random import Random
from time import perf_counter

import numpy as np
import pytest
from ortools.sat.python import cp_model
from scipy.optimize import Bounds, LinearConstraint, milp

from planning.kit_cases import demo, plates
from planning.kit_tiny import solvable
from squadwright.errors import InvalidInput
from squadwright.planning.kit import NoPlanWithinTolerance
from squadwright.planning.kit.budget import Budget
from squadwright.planning.kit.linear import NONZEROS_PER_WORK, LinearProgram
from squadwright.planning.kit.loads import (
    floor_g,
    least_shortfall,
    reach_of,
    shortfall_steps,
    side_masses,
)
from squadwright.planning.kit.measures import percent, share_text, shared_unit_g
from squadwright.planning.kit.problem import (
    MOST_MASS_G,
    MOST_PAIRS,
    KitBar,
    KitGoal,
    KitGoalName,
    KitLoad,
    KitProblem,
    KitSolution,
    KitUser,
    PlateSize,
)
from squadwright.planning.kit.shortfalls import _first
from squadwright.planning.kit.sides import Step, side_steps
from squadwright.planning.kit.solve import effort_within, usual_effort

STOCKS = (
    ((5_000, 2), (2_500, 1), (1_250, 3)),
    ((10_000, 1), (5_000, 0), (500, 2)),
    ((2_500, 3), (1_134, 2)),
    (),
)


def ways(sizes: tuple[tuple[int, int], ...]) -> list[tuple[int, ...]]:
    """Every number of plates of each size on one end."""
    return list(product(*(range(pairs + 1) for _, pairs in sizes)))


def mass_of(sizes: tuple[tuple[int, int], ...], way: tuple[int, ...]) -> int:
    return sum(mass_g * count for (mass_g, _), count in zip(sizes, way, strict=True))


@pytest.mark.parametrize("sizes", STOCKS, ids=str)
def test_the_masses_of_one_end_are_all_that_the_plates_make_up(
    sizes: tuple[tuple[int, int], ...],
) -> None:
    every = sorted({mass_of(sizes, way) for way in ways(sizes)})
    for most in (0, 499, 500, 2_500, 6_249, 6_250, 10**6):
        assert list(side_masses(sizes, most)) == [mass for mass in every if mass <= most]


@pytest.mark.parametrize("sizes", STOCKS, ids=str)
def test_walks_through_the_sizes_are_just_the_ways_to_make_up_what_is_wanted(
    sizes: tuple[tuple[int, int], ...],
) -> None:
    every = ways(sizes)
    wanted = {0, 1_250, 2_500, 2_268, 5_000, 6_250, 7_500, 99_999}
    out: dict[tuple[int, int], list[Step]] = {}
    for step in side_steps(sizes, wanted):
        assert step.end == (step.start[0] + 1, step.start[1] + step.count * step.mass_g)
        assert step.mass_g == sizes[step.start[0]][0]
        out.setdefault(step.start, []).append(step)

    def walks(knot: tuple[int, int]) -> list[tuple[int, ...]]:
        if knot[0] == len(sizes):
            return [()]
        return [(s.count, *rest) for s in out.get(knot, ()) for rest in walks(s.end)]

    found = walks((0, 0)) if sizes else [()]
    assert sorted(found) == sorted(way for way in every if mass_of(sizes, way) in wanted)


def test_the_least_load_within_a_shortfall_is_the_first_whole_gram_that_is() -> None:
    for target, share in product(
        (7, 30_000, 34_501), (Fraction(0), Fraction(1, 3), Fraction(3, 23))
    ):
        least = floor_g(target, share)
        assert Fraction(target - least, target) <= share < Fraction(target - least + 1, target)


def test_the_shortfalls_that_can_occur_are_those_of_every_load_on_every_bar() -> None:
    for problem in solvable(range(40)):
        reach = reach_of(problem)
        sizes = tuple((size.mass_g, size.pairs) for size in problem.plates)
        sides = {mass_of(sizes, way) for way in ways(sizes)}
        of_user: dict[str, set[Fraction]] = {}
        named: dict[str, set[Fraction]] = {}
        for user, bar in product(problem.users, problem.bars):
            most = user.target_g - bar.mass_g
            if bar.maximum_plates_g is not None:
                most = min(most, bar.maximum_plates_g)
            most = 0 if user.bare_bar else most
            loads = [bar.mass_g + 2 * side for side in sides if 2 * side <= most]
            found = {Fraction(user.target_g - load, user.target_g) for load in loads}
            if bar.mass_g <= user.target_g:
                of_user.setdefault(user.id, set()).update(found)
                if user.bars is None or bar.id in user.bars:
                    named.setdefault(user.id, set()).update(found)
        every = sorted(set().union(*of_user.values()))
        least = max(min(found) for found in named.values())
        assert least_shortfall(reach) == least
        for low, high in (
            (every[0], every[-1]),
            (least, every[-1]),
            (least, every[len(every) // 2]),
        ):
            assert shortfall_steps(reach, low, high) == [s for s in every if low <= s <= high]


def test_every_load_is_a_multiple_of_the_shared_unit() -> None:
    problem = demo()
    unit = shared_unit_g(problem)
    assert unit == 500  # bars of 5 kg and more, pairs of 1 kg and more, one of 2 x 1.25 kg
    odd = replace(problem, plates=(PlateSize(1_134, 1),))
    assert shared_unit_g(odd) == 4


@pytest.mark.parametrize("last", [0, 1, 2, 15, 16, 17, 40, 100])
def test_the_first_that_is_good_is_found_and_few_are_tried(last: int) -> None:
    for first in range(last + 1):
        tried: list[int] = []

        def is_good(index: int, first: int = first, tried: list[int] = tried) -> bool:
            tried.append(index)
            return index >= first

        assert _first(last, is_good) == first
        assert all(0 <= index < last for index in tried)
        assert len(tried) == len(set(tried))
        assert len(tried) <= 12


def random_program(seed: int) -> tuple[LinearProgram, LinearConstraint, np.ndarray, np.ndarray]:
    """A small program in whole numbers, in our words and in SciPy's."""
    dice = Random(seed)
    size, rows = dice.randint(2, 5), dice.randint(1, 4)
    program = LinearProgram()
    tops = np.array([dice.randint(1, 4) for _ in range(size)], dtype=float)
    costs = np.array([dice.randint(-5, 5) for _ in range(size)], dtype=float)
    for number in range(size):
        assert program.variable(tops[number], int(costs[number])) == number
    matrix, lows, highs = np.zeros((rows, size)), [], []
    for row in range(rows):
        columns = sorted(dice.sample(range(size), dice.randint(1, size)))
        high = float(dice.randint(1, 9)) if dice.random() < 0.8 else inf
        low = float(dice.randint(0, 6)) if dice.random() < 0.6 else -inf
        if dice.random() < 0.3:
            values = [1] * len(columns)
            assert program.sum_row(columns, low, high) == row
        else:
            values = [dice.choice((-2, 1, 2, 3)) for _ in columns]
            assert program.row(columns, values, low, high) == row
        matrix[row, columns] = values
        lows.append(low)
        highs.append(high)
    return program, LinearConstraint(matrix, np.array(lows), np.array(highs)), tops, costs


def test_programs_reach_what_another_way_to_the_solver_reaches() -> None:
    """SciPy's ``milp`` with fractions allowed and without."""
    impossible = 0
    for seed in range(120):
        program, rows, tops, costs = random_program(seed)
        bounds = Bounds(np.zeros(len(tops)), tops)
        expected = milp(costs, constraints=rows, bounds=bounds, integrality=np.ones(len(tops)))
        loose = milp(costs, constraints=rows, bounds=bounds)
        found = program.search(Budget(1.0, inf))
        relaxed = program.relax(Budget(1.0, inf))
        assert (relaxed is None) is (loose.status == 2)
        if relaxed is not None:
            assert relaxed.objective == pytest.approx(loose.fun, abs=1e-6)
            # Duality: no column is cheaper than its price unless it stands at its top.
            priced = costs - relaxed.row_prices @ rows.A
            assert relaxed.reduced_costs == pytest.approx(priced, abs=1e-6)
            assert all(relaxed.values <= tops + 1e-6)
        if expected.status == 2:
            impossible += 1
            assert found.is_impossible
            assert found.values is None
            assert found.bound is None
            continue
        assert not found.is_impossible
        assert found.values is not None
        values = np.array(found.values)
        assert costs @ values == pytest.approx(expected.fun)
        assert found.bound == round(expected.fun)
        assert all((rows.A @ values >= rows.lb - 1e-9) & (rows.A @ values <= rows.ub + 1e-9))
    assert impossible > 5


def test_a_program_takes_its_work_from_the_budget_and_does_nothing_without_any() -> None:
    program = random_program(2)[0]
    budget = Budget(1.0, perf_counter() + 60)
    assert program.search(budget).values is not None
    assert 1.0 - 200 * len(program.columns) / NONZEROS_PER_WORK < budget.work < 1.0
    before = budget.work
    program.relax(budget)
    assert before - budget.work == pytest.approx(len(program.columns) / NONZEROS_PER_WORK)
    assert not budget.is_cut_by_clock
    for work in (0.0, -1.0):
        spent = Budget(work, perf_counter() + 60)
        assert program.search(spent).values is None
        assert not spent.is_cut_by_clock
    late = Budget(1.0, perf_counter() - 1)
    assert program.search(late).values is None
    assert late.is_cut_by_clock


def test_a_search_counts_its_work_and_says_whether_work_or_clock_ended_it() -> None:
    model = cp_model.CpModel()
    x = [model.new_int_var(0, 9, "") for _ in range(3)]
    model.add(sum(x) >= 5)
    model.minimize(sum(x))
    budget = Budget(1.0, perf_counter() + 60)
    outcome = budget.run(model)
    assert outcome is not None
    assert outcome.values is not None
    assert sum(outcome.values[v.index] for v in x) == 5
    assert (outcome.bound, outcome.is_impossible) == (5, False)
    assert 0.9 < budget.work < 1.0
    model.add(sum(x) <= 4)
    outcome = budget.run(model)
    assert outcome is not None
    assert (outcome.values, outcome.is_impossible) == (None, True)
    assert not budget.is_cut_by_clock
    for spent in (Budget(0.0, perf_counter() + 60), Budget(-1.0, perf_counter() + 60)):
        assert spent.run(model) is None
        assert not spent.is_cut_by_clock
    late = Budget(1.0, perf_counter() - 1)
    assert late.run(model) is None
    assert late.is_cut_by_clock


def test_few_users_in_two_waves_get_the_work_that_proves_the_moves() -> None:
    few = demo()
    many = replace(
        few, users=tuple(KitUser(f"u{n}", 40_000) for n in range(17)), waves=3, shared=()
    )
    sixteen = replace(many, users=many.users[:16], waves=3, bars=many.bars)
    in_two = replace(sixteen, users=sixteen.users[:12], waves=2)
    assert usual_effort(in_two).moves_work > usual_effort(sixteen).moves_work
    assert usual_effort(many).moves_work == usual_effort(sixteen).moves_work
    eight = tuple(KitBar(f"b{n}", 10_000) for n in range(9))
    for count, is_few in ((16, True), (17, False)):
        squad = replace(many, users=many.users[:count], waves=2, bars=eight)
        assert (usual_effort(squad) == usual_effort(in_two)) is is_few
    assert effort_within(3.0).clock_s == 3.0


@pytest.mark.parametrize(
    ("share", "said"),
    [
        (Fraction(0), "0 %"),
        (Fraction(1, 1000), "0.1 %"),
        (Fraction(1001, 10**6), "0.2 %"),
        (Fraction(1, 8), "12.5 %"),
        (Fraction(1, 3), "33.4 %"),
    ],
)
def test_per_cent_is_rounded_up_to_a_tenth(share: Fraction, said: str) -> None:
    assert percent(share) == said
    assert share_text(float(share)) == said


def test_per_cent_may_have_other_digits() -> None:
    assert percent(Fraction(1, 3), digits=0) == "34 %"
    assert percent(Fraction(1, 3), digits=2) == "33.34 %"


@pytest.mark.parametrize("bound", [Fraction(1, 5), Fraction(3, 20)])
def test_the_refusal_says_what_works_and_what_is_proven_where_they_differ(bound: Fraction) -> None:
    loads = (
        KitLoad("Ada", "b", 1, 20_000, 16_000, ((500, 1),)),
        KitLoad("Bo", "b", 2, 50_000, 45_000, ((500, 1),)),
    )
    goals = (KitGoal(KitGoalName.LARGEST_SHORTFALL, Fraction(1, 5), bound),)
    words = str(NoPlanWithinTolerance(Fraction(1, 10), KitSolution(loads, goals)))
    assert "within 10 % below target; the tightest that works is 20 %" in words
    assert ("(at least 15 % is proven)" in words) is (bound != Fraction(1, 5))
    assert "set by Ada (16 of 20 kg)" in words


def given(**changes: object) -> KitProblem:
    """A problem with everything at its limit, or just beyond it in one place."""
    parts: dict[str, object] = {
        "bars": (KitBar("b", MOST_MASS_G, maximum_plates_g=0), KitBar("c", 1)),
        "plates": (PlateSize(MOST_MASS_G, MOST_PAIRS), PlateSize(1, 0)),
        "users": tuple(KitUser(f"u{n}", MOST_MASS_G, n) for n in range(1, 5)),
        "waves": 4,
        "shared": (("u1", "u2", "u3", "u4"),),
        "tolerance": Fraction(0),
    }
    return KitProblem(**(parts | changes))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({}, ""),
        ({"tolerance": Fraction(999, 1000)}, ""),
        ({"tolerance": Fraction(-1, 1000)}, "tolerance"),
        ({"tolerance": Fraction(3, 2)}, r"tolerance: 1\.5 is outside"),
        ({"waves": 1, "users": (KitUser("u1", 1, 1),), "shared": (("u1",),)}, ""),
        ({"waves": 0}, "waves: 0 is outside 1 to 4"),
        ({"bars": (KitBar("b", MOST_MASS_G + 1),)}, r"bars\[0\]\.mass: 1000 kg|bars\[0\]\.mass"),
        ({"bars": (KitBar("b", 5, maximum_plates_g=-1_500),)}, r"-1\.5 kg is below 0 kg"),
        ({"plates": (PlateSize(1, MOST_PAIRS + 1),)}, r"plates\[0\]\.pairs: 1001"),
        ({"plates": (PlateSize(0, 1),)}, r"plates\[0\]\.mass: 0 kg is outside 0 to 1000 kg"),
        ({"users": (KitUser("u1", 1, 0),), "shared": ()}, r"users\[0\]\.wave: 0 is outside 1 to 4"),
        ({"users": (KitUser("u1", 1, 5),), "shared": ()}, r"users\[0\]\.wave: 5 is outside 1 to 4"),
        ({"users": (KitUser("u1", 1, kept_bar="z"),), "shared": ()}, "there is no bar 'z'"),
        ({"users": (KitUser("u1", 1, bars=("b",), kept_bar="c"),), "shared": ()}, ""),
        ({"waves": 3, "users": tuple(KitUser(f"u{n}", 9) for n in range(1, 5))}, "4 athletes on"),
        (
            {"users": tuple(KitUser(f"u{n}", 9, 2 if n > 2 else None) for n in range(1, 5))},
            "two athletes of one bar lift in the same wave",
        ),
        ({"users": tuple(KitUser(f"u{n}", 9) for n in range(1, 5))}, ""),
    ],
)
def test_what_stands_at_a_limit_is_taken_and_what_lies_beyond_is_refused(
    changes: dict[str, object], message: str
) -> None:
    if not message:
        assert given(**changes)
        return
    with pytest.raises(InvalidInput, match=message):
        given(**changes)


def test_a_size_listed_twice_is_named_in_kilograms() -> None:
    with pytest.raises(InvalidInput, match=r"plates\[1\]\.mass: 2\.5 kg is listed twice"):
        given(plates=plates((1, 1), (2_500, 2_500)))
