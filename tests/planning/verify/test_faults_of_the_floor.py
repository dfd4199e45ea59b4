"""Each fault about the floor plan, raised by a plan spoiled in exactly that way.

The room is 10 m by 8 m, its pillar 1 m square round 5, 6 m. Two stations of 3 m by 3 m stand from
1, 1 m and from 5, 1 m. What rounding may make is a millimetre.
"""

from dataclasses import replace
from math import atan2
from random import Random

import pytest
from shapely.geometry import Polygon, box

from cases import cases
from planning.plan_changes import Case
from planning.verify.sound_plan import SOUND
from planning.verify.spoiled import Spoiled, found, lines_raised, lines_that_raise, station
from squadwright.model.plan import Finding, Severity, StationPlace
from squadwright.model.room import Obstacle
from squadwright.planning.verify import floor
from squadwright.planning.verify.floor import (
    every_bar_has_a_station_or_the_audit_says_so,
    stations_do_not_overlap,
    stations_keep_off_obstacles,
    stations_lie_in_the_room,
)

# An L: the corner from 5, 4 m on is missing.
L_SHAPE = ((0.0, 0.0), (10.0, 0.0), (10.0, 4.0), (5.0, 4.0), (5.0, 8.0), (0.0, 8.0))
FEW = Finding("floor capacity", None, Severity.NOTE, "One bar fits.", None, None, "", "", "")


def outline(*corners: tuple[float, float], case: Case = SOUND) -> Case:
    hall, *others = case.club.rooms
    return replace(case, club=replace(case.club, rooms=(replace(hall, outline=corners), *others)))


def outside(where: str) -> tuple[tuple[str, str], ...]:
    return (("floor.stations[0] (bar 1)", f"from {where}: not inside Hall"),)


def on_pillar(x_m: float, y_m: float) -> Case:
    return station(SOUND, 0, x_m=x_m, y_m=y_m, width_m=1.0, depth_m=1.0)


ON_IT = (("floor.stations", "bar 1 stands on Pillar"),)

CASES = (
    *(
        Spoiled(f"at {x_m}, {y_m} m", stations_lie_in_the_room, station(SOUND, 0, x_m=x_m, y_m=y_m))
        for x_m, y_m in ((0.0, 0.0), (7.0, 0.0), (0.0, 5.0), (7.0, 5.0), (-0.0005, 5.0005))
    ),
    *(
        Spoiled(
            f"at {x_m:g}, {y_m:g} m",
            stations_lie_in_the_room,
            station(SOUND, 0, x_m=x_m, y_m=y_m),
            outside(f"{x_m:g}, {y_m:g} m, 3 x 3 m"),
        )
        for x_m, y_m in ((-0.01, 1), (7.01, 1), (1, -0.01), (1, 5.01), (20, 1), (1, -9))
    ),
    *(
        Spoiled(
            f"in an L at {x_m:g}, {y_m:g} m",
            stations_lie_in_the_room,
            outline(*L_SHAPE, case=station(SOUND, 0, x_m=x_m, y_m=y_m)),
            () if fits else outside(f"{x_m:g}, {y_m:g} m, 3 x 3 m"),
        )
        for x_m, y_m, fits in (
            *((1, 1, True), (2, 5, True), (7, 1, True), (5, 1, True)),
            # Beside the missing corner, across its two walls, round its point, in it.
            *((2.01, 5, False), (7, 1.01, False), (4, 2, False), (6, 4.5, False)),
        )
    ),
    Spoiled(
        "a wall that goes through it without a corner in it",
        stations_lie_in_the_room,
        outline((0, 0), (10, 0), (10, 8), (0, 2), case=station(SOUND, 0, y_m=1.0)),
        outside("1, 1 m, 3 x 3 m"),
    ),
    Spoiled(
        "a spike of the outline that ends in it",
        stations_lie_in_the_room,
        outline((0, 0), (10, 0), (10, 8), (3, 8), (2.5, 2.5), (2, 8), (0, 8)),
        outside("1, 1 m, 3 x 3 m"),
    ),
    Spoiled("side by side", stations_do_not_overlap, station(SOUND, 1, x_m=4.0)),
    Spoiled("one behind the other", stations_do_not_overlap, station(SOUND, 1, x_m=1.0, y_m=4.0)),
    Spoiled("half a millimetre", stations_do_not_overlap, station(SOUND, 1, x_m=3.9995)),
    Spoiled(
        "half a metre",
        stations_do_not_overlap,
        station(SOUND, 1, x_m=3.501),
        # 0.498 m of 2.999 m count.
        (("floor.stations", "bar 1 and bar 2 share 1.49 m2"),),
    ),
    Spoiled(
        "a corner",
        stations_do_not_overlap,
        station(SOUND, 1, x_m=2.999, y_m=1.999),
        # 1 m by 2 m count.
        (("floor.stations", "bar 1 and bar 2 share 2.00 m2"),),
    ),
    Spoiled(
        "one in the other",
        stations_do_not_overlap,
        station(SOUND, 1, x_m=2.0, y_m=2.0, width_m=1.001, depth_m=1.001),
        (("floor.stations", "bar 1 and bar 2 share 1.00 m2"),),
    ),
    Spoiled(
        "one in the other at another time",
        stations_do_not_overlap,
        station(station(SOUND, 0, block="A"), 1, x_m=1.0, block="B"),
    ),
    Spoiled(
        "one in the other at one time",
        stations_do_not_overlap,
        station(station(SOUND, 0, block="A"), 1, x_m=1.0, block="A"),
        (("floor.stations", "bar 1 and bar 2 share 8.99 m2"),),
    ),
    Spoiled(
        "one that stands for the whole session",
        stations_do_not_overlap,
        station(station(SOUND, 0, block="A"), 1, x_m=1.0),
        (("floor.stations", "bar 1 and bar 2 share 8.99 m2"),),
    ),
    *(
        Spoiled(f"beside it at {x_m}, {y_m} m", stations_keep_off_obstacles, on_pillar(x_m, y_m))
        for x_m, y_m in ((3.5, 5.5), (5.5, 5.5), (4.5, 4.5), (4.5, 6.5))
    ),
    *(
        Spoiled(f"on it at {x_m}, {y_m} m", stations_keep_off_obstacles, case, ON_IT)
        for x_m, y_m in ((3.51, 5.5), (5.49, 5.5), (4.5, 4.51), (4.5, 6.49), (4.5, 5.5))
        for case in (on_pillar(x_m, y_m),)
    ),
    Spoiled(
        "a bar that stands nowhere",
        every_bar_has_a_station_or_the_audit_says_so,
        station(station(SOUND, 0, holds=()), 1, holds=()),
        (("floor.stations", "no station for bar-1, bar-2; no finding says so"),),
    ),
    Spoiled(
        "a bar that stands nowhere, and the audit says so",
        every_bar_has_a_station_or_the_audit_says_so,
        station(SOUND, 1, holds=()).with_plan(audit=(FEW,)),
    ),
    Spoiled(
        "a bar that stands nowhere, and the audit says something else",
        every_bar_has_a_station_or_the_audit_says_so,
        station(SOUND, 1, holds=()).with_plan(audit=(replace(FEW, rule="less floor"),)),
        (("floor.stations", "no station for bar-2; no finding says so"),),
    ),
)


