"""The ways from one session to the others: the two beside it at the top, the rest at the end."""

from datetime import date, time

from squadwright.model.club import Club
from squadwright.model.session import Session
from squadwright.web.today.contexts import SessionLink
from squadwright.web.today.paths import session_path
from squadwright.web.wording import short_day_text, time_text

MOST_LINKS = 8


def near_sessions(club: Club, shown: Session) -> tuple[SessionLink, ...]:
    """The session before the one shown and the one after it, where there is one."""
    return tuple(
        SessionLink(f"{short_day_text(s.held_on)}: {s.name}", session_path(s))
        for s in _beside(club, shown)
    )


def other_sessions(club: Club, shown: Session) -> tuple[SessionLink, ...]:
    """The sessions nearest in time to the one shown, in order, without those beside it."""
    named = {shown.id, *(s.id for s in _beside(club, shown))}
    nearest = sorted(
        (s for s in club.sessions if s.id not in named),
        key=lambda s: (abs((s.held_on - shown.held_on).days), *_moment(s)),
    )
    return tuple(_link(s) for s in sorted(nearest[:MOST_LINKS], key=_moment))


def last_sessions(club: Club) -> tuple[SessionLink, ...]:
    """The last sessions of the club, in order, for a day from which on nothing is planned."""
    return tuple(_link(s) for s in sorted(club.sessions, key=_moment)[-MOST_LINKS:])


def _beside(club: Club, shown: Session) -> list[Session]:
    in_order = sorted(club.sessions, key=_moment)
    at = next(n for n, session in enumerate(in_order) if session.id == shown.id)
    return [*in_order[max(at - 1, 0) : at], *in_order[at + 1 : at + 2]]


def _moment(session: Session) -> tuple[date, time, str]:
    return session.held_on, session.starts_at, session.id


def _link(session: Session) -> SessionLink:
    at = f"{short_day_text(session.held_on)}, {time_text(session.starts_at)}"
    return SessionLink(f"{at}: {session.name}", session_path(session))
