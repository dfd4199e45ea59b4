"""Where a session that ran from paper is entered."""

from urllib.parse import quote

OF = "/paper"


def paper_path(session_id: str, page: str = "") -> str:
    """The page for entering, or what is beside it."""
    return f"{OF}/{quote(session_id, safe='')}{'/' if page else ''}{page}"
