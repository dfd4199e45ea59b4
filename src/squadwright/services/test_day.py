"""Query: a day of testing for athletes of the club, in the order of last time; nothing is kept.

The plan follows from what was asked and what was tested before that day, so that page, sheet and
the order in which results are written all show the same one.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, time
from functools import lru_cache

from squadwright.errors import InvalidInput, NoSolution, NotFound, OutOfTime
from squadwright.library.fitness_tests import fitness_test
from squadwright.model.fitness_test import FitnessTest
from squadwright.planning.test_day.barred import barred_from
from squadwright.planning.test_day.order import ORDERS, PublishedOrder
from squadwright.planning.test_day.problem import DayPlan, DayProblem, Station, Visit
from squadwright.planning.test_day.solve import plan_test_day
from squadwright.services.test_results import Result, Results, results_of_tests
from squadwright.services.unit_of_work import Keeper

MOST_WAITING = 3
TOGETHER: Mapping[str, int] = {"shuttle_20_m": 3}
"""Tests run by all at once, and the helpers each sitting wants (common practice, no source)."""
KEPT_PLANS = 16


@dataclass(frozen=True)
class DayWanted:
    """What is asked of a day: who, which tests, how many helpers, how long.

    ``places`` are how many can be at a test at once: mats, bars, devices; 1 where none is named.
    """

    day: date
    starts_at: time
    athletes: tuple[str, ...]
    tests: tuple[str, ...]
    helpers: int
    minutes: int
    order: str
    places: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True)
class OtherOrder:
    """Somebody whose tests follow each other otherwise than last time."""

    athlete: str
    today: tuple[str, ...]
    last_time: tuple[str, ...]


@dataclass(frozen=True)
class PlannedDay:
    """A day of testing; ``barred`` are those who must not do all of it, each with the reasons.

    Who must not do one test is there for the others; ``skips`` says who does not do which.
    """

    known: Results
    wanted: DayWanted
    tests: tuple[FitnessTest, ...]
    plan: DayPlan
    barred: tuple[tuple[str, tuple[str, ...]], ...]
    other_orders: tuple[OtherOrder, ...]
    skips: frozenset[tuple[str, str]] = frozenset()

    def visits_of(self, athlete: str) -> tuple[Visit, ...]:
        """His way through the tests in order of time."""
        own = [v for v in self.plan.visits if v.athlete == athlete]
        return tuple(sorted(own, key=lambda v: v.start_s))

    def visits_at(self, test: str) -> tuple[Visit, ...]:
        """Who is at a test, in order of time."""
        return tuple(v for v in self.plan.visits if v.station == test)

    def place_of(self, athlete: str, test: str) -> int:
        """Which test of his day it is, from 1."""
        return [v.station for v in self.visits_of(athlete)].index(test) + 1

    @property
    def longest_queue(self) -> int:
        """The most that wait for one test at any moment."""
        waits = [
            (v.station, v.start_s - v.waited_s, v.start_s) for v in self.plan.visits if v.waited_s
        ]
        return max(
            (
                sum(s == station and start <= moment < end for s, start, end in waits)
                for station, moment, _ in waits
            ),
            default=0,
        )


def plan_day(keeper: Keeper, wanted: DayWanted) -> PlannedDay:
    """The day as asked; who must not do one of its tests does the others.

    NoSolution where it is proven not to fit, OutOfTime where neither was found.
    """
    known = results_of_tests(keeper)
    if known is None:
        raise NotFound("There is no club yet. Name it first, under First steps")
    tests = tuple(fitness_test(test_id) for test_id in wanted.tests)
    barred = _barred(known, wanted, tests)
    skips = _skips(known, wanted, tests)
    left = tuple(a for a in wanted.athletes if any((a, t.id) not in skips for t in tests))
    tests = tuple(t for t in tests if any((a, t.id) not in skips for a in left))
    if not left:
        raise InvalidInput(
            "who", "nobody is left to be tested", "Choose other athletes, or other tests"
        )
    last = {a: order for a in left if (order := order_of_last_time(known, a, wanted.day))}
    problem = DayProblem(
        athletes=left,
        stations=tuple(_station(test, wanted, len(left)) for test in tests),
        skips=frozenset((a, t.id) for a in left for t in tests if (a, t.id) in skips),
        helpers=wanted.helpers,
        slot_s=wanted.minutes * 60,
        order=_order(wanted.order),
        most_waiting=MOST_WAITING,
        last_order=last,
    )
    plan = _solved(problem, tests)
    found = PlannedDay(known, wanted, tests, plan, barred, (), skips)
    others = tuple(
        OtherOrder(
            a,
            tuple(v.station for v in found.visits_of(a)),
            tuple(t for t in last[a] if t in wanted.tests),
        )
        for a in plan.changed
    )
    return PlannedDay(known, wanted, tests, plan, barred, others, skips)


def order_of_last_time(known: Results, athlete: str, day: date) -> tuple[str, ...]:
    """His tests in the order of his last planned day before a day; empty where there was none."""
    by_day: dict[date, list[Result]] = {}
    for result in known.by_athlete.get(athlete, ()):
        if result.place is not None and result.day < day:
            by_day.setdefault(result.day, []).append(result)
    days = [each for each, results in by_day.items() if len(results) > 1]
    if not days:
        return ()
    in_order = sorted(by_day[max(days)], key=lambda r: r.place or 0)
    return tuple(dict.fromkeys(r.test for r in in_order))


def _skips(
    known: Results, wanted: DayWanted, tests: tuple[FitnessTest, ...]
) -> frozenset[tuple[str, str]]:
    return frozenset(
        (each, test.id)
        for each in wanted.athletes
        for test in tests
        if barred_from(test, known.club.athlete(each), wanted.day)
    )


def _barred(
    known: Results, wanted: DayWanted, tests: tuple[FitnessTest, ...]
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    found = []
    for athlete_id in wanted.athletes:
        athlete = known.club.athlete(athlete_id)
        reasons: dict[str, list[str]] = {}
        for test in tests:
            for reason in barred_from(test, athlete, wanted.day):
                reasons.setdefault(reason, []).append(test.name)
        if reasons:
            told = (
                reason if len(of) == len(tests) else f"{', '.join(of)}: {reason}"
                for reason, of in reasons.items()
            )
            found.append((athlete_id, tuple(told)))
    return tuple(found)


def _station(test: FitnessTest, wanted: DayWanted, athletes: int) -> Station:
    together = test.id in TOGETHER
    places = dict(wanted.places).get(test.id, athletes if together else 1)
    return Station(
        id=test.id,
        kind=test.kind,
        duration_s=test.duration_s,
        places=places,
        helpers=min(TOGETHER.get(test.id, 1), wanted.helpers),
        together=together,
    )


def _order(name: str) -> PublishedOrder:
    for order in ORDERS:
        if order.name == name:
            return order
    known = "; ".join(order.name for order in ORDERS)
    raise InvalidInput("order", f"{name!r} is no order of tests", f"Choose one of {known}")


def _solved(problem: DayProblem, tests: tuple[FitnessTest, ...]) -> DayPlan:
    key = (
        problem.athletes,
        problem.stations,
        problem.helpers,
        problem.slot_s,
        problem.order.name,
        tuple(sorted(problem.last_order.items())),
        problem.skips,
    )
    try:
        return _kept(_Same(key, problem))
    except (NoSolution, OutOfTime) as error:
        words = str(error)
        for test in tests:
            words = words.replace(test.id, test.name)
        raise type(error)(words) from error


class _Same:
    """A problem that equals another one by what was asked."""

    def __init__(self, key: tuple[object, ...], problem: DayProblem) -> None:
        self.key, self.problem = key, problem

    def __hash__(self) -> int:
        return hash(self.key)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and self.key == other.key


@lru_cache(maxsize=KEPT_PLANS)
def _kept(asked: _Same) -> DayPlan:
    return plan_test_day(asked.problem)
