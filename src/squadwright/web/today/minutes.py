"""The page of the minutes that are left."""

from squadwright.model.session import Session
from squadwright.web.forms import FormView
from squadwright.web.today.contexts import MinutesPage
from squadwright.web.today.paths import session_path, when

QUICK_LEFT = (20, 22, 25, 30, 35, 40, 45, 50)


def minutes_page(session: Session, view: FormView | None = None) -> MinutesPage:
    """Quick buttons and a field; what was refused is shown as it was typed."""
    return MinutesPage(
        title=f"Minutes left: {session.name}",
        line=f"{when(session)}.",
        path=f"{session_path(session)}/minutes-left",
        back=session_path(session),
        whole=session.minutes,
        is_cut=session.minutes_left is not None,
        quick=tuple(m for m in QUICK_LEFT if m < session.minutes),
        view=view or FormView.of(minutes=session.minutes_left),
    )
