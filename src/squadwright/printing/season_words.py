"""The season in words and letters: the same on the page and on the printed sheet."""

from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.camp.problem import DAYS_IN_A_WEEK, CampProblem
from squadwright.camp.season import Phase, Season, SeasonLine, SeasonWeek
from squadwright.camp.timetable import is_of_camp, session_behind
from squadwright.camp.week import works_between
from squadwright.camp.weeks_ahead import (
    OUTSIDE_TERMS,
    WeekAhead,
    outside_terms,
    suspensions_between,
    weeks_ahead,
)
from squadwright.model.club import Club
from squadwright.printing.camp_words import short_day, span_words
from squadwright.printing.wording import as_sentence

LETTERS = {
    Phase.BUILD: "B",
    Phase.SPECIFIC: "S",
    Phase.TAPER: "T",
    Phase.EVENT: "E",
    Phase.RECOVER: "R",
    Phase.RETURN: "C",
    Phase.OFF: "\N{MIDDLE DOT}",
    Phase.KEEP: "K",
}
MEANINGS = (
    ("B", "build"),
    ("S", "specific, the four weeks before the taper"),
    ("T", "taper"),
    ("E", "event"),
    ("R", "recover"),
    ("C", "coming back after a gap"),
    ("\N{MIDDLE DOT}", "off"),
    ("K", "keep in form, no event ahead"),
)
WEIGHTY = (Phase.EVENT, Phase.TAPER, Phase.OFF, Phase.RECOVER, Phase.RETURN)
"""What a week is called by, where it holds more than one phase."""


@dataclass(frozen=True)
class WeekLine:
    """A week of the squad; ``elsewhere`` are sessions, by name and id, whose room is lost."""

    week: str
    tapering: str
    names: str
    events: str
    about: str
    over_half: bool
    elsewhere: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class AthleteSeason:
    """One athlete's season: phases in sentences, and a letter a week."""

    id: str
    name: str
    phases: tuple[str, ...]
    letters: tuple[str, ...]


@dataclass(frozen=True)
class SeasonWords:
    """The season of the squad."""

    days: str
    in_short: str
    test_week: str
    weeks: tuple[WeekLine, ...]
    week_heads: tuple[str, ...]
    athletes: tuple[AthleteSeason, ...]


def season_words(
    club: Club, problem: CampProblem, season: Season, tests_on: date | None = None
) -> SeasonWords:
    """The words of a season; ``tests_on`` is a day on which the squad would be tested."""
    last = problem.date_of(problem.days - 1)
    over = [week for week in season.weeks if week.over_half_taper]
    names = {athlete.id: athlete.name for athlete in problem.athletes}
    suspended = dict(suspensions_between(club, problem.first_day, last))
    return SeasonWords(
        days=f"{short_day(problem.first_day)} to {short_day(last)} {last.year}",
        in_short=_in_short(problem, over),
        test_week=_test_week(problem, season, tests_on),
        weeks=tuple(
            _week(club, problem, week, names, ahead)
            for week, ahead in zip(
                season.weeks, weeks_ahead(club, problem.first_day, problem.weeks), strict=True
            )
        ),
        week_heads=tuple(
            f"{problem.date_of(w.first_day).day}/{problem.date_of(w.first_day).month}"
            for w in season.weeks
        ),
        athletes=tuple(
            _athlete(problem, line, names, suspended.get(line.athlete, "")) for line in season.lines
        ),
    )


def _in_short(problem: CampProblem, over: list[SeasonWeek]) -> str:
    if not over:
        return "In no week do more than half of the squad taper."
    weeks = ", ".join(short_day(problem.date_of(week.first_day)) for week in over)
    return f"More than half of the squad taper or compete in the weeks of {weeks}."


