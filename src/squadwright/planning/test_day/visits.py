"""From start times to visits: which place, which helpers, how long in the queue."""

from collections.abc import Iterable, Mapping

from squadwright.planning.test_day.problem import DayProblem, Station, Visit

Key = tuple[str, str]


def lay_out(problem: DayProblem, starts: Mapping[Key, int]) -> tuple[Visit, ...]:
    """Every visit in order of time, with place, helpers and wait."""
    places = {s.id: _places(problem, s, starts) for s in problem.stations}
    helpers = _helpers(problem, starts)
    visits = [
        Visit(
            athlete=athlete,
            station=station.id,
            start_s=starts[athlete, station.id],
            end_s=starts[athlete, station.id] + station.duration_s,
            place=places[station.id][athlete],
            helpers=helpers.get((athlete, station.id), ()),
            waited_s=_waited_s(problem, athlete, station, starts),
        )
        for athlete in problem.athletes
        for station in problem.tests_of(athlete)
    ]
    return tuple(sorted(visits, key=lambda v: (v.start_s, v.station, v.place)))


def _places(problem: DayProblem, station: Station, starts: Mapping[Key, int]) -> dict[str, int]:
    """The lowest free place for each athlete, in order of their starts."""
    free_at = [0] * station.places
    taken: dict[str, int] = {}
    for athlete in sorted(problem.members(station), key=lambda a: starts[a, station.id]):
        start = starts[athlete, station.id]
        place = next(number for number, free in enumerate(free_at) if free <= start)
        free_at[place] = start + station.duration_s
        taken[athlete] = place + 1
    return taken


def _helpers(problem: DayProblem, starts: Mapping[Key, int]) -> dict[Key, tuple[int, ...]]:
    """Free helpers for each visit or sitting; who was last at that test goes on with it."""
    known = {station.id: station for station in problem.stations}
    turns: dict[tuple[int, str, str], list[str]] = {}
    for (athlete, test), start in starts.items():
        together = known[test].together
        turns.setdefault((start, test, "" if together else athlete), []).append(athlete)
    free_at = dict.fromkeys(range(1, problem.helpers + 1), 0)
    last_test = dict.fromkeys(free_at, "")
    given: dict[Key, tuple[int, ...]] = {}
    for start, test, _ in sorted(turns):
        station = known[test]
        free = sorted(
            (number for number, free in free_at.items() if free <= start),
            key=lambda number: (last_test[number] != test, number),
        )[: station.helpers]
        for number in free:
            free_at[number], last_test[number] = start + station.duration_s, test
        for athlete in turns[start, test, _]:
            given[athlete, test] = tuple(free)
    return given


def _waited_s(
    problem: DayProblem, athlete: str, station: Station, starts: Mapping[Key, int]
) -> int:
    """From the end of the test before and its rest to his turn [s]."""
    before = _test_before(problem.tests_of(athlete), athlete, station, starts)
    if before is None or station.together:
        return 0
    ready = starts[athlete, before.id] + before.duration_s + problem.rest_s(before, station)
    return starts[athlete, station.id] - ready


def _test_before(
    stations: Iterable[Station], athlete: str, station: Station, starts: Mapping[Key, int]
) -> Station | None:
    own = starts[athlete, station.id]
    earlier = [s for s in stations if starts[athlete, s.id] < own]
    return max(earlier, key=lambda s: starts[athlete, s.id], default=None)
