"""The floor plan of a session: the demo club, and the demo club changed just enough."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import cache
from itertools import combinations
from xml.etree import ElementTree

import pytest
from shapely import Polygon, box

from squadwright.demo import demo_club
from squadwright.library import exercises
from squadwright.model.club import Club
from squadwright.model.plan import FloorPlan, Plan, Severity, StationPlace
from squadwright.model.room import CeilingZone, Room, ThrowWall
from squadwright.planning.floor.crossing import crossings
from squadwright.planning.floor.drawing import floor_svg
from squadwright.planning.plan import make_plan
from squadwright.planning.verify import verify_plan

MONDAY = date(2026, 3, 2)
BARBELL, PLYOMETRIC = 0, 1
SVG = "{http://www.w3.org/2000/svg}"


def in_room(session: int, change: Callable[[Room], Room]) -> tuple[Club, Plan]:
    """The plan of a demo session with its room changed."""
    club = demo_club(MONDAY)
    wanted = club.sessions[session]
    rooms = tuple(change(room) if room.id == wanted.room else room for room in club.rooms)
    changed = replace(club, rooms=rooms)
    return changed, make_plan(changed, wanted)


@cache
def planned(session: int) -> Plan:
    return in_room(session, lambda room: room)[1]


def shape(place: StationPlace) -> Polygon:
    return box(place.x_m, place.y_m, place.x_m + place.width_m, place.y_m + place.depth_m)


def rules(plan: Plan) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for item in plan.audit:
        found.setdefault(item.rule, []).append(item.sentence)
    return found


def rectangle(width: float, depth: float) -> Callable[[Room], Room]:
    outline = ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
    return lambda room: replace(
        room, outline=outline, obstacles=(), ceiling_zones=(), doors=(), throw_walls=()
    )


@pytest.mark.parametrize("session", [BARBELL, PLYOMETRIC])
def test_the_demo_floor_is_sound_by_the_geometry_library(session: int) -> None:
    plan = planned(session)
    club = demo_club(MONDAY)
    outline = Polygon(club.room(plan.floor.room).outline)
    for station in plan.floor.stations:
        assert shape(station).difference(outline).area < 1e-9
    for first, second in combinations(plan.floor.stations, 2):
        assert shape(first).distance(shape(second)) >= 0.91 - 1e-9
    assert not {"floor capacity", "throw line", "ceiling over station"} & set(rules(plan))


def test_six_bars_stand_in_the_weights_room_and_the_plan_says_why_not_seven() -> None:
    floor = planned(BARBELL).floor
    assert [station.id for station in floor.stations] == [f"bar {n}" for n in range(1, 7)]
    assert {bar.bar for bar in planned(BARBELL).bars} == {s.holds[0] for s in floor.stations}
    assert "one more does not fit" in floor.notes[0]
    assert "3.11 x 2.71 m" in floor.notes[0]
    assert "sees every station" in floor.notes[1]


def test_groups_keep_one_place_along_the_throw_wall_for_the_whole_session() -> None:
    plan = planned(PLYOMETRIC)
    held = [name for station in plan.floor.stations for name in station.holds]
    assert sorted(held) == sorted(group.name for group in plan.groups)
    assert len(plan.floor.stations) == 4
    assert {station.y_m for station in plan.floor.stations} == {0.0}
    assert sum(zone.kind == "throw line" for zone in plan.floor.zones) == 4


def test_a_room_that_is_too_small_says_how_many_bars_fit_and_the_waves_it_takes() -> None:
    club, plan = in_room(BARBELL, rectangle(8.0, 6.0))
    (finding,) = [f for f in plan.audit if f.rule == "floor capacity"]
    # 8.0 - 1.82 + 0.91 = 7.09 m holds two of 3.11 m side by side; 6.0 m gives 5.09 m, less than
    # the 5.42 m that two of 2.71 m need one behind the other.
    assert (finding.value, finding.limit, finding.severity) == (6.0, 2.0, Severity.STOP)
    assert finding.advice == (
        "12 lifters on 2 stations need 6 waves; the most is 4. "
        "Swap to throws, split the squad, or find a larger floor."
    )
    assert len(plan.floor.stations) == 2
    assert verify_plan(club, club.sessions[BARBELL], plan) == ()


def test_half_a_hall_holds_the_same_places() -> None:
    def south_half(room: Room) -> Room:
        return replace(room, outline=((0.0, 0.0), (14.0, 0.0), (14.0, 6.0), (0.0, 6.0)))

    _, plan = in_room(PLYOMETRIC, south_half)
    assert len(plan.floor.stations) == 4
    assert "floor capacity" not in rules(plan)


def test_places_come_nearer_where_the_wall_is_short_and_the_plan_says_so() -> None:
    def short_wall(room: Room) -> Room:
        return replace(room, throw_walls=(ThrowWall("part", (0.0, 0.0), (11.0, 0.0)),))

    _, plan = in_room(PLYOMETRIC, short_wall)
    assert len(plan.floor.stations) == 4
    assert any("nearer than the usual gap" in words for words in rules(plan)["floor capacity"])


def test_a_low_ceiling_over_a_station_is_told_once_with_its_stations() -> None:
    _, plan = in_room(BARBELL, lambda room: replace(room, ceiling_m=2.6, ceiling_zones=()))
    (words,) = rules(plan)["ceiling over station"]
    assert "2.6 m over bar 1, bar 2, bar 3, bar 4, bar 5, bar 6" in words


def test_stations_under_a_duct_alone_are_named() -> None:
    duct = CeilingZone("gallery", 0.0, 0.0, 3.0, 8.0, 2.5)
    _, plan = in_room(BARBELL, lambda room: replace(room, ceiling_zones=(duct,)))
    (words,) = rules(plan)["ceiling over station"]
    assert "under gallery" in words
    assert "bar 3" not in words


def test_a_ceiling_of_3_4_m_warns_for_throws_overhead() -> None:
    """The library asks 5 m of clear height for the overhead throws (our estimate)."""
    high = [e for e in exercises() if e.throws_per_repetition and e.needs.ceiling_m > 3.4]
    assert high
    club = demo_club(MONDAY)
    session = club.sessions[PLYOMETRIC]
    routine = club.routine(session.routine, session.routine_version)
    last = routine.blocks[-1]
    step = replace(last.steps[-1], exercise=high[0].id)
    blocks = (*routine.blocks[:-1], replace(last, steps=(*last.steps[:-1], step)))
    changed = replace(
        club,
        routines=tuple(
            replace(r, blocks=blocks) if r.id == routine.id else r for r in club.routines
        ),
        rooms=tuple(replace(r, ceiling_m=3.4) if r.id == session.room else r for r in club.rooms),
    )
    found = rules(make_plan(changed, session))
    told = [*found.get("ceiling over station", []), *found.get("ceiling", [])]
    assert any(high[0].name in words and "3.4 m" in words for words in told)


def test_a_throw_across_a_landing_lane_is_refused_with_advice() -> None:
    throw = StationPlace("throw line of place 1", 0.0, 2.0, 6.0, 2.0, kind="throw line")
    lane = StationPlace("landing of lane 2", 4.0, 0.0, 1.5, 8.0, kind="landing")
    (crossing,) = crossings(FloorPlan("hall", "Hall", (), (throw, lane)))
    assert crossing.shared_m2 == pytest.approx(shape(throw).intersection(shape(lane)).area)
    assert crossing.sentence == "throw line of place 1 crosses landing of lane 2"
    assert "one after the other" in crossing.advice
    beside = replace(lane, x_m=6.0)
    own = replace(lane, id="landing of place 1")
    later = replace(lane, block="B")
    earlier = replace(throw, block="A")
    assert crossings(FloorPlan("hall", "Hall", (), (throw, beside))) == ()
    assert crossings(FloorPlan("hall", "Hall", (), (throw, own))) == ()
    assert crossings(FloorPlan("hall", "Hall", (), (earlier, later))) == ()


def drawn(session: int) -> ElementTree.Element:
    plan = planned(session)
    return ElementTree.fromstring(floor_svg(demo_club(MONDAY).room(plan.floor.room), plan.floor))


@pytest.mark.parametrize("session", [BARBELL, PLYOMETRIC])
def test_the_drawing_says_itself_in_words_and_is_black_and_white(session: int) -> None:
    picture = drawn(session)
    assert picture.get("role") == "img"
    labels = str(picture.get("aria-labelledby")).split()
    title, words = (picture.find(f".//*[@id='{label}']") for label in labels)
    assert title is not None
    assert words is not None
    assert title.text == f"Floor plan: {planned(session).floor.room_name}"
    assert all(s.id in str(words.text) for s in planned(session).floor.stations)
    used = {e.get(name) for e in picture.iter() for name in ("fill", "stroke") if e.get(name)}
    assert used <= {"black", "white", "none", "url(#landing)"}
    assert not [e for e in picture.iter() if e.get("style") or e.get("class")]


def test_the_drawing_is_to_scale_and_inside_its_picture() -> None:
    picture = drawn(BARBELL)
    width, height = (float(v) for v in str(picture.get("viewBox")).split()[2:])
    sizes = [
        (float(e.get("width", 0)), float(e.get("height", 0)))
        for e in picture.iter(f"{SVG}rect")
        if e.get("stroke-width") == "4"
    ]
    assert sizes == [(220.0, 180.0)] * 6
    for e in picture.iter(f"{SVG}rect"):
        assert float(e.get("x", 0)) >= 0
        assert float(e.get("x", 0)) + float(e.get("width", 0)) <= width
        assert float(e.get("y", 0)) + float(e.get("height", 0)) <= height
    texts = [e.text for e in picture.iter(f"{SVG}text")]
    assert {"1B", "6B", "bar 1", "N", "5 m", "2.9 m high", "C"} <= set(texts)


def test_names_in_the_drawing_are_made_safe() -> None:
    room = replace(demo_club(MONDAY).room("weights-room"), name="<b>&")
    place = StationPlace("a<b & c", 1.0, 1.0, 2.0, 2.0, number=1, kind="group", holds=('"x"<',))
    text = floor_svg(room, FloorPlan(room.id, room.name, (place,)))
    assert ElementTree.fromstring(text).find(f"{SVG}title").text == "Floor plan: <b>&"  # type: ignore[union-attr]
