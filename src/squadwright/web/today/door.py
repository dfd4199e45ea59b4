"""The pages of the door, put together from the session as it is stored."""

from urllib.parse import quote

from squadwright.errors import NotFound
from squadwright.model.club import Club
from squadwright.model.muscles import BodyArea
from squadwright.model.session import CheckIn, Session
from squadwright.services.check_in import state_words
from squadwright.web.forms import FormView
from squadwright.web.today.contexts import Arrival, ArrivalPage, CheckInPage
from squadwright.web.today.day import session_path, when
from squadwright.web.today.forms import QUICK_MINUTES, SIDES, WORST_PAIN


def check_in_page(club: Club, session: Session, *, wrong: str = "") -> CheckInPage:
    """Everybody who is expected, in the order of the session; ``wrong`` refuses a tap."""
    return CheckInPage(
        title=f"Check-in: {session.name}",
        line=f"{when(session)}. Each tap plans the session anew.",
        wrong=wrong,
        plan_path=session_path(session),
        arrivals=tuple(_arrival(club, session, athlete) for athlete in session.athletes),
    )


def arrival_page(
    club: Club,
    session: Session,
    athlete: str,
    *,
    late: FormView | None = None,
    pain: FormView | None = None,
) -> ArrivalPage:
    """One athlete; a form that was refused is shown as it was typed."""
    if athlete not in session.athletes:
        raise NotFound(f"{athlete!r} is not expected in {session.name}")
    now = _check_in(session, athlete)
    worst = max(now.pains, key=lambda p: p.score, default=None)
    return ArrivalPage(
        arrival=_arrival(club, session, athlete),
        line=f"{session.name}, {when(session)}.",
        back=check_in_path(session),
        late=late or FormView.of(minutes=now.late_minutes or None),
        pain=pain
        or FormView.of(area=worst and worst.area, side=worst.side if worst else "not stated"),
        quick_minutes=tuple(m for m in QUICK_MINUTES if m < session.minutes),
        areas=tuple((a.value, _capital(a.value)) for a in BodyArea),
        sides=tuple((side, _capital(side)) for side in SIDES),
        scores=tuple(range(WORST_PAIN + 1)),
    )


def check_in_path(session: Session) -> str:
    """Where the check-in of a session is."""
    return f"{session_path(session)}/check-in"


def _arrival(club: Club, session: Session, athlete: str) -> Arrival:
    now = _check_in(session, athlete)
    words = state_words(now).removeprefix("is ")
    return Arrival(
        name=club.shown_names()[athlete],
        words=f"{words} ({now.note})" if now.note else words,
        presence=now.presence.value,
        path=f"{check_in_path(session)}/{quote(athlete)}",
    )


def _check_in(session: Session, athlete: str) -> CheckIn:
    return next((c for c in session.check_ins if c.athlete == athlete), CheckIn(athlete))


def _capital(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}"
