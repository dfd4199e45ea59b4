"""The season: phases back-planned from each athlete's events, and weeks in which over half taper.

Phases follow the block model (accumulation, transmutation, realisation: marques_2017); their
lengths are the rules of the camp.
"""

from dataclasses import dataclass
from enum import StrEnum

from squadwright.camp.limits import days_off, in_return, tapers
from squadwright.camp.problem import DAYS_IN_A_WEEK, CampAthlete, CampProblem

HALF = 0.5


class Phase(StrEnum):
    """What a day is for, by its distance from the next event."""

    BUILD = "build"
    SPECIFIC = "specific"
    TAPER = "taper"
    EVENT = "event"
    RECOVER = "recover"
    RETURN = "return"
    OFF = "off"
    KEEP = "keep in form"


@dataclass(frozen=True)
class Span:
    """Days of one phase, both included; ``what`` names the event or the reason."""

    phase: Phase
    first_day: int
    last_day: int
    what: str = ""


@dataclass(frozen=True)
class SeasonLine:
    """One athlete's season."""

    athlete: str
    spans: tuple[Span, ...]


@dataclass(frozen=True)
class SeasonWeek:
    """A week: who tapers or competes in it, how many could, days without any shared session."""

    number: int
    first_day: int
    tapering: tuple[str, ...]
    planned: int
    sessions: int

    @property
    def over_half_taper(self) -> bool:
        """Whether more than half of those who train taper or compete."""
        return self.planned > 0 and len(self.tapering) > HALF * self.planned


@dataclass(frozen=True)
class Season:
    """Every athlete's line, and the squad week by week."""

    lines: tuple[SeasonLine, ...]
    weeks: tuple[SeasonWeek, ...]

    def nearest_week_for_tests(self, wanted: int) -> int | None:
        """The week nearest to a wanted one in which at most half taper and there are sessions;
        the later of two as near; None where there is none.
        """
        open_weeks = [w.number for w in self.weeks if w.sessions and not w.over_half_taper]
        return min(open_weeks, key=lambda n: (abs(n - wanted), -n), default=None)


def season_of(problem: CampProblem) -> Season:
    """The season of a camp."""
    by_day = {athlete.id: _phases(problem, athlete) for athlete in problem.athletes}
    lines = tuple(SeasonLine(a.id, _spans(by_day[a.id])) for a in problem.athletes)
    weeks = tuple(_week(problem, by_day, number) for number in range(problem.weeks))
    return Season(lines, weeks)


def _phases(problem: CampProblem, athlete: CampAthlete) -> list[tuple[Phase, str]]:
    windows = tapers(problem, athlete)
    reasons = {each.day: each.reason for each in athlete.off}
    off = days_off(problem, athlete)
    events = {event.day: event for event in athlete.events}
    found = []
    for day in range(problem.days):
        ahead = [w for w in windows if w.event.day > day]
        if day in events:
            found.append((Phase.EVENT, events[day].name))
        elif day in reasons:
            found.append((Phase.OFF, reasons[day]))
        elif day in off:
            found.append((Phase.RECOVER, off[day].removeprefix("recovery from ")))
        elif ahead and ahead[0].holds(day):
            found.append((Phase.TAPER, ahead[0].event.name))
        elif in_return(problem, athlete, day):
            found.append((Phase.RETURN, "after a gap"))
        elif not ahead:
            found.append((Phase.KEEP, ""))
        else:
            main = next((w for w in ahead if w.event.is_main), ahead[0])
            near = main.first_day - day <= problem.rules.specific_d
            found.append((Phase.SPECIFIC if near else Phase.BUILD, main.event.name))
    return found


def _spans(days: list[tuple[Phase, str]]) -> tuple[Span, ...]:
    found: list[Span] = []
    for day, (phase, what) in enumerate(days):
        last = found[-1] if found else None
        if last is not None and (last.phase, last.what) == (phase, what):
            found[-1] = Span(phase, last.first_day, day, what)
        else:
            found.append(Span(phase, day, day, what))
    return tuple(found)


def _week(
    problem: CampProblem, by_day: dict[str, list[tuple[Phase, str]]], number: int
) -> SeasonWeek:
    begin = number * DAYS_IN_A_WEEK
    days = range(begin, min(begin + DAYS_IN_A_WEEK, problem.days))
    tapering, planned = [], 0
    for athlete, phases in by_day.items():
        here = {phases[day][0] for day in days}
        planned += here != {Phase.OFF}
        if here & {Phase.TAPER, Phase.EVENT}:
            tapering.append(athlete)
    sessions = sum(s.day in days and s.is_shared for s in problem.sessions)
    return SeasonWeek(number, begin, tuple(tapering), planned, sessions)
