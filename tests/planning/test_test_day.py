"""A day of testing: known shortest days, the queue, the order of last time, what cannot be.

Known optima come from outside: another solver, and two results of scheduling theory that are
recalled (two stations in any order; equal jobs one after the other).
"""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases import cases
from planning.second_look_at_a_test_day import faults_of_test_day
from squadwright.errors import InvalidInput, NoSolution, OutOfTime
from squadwright.formulas.sources import all_sources
from squadwright.model.fitness_test import TestKind
from squadwright.planning.test_day.bound import plain_bound
from squadwright.planning.test_day.order import (
    ANY_ORDER,
    ORDERS,
    SPEED_BEFORE_STRENGTH,
    STRENGTH_BEFORE_SPEED,
)
from squadwright.planning.test_day.problem import DayPlan, DayProblem, Station, Visit
from squadwright.planning.test_day.solve import plan_test_day

SQUAD = tuple(f"A{number:02}" for number in range(1, 15))
JUMP = Station("jump", TestKind.POWER, 120, helpers=1)
THROW = Station("throw", TestKind.POWER, 180)
GRIP = Station("grip", TestKind.STRENGTH, 120)
PRESS = Station("press", TestKind.STRENGTH, 300, places=2, helpers=1)
SHUTTLE = Station("shuttle", TestKind.AEROBIC, 600, places=14, helpers=3, together=True)
DAY = DayProblem(SQUAD, (JUMP, THROW, GRIP, PRESS, SHUTTLE), helpers=3, slot_s=75 * 60)
SAME = dict.fromkeys(SQUAD, ("jump", "throw", "grip", "press", "shuttle"))


def in_any_order(minutes: tuple[int, ...], squad: int = 14, slot_min: int = 75) -> DayProblem:
    """Stations of one place each that tire nobody and need nobody."""
    stations = tuple(
        Station(f"test {number}", TestKind.MEASURING, 60 * length)
        for number, length in enumerate(minutes)
    )
    return DayProblem(SQUAD[:squad], stations, 0, 60 * slot_min, ANY_ORDER)


@pytest.fixture(scope="module")
def planned() -> DayPlan:
    """The whole day, nobody tested before."""
    return plan_test_day(DAY)


def visit_of(plan: DayPlan, athlete: str, station: str) -> Visit:
    return next(v for v in plan.visits if (v.athlete, v.station) == (athlete, station))


def order_of(plan: DayPlan, athlete: str) -> list[str]:
    own = [visit for visit in plan.visits if visit.athlete == athlete]
    return [visit.station for visit in sorted(own, key=lambda v: v.start_s)]


def test_fourteen_athletes_at_five_stations_take_the_time_of_the_busiest() -> None:
    """2, 3, 4, 3 and 5 min in any order: another solver proves 70 min, the busiest station."""
    problem = in_any_order((2, 3, 4, 3, 5))
    plan = plan_test_day(problem)
    assert (plan.length_s, plan.bound_s, plan.bottleneck) == (4200, 4200, "test 4")
    assert plan.is_proven
    assert faults_of_test_day(problem, plan) == ()


def test_a_slot_below_the_busiest_station_is_refused_with_its_reason() -> None:
    with pytest.raises(NoSolution, match=r"at least 70 min because of test 4, and the slot has 69"):
        plan_test_day(in_any_order((2, 3, 4, 3, 5), slot_min=69))


def test_fourteen_athletes_five_tests_and_three_helpers_fit_into_75_minutes(
    planned: DayPlan,
) -> None:
    assert faults_of_test_day(DAY, planned) == ()
    assert planned.length_s <= 75 * 60
    assert planned.bound_s <= planned.length_s
    assert len(planned.visits) == 14 * 5
    assert {number for visit in planned.visits for number in visit.helpers} == {1, 2, 3}
    assert planned.changed == ()
    assert planned.warnings == ()


def test_power_comes_before_strength_and_endurance_last_after_five_minutes(
    planned: DayPlan,
) -> None:
    for athlete in SQUAD:
        way = order_of(planned, athlete)
        assert set(way[:2]) == {"jump", "throw"}
        assert way[4] == "shuttle"
        last_strength = max(visit_of(planned, athlete, t).end_s for t in ("grip", "press"))
        assert visit_of(planned, athlete, "shuttle").start_s - last_strength >= 300


def test_the_order_of_last_time_is_kept_by_all_where_it_fits() -> None:
    plan = plan_test_day(replace(DAY, last_order=SAME))
    assert faults_of_test_day(replace(DAY, last_order=SAME), plan) == ()
    assert all(order_of(plan, athlete) == list(SAME[athlete]) for athlete in SQUAD)
    assert (plan.changed, plan.changed_bound) == ((), 0)


