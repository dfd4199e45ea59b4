"""Days of testing so small that every start of every test is tried, under every rule."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise, product
from random import Random

import pytest
from ortools.sat.python import cp_model

from planning.second_look_at_a_test_day import faults_of_test_day
from squadwright.errors import InvalidInput, NoSolution
from squadwright.model.fitness_test import TestKind
from squadwright.planning.test_day import solve
from squadwright.planning.test_day.bound import plain_bound
from squadwright.planning.test_day.model import DayModel
from squadwright.planning.test_day.order import (
    ANY_ORDER,
    SPEED_BEFORE_STRENGTH,
    STRENGTH_BEFORE_SPEED,
    STRENGTH_TO_ENDURANCE_S,
    PublishedOrder,
    rest_between_s,
)
from squadwright.planning.test_day.problem import DayProblem, Station
from squadwright.planning.test_day.solve import plan_test_day

MINUTE = 60
Starts = Mapping[str, int]
"""Start of each test of one athlete [min]."""
Ranked = tuple[int, int, int]
"""Orders changed, length and waiting [min]."""


def small_day(seed: int) -> DayProblem:
    """Two athletes at up to three tests, or three at up to two, in eight to ten minutes."""
    dice = Random(seed)
    squad = dice.choice((2, 2, 3))
    kinds = (TestKind.POWER, TestKind.POWER, TestKind.SPEED, TestKind.STRENGTH)
    stations = tuple(
        Station(
            f"t{number}",
            dice.choice(kinds),
            MINUTE * dice.randint(1, 3),
            places=dice.choice((1, 1, 2)),
            helpers=dice.randint(0, 1),
            together=dice.random() < 0.25,
            rest_after_s=MINUTE * dice.choice((0, 0, 1, 2)),
        )
        for number in range(dice.randint(1, 5 - squad) + (squad == 2 and dice.random() < 0.3))
    )[:3]
    athletes = ("A", "B", "C")[:squad]
    names = [station.id for station in stations]
    last = {
        athlete: tuple(dice.sample(names, len(names)))
        for athlete in athletes
        if dice.random() < 0.6
    }
    skips = {(a, t) for a in athletes for t in names if dice.random() < 0.1}
    skips = {
        (a, t)
        for a, t in skips
        if sum(b == a for b, _ in skips) < len(names) and sum(u == t for _, u in skips) < squad
    }
    return DayProblem(
        athletes,
        stations,
        helpers=dice.randint(1, 2),
        slot_s=MINUTE * dice.randint(5, 10 if squad == 2 else 8),
        order=dice.choice((ANY_ORDER, SPEED_BEFORE_STRENGTH, STRENGTH_BEFORE_SPEED)),
        most_waiting=dice.randint(0, 2),
        last_order=last,
        skips=frozenset(skips),
        time_limit_s=5.0,
    )


def own_days(problem: DayProblem, athlete: str) -> list[Starts]:
    """Every way through one athlete's tests, with its rests and stages, by the minute."""
    tests = [s for s in problem.stations if (athlete, s.id) not in problem.skips]
    slot = problem.slot_s // MINUTE
    ranges = [range(slot - test.duration_s // MINUTE + 1) for test in tests]
    return [
        {test.id: start for test, start in zip(tests, starts, strict=True)}
        for starts in product(*ranges)
        if _is_walkable(problem, sorted(zip(starts, tests, strict=True), key=lambda p: p[0]))
    ]


def _is_walkable(problem: DayProblem, way: list[tuple[int, Station]]) -> bool:
    for (one, first), (other, second) in combinations(way, 2):
        stages = problem.order.stage(first.kind), problem.order.stage(second.kind)
        follows = way.index((other, second)) == way.index((one, first)) + 1
        owed = _owed(first, second) if follows or stages[0] < stages[1] else 0
        if stages[0] > stages[1] or other < one + first.duration_s // MINUTE + owed:
            return False
    return True


def _owed(first: Station, second: Station) -> int:
    return max(first.rest_after_s, rest_between_s(first.kind, second.kind)) // MINUTE


def waits(problem: DayProblem, own: Starts) -> dict[str, int]:
    """Minutes each test of one athlete begins later than it could."""
    tests = {s.id: s for s in problem.stations}
    way = sorted(own, key=lambda name: own[name])
    found = dict.fromkeys(way[:1], 0)
    for before, after in pairwise(way):
        free = own[before] + tests[before].duration_s // MINUTE + _owed(tests[before], tests[after])
        found[after] = own[after] - free
    return found


def is_possible(problem: DayProblem, day: tuple[Starts, ...]) -> bool:
    """Places, sittings, helpers and queues, minute by minute."""
    queued = [waits(problem, own) for own in day]
    helping = [0] * (problem.slot_s // MINUTE)
    for test in problem.stations:
        long = test.duration_s // MINUTE
        begins = [own[test.id] for own in day if test.id in own]
        turns = sorted(set(begins)) if test.together else begins
        if test.together:
            if len(turns) > -(-len(begins) // test.places):
                return False
            if any(b - a < long for a, b in pairwise(turns)):
                return False
            if any(begins.count(turn) > test.places for turn in turns):
                return False
        else:
            spans = [(b - w[test.id], b) for b, w in zip(begins, _with(queued, test), strict=True)]
            for minute in range(len(helping)):
                if sum(b <= minute < b + long for b in begins) > test.places:
                    return False
                if sum(a <= minute < b for a, b in spans) > problem.most_waiting:
                    return False
        for turn in turns:
            for minute in range(turn, turn + long):
                helping[minute] += test.helpers
    return max(helping) <= problem.helpers


def _with(queued: list[dict[str, int]], test: Station) -> list[dict[str, int]]:
    return [waited for waited in queued if test.id in waited]


def ranked(problem: DayProblem, day: tuple[Starts, ...]) -> Ranked:
    """What is made small, in this order."""
    tests = {s.id: s for s in problem.stations}
    changed = 0
    for athlete, own in zip(problem.athletes, day, strict=True):
        before = [test for test in problem.last_order.get(athlete, ()) if test in own]
        changed += before != sorted(before, key=lambda test: own[test])
    length = max(
        start + tests[test].duration_s // MINUTE for own in day for test, start in own.items()
    )
    return changed, length, sum(sum(waits(problem, own).values()) for own in day)


@cache
def best_day(seed: int) -> Ranked | None:
    return min(every_day(small_day(seed)), default=None)


def every_day(problem: DayProblem) -> Iterator[Ranked]:
    options = [own_days(problem, athlete) for athlete in problem.athletes]
    return (ranked(problem, day) for day in product(*options) if is_possible(problem, day))


@pytest.mark.parametrize("seed", range(44))
def test_no_day_changes_fewer_orders_or_is_shorter_or_has_less_waiting(seed: int) -> None:
    problem = small_day(seed)
    best = best_day(seed)
    if best is None:
        with pytest.raises(NoSolution):
            plan_test_day(problem)
        return
    plan = plan_test_day(problem)
    assert faults_of_test_day(problem, plan) == ()
    day = tuple(
        {v.station: v.start_s // MINUTE for v in plan.visits if v.athlete == athlete}
        for athlete in problem.athletes
    )
    assert ranked(problem, day) == best
    assert is_possible(problem, day)
    assert plan.is_proven
    assert (len(plan.changed), plan.length_s) == (best[0], MINUTE * best[1])
    assert plan.changed_bound == best[0]
    if not problem.last_order:
        assert plain_bound(problem)[0] <= plan.length_s


def test_small_days_are_of_every_kind() -> None:
    found = [best_day(seed) for seed in range(44)]
    assert 3 < found.count(None) < 30
    assert any(best and best[0] for best in found)
    assert any(best and best[2] for best in found)


JUMP = Station("jump", TestKind.POWER, 120, helpers=1, rest_after_s=60)
PRESS = Station("press", TestKind.STRENGTH, 300, places=2)
SHUTTLE = Station("shuttle", TestKind.AEROBIC, 600, places=2, helpers=3, together=True)
DAY = DayProblem(("A", "B", "C"), (JUMP, PRESS, SHUTTLE), helpers=3, slot_s=7200)


@pytest.mark.parametrize(
    ("change", "minutes", "bottleneck"),
    [
        # Before the shuttle run 2 + 1 + 5 min of each, then two sittings of 10 min.
        ({}, 28, "shuttle"),
        # 3 x 12 min of jumps, then at least 1 min of rest, 5 of press and 10 of running.
        ({"stations": (replace(JUMP, duration_s=720), PRESS, SHUTTLE)}, 52, "jump"),
        # 2 + 1 min, two turns of 20 min at the press, then one run of 10 min.
        ({"stations": (JUMP, replace(PRESS, duration_s=1200), SHUTTLE)}, 53, "press"),
        # All three helpers are with each jump, 2 min, and with the run, 10 min: 3 x 2 + 10.
        (
            {"stations": (replace(JUMP, helpers=3, places=3), replace(SHUTTLE, places=3))},
            16,
            "helpers",
        ),
        # One at a time would do, were it not that each has 2 + 1 + 5 + 10 min.
        (
            {
                "athletes": ("A",),
                "stations": (JUMP, PRESS, replace(SHUTTLE, rest_after_s=900)),
                "order": ANY_ORDER,
            },
            18,
            "one athlete's own tests and rests",
        ),
    ],
)
def test_the_length_that_no_day_goes_below_is_worked_out_by_hand(
    change: dict[str, object], minutes: int, bottleneck: str
) -> None:
    problem = replace(DAY, **change)  # type: ignore[arg-type]
    assert plain_bound(problem) == (60 * minutes, bottleneck)


def test_five_minutes_are_owed_from_strength_to_endurance_and_nothing_else_is() -> None:
    for before, after in product(TestKind, TestKind):
        tiring = before is TestKind.STRENGTH and after in {
            TestKind.MUSCULAR_ENDURANCE,
            TestKind.AEROBIC,
        }
        assert rest_between_s(before, after) == (STRENGTH_TO_ENDURANCE_S if tiring else 0)
    assert DAY.rest_s(PRESS, SHUTTLE) == 300
    assert DAY.rest_s(replace(PRESS, rest_after_s=301), SHUTTLE) == 301
    assert DAY.rest_s(JUMP, PRESS) == 60


def test_an_order_that_has_no_place_for_a_kind_says_so() -> None:
    jumps = PublishedOrder("jumps", ((TestKind.POWER,), (TestKind.SPEED,)), "common_practice")
    assert [jumps.stage(kind) for kind in (TestKind.POWER, TestKind.SPEED)] == [0, 1]
    with pytest.raises(InvalidInput, match="'strength' has no place in it"):
        jumps.stage(TestKind.STRENGTH)


@pytest.mark.parametrize("cut_short", [{2}, {3}, {2, 3}])
def test_a_later_search_cut_short_leaves_the_day_that_was_found_before(
    cut_short: set[int], monkeypatch: pytest.MonkeyPatch
) -> None:
    calls = 0
    real = solve._solve

    def counted(day: DayModel, limit_s: float) -> tuple[cp_model.CpSolver, object]:
        nonlocal calls
        calls += 1
        solver, status = real(day, limit_s)
        return solver, cp_model.UNKNOWN if calls in cut_short else status

    monkeypatch.setattr(solve, "_solve", counted)
    day = replace(DAY, last_order={"A": ("press", "jump", "shuttle")})
    plan = plan_test_day(day)
    assert calls == 3
    assert faults_of_test_day(day, plan) == ()
    assert plan.changed == ("A",)
    assert plain_bound(day)[0] <= plan.bound_s <= plan.length_s
    assert plan.is_proven is (2 not in cut_short) or plan.length_s == plan.bound_s
