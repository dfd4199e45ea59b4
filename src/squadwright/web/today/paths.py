"""Where the pages of a session are, and its day, hour and length in words."""

from urllib.parse import quote

from squadwright.model.session import Session
from squadwright.web.wording import day_text, time_text


def session_path(session: Session) -> str:
    """Where the page of a session is."""
    return f"/today/{quote(session.id)}"


def when(session: Session) -> str:
    """Day, hour and length: "Monday 2 March 2026, 18:00, 60 minutes"."""
    return f"{day_text(session.held_on)}, {time_text(session.starts_at)}, {session.minutes} minutes"
