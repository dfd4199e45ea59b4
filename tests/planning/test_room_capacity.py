"""What a room takes, against Shapely (a general geometry library) and by arithmetic."""

from dataclasses import replace
from itertools import combinations
from typing import Any

import pytest
from shapely import Polygon, box

from squadwright.demo.premises import MAT_HALL, WEIGHTS_ROOM
from squadwright.exchange.room_shape import misplaced
from squadwright.library import exercises
from squadwright.model.exercise import Demand
from squadwright.model.plan import StationPlace
from squadwright.model.room import CeilingZone, Door, LandingLane, Obstacle, Room, ThrowWall
from squadwright.planning import room_capacity
from squadwright.planning.floor import Capacity, Proof
from squadwright.planning.room_capacity import Usual, how_many, layout, too_low, walking_order
from squadwright.planning.throw_lines import lanes_crossed
from squadwright.services.room_walls import with_walls_moved

SLANTED = Room(
    "s",
    "Slanted",
    ((0.0, 0.0), (12.0, 0.0), (9.0, 8.0), (0.0, 8.0)),
    3.0,
    throw_walls=(ThrowWall("slant", (12.0, 0.0), (9.0, 8.0), 3.0),),
)


def shape(place: StationPlace) -> Polygon:
    return box(place.x_m, place.y_m, place.x_m + place.width_m, place.y_m + place.depth_m)


@pytest.mark.parametrize("room", [WEIGHTS_ROOM, MAT_HALL, SLANTED], ids=lambda room: room.name)
@pytest.mark.parametrize("kind", list(Usual))
def test_as_many_as_are_said_to_fit_stand_apart_inside_the_room(room: Room, kind: Usual) -> None:
    said = next((h for h in how_many(room) if h.kind is kind), None)
    laid = layout(room, kind)
    if said is None or said.count == 0:
        assert laid is None
        return
    assert laid is not None
    assert len(laid.plan.stations) == said.count
    outline = Polygon(room.outline)
    for station in laid.plan.stations:
        assert shape(station).difference(outline).area < 1e-6
    for one, other in combinations(laid.plan.stations, 2):
        assert shape(one).distance(shape(other)) >= 0.91 - 1e-6
    assert sorted(s.number for s in laid.plan.stations) == list(range(1, said.count + 1))


def test_six_bar_stations_are_proven_in_the_weights_room() -> None:
    """3.11 x 2.71 m each: 3 along 10.59 m and 2 across 7.09 m."""
    bars = next(h for h in how_many(WEIGHTS_ROOM) if h.kind is Usual.BARS)
    assert (bars.count, bars.is_proven) == (6, True)
    assert bars.sentence == "6 bar stations fit, 7 do not"


def test_no_throw_is_placed_across_a_landing_lane() -> None:
    lane = LandingLane("lane", 5.0, 1.0, 1.5, 8.0)
    laid = layout(replace(MAT_HALL, lanes=(lane,)), Usual.THROWS)
    assert laid is not None
    ground = box(5.0, 1.0, 6.5, 9.0)
    assert len(laid.plan.stations) >= 2
    assert all(shape(s).intersection(ground).area < 1e-9 for s in laid.plan.stations)


@pytest.mark.parametrize("x", [3.0, 6.0, 8.0, 9.5])
def test_the_floor_a_lane_shares_with_a_throw_line_is_what_shapely_finds(x: float) -> None:
    room = replace(SLANTED, lanes=(LandingLane("lane", x, 2.0, 1.0, 4.0),))
    (x1, y1), (x2, y2) = SLANTED.throw_walls[0].start, SLANTED.throw_walls[0].end
    long = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
    inward = (-(y2 - y1) / long * 3.0, (x2 - x1) / long * 3.0)
    line = Polygon(
        [(x1, y1), (x2, y2), (x2 + inward[0], y2 + inward[1]), (x1 + inward[0], y1 + inward[1])]
    )
    shared = line.intersection(box(x, 2.0, x + 1.0, 6.0)).area
    found = lanes_crossed(room)
    if shared < 1e-6:
        assert found == ()
    else:
        assert found[0].shared_m2 == pytest.approx(shared, abs=0.01)
        assert "crosses the landing lane lane" in found[0].sentence


