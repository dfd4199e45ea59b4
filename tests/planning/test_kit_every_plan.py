"""The plate solver against every plan of tiny problems, cut short in every way it can be."""

from dataclasses import replace
from fractions import Fraction
from itertools import product
from random import Random

import pytest

from planning.kit_cases import faults, goals_of
from planning.kit_oracles import best_by_trying_all
from planning.kit_tiny import (
    bounds_hold,
    can_be_seated,
    goals_of_every_plan,
    seatings,
    solvable,
    tiny,
)
from squadwright.errors import NoSolution
from squadwright.planning.kit import moves, pricing, solve_kit
from squadwright.planning.kit.budget import Budget
from squadwright.planning.kit.former import FormerLoad, as_before
from squadwright.planning.kit.loads import reach_of
from squadwright.planning.kit.prices import (
    fewest_more_pairs,
    price_of_missing_pair,
    value_of_one_more_pair,
)
from squadwright.planning.kit.problem import KitBar, KitProblem, KitSolution, KitUser, PlateSize
from squadwright.planning.kit.shortfalls import (
    both_shortfalls,
    least_largest_shortfall,
    least_total,
)
from squadwright.planning.kit.solve import Effort, first_plan, solve_without_tolerance
from squadwright.planning.kit.start import NoPlaceOnABar, open_places, seats_by_hand

TINY = solvable(range(52))


@pytest.mark.parametrize("problem", TINY, ids=range(len(TINY)))
def test_no_plan_of_a_tiny_problem_is_better(problem: KitProblem) -> None:
    solution = solve_kit(problem)
    assert faults(problem, solution) == []
    assert goals_of(solution) == best_by_trying_all(problem)
    assert tuple(goal.value for goal in solution.goals) == goals_of(solution)
    assert all(goal.is_proven for goal in solution.goals)


LEAN = {
    "no work": Effort(1e-12, 1e-12, 40),
    "work for the shortfalls alone": Effort(10, 1e-12, 40),
    "work for the moves alone": Effort(1e-12, 2.5, 40),
    "little work": Effort(2e-4, 2e-4, 40),
    "a little more": Effort(5e-3, 2e-3, 40),
    "no time": Effort(10, 10, 1e-9),
}


@pytest.mark.parametrize("effort", LEAN)
def test_a_search_cut_short_leaves_a_sound_plan_and_no_bound_too_high(effort: str) -> None:
    """The bound of a goal holds for plans that keep what was reached for the goals before it."""
    for problem in TINY[::2]:
        solution = solve_without_tolerance(problem, LEAN[effort])
        assert faults(problem, solution) == []
        assert tuple(goal.value for goal in solution.goals) == goals_of(solution)
        assert all(0 <= goal.bound <= goal.value for goal in solution.goals)
        assert bounds_hold(goals_of_every_plan(problem), solution.goals) == []
        assert solution.stopped_by_clock is (effort == "no time")


@pytest.mark.parametrize(
    ("module", "name", "value", "is_still_best"),
    [
        (moves, "MOST_FILLINGS", 0, False),
        (moves, "MOST_FILLINGS", 3, False),
        (moves, "PAIRS_FOR_WORK", 0.5, False),
        (pricing, "MOST_ROUNDS", 1, False),
        (pricing, "MOST_COLUMNS", 2, False),
        (pricing, "_NEW_COLUMNS", 1, True),
        (pricing, "_MOST_NEAR", 0, True),
        (pricing, "_SEARCHED_PER_WORK", 4, False),
    ],
)
def test_a_search_with_little_room_leaves_a_sound_plan_and_no_bound_too_high(
    monkeypatch: pytest.MonkeyPatch, module: object, name: str, value: float, is_still_best: bool
) -> None:
    monkeypatch.setattr(module, name, value)
    for problem in (p for p in TINY if p.waves <= 2 and not p.plates_stay_with_bar):
        solution = solve_kit(problem)
        assert faults(problem, solution) == []
        assert tuple(goal.value for goal in solution.goals) == goals_of(solution)
        every = goals_of_every_plan(problem)
        assert bounds_hold(every, solution.goals) == []
        assert goals_of(solution)[:2] == every[0][:2]
        if is_still_best:
            assert goals_of(solution) == every[0]
            assert all(goal.is_proven for goal in solution.goals)


def test_both_models_reach_the_same_shortfalls() -> None:
    """The model of numbers of bars, and the model of every bar and wave."""
    for problem in TINY[1::2]:
        given = replace(problem, plates_stay_with_bar=False)
        reach = reach_of(given)
        start = first_plan(given, reach)
        best = goals_of_every_plan(given)[0]
        _, largest, total = both_shortfalls(given, reach, start, Budget(10, float("inf")))
        loads, written = least_largest_shortfall(given, reach, start, Budget(10, float("inf")))
        _, written_total = least_total(given, reach, loads, Budget(10, float("inf")))
        for goal in (largest, written):
            assert goal.value == goal.bound == best[0]
        for goal in (total, written_total):
            assert goal.value == goal.bound == best[1]


