"""The demo club: an invented club whose dates are offsets from one Monday, so it never ages."""

from datetime import date, timedelta

from squadwright.demo.athletes import demo_athletes
from squadwright.demo.premises import EMERGENCY, ROOMS, SQUADS, STAFF, WEEK
from squadwright.demo.sessions import demo_sessions
from squadwright.demo.store import STORE
from squadwright.errors import InvalidInput
from squadwright.library import routines
from squadwright.model.club import Club

CLUB_NAME = "Ferrow Quay Combat Club"
DEMO_ROUTINES = ("ropewalk", "tide-lanes")


def monday_of(day: date) -> date:
    """The Monday of the week a day lies in."""
    return day - timedelta(days=day.weekday())


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
        note=_note(monday),
    )


def _note(monday: date) -> str:
    blood_donors = monday + timedelta(days=16)
    varnish_from, varnish_to = monday + timedelta(days=28), monday + timedelta(days=33)
    return (
        "Called the Quay. An invented club for trying the program; any likeness is accidental. "
        f"The mat hall is lost on {blood_donors} (blood-donor day) "
        f"and from {varnish_from} to {varnish_to} (floor varnish)."
    )
