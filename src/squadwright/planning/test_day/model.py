"""The day of testing as variables and rules for CP-SAT, one function a rule."""

from dataclasses import dataclass, field
from itertools import pairwise

from ortools.sat.python import cp_model

from squadwright.planning.test_day.problem import DayProblem, Station

Key = tuple[str, str]


@dataclass
class DayModel:
    """Variables of one problem, times in steps of ``step_s``."""

    problem: DayProblem
    step_s: int
    horizon: int
    model: cp_model.CpModel = field(default_factory=cp_model.CpModel)
    starts: dict[Key, cp_model.IntVar] = field(default_factory=dict)
    ready: dict[Key, cp_model.IntVar] = field(default_factory=dict)
    changed: dict[str, cp_model.IntVar] = field(default_factory=dict)
    sittings: dict[str, list[cp_model.IntVar]] = field(default_factory=dict)
    length: cp_model.IntVar = field(init=False)

    def __post_init__(self) -> None:
        self.length = self.model.new_int_var(0, self.horizon, "length")
        for athlete in self.problem.athletes:
            for station in self.problem.tests_of(athlete):
                end = self.horizon - self.steps(station.duration_s)
                name = f"{athlete} {station.id}"
                self.starts[athlete, station.id] = self.model.new_int_var(0, end, name)

    def steps(self, seconds: int) -> int:
        """A time in steps; every time of the problem is a whole number of them."""
        return seconds // self.step_s


