"""Use cases of incidents: what was noted when somebody was hurt, and the emergency card."""

from dataclasses import dataclass, replace
from datetime import date, datetime

from squadwright.errors import InvalidInput
from squadwright.model.club import Club, EmergencyCard
from squadwright.model.record import EventKind, RecordEvent, in_force, in_order
from squadwright.model.session import Session
from squadwright.services.club_changes import Changed, change_club, require_unchanged
from squadwright.services.clubs import load_club
from squadwright.services.unit_of_work import Keeper

MOST_CONTACTS = 12


@dataclass(frozen=True)
class Incident:
    """One incident as it was noted; ``session`` is None where it is no more in the club.

    ``words`` are empty where a head knock took somebody out and no note followed.
    """

    session: Session | None
    at: datetime
    athlete: str
    words: str
    author: str
    is_taken_back: bool
    is_out: bool


@dataclass(frozen=True)
class Incidents:
    """The club, and its incidents, the latest first."""

    club: Club
    rows: tuple[Incident, ...]


def incidents(keeper: Keeper, *, of: str = "") -> Incidents:
    """All incidents that devices brought; ``of`` is the id of the one athlete they are about."""
    club = load_club(keeper)
    if of:
        club.athlete(of)
    sessions = {session.id: session for session in club.sessions}
    rows: list[Incident] = []
    with keeper.reading() as store:
        for session_id in store.recorded_sessions():
            record, _ = store.events_of(session_id, after=0)
            rows += _of_session(record, sessions.get(session_id))
    wanted = [row for row in rows if not of or row.athlete == of]
    return Incidents(club, tuple(sorted(wanted, key=lambda row: row.at, reverse=True)))


def change_card(keeper: Keeper, card: EmergencyCard, shown: str, *, today: date) -> Changed:
    """Write the emergency card; ``shown`` is the fingerprint of the card that was shown."""
    if len(card.contacts) > MOST_CONTACTS:
        raise InvalidInput(
            "contacts",
            f"{len(card.contacts)} are too many, at most {MOST_CONTACTS}",
            "Keep those who can come, one a line",
        )

    def change(club: Club) -> Club:
        require_unchanged(club.emergency, shown, "The emergency card")
        return replace(club, emergency=card)

    return change_club(keeper, change, today=today)


def _of_session(record: tuple[RecordEvent, ...], session: Session | None) -> list[Incident]:
    ordered = in_order(record)
    held = {event.id for event in in_force(ordered)}
    out = [event for event in ordered if event.kind is EventKind.OUT]
    noted = [event for event in ordered if event.kind is EventKind.INCIDENT]
    known = {event.athlete for event in noted}
    without_note = [event for event in out if event.athlete not in known]
    out_ids = {event.athlete for event in out}
    return [
        Incident(
            session=session,
            at=event.at,
            athlete=event.athlete,
            words=event.words,
            author=event.author,
            is_taken_back=event.id not in held,
            is_out=event.athlete in out_ids,
        )
        for event in (*noted, *without_note)
    ]
