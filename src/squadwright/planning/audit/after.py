"""Findings about the week after a competition: jumps wait for pain and body mass."""

from collections.abc import Iterator

from squadwright.model.plan import Finding, Severity
from squadwright.planning.audit.view import AuditView
from squadwright.planning.finding import finding
from squadwright.planning.return_ramp import (
    RAMP_DAYS,
    SOURCE,
    jumps_held,
    latest_event_day,
    pains_at_the_door,
)


def jumps_after_an_event(view: AuditView) -> Iterator[Finding]:
    """Within a week of a competition nobody jumps before pain and body mass are as usual."""
    jumping = {
        person.id: person
        for person, _, planned, exercise in view.planned()
        if planned.contacts and (exercise.landings or exercise.row_landings)
    }
    for person in jumping.values():
        event_day = latest_event_day(person.athlete, person.day)
        if event_day is None:
            continue
        pains = pains_at_the_door(
            view.club.sessions, person.id, event_day, today=view.session.held_on
        )
        held = jumps_held(person.athlete, event_day, pains, today=view.session.held_on)
        if held:
            days = (person.day - event_day).days
            yield finding(
                "no jumps yet after a competition",
                Severity.STOP,
                f"{person.shown_name} competed {days} day{'' if days == 1 else 's'} ago and has "
                f"jumps in this plan: {'; '.join(held)}",
                athlete=person.id,
                value=float(days),
                limit=float(RAMP_DAYS),
                unit="days",
                source=SOURCE,
                advice="Swap the jumps for throws or slow leg work; or read body mass, ask again",
            )
