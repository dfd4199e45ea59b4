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
    turns = problem.sittings(station)
    return _before_s(problem, station) + turns * station.duration_s + _after_s(problem, station)


def _before_s(problem: DayProblem, station: Station) -> int:
    """Earliest start: every test of an earlier stage, each with its rest, of who has least."""
    stage = problem.stage(station)
    return min(
        sum(s.duration_s + s.rest_after_s for s in problem.tests_of(a) if problem.stage(s) < stage)
        for a in problem.members(station)
    )


def _after_s(problem: DayProblem, station: Station) -> int:
    """Least time from its end to the end of the day, of who has least to come."""
    return min(_later_s(problem, station, a) for a in problem.members(station))


def _later_s(problem: DayProblem, station: Station, athlete: str) -> int:
    later = [s for s in problem.tests_of(athlete) if problem.stage(s) > problem.stage(station)]
    rests = sum(s.rest_after_s for s in later) - max((s.rest_after_s for s in later), default=0)
    return sum(s.duration_s for s in later) + rests + (station.rest_after_s if later else 0)


def _helpers_s(problem: DayProblem) -> int:
    work = sum(
        s.helpers * s.duration_s * (problem.sittings(s) if s.together else len(problem.members(s)))
        for s in problem.stations
    )
    return -(-work // problem.helpers) if problem.helpers else 0


def _athlete_s(problem: DayProblem) -> int:
    """All tests of who has most, with every rest but the longest, which may come last."""

    def of_one(athlete: str) -> int:
        own = problem.tests_of(athlete)
        rests = [s.rest_after_s for s in own]
        return sum(s.duration_s for s in own) + sum(rests) - max(rests)

    return max(of_one(athlete) for athlete in problem.athletes)
