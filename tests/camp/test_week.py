"""A dated week: slots, sessions, changed dates, lost days, planned load, time zones."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

import pytest

from squadwright.camp.clashes import clashes
from squadwright.camp.week import GroupWeek, group_week, works_between
from squadwright.demo import demo_club
from squadwright.model.calendar import BodyRegion, SlotChange, Travel, Work
from squadwright.model.club import Club, Weekday, WeekSlot

MONDAY = date(2026, 3, 2)
SUNDAY = MONDAY + timedelta(days=6)
DEMO = demo_club(MONDAY)


def club_of(*slots: WeekSlot, zone: str = "") -> Club:
    """A club with a week of its own, for the people of the demo club."""
    return replace(DEMO, week=slots, sessions=(), closures=(), travel=(), time_zone=zone)


def planned(day: Weekday, minutes: int, effort: int | None, squad: str = "Mat") -> WeekSlot:
    """A slot from 10:00 with a planned effort."""
    ends_at = (datetime(2026, 1, 1, 10) + timedelta(minutes=minutes)).time()
    name = f"{day} {minutes} {effort}"
    return WeekSlot(
        name, name, day, time(10), ends_at, "work", squads=(squad,), planned_effort=effort
    )


def mat_week(*slots: WeekSlot) -> GroupWeek:
    club = club_of(*slots)
    return group_week(club, works_between(club, MONDAY, SUNDAY), MONDAY, "Mat")


def test_the_check_week_of_the_sources_gives_its_monotony_and_strain() -> None:
    """Daily loads 0 420 300 540 0 600 240: mean 300, SD 240 exactly, 1.25, 2625 (worked out
    from Foster's formulas, not his own example).
    """
    week = mat_week(
        planned(Weekday.TUESDAY, 60, 7),
        planned(Weekday.WEDNESDAY, 60, 5),
        planned(Weekday.THURSDAY, 90, 6),
        planned(Weekday.SATURDAY, 60, 5),
        replace(planned(Weekday.SATURDAY, 75, 4), starts_at=time(12), ends_at=time(13, 15)),
        planned(Weekday.SUNDAY, 60, 4),
    )
    assert week.days == (0, 420, 300, 540, 0, 600, 240)
    assert week.summary.load == 2100
    assert week.summary.monotony == pytest.approx(1.25, abs=1e-12)
    assert week.summary.strain == pytest.approx(2625, abs=1e-9)


def test_work_without_planned_effort_is_not_rest() -> None:
    week = mat_week(planned(Weekday.TUESDAY, 60, None), planned(Weekday.FRIDAY, 60, 5))
    assert week.days == (0, None, 0, 0, 300, 0, 0)
    assert week.summary.monotony is None
    assert "6 of 7 days are known" in week.summary.why_not


def test_mat_and_bar_meet_in_the_regions_they_load() -> None:
    week = group_week(DEMO, works_between(DEMO, MONDAY, SUNDAY), MONDAY, "Ground")
    by_region = dict(week.regions)
    # Bar 6 x 60, 6 x 45 and 5 x 35; live rounds 8 x 90; open mat 7 x 120.
    assert by_region[BodyRegion.GRIP] == (360, 270, 720, 0, 175, 840, 0)
    assert by_region[BodyRegion.NECK] == (0, 0, 720, 0, 0, 840, 0)


def test_a_session_of_the_diary_is_what_its_slot_plans() -> None:
    monday = works_between(DEMO, MONDAY, MONDAY)
    assert [(w.name, w.slot, w.load) for w in monday] == [
        ("Monday barbell", "mon-barbell", 360),
        ("Wrestling technique", "mon-wrestling", 360),
    ]


def test_lost_days_have_no_load_and_no_clash() -> None:
    lost = MONDAY + timedelta(days=28)
    works = works_between(DEMO, lost, lost + timedelta(days=5))
    assert {work.lost_to for work in works} == {"floor varnish"}
    assert {work.load for work in works} == {0.0}
    assert clashes(works, DEMO.clash_limits) == ()
    wednesday = works_between(DEMO, MONDAY + timedelta(days=16), MONDAY + timedelta(days=16))
    assert {work.lost_to for work in wednesday} == {"blood-donor day"}


def test_a_changed_date_leaves_the_other_dates_alone() -> None:
    change = SlotChange(
        "c", "tue-sparring", date(2026, 3, 3), date(2026, 3, 2), time(20, 45), time(21, 45)
    )
    club = replace(DEMO, slot_changes=(change,))
    days = [w.day for w in works_between(club, MONDAY, date(2026, 3, 10)) if w.slot == change.slot]
    assert days == [date(2026, 3, 2), date(2026, 3, 10)]
    off = replace(DEMO, slot_changes=(SlotChange("c", "sat-open", date(2026, 3, 7), is_off=True),))
    (open_mat,) = works_between(off, date(2026, 3, 7), date(2026, 3, 7))
    assert (open_mat.is_held, open_mat.load) == (False, 0.0)


def test_a_change_into_another_week_is_found_there() -> None:
    change = SlotChange("c", "sat-open", date(2026, 3, 7), date(2026, 3, 9))
    club = replace(DEMO, slot_changes=(change,))
    first = works_between(club, MONDAY, SUNDAY)
    second = works_between(club, date(2026, 3, 9), date(2026, 3, 15))
    assert sum(w.slot == "sat-open" for w in first) == 0
    assert sum(w.slot == "sat-open" for w in second) == 2


def test_who_is_away_is_not_in_the_session() -> None:
    away = Travel("t", "league", "A01", date(2026, 3, 3), date(2026, 3, 3))
    club = replace(DEMO, travel=(away,))
    works = {w.slot: w for w in works_between(club, MONDAY, SUNDAY)}
    assert "A01" not in works["tue-sparring"].athletes
    assert "A01" in works["thu-skills"].athletes


@pytest.mark.parametrize(
    ("zone", "day", "hours"),
    [
        # Europe puts the clock forward on 29 March 2026 and back on 25 October 2026; New York
        # forward on 8 March (IANA time zone database).
        ("Europe/Lisbon", date(2026, 3, 28), 10.0),
        ("Europe/Lisbon", date(2026, 10, 24), 12.0),
        ("America/New_York", date(2026, 3, 7), 10.0),
        ("America/New_York", date(2026, 3, 28), 11.0),
        ("", date(2026, 3, 28), 11.0),
    ],
)
def test_hours_between_are_hours_that_pass(zone: str, day: date, hours: float) -> None:
    """From Saturday 22:00 to Sunday 09:00 are 11 h on the clock, one less or more in that night."""
    late = WeekSlot("late", "Late", Weekday.SATURDAY, time(21), time(22), "bar")
    early = WeekSlot("early", "Early", Weekday.SUNDAY, time(9), time(10), "mat")
    works = works_between(club_of(late, early, zone=zone), day, day + timedelta(days=1))
    assert (works[1].starts - works[0].ends) / timedelta(hours=1) == hours


def test_a_clock_time_that_summer_time_leaves_out_still_gives_an_instant() -> None:
    """On 29 March 2026 Lisbon has no 01:30; with the offset before, that is 01:30 UTC."""
    slot = WeekSlot("night", "Night", Weekday.SUNDAY, time(1, 30), time(2, 30), "work")
    (work,) = works_between(
        club_of(slot, zone="Europe/Lisbon"), date(2026, 3, 29), date(2026, 3, 29)
    )
    assert work.starts == datetime(2026, 3, 29, 1, 30, tzinfo=UTC)
    assert work.minutes == 60


def test_every_slot_of_the_demo_week_says_what_it_plans() -> None:
    for slot in DEMO.week:
        assert slot.work is not Work.NOT_STATED
        assert slot.planned_effort is not None
        assert slot.regions
        assert slot.room in {room.id for room in DEMO.rooms}


@pytest.mark.parametrize(
    ("day", "start", "room", "is_its"),
    [
        (0, time(18), "weights", True),
        (0, time(18, 59), "weights", True),
        (0, time(17, 59), "weights", False),
        (0, time(19), "weights", False),
        (0, time(19, 30), "weights", False),
        (1, time(18), "weights", False),
        (0, time(18), "mats", False),
    ],
)
def test_a_session_is_what_a_slot_holds_where_it_starts_in_it(
    day: int, start: time, room: str, is_its: bool
) -> None:
    """On the slot's day, in its room, from its start and before its end."""
    slot = WeekSlot(
        "s", "Slot", Weekday.MONDAY, time(18), time(19), "bar", work=Work.BARBELL,
        planned_effort=6, room="weights",
    )  # fmt: skip
    session = replace(
        DEMO.sessions[0], held_on=MONDAY + timedelta(days=day), starts_at=start, room=room
    )
    club = replace(club_of(slot), sessions=(session,))
    works = works_between(club, MONDAY, SUNDAY)
    assert [bool(w.session and w.slot) for w in works] == ([True] if is_its else [False, False])
    anywhere = replace(club, week=(replace(slot, room=None),))
    if not is_its and room == "mats":
        assert len(works_between(anywhere, MONDAY, SUNDAY)) == 1
    for work, belongs in (
        (Work.NOT_STATED, is_its),
        (Work.CONDITIONING, is_its),
        (Work.LIVE, False),
    ):
        other = replace(club, week=(replace(slot, work=work),))
        assert (len(works_between(other, MONDAY, SUNDAY)) == 1) is belongs


@pytest.mark.parametrize(
    ("effort", "is_hard", "to_failure", "work", "is_heavy"),
    [
        (5, False, False, Work.BARBELL, True),
        (4, False, False, Work.BARBELL, False),
        (4, True, False, Work.BARBELL, True),
        (4, False, True, Work.PLYOMETRIC, True),
        (None, False, False, Work.BARBELL, False),
        (9, False, False, Work.LIVE, False),
    ],
)
def test_work_for_the_legs_is_heavy_from_effort_five_on_hard_or_to_failure(
    effort: int | None, is_hard: bool, to_failure: bool, work: Work, is_heavy: bool
) -> None:
    slot = replace(
        planned(Weekday.MONDAY, 60, effort), work=work, is_hard=is_hard, to_failure=to_failure,
        regions=(BodyRegion.LEGS,),
    )  # fmt: skip
    (found,) = works_between(club_of(slot), MONDAY, MONDAY)
    assert found.is_heavy_on_legs is is_heavy
    assert found.is_hard is (is_hard or (effort or 0) >= 7)
    (arms,) = works_between(club_of(replace(slot, regions=(BodyRegion.GRIP,))), MONDAY, MONDAY)
    assert not arms.is_heavy_on_legs


def test_a_planned_effort_of_one_date_takes_the_place_of_hard_and_of_failure() -> None:
    slot = replace(planned(Weekday.MONDAY, 60, 8), id="s", is_hard=True, to_failure=True)
    for effort, is_hard, to_failure in ((None, True, True), (6, False, False), (7, True, False)):
        change = SlotChange("c", "s", MONDAY, planned_effort=effort)
        club = replace(club_of(slot), slot_changes=(change,))
        (found,) = works_between(club, MONDAY, MONDAY)
        assert (found.effort, found.is_hard, found.to_failure) == (
            effort or 8,
            is_hard,
            to_failure,
        )


def test_work_counts_for_a_squad_it_is_for_or_of_which_somebody_comes() -> None:
    """A slot without squads is for everybody; of two squads the other does not count."""
    everybody = replace(planned(Weekday.MONDAY, 60, 5), squads=())
    cage = replace(planned(Weekday.TUESDAY, 60, 5), squads=("Cage",))
    club = club_of(everybody, cage)
    works = works_between(club, MONDAY, SUNDAY)
    mat = group_week(club, works, MONDAY, "Mat")
    assert mat.days[:2] == (300, 0)
    assert group_week(club, works, MONDAY, "Cage").days[:2] == (300, 300)
    alone = [replace(w, athletes=frozenset({"A01"})) for w in works]
    assert group_week(club, alone, MONDAY, "Mat").days[:2] == (0, 0)
