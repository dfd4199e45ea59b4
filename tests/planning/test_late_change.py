"""A late change rebuilds the plan and leaves everybody it does not touch where he was.

The club is the invented demo club; nothing here is published.
"""

from dataclasses import replace
from datetime import date

import pytest

from squadwright.demo import demo_club
from squadwright.model.plan import Plan
from squadwright.model.session import CheckIn, Presence
from squadwright.planning.plan import make_plan
from squadwright.planning.verify import verify_plan

CLUB = demo_club(date(2026, 3, 2))


def places(plan: Plan) -> dict[str, tuple[str, int]]:
    """Bar and wave of each lifter."""
    return {u.athlete: (bar.bar, u.wave) for bar in plan.bars for u in bar.wave_users}


def partners(plan: Plan) -> dict[tuple[str, str], frozenset[str]]:
    """Who works with whom, by block."""
    return {(g.block, a): frozenset(g.athletes) for g in plan.groups for a in g.athletes}


@pytest.mark.parametrize("gone", ["A01", "A06", "A09", "A12"])
def test_one_absent_moves_nobody_who_need_not_move(gone: str) -> None:
    session = CLUB.sessions[0]
    before = make_plan(CLUB, session)
    changed = replace(session, check_ins=(*session.check_ins, CheckIn(gone, Presence.ABSENT)))
    after = make_plan(CLUB, changed, previous=before)
    assert verify_plan(CLUB, changed, after) == ()
    was, now = places(before), places(after)
    moved = {a for a in now if now[a][0] != was[a][0]}
    partner = next(g for g in before.groups if gone in g.athletes).athletes
    joined = {a for g in after.groups if set(partner) & set(g.athletes) for a in g.athletes}
    assert moved <= joined


@pytest.mark.parametrize("place", [0, 1])
def test_without_a_change_nothing_moves(place: int) -> None:
    session = CLUB.sessions[place]
    before = make_plan(CLUB, session)
    after = make_plan(CLUB, session, previous=before)
    assert places(after) == places(before)
    assert partners(after) == partners(before)


def test_a_broken_bar_is_replaced_for_those_who_had_it_and_nobody_else() -> None:
    session = CLUB.sessions[0]
    before = make_plan(CLUB, session)
    broken = next(bar for bar in CLUB.kit.bars if bar.id == "bar-15-2")
    others = tuple(b for b in CLUB.kit.bars if b is not broken)
    spare = replace(broken, id="spare", name="spare 15 kg bar")
    kit = replace(CLUB.kit, bars=(*others, replace(broken, in_service=False), spare))
    after = make_plan(replace(CLUB, kit=kit), session, previous=before)
    was, now = places(before), places(after)
    had_it = {a for a, (bar, _) in was.items() if bar == broken.id}
    assert {a for a in now if now[a][0] != was[a][0]} == had_it
    assert {now[a][0] for a in had_it} == {"spare"}
