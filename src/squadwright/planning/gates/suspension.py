"""Suspensions by commissions and doctors: the latest day counts, an open one never runs out."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.errors import InvalidInput
from squadwright.model.medical import MedicalClearance, Suspension


@dataclass(frozen=True)
class Standing:
    """What is barred on a day, until when, and which clearances are missing.

    ``first_free_day`` is None where a date alone does not free him.
    """

    no_contact: bool
    no_competition: bool
    first_free_day: date | None
    missing: tuple[str, ...]
    sentence: str

    @property
    def last_barred_day(self) -> date | None:
        """The last barred day, None where a date alone does not free him."""
        return None if self.first_free_day is None else self.first_free_day - timedelta(days=1)


@dataclass(frozen=True)
class Term:
    """Days that a commission sets as a rule; a doctor's term goes on top. None: up to him."""

    issuer: str
    reason: str
    least_days: int
    most_days: int | None
    source_key: str


TERMS = (
    Term("North Carolina", "TKO", 30, 30, "suspensions_north_carolina"),
    Term("North Carolina", "KO", 60, 60, "suspensions_north_carolina"),
    Term("North Carolina", "second KO in 12 months", 120, 180, "suspensions_north_carolina"),
    Term("North Carolina", "pattern of KO", 180, 365, "suspensions_north_carolina"),
    Term("Ohio", "KO", 60, None, "suspensions_ohio"),
    Term("Ohio", "TKO", 30, None, "suspensions_ohio"),
    Term("Ohio", "any bout", 7, None, "suspensions_ohio"),
    Term("Massachusetts", "KO", 30, None, "suspensions_massachusetts"),
    Term("South Dakota", "as the doctor says", 0, 90, "suspensions_south_dakota"),
    Term("amateur boxing", "KO, no loss of consciousness", 30, None, "suspensions_recalled"),
    Term("amateur boxing", "KO, out for less than a minute", 90, None, "suspensions_recalled"),
    Term("amateur boxing", "KO, out for longer", 180, None, "suspensions_recalled"),
    Term("ringside physicians", "TKO by blows to the head", 30, None, "suspensions_recalled"),
    Term("ringside physicians", "KO", 60, None, "suspensions_recalled"),
    Term("ringside physicians", "KO, out for longer", 90, None, "suspensions_recalled"),
)
"""A suspension for a knockout or an injury has to be honoured elsewhere (suspensions_federal)."""


def last_barred_day(event_day: date, days: int) -> date:
    """The last barred day of a term that begins the day after the event."""
    if days < 1:
        raise InvalidInput("days", f"is {days}", "Give 1 day or more")
    return event_day + timedelta(days=days)


def standing_on(
    day: date, suspensions: Sequence[Suspension], clearances: Sequence[MedicalClearance] = ()
) -> Standing:
    """What all his suspensions together bar on a day. A clearance never shortens a date."""
    given = {name for entry in clearances if entry.holds_on(day) for name in entry.lifts}
    missing = tuple(
        dict.fromkeys(need for each in suspensions for need in each.needs if need not in given)
    )
    contact = _latest([each.no_contact_until for each in suspensions])
    competition = _latest([contact, *(each.no_competition_until for each in suspensions)])
    no_contact = bool(missing) or (contact is not None and day <= contact)
    no_competition = no_contact or (competition is not None and day <= competition)
    free = None if missing or competition is None else competition + timedelta(days=1)
    return Standing(no_contact, no_competition, free, missing, _sentence(day, competition, missing))


def _latest(days: Sequence[date | None]) -> date | None:
    return max((day for day in days if day is not None), default=None)


def _sentence(day: date, until: date | None, missing: tuple[str, ...]) -> str:
    parts = []
    if until is not None and day <= until:
        parts.append(f"barred up to and on {until.isoformat()}")
    if missing:
        parts.append(f"barred until cleared: {', '.join(missing)}")
    return f"{'; '.join(parts).capitalize()}." if parts else "No suspension in force."
