"""Less floor today: the plan on part of a room, in more waves or in larger groups."""

from dataclasses import replace
from datetime import date
from functools import cache
from itertools import combinations

import pytest
from shapely import Polygon, box

from squadwright.demo import demo_club
from squadwright.model.club import Club
from squadwright.model.plan import Plan, Severity
from squadwright.model.session import FloorPart, FloorToday, Session
from squadwright.planning.plan import make_plan
from squadwright.planning.verify import verify_plan

CLUB: Club = demo_club(date(2026, 3, 2))
BARBELL, PLYOMETRIC = CLUB.sessions


@cache
def on_floor(session: Session, today: FloorToday | None) -> Plan:
    return make_plan(CLUB, replace(session, floor_today=today))


def part(x: float, y: float, width: float, depth: float) -> FloorToday:
    return FloorToday(part=FloorPart(x, y, width, depth))


def waves(plan: Plan) -> int:
    return max(user.wave for bar in plan.bars for user in bar.wave_users)


def finding(plan: Plan, rule: str) -> str:
    return next((f.sentence for f in plan.audit if f.rule == rule), "")


def cycle_s(plan: Plan) -> int:
    """From the start of one round to the start of the next, by the run sheet."""
    starts = sorted(
        line.start_s for line in plan.run_sheet if line.role == "wave 1" and line.round in (1, 2)
    )
    return starts[-1] - starts[0]


@pytest.mark.parametrize(
    ("today", "bars", "in_waves", "longer_s"),
    [
        # Clear strips of 0.91 m: 8 m holds 2 x 3.11 m and 2 x 2.71 m; 12 lifters on 4 bars are 3
        # waves of 100 s and 20 s each, one wave more than on 6 bars.
        (part(0, 0, 8, 8), 4, 3, 120),
        # 4 m hold one row of three: 12 lifters on 3 bars are 4 waves.
        (part(0, 0, 11.5, 4), 3, 4, 240),
    ],
)
def test_fewer_stations_make_more_waves_and_the_plan_says_the_time(
    today: FloorToday, bars: int, in_waves: int, longer_s: int
) -> None:
    whole, less = on_floor(BARBELL, None), on_floor(BARBELL, today)
    assert (len(whole.bars), waves(whole)) == (6, 2)
    assert (len(less.bars), waves(less)) == (bars, in_waves)
    assert cycle_s(less) - cycle_s(whole) == longer_s
    assert f"takes {bars} bar stations of Ropewalk, not 6" in finding(less, "less floor")
    assert f"a round takes {longer_s // 60}:00 longer" in finding(less, "less floor")
    assert "4 to" in finding(less, "slot too short")
    assert finding(less, "floor capacity") == ""
    trains = {user.athlete for bar in less.bars for user in bar.wave_users}
    assert trains == {user.athlete for bar in whole.bars for user in bar.wave_users}


@pytest.mark.parametrize(
    ("session", "today"),
    [
        (BARBELL, part(0, 0, 8, 8)),
        (BARBELL, part(0, 0, 11.5, 4)),
        (BARBELL, FloorToday(room="mat-hall")),
        (PLYOMETRIC, part(0, 0, 14, 6)),
        (PLYOMETRIC, part(0, 0, 7, 12)),
        (PLYOMETRIC, FloorToday(room="weights-room")),
    ],
)
def test_a_plan_on_less_floor_keeps_every_rule_and_lies_in_what_is_left(
    session: Session, today: FloorToday
) -> None:
    held = replace(session, floor_today=today)
    plan = on_floor(session, today)
    assert verify_plan(CLUB, held, plan) == ()
    outline = Polygon(CLUB.room_of(held).outline)
    places = [
        (s.block, box(s.x_m, s.y_m, s.x_m + s.width_m, s.y_m + s.depth_m))
        for s in plan.floor.stations
    ]
    assert places
    for _, place in places:
        assert place.difference(outline).area < 1e-9
    for (one_block, one), (other_block, other) in combinations(places, 2):
        if one_block == other_block:
            assert one.intersection(other).area < 1e-9


def test_where_even_four_waves_are_too_few_the_plan_stops_and_says_so() -> None:
    plan = on_floor(BARBELL, part(0, 0, 5.75, 8))
    stop = next(f for f in plan.audit if f.rule == "floor capacity")
    assert (stop.severity, stop.value, stop.limit) == (Severity.STOP, 6.0, 2.0)
    assert "12 lifters on 2 stations need 6 waves; the most is 4" in stop.advice
    assert waves(plan) == 2


def test_a_shorter_throw_wall_makes_fewer_and_larger_groups() -> None:
    """7 m of wall take two places of the throws; the four groups of three become two of six."""
    plan = on_floor(PLYOMETRIC, part(0, 0, 7, 12))
    sizes = [len(g.athletes) for g in plan.groups if g.block == "B"]
    assert sizes == [6, 6]
    assert "2 places of B, not 4: 2 groups instead of 4 groups" in finding(plan, "less floor")


def test_the_whole_floor_again_gives_the_plan_there_was() -> None:
    assert on_floor(BARBELL, None) == make_plan(CLUB, BARBELL)
