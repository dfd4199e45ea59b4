"""The forms of a dated week: one date of a slot, and the coach's hours between sessions."""

from typing import Any

from squadwright.model.calendar import ClashLimits
from squadwright.model.club import Club
from squadwright.services.camp_week import DateEntry
from squadwright.web.forms import Form

MOST_HOURS = 240
# Field, label, what it rests on.
LIMITS = (
    (
        "legs_before_live_hours",
        "From heavy legs to hard live rounds",
        "Yours to set. After 3 sets of 8 at 80 % the jump was still down at 48 h, after 3 sets of "
        "4 it was back at 6 h (Gonzalez-Badillo 2016).",
    ),
    (
        "same_region_hours",
        "Between two hard sessions for the same region",
        "48 h is a judgement: after a full-body session fatigue and soreness outlast 48 h.",
    ),
    (
        "to_failure_hours",
        "After sets to failure, for the same region",
        "72 h is a judgement: failure delays recovery by up to 24 to 48 h (Moran-Navarro 2017).",
    ),
    (
        "contact_hours",
        "Between two hard sessions against a partner",
        "72 h is a judgement from collision matches: down at 48 h, near normal by day 4 (McLean "
        "2010).",
    ),
    (
        "qualities_hours",
        "Between strength and conditioning on one day",
        "6 h is a judgement: gains were lower with none than with 6 or 24 h (Robineau 2016).",
    ),
    (
        "least_hours",
        "The least between strength and conditioning",
        "3 h: explosive strength suffered in one session, less from 3 h apart (Schumann 2022).",
    ),
)


def read_date(form: Form, club: Club) -> DateEntry:
    """One date of a slot as typed."""
    entry = DateEntry(
        day=form.day("day", "Day"),
        starts_at=form.clock("starts_at", "From"),
        ends_at=form.clock("ends_at", "To"),
        room=form.choice("room", "Room", ["", *(room.id for room in club.rooms)]) or None,
        planned_effort=form.maybe_whole("planned_effort", "Planned effort", low=0, high=10),
        is_off=form.flag("is_off"),
        reason=form.text("reason", "Why", is_required=False),
    )
    if entry.ends_at <= entry.starts_at:
        form.refuse(
            "ends_at",
            "To",
            f"{entry.ends_at:%H:%M} is not after the start {entry.starts_at:%H:%M}",
            "Give a later end on the same day",
        )
    form.done()
    return entry


def read_limits(form: Form) -> ClashLimits:
    """The coach's hours as typed."""
    hours: dict[str, Any] = {
        name: form.whole(name, label, low=0, high=MOST_HOURS, unit="h") for name, label, _ in LIMITS
    }
    limits = ClashLimits(**hours, strength_first=form.flag("strength_first"))
    form.done()
    return limits