def test_who_must_change_his_order_is_warned_about_by_name() -> None:
    """Last time he had his grip tested before he jumped: the published order forbids it today."""
    problem = replace(
        DAY, last_order={**SAME, "A05": ("grip", "jump", "throw", "press", "shuttle")}
    )
    plan = plan_test_day(problem)
    assert faults_of_test_day(problem, plan) == ()
    assert (plan.changed, plan.changed_bound) == (("A05",), 1)
    (warning,) = plan.warnings
    assert warning.startswith("A05: today ")
    assert "last time grip, jump, throw, press, shuttle" in warning


def test_a_test_that_is_new_today_changes_nobodys_order() -> None:
    problem = replace(DAY, last_order=dict.fromkeys(SQUAD, ("sprint", "throw", "press")))
    plan = plan_test_day(problem)
    assert plan.changed == ()
    assert faults_of_test_day(problem, plan) == ()


def test_without_any_queue_allowed_nobody_waits() -> None:
    problem = replace(DAY, last_order=SAME, most_waiting=0)
    plan = plan_test_day(problem)
    assert faults_of_test_day(problem, plan) == ()
    assert {visit.waited_s for visit in plan.visits} == {0}


def test_a_sitting_too_small_for_all_is_held_twice() -> None:
    problem = replace(
        DAY,
        athletes=SQUAD[:6],
        stations=(JUMP, PRESS, replace(SHUTTLE, places=4)),
    )
    plan = plan_test_day(problem)
    assert faults_of_test_day(problem, plan) == ()
    starts = [v.start_s for v in plan.visits if v.station == "shuttle"]
    assert len(set(starts)) == 2
    assert max(starts.count(start) for start in starts) <= 4


def test_rest_after_a_test_is_kept_before_the_next() -> None:
    press = replace(PRESS, rest_after_s=420)
    problem = DayProblem(SQUAD[:3], (JUMP, press, replace(GRIP, duration_s=60)), 1, 3600)
    plan = plan_test_day(problem)
    assert faults_of_test_day(problem, plan) == ()
    for athlete in SQUAD[:3]:
        for before, after in pairwise(order_of(plan, athlete)):
            gap = visit_of(plan, athlete, after).start_s - visit_of(plan, athlete, before).end_s
            assert gap >= (420 if before == "press" else 0)


@settings(max_examples=cases(12))
@given(st.integers(1, 6), st.integers(1, 6), st.integers(1, 7))
def test_two_stations_in_any_order_take_the_busiest_or_one_athletes_own_time(
    first: int, second: int, squad: int
) -> None:
    """Gonzalez and Sahni 1976 (from memory): the shortest open shop of two machines."""
    problem = replace(in_any_order((first, second), squad), most_waiting=60)
    plan = plan_test_day(problem)
    assert plan.is_proven
    assert plan.length_s == 60 * max(squad * first, squad * second, first + second)


@settings(max_examples=cases(12))
@given(st.lists(st.integers(1, 5), min_size=2, max_size=3), st.integers(2, 6))
def test_equal_athletes_in_one_order_take_all_tests_once_and_the_slowest_for_each_other(
    minutes: list[int], squad: int
) -> None:
    """Equal jobs through machines in one order: the sum, and n - 1 times the longest."""
    kinds = (TestKind.POWER, TestKind.SPEED, TestKind.AGILITY)
    stations = tuple(
        Station(kind.value, kind, 60 * length) for kind, length in zip(kinds, minutes, strict=False)
    )
    plan = plan_test_day(DayProblem(SQUAD[:squad], stations, 0, 7200, SPEED_BEFORE_STRENGTH))
    assert plan.length_s == 60 * (sum(minutes) + (squad - 1) * max(minutes))
    assert plan.is_proven


@settings(max_examples=cases(15))
@given(st.data())
def test_any_day_is_sound_or_refused_and_no_bound_lies_above_it(data: st.DataObject) -> None:
    count = data.draw(st.integers(1, 4))
    stations = tuple(
        Station(
            id=f"t{number}",
            kind=data.draw(st.sampled_from(TestKind)),
            duration_s=60 * data.draw(st.integers(1, 6)),
            places=data.draw(st.integers(1, 3)),
            helpers=data.draw(st.integers(0, 2)),
            together=data.draw(st.booleans()),
            rest_after_s=60 * data.draw(st.integers(0, 4)),
        )
        for number in range(count)
    )
    squad = SQUAD[: data.draw(st.integers(1, 5))]
    names = [station.id for station in stations]
    problem = DayProblem(
        squad,
        stations,
        helpers=2,
        slot_s=60 * data.draw(st.integers(10, 90)),
        order=data.draw(st.sampled_from(ORDERS)),
        most_waiting=data.draw(st.integers(0, 2)),
        last_order={squad[0]: tuple(data.draw(st.permutations(names)))},
        time_limit_s=1,
    )
    try:
        plan = plan_test_day(problem)
    except NoSolution:
        return
    assert faults_of_test_day(problem, plan) == ()
    assert plan_length_bounds_hold(problem, plan)


