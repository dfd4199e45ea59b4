"""Findings about competitions: two that are close together."""

from collections.abc import Iterator

from squadwright.model.athlete import Event
from squadwright.model.plan import Finding, Severity
from squadwright.planning.attendance import PersonToday
from squadwright.planning.audit.view import AuditView
from squadwright.planning.close_events import CLOSE_DAYS, power_day
from squadwright.planning.done_before import ENOUGH_SESSIONS, done_before
from squadwright.planning.finding import finding
from squadwright.planning.restriction_words import day_words

SOURCE = "common practice, no source"


def two_events_close_together(view: AuditView) -> Iterator[Finding]:
    """Two competitions within 8 days: less work until the second, and what the days are for."""
    for person in view.training():
        close = person.close_events()
        if close is None:
            continue
        first, second = close
        apart = (second.starts_on - first.starts_on).days
        yield finding(
            "two events close together",
            Severity.WARNING,
            f"{person.shown_name} competes on {_told(first)} and on {_told(second)}, {apart} days "
            f"apart. {_day_part(person, first, second)}",
            athlete=person.id,
            value=float(apart),
            limit=float(CLOSE_DAYS),
            unit="days",
            source=SOURCE,
            advice=f"Say which of the two is the one to peak for.{_second_weigh_in(second)}",
        )


def nothing_new_between_events(view: AuditView) -> Iterator[Finding]:
    """Before and between two close events nobody does an exercise for the first time."""
    for person in view.training():
        if person.close_events() is None:
            continue
        sessions, done = done_before(view.club, view.session, person.id)
        if sessions < ENOUGH_SESSIONS:
            continue
        mine = {p.exercise: p.name for who, _, p, _ in view.planned() if who.id == person.id}
        new = [name for exercise, name in mine.items() if exercise not in done]
        if new:
            yield finding(
                "nothing new between two events",
                Severity.WARNING,
                f"{person.shown_name} has not done {', '.join(new)} in {sessions} sessions "
                "before this one",
                athlete=person.id,
                value=float(len(new)),
                limit=0.0,
                unit="exercises",
                source=SOURCE,
                advice="Swap it for a known one until the second event is over",
            )


def _told(event: Event) -> str:
    return f"{day_words(event.starts_on)} ({event.name}, {event.priority.value})"


def _day_part(person: PersonToday, first: Event, second: Event) -> str:
    """What this day is for, counted from the first event."""
    since = (person.day - first.starts_on).days
    left = (second.starts_on - person.day).days
    if since < 0:
        return f"{-since} days to the first: half the rounds at the same load"
    if since <= 2:
        return f"Day {since} after the first: recover, half the rounds at the most"
    if left <= 3:
        return f"{left} days to the second: taper, travel and weigh-in come first"
    if person.day == power_day(first.starts_on, second.starts_on):
        return f"Day {since} after the first: one short touch of power and strength, no more"
    return f"Day {since} after the first: easy, the one touch of power lies on another day"


def _second_weigh_in(second: Event) -> str:
    if second.mass_limit is None:
        return ""
    rule = f", {second.weigh_in_rule}" if second.weigh_in_rule else ""
    standing = "" if second.weigh_in is None else f", {second.weigh_in.standing}"
    return f" The second weigh-in: {second.mass_limit.kg:g} kg{rule}{standing}"
