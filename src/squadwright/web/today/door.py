"""The pages of the door, put together from the session as it is stored."""

from urllib.parse import quote

from squadwright.errors import NotFound
from squadwright.model.club import Club
from squadwright.model.muscles import BodyArea
from squadwright.model.session import Presence, Session
from squadwright.planning.attendance import is_kept_out
from squadwright.services.guests import next_guest_name
from squadwright.services.session_changes import check_in_of, state_words
from squadwright.web.forms import FormView
from squadwright.web.today.contexts import Arrival, ArrivalPage, CheckInPage, LatePage
from squadwright.web.today.forms import QUICK_MINUTES, SIDES, WORST_PAIN
from squadwright.web.today.guest_pages import SEXES
from squadwright.web.today.paths import session_path, when
from squadwright.web.wording import capital


def check_in_page(
    club: Club, session: Session, *, wrong: str = "", guest: FormView | None = None
) -> CheckInPage:
    """Everybody who is expected, in the order of the session; ``wrong`` refuses a tap."""
    return CheckInPage(
        title=f"Check-in: {session.name}",
        line=f"{when(session)}. Each tap plans the session anew.",
        wrong=wrong,
        plan_path=session_path(session),
        arrivals=tuple(_arrival(club, session, athlete) for athlete in session.athletes),
        guest=guest or FormView(),
        guest_name=next_guest_name(club),
        sexes=(("", "Not said"), *SEXES),
    )


def late_page(club: Club, session: Session, view: FormView | None = None) -> LatePage:
    """Everybody who is expected and not absent, to be ticked."""
    names = club.shown_names()
    return LatePage(
        title=f"Several late: {session.name}",
        line=f"{when(session)}.",
        path=f"{session_path(session)}/late",
        back=check_in_path(session),
        people=tuple(
            (athlete, names[athlete])
            for athlete in session.athletes
            if check_in_of(session, athlete).presence is not Presence.ABSENT
        ),
        quick_minutes=tuple(m for m in QUICK_MINUTES if m < session.minutes),
        view=view or FormView(),
    )


def arrival_page(
    club: Club,
    session: Session,
    athlete: str,
    *,
    late: FormView | None = None,
    pain: FormView | None = None,
    note: FormView | None = None,
) -> ArrivalPage:
    """One athlete; a form that was refused is shown as it was typed."""
    if athlete not in session.athletes:
        raise NotFound(f"{athlete!r} is not expected in {session.name}")
    now = check_in_of(session, athlete)
    worst = max(now.pains, key=lambda p: p.score, default=None)
    return ArrivalPage(
        arrival=_arrival(club, session, athlete),
        line=f"{session.name}, {when(session)}.",
        back=check_in_path(session),
        late=late or FormView.of(minutes=now.late_minutes or None),
        pain=pain
        or FormView.of(area=worst and worst.area, side=worst.side if worst else "not stated"),
        quick_minutes=tuple(m for m in QUICK_MINUTES if m < session.minutes),
        areas=tuple((a.value, capital(a.value)) for a in BodyArea),
        sides=tuple((side, capital(side)) for side in SIDES),
        scores=tuple(range(WORST_PAIN + 1)),
        note=note or FormView.of(note=now.note),
    )


def check_in_path(session: Session) -> str:
    """Where the check-in of a session is."""
    return f"{session_path(session)}/check-in"


def _arrival(club: Club, session: Session, athlete: str) -> Arrival:
    now = check_in_of(session, athlete)
    words = state_words(now).removeprefix("is ")
    if now.presence is not Presence.ABSENT and is_kept_out(club, session, athlete):
        words = f"{words}, does not train today"
    return Arrival(
        name=club.shown_names()[athlete],
        words=f"{words} ({now.note})" if now.note else words,
        presence=now.presence.value,
        path=f"{check_in_path(session)}/{quote(athlete)}",
        is_guest=club.athlete(athlete).guest_until is not None,
    )