def test_what_is_too_low_names_the_exercise_that_wants_most() -> None:
    whole, duct = too_low(WEIGHTS_ROOM)
    assert (whole.ceiling_m, whole.exercises[0][1]) == (3.4, 5.0)
    assert all(need > 2.9 for _, need in duct.exercises)
    assert too_low(MAT_HALL) == ()


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"obstacles": (Obstacle("post", 13.0, 4.0),)}, "obstacles[0]"),
        ({"obstacles": (Obstacle("post", 11.4, 4.0),)}, "obstacles[0]"),
        ({"doors": (Door("gate", 5.0, 1.0),)}, "doors[0]"),
        ({"throw_walls": (ThrowWall("air", (1.0, 1.0), (5.0, 1.0)),)}, "throw_walls[0]"),
        ({"outline": ((0.0, 0.0), (9.0, 8.0), (9.0, 0.0), (0.0, 6.0))}, "outline"),
    ],
)
def test_what_cannot_be_in_a_room_is_found(change: dict[str, Any], place: str) -> None:
    assert list(misplaced(WEIGHTS_ROOM)) == []
    room = replace(WEIGHTS_ROOM, **change)
    assert place in [complaint.place for complaint in misplaced(room)]


def test_a_door_keeps_its_distance_from_the_nearer_corner_when_its_wall_grows() -> None:
    longer = ((0.0, 0.0), (14.0, 0.0), (14.0, 15.0), (0.0, 15.0))
    moved = with_walls_moved(MAT_HALL, replace(MAT_HALL, outline=longer))
    # 10 m of 12 m up the wall: 2 m from its upper corner, now at 15 m.
    assert (moved.doors[0].x_m, moved.doors[0].y_m) == (14.0, 13.0)
    assert moved.throw_walls == MAT_HALL.throw_walls


def square(side_m: float) -> Room:
    corners = ((0.0, 0.0), (side_m, 0.0), (side_m, side_m), (0.0, side_m))
    return Room("q", "Square", corners, 3.0)


@pytest.mark.parametrize(
    ("side_m", "words"),
    [
        # 2 m and a strip of 0.91 m at either wall; one more is 2.91 m more.
        (3.81, "No place for a pair fits"),
        (3.82, "1 place for a pair fits, 2 do not"),
        (6.72, "1 place for a pair fits, 2 do not"),
        (6.73, "4 places for pairs fit, 5 do not"),
    ],
)
def test_how_many_fit_is_said_in_words(side_m: float, words: str) -> None:
    pairs = next(h for h in how_many(square(side_m)) if h.kind is Usual.PAIRS)
    assert pairs.sentence == words
    assert pairs.size == "2 x 2 m each, 0.91 m apart"
    lanes = next(h for h in how_many(square(side_m)) if h.kind is Usual.LANES)
    assert lanes.size == "1.5 x 7 m each, 2 m apart"
    assert Usual.THROWS not in {h.kind for h in how_many(square(side_m))}


@pytest.mark.parametrize("count", [0, 3])
def test_what_is_not_proven_is_said_to_be_the_least(
    count: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = Capacity(count, 5, Proof("none", "not looked at"), ())
    monkeypatch.setattr(room_capacity, "capacity", lambda *_, **__: found)
    how_many.cache_clear()
    try:
        said = {h.kind: (h.sentence, h.is_proven) for h in how_many(square(7.7))}
    finally:
        how_many.cache_clear()
    assert said[Usual.BARS] == (f"At least {count} bar stations fit", False)


def test_the_layout_tells_the_walk_and_what_the_coach_sees() -> None:
    room = replace(square(6.73), doors=(Door("d", 0.0, 1.91),))
    laid = layout(room, Usual.PAIRS)
    assert laid is not None
    # From the door 1.91 m to the first middle, then three sides of 2.91 m.
    assert laid.walk_m == pytest.approx(1.91 + 3 * 2.91)
    assert laid.is_shortest
    assert laid.coach.endswith("sees every station.")
    assert [s.number for s in walking_order(laid.plan)] == [1, 2, 3, 4]


def test_where_it_is_too_low_all_exercises_that_want_more_are_named_the_tallest_first() -> None:
    room = replace(square(9.0), ceiling_m=2.9, ceiling_zones=(CeilingZone("d", 0, 0, 1, 1, 2.8),))
    for found in too_low(room):
        asking = {
            e.name: e.needs.ceiling_m
            for e in exercises()
            if e.needs.ceiling_m > found.ceiling_m
            and (e.throws_per_repetition > 0 or Demand.OVERHEAD in e.demands)
        }
        assert dict(found.exercises) == asking
        wants = [need for _, need in found.exercises]
        assert wants == sorted(wants, reverse=True)
    tallest = max(e.needs.ceiling_m for e in exercises())
    assert too_low(replace(square(9.0), ceiling_m=tallest)) == ()