def tight(seed: int) -> KitProblem:
    """Few places for many, light and heavy bars, and wishes that often cannot all be met."""
    dice = Random(seed)
    waves = dice.randint(1, 3)
    bars = tuple(KitBar(f"b{n}", dice.choice((5_000, 10_000))) for n in range(dice.randint(1, 3)))
    count = min(5, dice.randint(1, waves * len(bars)))
    users = tuple(
        KitUser(
            f"u{n}",
            dice.choice((5_000, 9_999, 10_000, 20_000)),
            dice.choice((None, None, dice.randint(1, waves))),
            dice.choice((None, None, (dice.choice(bars).id,))),
        )
        for n in range(count)
    )
    groups: tuple[tuple[str, ...], ...] = ()
    names = [user.id for user in users]
    if dice.random() < 0.7:
        users = tuple(replace(user, wave=None) for user in users)
        size = dice.randint(1, waves)
        cut = [tuple(names[at : at + size]) for at in range(0, count, size)]
        groups = tuple(cut) if dice.random() < 0.5 else tuple(cut[:1])
    return KitProblem(bars, (PlateSize(2_500, 2),), users, waves, groups)


def test_places_are_found_where_there_are_any_and_else_refused() -> None:
    """By hand it is exact where nobody or everybody is in a shared group."""
    found = {True: 0, False: 0}
    for seed in range(400):
        problem = tight(seed)
        wanted = next(seatings(problem), None)
        found[wanted is not None] += 1
        if wanted is None:
            with pytest.raises(NoPlaceOnABar):
                first_plan(problem, reach_of(problem))
            continue
        loads = first_plan(problem, reach_of(problem))
        seats = {load.user: (load.bar, load.wave) for load in loads}
        assert seats in seatings(problem)
        assert faults(problem, KitSolution(loads, ())) == []
        in_groups = {name for group in problem.shared for name in group}
        if not in_groups or len(in_groups) == len(problem.users):
            assert seats_by_hand(problem, open_places(problem))
    assert min(found.values()) > 50


def kept(problem: KitProblem, names: set[str]) -> KitProblem:
    """The problem in which these users have only the bar they had."""
    users = tuple(
        replace(user, bars=(str(user.kept_bar),)) if user.id in names else user
        for user in problem.users
    )
    return replace(problem, users=users)


def test_a_bar_is_kept_by_all_who_can_and_given_up_only_where_no_plan_holds_it() -> None:
    given_up = 0
    for seed in range(120):
        dice, problem = Random(seed), tight(seed)
        if not can_be_seated(problem) or len(problem.users) > 4:
            continue
        problem = replace(
            problem,
            users=tuple(
                replace(user, kept_bar=dice.choice((None, *(b.id for b in problem.bars))))
                for user in problem.users
            ),
        )
        solution = solve_kit(problem)
        assert faults(replace(problem, users=problem.users), solution) == [] or any(
            user.bars and user.kept_bar not in (None, *user.bars) for user in problem.users
        )
        bars = {load.user: load.bar for load in solution.loads}
        had = {user.id: user.kept_bar for user in problem.users if user.kept_bar}
        changed = {name for name, bar in had.items() if bars[name] != bar}
        assert set(solution.changed_bars) == changed
        still = set(had) - changed
        for name in changed:
            given_up += 1
            assert not can_be_seated(kept(problem, still | {name}))
    assert given_up > 10


def bent(solution: KitSolution, dice: Random) -> dict[str, FormerLoad]:
    """An earlier plan that differs a little, and is often forbidden today."""
    former = {x.user: FormerLoad(x.bar, x.wave, x.per_side) for x in solution.loads}
    one, other = dice.choice(list(former)), dice.choice(list(former))
    had = former[one]
    match dice.randrange(6):
        case 0:
            former[one], former[other] = former[other], had
        case 1:
            former[one] = replace(had, wave=dice.randint(1, 4))
        case 2:
            former[one] = replace(had, bar="b1" if had.bar == "b0" else "b0")
        case 3:
            former[one] = replace(had, per_side=tuple((m, n + 1) for m, n in had.per_side))
        case 4:
            former[one] = replace(had, per_side=((2_500, dice.randint(1, 3)),))
        case _:
            mirrored = {"b0": "b1", "b1": "b0"}
            former = {n: replace(x, bar=mirrored[x.bar]) for n, x in former.items()}
    return former


