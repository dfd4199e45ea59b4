"""Responses from an athlete's own tests, in the camp: used where they forecast best, or not."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import numpy as np
import pytest

from lived_sessions import save
from read_pages import page_of, words_of
from site_server import Browse
from squadwright.camp.response import ResponseDraws
from squadwright.demo import demo_club
from squadwright.model.athlete import JumpTest
from squadwright.model.diary import RestDay, SessionDone
from squadwright.services.diary import Told, write_diary

MONDAY = date(2026, 3, 2)
DAYS = 180
WHO = "A08"


def lived(browse: Browse, noise: float, *, told_days: int = DAYS, gain: float = 0.0) -> None:
    """Half a year of load told, and a jump every fifth day that answers to it, or to nothing."""
    random, one = np.random.default_rng(3), np.ones(1)
    truth = ResponseDraws(45 * one, 9 * one, gain * one, 1.9 * gain * one, "invented")
    minutes = [int(m * ((d // 10) % 3 > 0)) for d, m in enumerate(random.uniform(0, 120, DAYS))]
    first = MONDAY - timedelta(days=DAYS)
    jumps = []
    for day in range(0, DAYS, 5):
        loads = 6.0 * np.array(minutes[:day])
        effect = float((truth.influence(np.arange(day, 0, -1)) @ loads)[0]) if day else 0.0
        height = 0.4 * np.exp((effect + noise * random.normal()) / 100)
        jumps.append(JumpTest("countermovement", float(height), first + timedelta(day), "mat"))
    club = demo_club(MONDAY)
    people = tuple(replace(a, jump_tests=tuple(jumps)) if a.id == WHO else a for a in club.athletes)
    save(browse.keeper, replace(club, athletes=people, week=(), sessions=(), travel=()))
    entries = [
        Told(
            WHO,
            first + timedelta(day),
            SessionDone("Session", "strength", m, 6.0) if m else RestDay(),
        )
        for day, m in enumerate(minutes[:told_days])
    ]
    now = datetime(2026, 3, 2, 9, tzinfo=UTC)
    write_diary(browse.keeper, entries, author="Coach", today=MONDAY, now=now)


@pytest.mark.parametrize(
    ("noise", "told_days", "gain", "said"),
    [
        (0.4, DAYS, 0.012, "learned from 36 own tests"),
        (3.0, DAYS, 0.0, "came nearer than the fit"),
        (0.4, 40, 0.012, "are known, too few to learn from: the literature is gone by"),
    ],
)
def test_the_page_says_what_the_response_rests_on(
    browse: Browse, noise: float, told_days: int, gain: float, said: str
) -> None:
    lived(browse, noise, told_days=told_days, gain=gain)
    words = words_of(page_of(browse.get(f"/camp/plan/{WHO}")))
    assert said in words
    others = words_of(page_of(browse.get("/camp/plan/A01")))
    assert "no own tests to learn from yet" in others
