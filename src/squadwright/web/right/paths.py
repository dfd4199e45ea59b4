"""Where the pages of how often the forecast was right are."""

from urllib.parse import quote

RIGHT_PATH = "/how-often-right"


def right_path(athlete_id: str = "") -> str:
    """The page of one athlete, or of the club."""
    return f"{RIGHT_PATH}/{quote(athlete_id, safe='')}" if athlete_id else RIGHT_PATH
