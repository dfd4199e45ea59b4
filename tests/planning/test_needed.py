"""A plan is made from a part of the club: the rest can change without a new plan."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest

from random_club import random_club
from squadwright.demo import demo_club
from squadwright.errors import NoSolution
from squadwright.model.athlete import MassReading
from squadwright.model.club import Club
from squadwright.planning.needed import needed
from squadwright.planning.plan import make_plan
from squadwright.units import Mass

MONDAY = date(2026, 3, 2)


@pytest.mark.parametrize("place", [0, 1])
def test_the_plan_of_the_part_is_the_plan_of_the_whole(place: int) -> None:
    club = demo_club(MONDAY)
    session = club.sessions[place]
    assert make_plan(needed(club, session), session) == make_plan(club, session)


@pytest.mark.parametrize("seed", range(200, 212))
def test_so_it_is_with_random_clubs(seed: int) -> None:
    club, session = random_club(seed)
    try:
        whole = make_plan(club, session)
    except NoSolution:
        with pytest.raises(NoSolution):
            make_plan(needed(club, session), session)
        return
    assert make_plan(needed(club, session), session) == whole


def weighed(club: Club, athlete_id: str) -> Club:
    reading = MassReading(Mass.parse("70 kg"), MONDAY)
    return replace(
        club,
        athletes=tuple(
            replace(a, body_mass=(*a.body_mass, reading)) if a.id == athlete_id else a
            for a in club.athletes
        ),
    )


def without_a01(club: Club) -> Club:
    """The demo club whose Monday session goes on without one of the squad."""
    monday = replace(club.sessions[0], athletes=club.sessions[0].athletes[1:])
    return replace(club, sessions=(monday, *club.sessions[1:]))


@pytest.mark.parametrize(
    ("change", "is_needed"),
    [
        (lambda c: replace(c, note="new"), False),
        (lambda c: replace(c, staff=()), False),
        (lambda c: weighed(c, "A01"), False),
        (lambda c: weighed(c, "A02"), True),
        (lambda c: replace(c, rooms=c.rooms[::-1]), False),
        (lambda c: replace(c, rooms=tuple(replace(r, ceiling_m=3.0) for r in c.rooms)), True),
        (lambda c: replace(c, kit=replace(c.kit, bars=c.kit.bars[:-1])), True),
        (lambda c: replace(c, week=()), True),
        (lambda c: replace(c, sessions=c.sessions[:1]), False),
    ],
)
def test_only_what_a_plan_can_depend_on_is_kept(
    change: Callable[[Club], Club], is_needed: bool
) -> None:
    club = without_a01(demo_club(MONDAY))
    session = club.sessions[0]
    assert (needed(change(club), session) != needed(club, session)) is is_needed
