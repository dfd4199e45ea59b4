"""Where the pages of load are."""

from datetime import date
from urllib.parse import quote

from squadwright.planning.occasions import Occasion
from squadwright.web.done.paths import done_path

LOAD = "/load"


def week_path(monday: date) -> str:
    """Where a week of everybody is."""
    return f"{LOAD}?week={monday}"


def athlete_load_path(athlete_id: str) -> str:
    """Where the load of one athlete is."""
    return f"{LOAD}/athlete/{quote(athlete_id, safe='')}"


def door_path(occasion: Occasion) -> str:
    """Where effort is asked for: the record of a session of the club has a page of its own."""
    if occasion.session:
        return done_path(occasion.session, "effort")
    return f"{LOAD}/door/{quote(occasion.slot, safe='')}/{occasion.day}"


def rest_path(day: date) -> str:
    """Where a day without training is noted."""
    return f"{LOAD}/rest/{day}"