def _test_week(problem: CampProblem, season: Season, tests_on: date | None) -> str:
    if tests_on is None:
        return ""
    wanted = (tests_on - problem.first_day).days // DAYS_IN_A_WEEK
    if not 0 <= wanted < problem.weeks:
        return f"{short_day(tests_on)} lies outside of the season shown."
    week = season.weeks[wanted]
    nearest = season.nearest_week_for_tests(wanted)
    where = f"the week of {short_day(problem.date_of(week.first_day))}"
    if nearest == wanted:
        return (
            f"{len(week.tapering)} of {week.planned} taper or compete in {where}: it can be the "
            "week of the tests."
        )
    why = (
        f"{len(week.tapering)} of {week.planned} taper or compete in {where}"
        if week.over_half_taper
        else f"there is no session in {where}"
    )
    if nearest is None:
        return as_sentence(f"{why}, and no other week is better")
    better = season.weeks[nearest]
    return as_sentence(
        f"{why}: move the tests to the week of {short_day(problem.date_of(better.first_day))}, "
        f"in which {len(better.tapering)} of {better.planned} do"
    )


def _week(
    club: Club,
    problem: CampProblem,
    week: SeasonWeek,
    names: dict[str, str],
    ahead: WeekAhead,
) -> WeekLine:
    first = problem.date_of(week.first_day)
    last = problem.date_of(min(week.first_day + DAYS_IN_A_WEEK, problem.days) - 1)
    about = [
        f"{c.name}, {_days_said(max(c.starts_on, first), min(c.ends_on, last))}"
        for c in club.closures
        if c.starts_on <= last and c.ends_on >= first
    ]
    about += [
        f"{term.name} {'begins' if first <= term.starts_on <= last else 'ends'}"
        for term in club.terms
        if first <= term.starts_on <= last or first <= term.ends_on <= last
    ]
    days = [first + timedelta(days=n) for n in range((last - first).days + 1)]
    if any(outside_terms(club, day) for day in days):
        about.append(OUTSIDE_TERMS)
    about += [f"away: {away}" for away in ahead.away]
    # A suspension is said once: where it begins, and in weeks in which it takes an event.
    eve = first - timedelta(days=1)
    before = dict(suspensions_between(club, eve, eve)) if week.number else {}
    about += [
        f"{names[own]} {held}"
        for own, held in suspensions_between(club, first, last)
        if own in names and held != before.get(own)
    ]
    elsewhere: dict[str, str] = {}
    if not week.sessions:
        about.append("no session of the squad")
        elsewhere = _lost_sessions(club, first, last)
        if elsewhere:
            about.append(f"do it elsewhere: {', '.join(elsewhere.values())}")
    return WeekLine(
        week=short_day(first),
        tapering=f"{len(week.tapering)} of {week.planned}",
        names=", ".join(names[each] for each in week.tapering),
        events="; ".join(ahead.events),
        about="; ".join(about),
        over_half=week.over_half_taper,
        elsewhere=tuple((name, own) for own, name in elsewhere.items()),
    )


def _lost_sessions(club: Club, first: date, last: date) -> dict[str, str]:
    """Sessions behind what the closures of some days take, names by id, each once."""
    lost = [
        session_behind(club, work)
        for work in works_between(club, first, last)
        if work.lost_to and is_of_camp(club, work)
    ]
    return {session.id: session.name for session in lost if session is not None}


def _days_said(first: date, last: date) -> str:
    return short_day(first) if first == last else f"{short_day(first)} to {short_day(last)}"


def _athlete(
    problem: CampProblem, line: SeasonLine, names: dict[str, str], suspended: str
) -> AthleteSeason:
    letters = []
    for week in range(problem.weeks):
        begin = week * DAYS_IN_A_WEEK
        here = [
            span
            for span in line.spans
            if span.first_day < begin + DAYS_IN_A_WEEK and span.last_day >= begin
        ]
        phases = [span.phase for span in here]
        heavy = [phase for phase in WEIGHTY[:2] if phase in phases]
        lasting = max(here, key=lambda s: _days_in(s.first_day, s.last_day, begin)).phase
        letters.append("".join(LETTERS[p] for p in reversed(heavy)) or LETTERS[lasting])
    phases_said = tuple(as_sentence(span_words(problem.first_day, span)) for span in line.spans)
    if suspended:
        phases_said = (as_sentence(suspended), *phases_said)
    return AthleteSeason(line.athlete, names[line.athlete], phases_said, tuple(letters))


def _days_in(first: int, last: int, begin: int) -> int:
    return min(last, begin + DAYS_IN_A_WEEK - 1) - max(first, begin) + 1
