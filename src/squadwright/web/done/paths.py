"""Where the pages after a session are."""

from urllib.parse import quote


def done_path(session_id: str, page: str = "") -> str:
    """Where what was done in a session stands, or a page beside it."""
    return f"/done/{quote(session_id, safe='')}{'/' if page else ''}{page}"