@pytest.mark.parametrize("spoiled", CASES, ids=str)
def test_a_plan_spoiled_in_one_way_has_exactly_that_fault(spoiled: Spoiled) -> None:
    assert found(spoiled) == spoiled.faults


def test_each_fault_about_the_floor_is_raised_by_some_case(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert lines_raised(floor, CASES, monkeypatch) == lines_that_raise(floor)


@pytest.mark.random_cases
def test_stations_in_rooms_of_any_shape_are_judged_as_by_a_library_of_geometry() -> None:
    """Shapely says whether the room covers the station; what juts out by less than 0.01 m2 is left
    to the cases above.
    """
    judged = []
    for seed in range(cases(300)):
        random = Random(seed)
        corners = [(random.uniform(0, 12), random.uniform(0, 12)) for _ in range(7)]
        corners.sort(key=lambda c: atan2(c[1] - 6, c[0] - 6))
        room = Polygon(corners)
        x_m, y_m = random.uniform(0, 10), random.uniform(0, 10)
        wide_m, deep_m = random.uniform(0.3, 3), random.uniform(0.3, 3)
        station = box(x_m, y_m, x_m + wide_m, y_m + deep_m)
        if not room.is_valid or 0 < station.difference(room).area < 0.01:
            continue
        place = StationPlace("s", x_m, y_m, wide_m, deep_m)
        case = outline(*corners).with_plan(floor=replace(SOUND.plan.floor, stations=(place,)))
        each = Spoiled("any shape", stations_lie_in_the_room, case)
        assert (found(each) == ()) == room.covers(station), (corners, place)
        judged.append(room.covers(station))
    assert 10 < sum(judged) < len(judged) - 10


def test_an_obstacle_is_as_wide_as_it_is_and_as_deep() -> None:
    """A bench 4 m by 0.4 m round 5, 6 m: from 3 to 7 m, and from 5.8 to 6.2 m."""
    hall, *others = SOUND.club.rooms
    bench = replace(hall, obstacles=(Obstacle("Bench", 5.0, 6.0, 4.0, 0.4),))
    club = replace(SOUND.club, rooms=(bench, *others))
    stands = {(2.0, 5.5): False, (2.01, 5.5): True, (7.0, 5.5): False, (6.99, 5.5): True}
    stands |= {(4.5, 4.8): False, (4.5, 4.81): True, (4.5, 6.2): False, (4.5, 6.19): True}
    for (x_m, y_m), is_on in stands.items():
        each = Spoiled(
            "bench", stations_keep_off_obstacles, replace(on_pillar(x_m, y_m), club=club)
        )
        assert bool(found(each)) == is_on, (x_m, y_m)
