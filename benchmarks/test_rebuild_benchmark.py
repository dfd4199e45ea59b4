"""From a tap at the door to the plan on the page: one absent, planned anew, shown.

Wanted: under 2 s for 14 athletes and under 4 s for 40. The clubs are made up.
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from itertools import cycle
from pathlib import Path
from typing import Any

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from forty_athletes import forty_athletes
from site_server import MONDAY, Browse, browse_on
from squadwright.config import sqlite_url
from squadwright.demo import demo_club
from squadwright.model.club import Club
from squadwright.storage.database import Database
from squadwright.storage.keeper import SqlKeeper


def everybody_here(monday: date) -> Club:
    """The demo club with nobody late or absent."""
    club = demo_club(monday)
    return replace(club, sessions=tuple(replace(s, check_ins=()) for s in club.sessions))


def site_of(club: Club, folder: Path) -> Browse:
    keeper = SqlKeeper(Database(sqlite_url(folder / "club.sqlite3")))
    keeper.initialise()
    with keeper.writing() as store:
        store.save_club(club)
    return browse_on(keeper)


@pytest.mark.parametrize("place", [0, 1], ids=["barbell", "jumps and throws"])
@pytest.mark.parametrize(("make", "athletes"), [(everybody_here, 14), (forty_athletes, 40)])
def test_from_a_tap_to_the_plan_on_the_page(
    benchmark: BenchmarkFixture, tmp_path: Path, make: Any, athletes: int, place: int
) -> None:
    club = make(MONDAY)
    session = club.sessions[place]
    assert len(session.athletes) == athletes
    browse = site_of(club, tmp_path)
    page = f"/today/{session.id}"
    browse.get(page)
    who: Iterator[str] = cycle(session.athletes)

    def tap() -> None:
        told = browse.post(f"{page}/check-in/{next(who)}/presence", {"presence": "absent"})
        assert "is absent" in told.text
        assert browse.get(page).status_code == 200

    benchmark.pedantic(tap, rounds=3, warmup_rounds=0)
    worst = benchmark.stats.stats.max
    print(f"{athletes} athletes, {session.name}: {worst:.2f} s at worst")
