"""The season in words and letters: the same on the page and on the printed sheet."""

from dataclasses import dataclass
from datetime import date

from squadwright.camp.problem import DAYS_IN_A_WEEK, CampProblem
from squadwright.camp.season import Phase, Season, SeasonLine, SeasonWeek
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
    """A week of the squad."""

    week: str
    tapering: str
    names: str
    about: str
    over_half: bool


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
    return SeasonWords(
        days=f"{short_day(problem.first_day)} to {short_day(last)} {last.year}",
        in_short=_in_short(problem, over),
        test_week=_test_week(problem, season, tests_on),
        weeks=tuple(_week(club, problem, week, names) for week in season.weeks),
        week_heads=tuple(
            f"{problem.date_of(w.first_day).day}/{problem.date_of(w.first_day).month}"
            for w in season.weeks
        ),
        athletes=tuple(_athlete(problem, line, names) for line in season.lines),
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


def _week(club: Club, problem: CampProblem, week: SeasonWeek, names: dict[str, str]) -> WeekLine:
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
    if not week.sessions:
        about.append("no session of the squad")
    return WeekLine(
        week=short_day(first),
        tapering=f"{len(week.tapering)} of {week.planned}",
        names=", ".join(names[each] for each in week.tapering),
        about="; ".join(about),
        over_half=week.over_half_taper,
    )


def _days_said(first: date, last: date) -> str:
    return short_day(first) if first == last else f"{short_day(first)} to {short_day(last)}"


def _athlete(problem: CampProblem, line: SeasonLine, names: dict[str, str]) -> AthleteSeason:
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
    return AthleteSeason(line.athlete, names[line.athlete], phases_said, tuple(letters))


def _days_in(first: int, last: int, begin: int) -> int:
    return min(last, begin + DAYS_IN_A_WEEK - 1) - max(first, begin) + 1
