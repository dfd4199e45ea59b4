"""Where a session can go when two clash: weeks of two or three slots, each place tried by hand."""

from dataclasses import replace
from datetime import date, time, timedelta

import pytest

from squadwright.camp.clashes import clashes, taken_twice
from squadwright.camp.moves import Mover
from squadwright.camp.week import works_between
from squadwright.demo import demo_club
from squadwright.model.calendar import BodyRegion, ClashLimits, Closure, Work
from squadwright.model.club import Club, StaffMember, Weekday, WeekSlot

MONDAY = date(2026, 3, 2)
DEMO = demo_club(MONDAY)
LEGS = (BodyRegion.LEGS,)
BAR = WeekSlot(
    "bar", "Bar", Weekday.MONDAY, time(18), time(19), "bar", work=Work.BARBELL,
    planned_effort=6, regions=LEGS, room="a", staff=("Ana",),
)  # fmt: skip
LIVE = WeekSlot(
    "live", "Live", Weekday.TUESDAY, time(18), time(19), "live", work=Work.LIVE,
    planned_effort=8, regions=LEGS, room="b", staff=("Ben",),
)  # fmt: skip


def club_of(*slots: WeekSlot, **more: object) -> Club:
    bare = replace(DEMO, week=slots, sessions=(), closures=(), travel=(), staff=(), time_zone="")
    return replace(bare, **more)  # type: ignore[arg-type]


def moved(club: Club, *, not_before: date = MONDAY) -> list[tuple[str, str]]:
    """Name, and day and hour, effort or off of each move of the first clash."""
    works = works_between(club, MONDAY, MONDAY + timedelta(days=6))
    clash = clashes(works, club.clash_limits)[0]
    found = Mover(club, works, not_before=not_before).moves(clash)
    return [
        (
            move.name,
            f"effort {move.effort}"
            if move.is_easier
            else "off"
            if move.is_off
            else f"{move.day:%a} {move.starts_at:%H:%M}",
        )
        for move in found
    ]


def test_the_bar_goes_an_hour_earlier_or_the_live_rounds_an_hour_later() -> None:
    """Heavy legs want 24 h before live rounds: from 19:00 to 18:00 are 23. Days with slots alone,
    within an hour of their starts: half an hour is too little, and on the other's day both meet.
    """
    assert moved(club_of(BAR, LIVE)) == [("Bar", "Mon 17:00"), ("Live", "Tue 19:00")]


def test_what_lies_before_the_first_day_stays_and_the_other_goes() -> None:
    tuesday = MONDAY + timedelta(days=1)
    assert moved(club_of(BAR, LIVE), not_before=tuesday) == [
        ("Live", "Tue 19:00"),
        ("Live", "effort 3"),
    ]


def test_a_shut_room_takes_no_session_and_another_rooms_closure_does_not_matter() -> None:
    for room, first in (("a", "effort 3"), ("b", "Mon 17:00")):
        shut = Closure("c", "paint", MONDAY - timedelta(days=9), MONDAY, (room,))
        club = club_of(BAR, LIVE)
        works = works_between(club, MONDAY, MONDAY + timedelta(days=6))
        clash = clashes(works, club.clash_limits)[0]
        closed = replace(club, closures=(shut,))
        found = Mover(closed, works, not_before=MONDAY).moves(clash)
        assert (f"{found[0].day:%a} {found[0].starts_at:%H:%M}" == "Mon 17:00") is (
            first == "Mon 17:00"
        )


@pytest.mark.parametrize(
    ("days", "fits"), [((), True), (("Monday",), True), (("Tuesday", "Friday"), False)]
)
def test_staff_is_asked_only_on_its_days(days: tuple[str, ...], fits: bool) -> None:
    staff = (StaffMember("Ana", "coach", days),)
    assert (moved(club_of(BAR, LIVE, staff=staff))[0] == ("Bar", "Mon 17:00")) is fits


def test_a_third_slot_on_a_free_day_is_a_place_as_near_as_its_days() -> None:
    """Easy technique on Wednesday opens that day; live rounds on Tuesday leave 48 h by Thursday."""
    easy = replace(
        LIVE, id="easy", name="Easy", day=Weekday.FRIDAY, work=Work.TECHNIQUE, planned_effort=3
    )
    found = moved(club_of(BAR, LIVE, easy))
    assert found[0] == ("Bar", "Mon 17:00")
    assert found[1][0] == "Bar"
    assert found[1][1].startswith("Fri")


def test_work_of_its_own_kind_right_before_it_keeps_a_session_away() -> None:
    """Another bar session at 10:00 to 11:00 is six hours from 17:00, one to 11:30 is not."""
    limits = ClashLimits(same_region_hours=0)
    morning = replace(
        BAR, id="am", name="Morning", starts_at=time(10), ends_at=time(11), planned_effort=3
    )
    near = replace(morning, ends_at=time(11, 30))
    for slot, fits in ((morning, True), (near, False)):
        club = club_of(BAR, LIVE, slot, clash_limits=limits)
        works = works_between(club, MONDAY, MONDAY + timedelta(days=6))
        clash = next(c for c in clashes(works, limits) if c.earlier.slot == "bar")
        found = Mover(club, works, not_before=MONDAY).moves(clash)
        places = [f"{m.day:%a} {m.starts_at:%H:%M}" for m in found if not m.is_easier]
        assert ("Mon 17:00" in places) is fits


def test_two_at_once_need_the_room_people_or_staff_alike() -> None:
    works = works_between(club_of(BAR, replace(LIVE, day=Weekday.MONDAY)), MONDAY, MONDAY)
    bar, live = works
    count = len(bar.athletes & live.athletes)
    assert taken_twice(bar, live) == (f"{count} of the same athletes",)
    apart = replace(live, athletes=frozenset())
    assert taken_twice(bar, apart) == ()
    assert taken_twice(bar, replace(apart, room="a")) == ("the same room",)
    assert taken_twice(replace(bar, room=None), replace(apart, room=None)) == ()
    assert taken_twice(bar, replace(apart, staff=("Ben", "Ana"))) == ("Ana",)
    one = replace(live, athletes=frozenset(sorted(bar.athletes)[:1]))
    assert taken_twice(bar, one) == ("1 of the same athlete",)