def plan_length_bounds_hold(problem: DayProblem, plan: DayPlan) -> bool:
    return plain_bound(problem)[0] <= plan.bound_s <= plan.length_s <= problem.slot_s


def test_a_day_that_one_helper_cannot_run_within_the_slot_is_proven_so() -> None:
    """One helper, three times 1 + 3 min: 12 min of work fill the slot, and the rest of a minute
    between an athlete's two tests, with nobody allowed to wait, leaves him idle at least once.
    """
    jump = Station("jump", TestKind.POWER, 60, helpers=1)
    press = Station("press", TestKind.STRENGTH, 180, helpers=1)
    day = DayProblem(SQUAD[:3], (jump, press), helpers=1, slot_s=12 * 60, most_waiting=0)
    assert plan_test_day(day).length_s == 12 * 60
    rested = replace(day, stations=(replace(jump, rest_after_s=60), press))
    with pytest.raises(NoSolution, match="at most 0 in a queue: proven"):
        plan_test_day(rested)


def test_time_that_runs_out_is_told_apart_from_a_day_that_cannot_be() -> None:
    with pytest.raises(OutOfTime, match="nor a proof that there is none"):
        plan_test_day(replace(DAY, time_limit_s=1e-6))


def moved(plan: DayPlan, athlete: str, station: str, **changes: object) -> DayPlan:
    """The plan with one visit changed."""
    old = visit_of(plan, athlete, station)
    new = replace(old, **changes)  # type: ignore[arg-type]
    return replace(plan, visits=tuple(new if v == old else v for v in plan.visits))


def broken_days(plan: DayPlan) -> dict[str, tuple[DayPlan, str]]:
    """One broken plan for each rule, with what must be said of it."""
    jump, press, throw = (visit_of(plan, "A03", t) for t in ("jump", "press", "throw"))
    other = next(
        v for v in plan.visits if v.station == "jump" and v.athlete != "A03" and v.start_s >= 120
    )
    return {
        "left out": (replace(plan, visits=plan.visits[1:]), "0 times"),
        "twice": (replace(plan, visits=(*plan.visits, plan.visits[0])), "2 times"),
        "too short": (moved(plan, "A03", "jump", end_s=jump.end_s - 60), "for 60 s"),
        "outside": (moved(plan, "A03", "jump", start_s=4440, end_s=4560), "outside the slot"),
        "two at once": (
            moved(plan, "A03", "throw", start_s=jump.start_s, end_s=jump.start_s + 180),
            "s of 0 s before",
        ),
        "no rest": (
            moved(plan, "A03", "press", start_s=plan.length_s - 950, end_s=plan.length_s - 650),
            "s of 300 s before shuttle",
        ),
        "stage": (
            moved(plan, "A03", "throw", start_s=press.end_s, end_s=press.end_s + 180),
            "before one that should come earlier",
        ),
        "no place": (moved(plan, "A03", "jump", place=2), "jump has no place 2"),
        "place taken": (
            moved(plan, "A03", "jump", start_s=other.start_s, end_s=other.end_s),
            "place 1 of jump is taken twice",
        ),
        "sitting": (
            moved(
                plan,
                "A03",
                "shuttle",
                start_s=plan.length_s - 540,
                end_s=plan.length_s + 60,
            ),
            "while another runs",
        ),
        "no helper": (moved(plan, "A03", "jump", helpers=()), "jump of A03 has 0 helpers"),
        "strange helper": (moved(plan, "A03", "jump", helpers=(4,)), "there is no helper 4"),
        "helper twice": (
            moved(
                plan,
                "A03",
                "jump",
                start_s=other.start_s - 60,
                end_s=other.start_s + 60,
                helpers=other.helpers,
            ),
            f"helper {other.helpers[0]} is at",
        ),
        "wait": (moved(plan, "A03", "throw", waited_s=throw.waited_s + 60), "is stated"),
        "named": (replace(plan, changed=("A03",)), "the same order and is named wrongly"),
        "warning": (replace(plan, warnings=("one",)), "0 orders changed and 1 warnings"),
        "length": (replace(plan, length_s=plan.length_s - 60), "the day ends at"),
        "bound": (replace(plan, bound_s=plan.length_s + 60), "a bound lies above"),
    }


