"""Look at a finished day of testing again, minute by minute, by rules written out afresh."""

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

from squadwright.planning.test_day.problem import DayPlan, DayProblem, Station, Visit


def faults_of_test_day(problem: DayProblem, plan: DayPlan) -> tuple[str, ...]:
    """Every rule the plan breaks, in one sentence each; none for a sound plan."""
    rules = (_missing, _times, _athletes, _stations, _helpers, _queues, _last_time, _length)
    return tuple(fault for rule in rules for fault in rule(problem, plan))


def _missing(problem: DayProblem, plan: DayPlan) -> Iterator[str]:
    """Everybody has every test once that he does not skip, and nobody anything else."""
    seen = Counter((visit.athlete, visit.station) for visit in plan.visits)
    wanted = {(athlete, test.id) for athlete in problem.athletes for test in problem.stations}
    wanted -= problem.skips
    for athlete, test in sorted(wanted | set(seen)):
        count = seen[athlete, test]
        if count != ((athlete, test) in wanted):
            yield f"{athlete} has {test} {count} times"


def _times(problem: DayProblem, plan: DayPlan) -> Iterator[str]:
    """Each test takes its time, inside the slot."""
    lengths = {test.id: test.duration_s for test in problem.stations}
    for visit in plan.visits:
        if visit.end_s - visit.start_s != lengths.get(visit.station):
            yield f"{visit.athlete} is at {visit.station} for {visit.end_s - visit.start_s} s"
        if visit.start_s < 0 or visit.end_s > problem.slot_s:
            yield f"{visit.athlete} is at {visit.station} outside the slot"


def _way_of(problem: DayProblem, plan: DayPlan, athlete: str) -> list[tuple[Visit, Station]]:
    tests = {test.id: test for test in problem.stations}
    own = (v for v in plan.visits if v.athlete == athlete and v.station in tests)
    return [(visit, tests[visit.station]) for visit in sorted(own, key=lambda v: v.start_s)]


def _owed_s(before: Station, after: Station) -> int:
    """Rest between two tests; five minutes from strength to endurance at least."""
    is_tired = before.kind.value == "strength"
    is_long = after.kind.value in ("muscular endurance", "aerobic")
    return max(before.rest_after_s, 300 if is_tired and is_long else 0)


def _athletes(problem: DayProblem, plan: DayPlan) -> Iterator[str]:
    """One test at a time, the rest owed between two, and no stage before an earlier one."""
    stages = problem.order.stages
    for athlete in problem.athletes:
        way = _way_of(problem, plan, athlete)
        for (visit, test), (after, next_test) in pairwise(way):
            owed, given = _owed_s(test, next_test), after.start_s - visit.end_s
            if given < owed:
                yield f"{athlete} has {given} s of {owed} s before {after.station}"
        numbers = [
            next(n for n, kinds in enumerate(stages) if test.kind in kinds) for _, test in way
        ]
        if numbers != sorted(numbers):
            yield f"{athlete} has a test before one that should come earlier"


def _stations(problem: DayProblem, plan: DayPlan) -> Iterator[str]:
    """No place taken twice at once, no place that is not there, sittings start together."""
    for test in problem.stations:
        here = [visit for visit in plan.visits if visit.station == test.id]
        for visit in here:
            if not 1 <= visit.place <= test.places:
                yield f"{test.id} has no place {visit.place}"
            rivals = [
                other
                for other in here
                if visit.start_s <= other.start_s < visit.end_s and other != visit
            ]
            if any(other.place == visit.place for other in rivals):
                yield f"place {visit.place} of {test.id} is taken twice at {visit.start_s} s"
            if test.together and any(other.start_s != visit.start_s for other in rivals):
                yield f"a sitting of {test.id} begins while another runs, at {visit.start_s} s"


def _helpers(problem: DayProblem, plan: DayPlan) -> Iterator[str]:
    """As many helpers as a test needs, each at one test at a time."""
    needed = {test.id: test.helpers for test in problem.stations}
    together = {test.id for test in problem.stations if test.together}
    at_work: dict[int, set[tuple[int, int, str, str]]] = {}
    for visit in plan.visits:
        if len(set(visit.helpers)) != needed.get(visit.station):
            yield f"{visit.station} of {visit.athlete} has {len(set(visit.helpers))} helpers"
        whose = "all" if visit.station in together else visit.athlete
        for number in visit.helpers:
            if not 1 <= number <= problem.helpers:
                yield f"there is no helper {number}"
            turn = (visit.start_s, visit.end_s, visit.station, whose)
            at_work.setdefault(number, set()).add(turn)
    for number, turns in sorted(at_work.items()):
        in_time = sorted(turns)
        for turn, after in pairwise(in_time):
            if after[0] < turn[1]:
                yield f"helper {number} is at {turn[2]} and {after[2]} at {after[0]} s"


def _queues(problem: DayProblem, plan: DayPlan) -> Iterator[str]:
    """Waits are as stated, and at no moment do too many wait for one test."""
    waiting: dict[str, list[tuple[int, int]]] = {t.id: [] for t in problem.stations}
    for athlete in problem.athletes:
        way = _way_of(problem, plan, athlete)
        for place, (visit, test) in enumerate(way):
            wait = 0
            if place and not test.together:
                before, test_before = way[place - 1]
                wait = visit.start_s - before.end_s - _owed_s(test_before, test)
            if wait != visit.waited_s:
                yield f"{athlete} waits {wait} s for {test.id}, and {visit.waited_s} s is stated"
            if wait > 0:
                waiting[test.id].append((visit.start_s - wait, visit.start_s))
    for name, spans in waiting.items():
        for moment, _ in spans:
            count = sum(start <= moment < end for start, end in spans)
            if count > problem.most_waiting:
                yield f"{count} wait for {name} at {moment} s"


def _last_time(problem: DayProblem, plan: DayPlan) -> Iterator[str]:
    """Whoever has another order than last time is named, with a warning; nobody else is."""
    for athlete in problem.athletes:
        today = [visit.station for visit, _ in _way_of(problem, plan, athlete)]
        before = [test for test in problem.last_order.get(athlete, ()) if test in today]
        differs = before != [test for test in today if test in before]
        if differs != (athlete in plan.changed):
            yield f"{athlete} has {'another' if differs else 'the same'} order and is named wrongly"
    if len(plan.warnings) != len(plan.changed):
        yield f"{len(plan.changed)} orders changed and {len(plan.warnings)} warnings given"


def _length(problem: DayProblem, plan: DayPlan) -> Iterator[str]:
    """The stated length is the last end, and no bound lies above what was found."""
    last = max((visit.end_s for visit in plan.visits), default=0)
    if plan.length_s != last:
        yield f"the day ends at {last} s, not at {plan.length_s} s"
    if plan.bound_s > plan.length_s or plan.changed_bound > len(plan.changed):
        yield "a bound lies above what was found"