def test_an_earlier_plan_is_kept_just_where_it_is_allowed_and_as_good() -> None:
    """Allowed: by the second look at a plan, which shares no code with it."""
    dice, kept_whole, refused = Random(1), 0, 0
    for problem in TINY:
        solution = solve_without_tolerance(problem, LEAN["work for the shortfalls alone"])
        bars = {bar.id: bar.mass_g for bar in problem.bars}
        targets = {user.id: user.target_g for user in problem.users}
        for _ in range(12):
            former = bent(solution, dice)
            loads = tuple(
                replace(
                    x,
                    bar=(had := former[x.user]).bar,
                    wave=had.wave,
                    per_side=had.per_side,
                    load_g=bars[had.bar] + 2 * sum(m * n for m, n in had.per_side),
                    target_g=targets[x.user],
                )
                for x in solution.loads
            )
            before = KitSolution(loads, ())
            is_sound = not faults(problem, before)
            is_as_good = all(
                now >= then for now, then in zip(goals_of(solution), goals_of(before), strict=True)
            )
            found = as_before(problem, solution, former)
            if is_sound and is_as_good:
                kept_whole += 1
                assert {
                    x.user: FormerLoad(x.bar, x.wave, x.per_side) for x in found.loads
                } == former
                assert tuple(goal.value for goal in found.goals) == goals_of(before)
                assert all(goal.bound <= goal.value for goal in found.goals)
            else:
                refused += 1
                assert found is solution
    assert kept_whole > 20
    assert refused > 200


def with_pairs(problem: KitProblem, more: dict[int, int]) -> KitProblem:
    stock = {size.mass_g: size.pairs for size in problem.plates}
    for mass_g, pairs in more.items():
        stock[mass_g] = stock.get(mass_g, 0) + pairs
    return replace(problem, plates=tuple(PlateSize(m, n) for m, n in stock.items()))


def test_the_price_of_a_pair_is_what_the_changed_stock_comes_to_by_every_plan() -> None:
    for problem in TINY[::3]:
        before = goals_of_every_plan(problem)[0]
        sizes = {size.mass_g for size in problem.plates}
        prices = (*price_of_missing_pair(problem), *value_of_one_more_pair(problem))
        here = {size.mass_g for size in problem.plates if size.pairs}
        assert [p.mass_g for p in prices if p.pairs < 0] == sorted(here, reverse=True)
        assert [p.mass_g for p in prices if p.pairs > 0] == sorted(sizes, reverse=True)
        for price in prices:
            after = goals_of_every_plan(with_pairs(problem, {price.mass_g: price.pairs}))[0]
            assert (price.largest_before.value, price.total_before.value) == before[:2]
            assert (price.largest.value, price.total.value) == after[:2]
            assert price.changes_anything is (after[:2] != before[:2])
            size = f"{price.mass_g / 1000:g} kg"
            start = {1: f"one more pair of {size}", -1: f"without one pair of {size}"}[price.pairs]
            assert price.sentence.startswith(start)
            if after[:2] == before[:2]:
                assert price.sentence == f"{start}: no change"
            elif after[0] == before[0]:
                kg = abs(after[1] - before[1]) / 1000
                word = "more" if price.pairs > 0 else "less"
                assert price.sentence == f"{start}: {kg:g} kg {word} on the bars, all together"
            else:
                verb = (
                    "brings everyone within" if price.pairs > 0 else "puts the tightest tolerance"
                )
                assert verb in price.sentence
                assert price.sentence.endswith(" %")


def test_no_fewer_pairs_bring_everybody_within_a_tolerance() -> None:
    """Every number of pairs of every size is tried, up to two of each."""
    fetched = refused = 0
    for problem in TINY[::2]:
        if problem.plates_stay_with_bar:
            continue
        sizes = [size.mass_g for size in problem.plates]
        for tolerance in (Fraction(0), Fraction(1, 10)):
            fewest = min(
                (
                    sum(more)
                    for more in product(range(3), repeat=len(sizes))
                    if goals_of_every_plan(
                        with_pairs(problem, dict(zip(sizes, more, strict=True)))
                    )[0][0]
                    <= tolerance
                ),
                default=None,
            )
            if fewest is None:
                refused += 1
                with pytest.raises(NoSolution, match="2 more pairs of every size do not"):
                    fewest_more_pairs(problem, tolerance, most_of_a_size=2)
                continue
            fetched += fewest
            found = fewest_more_pairs(problem, tolerance, most_of_a_size=2)
            assert sum(pairs for _, pairs in found) == fewest
            richer = with_pairs(problem, dict(found))
            assert goals_of_every_plan(richer)[0][0] <= tolerance
            assert [mass_g for mass_g, _ in found] == sorted((m for m, _ in found), reverse=True)
    assert fetched > 5
    assert refused > 3


def test_tiny_problems_are_of_every_kind() -> None:
    kinds = [tiny(seed) for seed in range(52)]
    assert {problem.waves for problem in kinds} == {1, 2, 3}
    assert {bool(problem.shared) for problem in kinds} == {True, False}
    assert {problem.plates_stay_with_bar for problem in kinds} == {True, False}
    assert any(len(group) == 3 for problem in kinds for group in problem.shared)
    assert any(len(group) == 1 for problem in kinds for group in problem.shared)
