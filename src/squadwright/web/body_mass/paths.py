"""Where body mass and weigh-ins stand."""

from urllib.parse import quote

from squadwright.model.athlete import Event
from squadwright.web.squad.words import athlete_path


def mass_path(athlete_id: str) -> str:
    """Where the body mass of an athlete stands."""
    return f"{athlete_path(athlete_id)}/mass"


def event_path(athlete_id: str, event: Event) -> str:
    """Where the weigh-in of one of his events is entered."""
    return f"{mass_path(athlete_id)}/weigh-in/{quote(event.id, safe='')}"
