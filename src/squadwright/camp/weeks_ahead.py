"""The weeks ahead in short: events, lost days, terms, who is away, planned load of each squad."""

from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.camp.week import DatedWork, group_week, works_between
from squadwright.formulas.session_load import DAYS_IN_A_WEEK
from squadwright.model.club import Club
from squadwright.planning.gates.competing import suspended_on
from squadwright.words import weekday_and_day

OUTSIDE_TERMS = "outside school terms: ask whether the youngest come"


@dataclass(frozen=True)
class WeekAhead:
    """One week; ``loads`` are pairs of squad and planned load [AU], None where it is not known."""

    monday: date
    events: tuple[str, ...]
    lost: tuple[str, ...]
    term: str
    away: tuple[str, ...]
    loads: tuple[tuple[str, float | None], ...]


def outside_terms(club: Club, day: date) -> bool:
    """Whether a day lies in no school term, where terms are written down that end after it."""
    known = any(term.starts_on <= day for term in club.terms) and any(
        term.ends_on >= day for term in club.terms
    )
    return known and not any(term.starts_on <= day <= term.ends_on for term in club.terms)


def suspensions_between(club: Club, first: date, last: date) -> tuple[tuple[str, str], ...]:
    """Who is suspended on any of some days, by id, in a sentence; events in it are named."""
    found = []
    for athlete in club.athletes:
        if not athlete.medical.suspensions:
            continue
        days = (first + timedelta(days=n) for n in range((last - first).days + 1))
        held = next((s for day in days if (s := suspended_on(athlete, day)) is not None), None)
        if held is None:
            continue
        lost = [
            f"{event.name} on {weekday_and_day(event.starts_on)}"
            for event in athlete.events
            if first <= event.starts_on <= last and suspended_on(athlete, event.starts_on)
        ]
        not_for = f"; not for {', '.join(lost)}" if lost else ""
        found.append((athlete.id, f"{held.words}{not_for}"))
    return tuple(found)


def weeks_ahead(club: Club, monday: date, weeks: int) -> tuple[WeekAhead, ...]:
    """So many weeks from a Monday on."""
    return tuple(_week(club, monday + timedelta(weeks=number)) for number in range(weeks))


def _week(club: Club, monday: date) -> WeekAhead:
    sunday = monday + timedelta(days=DAYS_IN_A_WEEK - 1)
    works = works_between(club, monday, sunday)
    shown = club.shown_names()
    events = [
        (event.starts_on, f"{shown[a.id]}, {event.name} ({event.priority})")
        for a in club.athletes
        for event in a.events
        if monday <= event.starts_on <= sunday
    ]
    events += [
        (max(f.starts_on, monday), f.name)
        for f in club.fixtures
        if f.starts_on <= sunday and f.ends_on >= monday
    ]
    return WeekAhead(
        monday=monday,
        events=tuple(f"{weekday_and_day(day)}: {words}" for day, words in sorted(events)),
        lost=tuple(
            f"{c.name}, {_days(c.starts_on, c.ends_on)}"
            for c in club.closures
            if c.starts_on <= sunday and c.ends_on >= monday
        ),
        term=", ".join(t.name for t in club.terms if t.starts_on <= sunday and t.ends_on >= monday),
        away=tuple(
            f"{shown[t.athlete]}, {_days(t.starts_on, t.ends_on)}"
            for t in club.travel
            if t.starts_on <= sunday and t.ends_on >= monday
        ),
        loads=tuple(_load(club, works, monday, squad) for squad in club.squads),
    )


def _load(
    club: Club, works: tuple[DatedWork, ...], monday: date, squad: str
) -> tuple[str, float | None]:
    group = group_week(club, works, monday, squad)
    return squad, None if None in group.days else group.summary.load


def _days(first: date, last: date) -> str:
    return (
        weekday_and_day(first)
        if first == last
        else f"{weekday_and_day(first)} to {weekday_and_day(last)}"
    )