def build(problem: DayProblem, step_s: int, horizon_s: int) -> DayModel:
    """The whole model: rules first, then how it is measured."""
    day = DayModel(problem, step_s, horizon_s // step_s)
    for station in problem.stations:
        if station.together:
            _sit_together(day, station)
        else:
            _places_there_are(day, station)
    for athlete in problem.athletes:
        _one_test_after_the_other(day, athlete)
        _stages_in_order(day, athlete)
        _order_of_last_time(day, athlete)
    _helpers_there_are(day)
    _queue_not_longer(day)
    for station in problem.stations:
        for athlete in problem.members(station):
            end = day.starts[athlete, station.id] + day.steps(station.duration_s)
            day.model.add(day.length >= end)
    return day


def _visits(day: DayModel, station: Station) -> list[cp_model.IntervalVar]:
    size = day.steps(station.duration_s)
    return [
        day.model.new_fixed_size_interval_var(day.starts[a, station.id], size, f"{a} {station.id}")
        for a in day.problem.members(station)
    ]


def _places_there_are(day: DayModel, station: Station) -> None:
    """Never more athletes at a test than it has places."""
    visits = _visits(day, station)
    if station.places == 1:
        day.model.add_no_overlap(visits)
    else:
        day.model.add_cumulative(visits, [1] * len(visits), station.places)


def _sit_together(day: DayModel, station: Station) -> None:
    """Each athlete is in one sitting, none holds too many, and sittings follow each other."""
    size = day.steps(station.duration_s)
    count = day.problem.sittings(station)
    begins = [
        day.model.new_int_var(0, day.horizon - size, f"{station.id} {number}")
        for number in range(count)
    ]
    for before, after in pairwise(begins):
        day.model.add(after >= before + size)
    is_in = {
        (athlete, number): day.model.new_bool_var(f"{athlete} in {station.id} {number}")
        for athlete in day.problem.members(station)
        for number in range(count)
    }
    for athlete in day.problem.members(station):
        day.model.add_exactly_one(is_in[athlete, number] for number in range(count))
        for number in range(count):
            start = day.starts[athlete, station.id]
            day.model.add(start == begins[number]).only_enforce_if(is_in[athlete, number])
    for number in range(count):
        members = [is_in[athlete, number] for athlete in day.problem.members(station)]
        day.model.add(sum(members) <= station.places)
    day.sittings[station.id] = begins


def _one_test_after_the_other(day: DayModel, athlete: str) -> None:
    """A way through all his tests: each begins after the one before and the rest it is owed."""
    stations = day.problem.tests_of(athlete)
    arcs: list[tuple[int, int, cp_model.IntVar]] = []
    for j, after in enumerate(stations, start=1):
        start = day.starts[athlete, after.id]
        ready = day.model.new_int_var(0, day.horizon, f"{athlete} ready for {after.id}")
        day.ready[athlete, after.id] = ready
        day.model.add(ready <= start)
        is_first = day.model.new_bool_var(f"{athlete} begins with {after.id}")
        day.model.add(ready == start).only_enforce_if(is_first)
        arcs.append((0, j, is_first))
        arcs.append((j, 0, day.model.new_bool_var(f"{athlete} ends with {after.id}")))
        for i, before in enumerate(stations, start=1):
            if i == j or day.problem.stage(before) > day.problem.stage(after):
                continue
            follows = day.model.new_bool_var(f"{athlete} {before.id} then {after.id}")
            taken = day.steps(before.duration_s + day.problem.rest_s(before, after))
            end = day.starts[athlete, before.id] + taken
            day.model.add(ready == end).only_enforce_if(follows)
            arcs.append((i, j, follows))
    day.model.add_circuit(arcs)
    intervals = [
        day.model.new_fixed_size_interval_var(
            day.starts[athlete, s.id], day.steps(s.duration_s), f"{athlete} busy {s.id}"
        )
        for s in stations
    ]
    day.model.add_no_overlap(intervals)


def _stages_in_order(day: DayModel, athlete: str) -> None:
    """A test of a later stage begins after those of earlier ones, with the rest between them."""
    own = day.problem.tests_of(athlete)
    for before in own:
        for after in own:
            if day.problem.stage(before) < day.problem.stage(after):
                taken = day.steps(before.duration_s + day.problem.rest_s(before, after))
                day.model.add(
                    day.starts[athlete, after.id] >= day.starts[athlete, before.id] + taken
                )


def _order_of_last_time(day: DayModel, athlete: str) -> None:
    """Unless he counts as changed, his tests follow each other as they did."""
    wanted = day.problem.wanted_order(athlete)
    if len(wanted) < 2:
        return
    day.changed[athlete] = day.model.new_bool_var(f"{athlete} changed")
    for before, after in pairwise(wanted):
        end = day.starts[athlete, before.id] + day.steps(before.duration_s)
        later = day.model.add(day.starts[athlete, after.id] >= end)
        later.only_enforce_if(day.changed[athlete].negated())


def _helpers_there_are(day: DayModel) -> None:
    """Never more helpers at work than there are."""
    intervals: list[cp_model.IntervalVar] = []
    demands: list[int] = []
    for station in day.problem.stations:
        if not station.helpers:
            continue
        size = day.steps(station.duration_s)
        used = (
            [
                day.model.new_fixed_size_interval_var(begin, size, f"helper {station.id} {number}")
                for number, begin in enumerate(day.sittings[station.id])
            ]
            if station.together
            else _visits(day, station)
        )
        intervals += used
        demands += [station.helpers] * len(used)
    if intervals:
        day.model.add_cumulative(intervals, demands, day.problem.helpers)


def _queue_not_longer(day: DayModel) -> None:
    """Never more athletes waiting for a test than allowed; before a sitting all gather."""
    for station in day.problem.stations:
        if station.together:
            continue
        waits = []
        for athlete in day.problem.members(station):
            start, ready = day.starts[athlete, station.id], day.ready[athlete, station.id]
            size = day.model.new_int_var(0, day.horizon, f"{athlete} waits for {station.id}")
            day.model.add(size == start - ready)
            waits.append(
                day.model.new_interval_var(ready, size, start, f"{athlete} queues {station.id}")
            )
        if len(waits) > day.problem.most_waiting:
            day.model.add_cumulative(waits, [1] * len(waits), day.problem.most_waiting)
