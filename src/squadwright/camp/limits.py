"""The rules of a camp as limits on an athlete's rounds: in a session, in sums, week by week."""

import math
from dataclasses import dataclass, replace
from itertools import pairwise

from squadwright.camp.problem import (
    DAYS_IN_A_WEEK,
    CampAthlete,
    CampEvent,
    CampProblem,
    CampSession,
)
from squadwright.camp.time_off import rest_days

NEARLY = 1e-9


@dataclass(frozen=True)
class Place:
    """An athlete's rounds in one session: limits, and how far they may lie from the squad's."""

    session: int
    least: int
    most: int
    fewer: int
    more: int


@dataclass(frozen=True)
class SumLimit:
    """Rounds in several sessions together."""

    sessions: tuple[int, ...]
    least: int
    most: int
    rule: str


@dataclass(frozen=True)
class RampLimit:
    """Rounds of later sessions less rounds of earlier ones; those before the camp are a number."""

    earlier: tuple[int, ...]
    later: tuple[int, ...]
    most_rise: int


@dataclass(frozen=True)
class Limits:
    """Everything that holds for one athlete. A session without a place is off for him."""

    places: tuple[Place, ...]
    sums: tuple[SumLimit, ...]
    ramps: tuple[RampLimit, ...]


@dataclass(frozen=True)
class Window:
    """The taper before an event: first day, day of the event."""

    event: CampEvent
    first_day: int

    def holds(self, day: int) -> bool:
        """Whether a day is in it."""
        return self.first_day <= day < self.event.day


def tapers(problem: CampProblem, athlete: CampAthlete) -> tuple[Window, ...]:
    """The taper before each event, none beginning before the recovery from the one before."""
    found: list[Window] = []
    free_from = 0
    for event in sorted(athlete.events, key=lambda e: e.day):
        rules = problem.rules
        length = rules.main_taper_d if event.is_main else rules.other_taper_d
        found.append(Window(event, max(free_from, event.day - length)))
        free_from = event.day + 1 + recovery_days(problem, athlete, event)
    return tuple(found)


def recovery_days(problem: CampProblem, athlete: CampAthlete, event: CampEvent) -> int:
    """Days off after an event: more where another one is close, and after many bouts."""
    later = [e.day - event.day for e in athlete.events if e.day > event.day]
    return rest_days(problem.rules, event.bouts, min(later, default=None))


def days_off(problem: CampProblem, athlete: CampAthlete) -> dict[int, str]:
    """Days on which he does no session of the camp, each with the reason."""
    found = {each.day: each.reason for each in athlete.off}
    for event in athlete.events:
        found.setdefault(event.day, f"{event.name}")
        for day in range(1, recovery_days(problem, athlete, event) + 1):
            found.setdefault(event.day + day, f"recovery from {event.name}")
    return found


def in_return(problem: CampProblem, athlete: CampAthlete, day: int) -> bool:
    """Whether a day lies in the first weeks after a gap."""
    if athlete.returns_on is None:
        return False
    weeks = len(problem.rules.return_shares)
    return 0 <= day - athlete.returns_on < weeks * DAYS_IN_A_WEEK


@dataclass(frozen=True)
class Week:
    """A week in which he has sessions of the squad.

    ``least`` is the fewest rounds it may hold, ``rise`` how far it may lie above the week before,
    ``reach`` what it may hold whatever was done in that week.
    """

    everything: tuple[int, ...]
    shared: tuple[int, ...]
    usual: int
    least: int
    rise: int
    reach: float


def limits_of(problem: CampProblem, athlete: CampAthlete) -> Limits:
    """The limits of one athlete; there is always a plan within them."""
    off = days_off(problem, athlete)
    windows = tapers(problem, athlete)
    places: dict[int, Place] = {}
    eased: set[int] = set()
    for number, session in problem.sessions_of(athlete):
        if session.day in off:
            continue
        is_eased = in_return(problem, athlete, session.day) or any(
            window.holds(session.day) for window in windows
        )
        place = _place(problem, athlete, number, session, is_eased=is_eased)
        if place is not None:
            places[number] = place
        if is_eased:
            eased.add(number)
    weeks = _weeks(problem, athlete, places, eased)
    sums = [
        *_taper_sums(problem, athlete, windows, places, weeks),
        *_return_sums(problem, athlete, places),
        *_extra_sums(problem, places),
        *_week_sums(problem, weeks),
    ]
    ramps = [
        RampLimit(before.everything, week.everything, week.rise) for before, week in pairwise(weeks)
    ]
    if athlete.before is not None and weeks:
        ramps.append(RampLimit((), weeks[0].everything, athlete.before.rounds + weeks[0].rise))
    return Limits(tuple(_rebuilt(problem, places, weeks).values()), tuple(sums), tuple(ramps))


