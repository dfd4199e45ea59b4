"""Where what comes next stands."""

from urllib.parse import quote

from squadwright.model.session import Session


def next_path(session: Session) -> str:
    """Where what comes next in a session stands."""
    return f"/next/{quote(session.id, safe='')}"