def test_each_broken_day_is_refused_by_the_second_look(planned: DayPlan) -> None:
    for name, (plan, message) in broken_days(planned).items():
        assert plan != planned, name
        faults = faults_of_test_day(DAY, plan)
        assert any(message in fault for fault in faults), (name, faults)


def test_a_queue_longer_than_allowed_is_refused_by_the_second_look() -> None:
    """Three in a row at the second test, all ready at once: two wait."""
    stations = (Station("jump", TestKind.POWER, 60, places=3), Station("throw", TestKind.POWER, 60))
    problem = DayProblem(SQUAD[:3], stations, 0, 3600, most_waiting=2)
    visits = tuple(
        visit
        for number, athlete in enumerate(SQUAD[:3])
        for visit in (
            Visit(athlete, "jump", 0, 60, number + 1),
            Visit(athlete, "throw", 60 + 60 * number, 120 + 60 * number, 1, (), 60 * number),
        )
    )
    plan = DayPlan(visits, 240, 240, "throw")
    assert faults_of_test_day(problem, plan) == ()
    assert "2 wait for throw at 60 s" in faults_of_test_day(replace(problem, most_waiting=1), plan)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"athletes": ()}, "athletes: holds 0; 1 to 60"),
        ({"athletes": ("A01", "A01")}, "'A01' stands twice"),
        ({"stations": (JUMP, JUMP)}, "'jump' stands twice"),
        ({"helpers": 2}, "stations[4].helpers: shuttle needs 3 helpers and 2 are there"),
        ({"slot_s": 30}, "slot_s: 30 s is outside 60 to 28800"),
        ({"stations": (replace(JUMP, duration_s=0),)}, "duration_s: 0 s is outside 1 to 3600"),
        ({"most_waiting": -1}, "most_waiting: -1 athletes"),
        ({"time_limit_s": 0}, "time_limit_s: 0 s is not above 0"),
        ({"time_limit_s": -1}, "time_limit_s: -1 s is not above 0"),
    ],
)
def test_a_day_that_makes_no_sense_is_refused(change: dict[str, object], message: str) -> None:
    with pytest.raises(InvalidInput) as caught:
        replace(DAY, **change)  # type: ignore[arg-type]
    assert message in str(caught.value)


def test_each_published_order_places_every_kind_and_names_its_source() -> None:
    for order in ORDERS:
        assert order.source in all_sources()
        assert all(order.stage(kind) >= 0 for kind in TestKind)
        for kind in (TestKind.POWER, TestKind.STRENGTH):
            assert order.stage(kind) <= order.stage(TestKind.AEROBIC)
    strength, speed = TestKind.STRENGTH, TestKind.SPEED
    assert STRENGTH_BEFORE_SPEED.stage(strength) < STRENGTH_BEFORE_SPEED.stage(speed)
    assert SPEED_BEFORE_STRENGTH.stage(speed) < SPEED_BEFORE_STRENGTH.stage(strength)


def test_who_skips_a_test_does_the_others_and_the_day_is_shorter() -> None:
    """Three skip the busiest of two tests: 14 x 3 min become 11 x 3, the other one 14 x 2."""
    problem = replace(
        in_any_order((3, 2)),
        skips=frozenset((athlete, "test 0") for athlete in SQUAD[:3]),
    )
    plan = plan_test_day(problem)
    assert (plan.length_s, plan.bound_s, plan.bottleneck) == (33 * 60, 33 * 60, "test 0")
    assert {v.athlete for v in plan.visits if v.station == "test 0"} == set(SQUAD[3:])
    assert {v.athlete for v in plan.visits if v.station == "test 1"} == set(SQUAD)
    assert faults_of_test_day(problem, plan) == ()
    visit = visit_of(plan, SQUAD[4], "test 0")
    wrong = replace(plan, visits=(*plan.visits, replace(visit, athlete=SQUAD[0])))
    assert f"{SQUAD[0]} has test 0 1 times" in faults_of_test_day(problem, wrong)


def test_a_whole_day_with_skips_keeps_every_rule() -> None:
    skips = frozenset({("A01", "shuttle"), ("A02", "jump"), ("A02", "grip"), ("A14", "press")})
    problem = replace(DAY, skips=skips, last_order=SAME)
    plan = plan_test_day(problem)
    assert faults_of_test_day(problem, plan) == ()
    assert order_of(plan, "A02") == ["throw", "press", "shuttle"]


def test_a_test_or_an_athlete_that_is_skipped_altogether_is_refused() -> None:
    with pytest.raises(InvalidInput, match="nobody does jump"):
        replace(DAY, skips=frozenset((a, "jump") for a in SQUAD))
    with pytest.raises(InvalidInput, match="A01 does no test"):
        replace(DAY, skips=frozenset(("A01", s.id) for s in DAY.stations))
