"""One broken floor plan for each rule of the re-check about the floor, from the demo plan."""

from dataclasses import replace
from typing import Any

from planning.plan_changes import Case


def _move(case: Case, station: str, **changes: Any) -> Case:
    floor = case.plan.floor
    assert any(place.id == station for place in floor.stations)
    moved = tuple(
        replace(place, **changes) if place.id == station else place for place in floor.stations
    )
    return case.with_plan(floor=replace(floor, stations=moved))


def stations_lie_in_the_room(case: Case) -> Case:
    return _move(case, "bar 1", x_m=-0.3)


def stations_do_not_overlap(case: Case) -> Case:
    return _move(case, "bar 2", x_m=3.0)


def stations_keep_off_obstacles(case: Case) -> Case:
    return _move(case, "bar 5", y_m=3.5)


def every_bar_has_a_station_or_the_audit_says_so(case: Case) -> Case:
    floor = case.plan.floor
    return case.with_plan(floor=replace(floor, stations=floor.stations[1:]))
