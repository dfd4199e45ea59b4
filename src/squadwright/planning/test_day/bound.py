"""A length no day of testing can go below, and what makes it so."""

from squadwright.planning.test_day.problem import DayProblem, Station


def plain_bound(problem: DayProblem) -> tuple[int, str]:
    """Least length [s] by the busiest test, the helpers and one athlete's own way."""
    named = [(_station_s(problem, station), station.id) for station in problem.stations]
    named.append((_helpers_s(problem), "helpers"))
    named.append((_athlete_s(problem), "one athlete's own tests and rests"))
    return max(named, key=lambda pair: pair[0])


def _station_s(problem: DayProblem, station: Station) -> int:
    """Its turns one after the other, after what must come before and before what must follow."""
    turns = -(-len(problem.athletes) // station.places)
    return _before_s(problem, station) + turns * station.duration_s + _after_s(problem, station)


def _before_s(problem: DayProblem, station: Station) -> int:
    """Earliest start: every test of an earlier stage, each with its rest."""
    stage = problem.stage(station)
    return sum(s.duration_s + s.rest_after_s for s in problem.stations if problem.stage(s) < stage)


def _after_s(problem: DayProblem, station: Station) -> int:
    """Least time from its end to the end of the day."""
    later = [s for s in problem.stations if problem.stage(s) > problem.stage(station)]
    rests = sum(s.rest_after_s for s in later) - max((s.rest_after_s for s in later), default=0)
    return sum(s.duration_s for s in later) + rests + (station.rest_after_s if later else 0)


def _helpers_s(problem: DayProblem) -> int:
    work = sum(
        s.helpers * s.duration_s * (problem.sittings(s) if s.together else len(problem.athletes))
        for s in problem.stations
    )
    return -(-work // problem.helpers) if problem.helpers else 0


def _athlete_s(problem: DayProblem) -> int:
    """All tests of one athlete, with every rest but the longest, which may come last."""
    rests = [s.rest_after_s for s in problem.stations]
    return sum(s.duration_s for s in problem.stations) + sum(rests) - max(rests)
