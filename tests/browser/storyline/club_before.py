"""The demo club as it is before its storyline begins: nothing of what will happen has been told."""

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from site_server import MONDAY
from squadwright.bootstrap import open_demo
from squadwright.config import sqlite_url
from squadwright.demo import demo_club
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.medical import NOTHING_WRITTEN
from squadwright.services.unit_of_work import Keeper

KNOCKED, TYPED_POUNDS = "A10", "A06"
FIRST_DAY = MONDAY - timedelta(days=6)


def club_before() -> Club:
    """No head knock, no mass of this week, nobody checked in."""
    club = demo_club(MONDAY)
    return replace(
        club,
        athletes=tuple(_before(athlete) for athlete in club.athletes),
        sessions=tuple(replace(s, check_ins=()) for s in club.sessions),
    )


def _before(athlete: Athlete) -> Athlete:
    medical = NOTHING_WRITTEN if athlete.id == KNOCKED else athlete.medical
    # Weighed a week before; the readings of the two days before the Monday are still to come.
    masses = tuple(
        replace(m, taken_on=FIRST_DAY - timedelta(days=1))
        for m in athlete.body_mass
        if not m.note.startswith("typed as")
    )
    return replace(athlete, medical=medical, body_mass=masses)


def keeper_before(folder: Path) -> Keeper:
    """A database with that club and an empty diary."""
    club = club_before()
    keeper = open_demo(sqlite_url(folder / "storyline.sqlite3"), today=MONDAY)
    with keeper.writing() as store:
        store.save_club(club)
        for athlete in club.athletes:
            store.diary.erase(athlete.id)
    return keeper