def _place(
    problem: CampProblem,
    athlete: CampAthlete,
    number: int,
    session: CampSession,
    *,
    is_eased: bool,
) -> Place | None:
    rules, own = problem.rules, athlete.most_rounds
    if not session.is_shared:
        if is_eased or not athlete.may_do_more:
            return None
        return Place(number, 0, session.most_rounds, 0, 0)
    most = session.most_rounds if own is None else min(own, session.most_rounds)
    most = max(1, min(most, session.usual_rounds) if is_eased else most)
    if any(0 < e.day - session.day <= rules.quiet_d for e in athlete.events):
        most = min(most, rules.quiet_rounds)
    is_own = is_eased or most < session.usual_rounds
    fewer = session.most_rounds if is_own else rules.most_fewer
    more = 0 if is_own else rules.most_more
    return Place(number, 1, most, fewer, more)


def _weeks(
    problem: CampProblem, athlete: CampAthlete, places: dict[int, Place], eased: set[int]
) -> list[Week]:
    """The weeks with their floors. A floor never asks for more than the rise from the fewest
    rounds of the week before allows, so that no floor lifts a taper.
    """
    rules = problem.rules
    found: list[Week] = []
    fewest = None if athlete.before is None else athlete.before.rounds
    for number in range(problem.weeks):
        days = range(number * DAYS_IN_A_WEEK, (number + 1) * DAYS_IN_A_WEEK)
        shared, usual = _usual(problem, places, days)
        if not shared:
            continue
        least, rise, reach = len(shared), rules.most_rise, math.inf
        if fewest is not None:
            rise = max(rise, least - fewest)
            reach = fewest + rise
        if not eased.intersection(shared):
            wanted = math.ceil(rules.week_floor * usual - NEARLY)
            can = min(reach, sum(places[n].most for n in shared))
            least = max(least, int(min(wanted, can)))
        everything = tuple(n for n in places if problem.sessions[n].day in days)
        found.append(Week(everything, tuple(shared), usual, least, rise, reach))
        fewest = least
    return found


def _rebuilt(problem: CampProblem, places: dict[int, Place], weeks: list[Week]) -> dict[int, Place]:
    """In a week that may not reach what the squad does yet, he does as few as he needs."""
    found = dict(places)
    for week in weeks:
        sessions = [problem.sessions[n] for n in week.shared]
        squad = sum(max(1, s.usual_rounds - problem.rules.most_fewer) for s in sessions)
        if week.reach < squad:
            for number in week.shared:
                most = problem.sessions[number].most_rounds
                found[number] = replace(found[number], fewer=most)
    return found


def _usual(problem: CampProblem, places: dict[int, Place], days: range) -> tuple[list[int], int]:
    """The sessions of the squad that he has on some days, and their usual rounds."""
    inside = [
        number
        for number in places
        if problem.sessions[number].day in days and problem.sessions[number].is_shared
    ]
    return inside, sum(problem.sessions[number].usual_rounds for number in inside)


def _taper_sums(
    problem: CampProblem,
    athlete: CampAthlete,
    windows: tuple[Window, ...],
    places: dict[int, Place],
    weeks: list[Week],
) -> list[SumLimit]:
    rules, found = problem.rules, []
    for window in windows:
        inside, usual = _usual(problem, places, range(window.first_day, window.event.day))
        if not inside:
            continue
        least = len(inside)
        if not any(in_return(problem, athlete, problem.sessions[n].day) for n in inside):
            wanted = math.ceil((1 - rules.most_cut) * usual - NEARLY)
            least = max(least, min(wanted, _can_hold(places, set(inside), weeks)))
        share = 1 - rules.least_cut if window.event.is_main else 1.0
        most = max(least, math.floor(share * usual + NEARLY))
        found.append(SumLimit(tuple(inside), least, most, f"taper for {window.event.name}"))
    return found


def _can_hold(places: dict[int, Place], inside: set[int], weeks: list[Week]) -> int:
    """Rounds that some sessions can hold whatever was done before them."""
    total = 0
    for week in weeks:
        mine = [n for n in week.shared if n in inside]
        outside = len(week.shared) - len(mine)
        total += int(min(sum(places[n].most for n in mine), max(len(mine), week.reach - outside)))
    return total


def _return_sums(
    problem: CampProblem, athlete: CampAthlete, places: dict[int, Place]
) -> list[SumLimit]:
    if athlete.returns_on is None:
        return []
    found = []
    for week, share in enumerate(problem.rules.return_shares):
        begin = athlete.returns_on + week * DAYS_IN_A_WEEK
        inside, usual = _usual(problem, places, range(begin, begin + DAYS_IN_A_WEEK))
        if inside:
            most = max(len(inside), math.floor(share * usual + NEARLY))
            found.append(SumLimit(tuple(inside), len(inside), most, "return after a gap"))
    return found


def _extra_sums(problem: CampProblem, places: dict[int, Place]) -> list[SumLimit]:
    by_week: dict[int, list[int]] = {}
    for number in places:
        if not problem.sessions[number].is_shared:
            by_week.setdefault(problem.sessions[number].day // DAYS_IN_A_WEEK, []).append(number)
    most = problem.rules.most_extra_in_a_week
    return [SumLimit(tuple(inside), 0, most, "extra rounds") for inside in by_week.values()]


def _week_sums(problem: CampProblem, weeks: list[Week]) -> list[SumLimit]:
    over = problem.rules.most_over_in_a_week
    return [
        SumLimit(week.everything, week.least, max(week.least, week.usual + over), "week")
        for week in weeks
    ]
