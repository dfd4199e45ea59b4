"""The demo club: an invented club whose dates are offsets from one Monday, so it never ages."""

from datetime import date

from squadwright.demo.athletes import demo_athletes
from squadwright.demo.calendar import TIME_ZONE, WEEK, closures, terms, travel
from squadwright.demo.premises import EMERGENCY, ROOMS, SQUADS, STAFF
from squadwright.demo.sessions import demo_sessions
from squadwright.demo.store import STORE
from squadwright.errors import InvalidInput
from squadwright.library import routines
from squadwright.model.calendar import monday_of
from squadwright.model.club import Club

CLUB_NAME = "Ferrow Quay Combat Club"
NOTE = (
    "Called the Quay. An invented club for trying the program; any likeness is accidental. "
    "Planned efforts and body regions of the week are our own values, and the "
    "diary of the six weeks before the Monday is invented."
)
DEMO_ROUTINES = ("ropewalk", "tide-lanes")


def demo_club(monday: date) -> Club:
    """The demo club as it stands on a Monday.

    Its people, its rooms and its town are invented; any likeness is accidental.
    """
    if monday.weekday() != 0:
        raise InvalidInput(
            "monday",
            f"{monday} is a {monday:%A}",
            f"Give a Monday, for example {monday_of(monday)}",
        )
    return Club(
        name=CLUB_NAME,
        squads=SQUADS,
        staff=STAFF,
        emergency=EMERGENCY,
        athletes=demo_athletes(monday),
        kit=STORE,
        rooms=ROOMS,
        week=WEEK,
        routines=tuple(r for r in routines() if r.id in DEMO_ROUTINES),
        sessions=demo_sessions(monday),
        note=NOTE,
        time_zone=TIME_ZONE,
        closures=closures(monday),
        terms=terms(monday),
        travel=travel(monday),
    )
