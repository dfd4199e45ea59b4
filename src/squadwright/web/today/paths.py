"""Where the pages of a session are, and its day, hour and length in words."""

from urllib.parse import quote

from squadwright.model.plan import Dose
from squadwright.model.session import Session
from squadwright.web.wording import day_text, time_text


def session_path(session: Session) -> str:
    """Where the page of a session is."""
    return f"/today/{quote(session.id)}"


def what_if_path(session: Session, dose: Dose) -> str:
    """Where other values are tried on a dose; empty where the model has worked out none."""
    if dose.completion_probability is None:
        return ""
    path = f"/what-if/{quote(session.id)}/{quote(dose.athlete)}"
    return f"{path}?block={quote(dose.block)}" if dose.block else path


def when(session: Session) -> str:
    """Day, hour and length: "Monday 2 March 2026, 18:00, 60 minutes"."""
    return f"{day_text(session.held_on)}, {time_text(session.starts_at)}, {session.minutes} minutes"
