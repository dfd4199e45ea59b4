"""Findings about room, kit and time at their limits. The limits stand with their sources in the
rules.
"""

from dataclasses import replace
from datetime import date, time, timedelta

import pytest

from planning.audit.audit_view import PEOPLE, ada, does, said, view
from planning.verify.sound_plan import CLUB, COMPLEX, HALL, KIT, PLAN, SESSION, TODAY, planned
from squadwright.model.club import Weekday, WeekSlot
from squadwright.model.kit import CollarPairs
from squadwright.model.plan import BarPlan, BarUser, FloorPlan, PlatesOnSide, Severity, StationPlace
from squadwright.model.room import CeilingZone
from squadwright.model.routine import Rest
from squadwright.planning.audit.floor import (
    ceiling_over_station,
    floor_capacity,
    run_on_less_floor,
    throw_line,
)
from squadwright.planning.audit.place import (
    ceiling,
    collars,
    floor_area,
    hard_session_near,
    nothing_fits,
    slot_too_short,
)
from squadwright.planning.floor_plan import LaidOut, Low, NoRoom
from squadwright.planning.less_floor import LessFloor

EMPTY = FloorPlan("hall", "Hall")


def on(bar: str, *waves: int) -> BarPlan:
    users = tuple(BarUser("A1", wave, 0, 0, (PlatesOnSide(5, 1),)) for wave in waves)
    return BarPlan(bar, bar, 20, users, "A")


@pytest.mark.parametrize(
    ("area_m2", "bars", "words"),
    [
        # Two athletes of 9.29 m2 each.
        (18.58, (on("1", 1), on("2", 1)), ""),
        (18.57, (on("1", 1), on("2", 1)), "2 lift at once in Hall; 19 m2 is room for 1."),
        (18.57, (on("1", 1), on("2", 2)), ""),
        (18.57, (on("1", 1, 2), on("2", 2)), "2 lift at once in Hall; 19 m2 is room for 1."),
        (18.58, (on("1", 1, 2), on("2", 2), on("3", 2)),
         "3 lift at once in Hall; 19 m2 is room for 2."),
        (1, (), ""),
        (9.29, (on("1"),), ""),
    ],
)  # fmt: skip
def test_lifters_at_once_against_the_floor(
    area_m2: float, bars: tuple[BarPlan, ...], words: str
) -> None:
    room = replace(HALL, outline=((0, 0), (area_m2, 0), (area_m2, 1), (0, 1)))
    assert said(floor_area, room=room, bars=bars) == ([words] if words else [])


@pytest.mark.parametrize(("whole", "words"), [(2, ""), (1, "2 bars are loaded and 1 good pairs")])
def test_a_pair_of_collars_for_each_loaded_bar(whole: int, words: str) -> None:
    pairs = (CollarPairs("good", whole), CollarPairs("worn", 5, in_service=False))
    club = replace(CLUB, kit=replace(KIT, collars=pairs))
    bare = BarPlan("3", "3", 20, (BarUser("A1", 1, 20, 20, ()),), "A")
    found = list(collars(view(club=club, bars=(on("1", 1), on("2", 1, 2), bare))))
    assert [f.sentence[: len(words)] for f in found] == ([words] if words else [])
    assert [f.advice for f in found] == (["Borrow 1 more, or leave one bar bare."] if words else [])


OVERHEAD = does(planned("1", "strict-press", 3), planned("2", "squat", 3))
THROWN = does(planned("1", "forward-scoop-throw", 3))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        # A press wants 2.8 m.
        ({"ceiling_m": 2.8}, ""),
        ({"ceiling_m": 2.79}, "Strict press wants 2.8 m of clear height; the lowest part of Hall"),
        (
            {"ceiling_zones": (CeilingZone("Duct", 0, 0, 1, 1, 2.5),)},
            "Strict press wants 2.8 m of clear height; the lowest part of Hall has 2.5 m.",
        ),
    ],
)
def test_work_overhead_wants_a_clear_ceiling(changes: dict[str, object], words: str) -> None:
    room = replace(HALL, **changes)  # type: ignore[arg-type]
    found = said(ceiling, room=room, doses=OVERHEAD)
    assert [each[: len(words)] for each in found] == ([words] if words else [])
    # Neither overhead nor thrown: not asked here.
    assert said(ceiling, room=room, doses=does(planned("2", "squat", 3))) == []


def test_throws_want_it_too_and_the_one_that_wants_most_is_told() -> None:
    # The throw wants 3.4 m, the press 2.8 m.
    (found,) = ceiling(view(room=replace(HALL, ceiling_m=2.7), doses=(*OVERHEAD, *THROWN)))
    assert found.sentence.startswith("Forward scoop throw from between the knees wants 3.4 m")
    assert (found.value, found.limit) == (2.7, 3.4)
    high = replace(HALL, ceiling_m=3.4)
    assert said(ceiling, room=high, doses=THROWN) == []


def test_a_floor_that_is_laid_out_tells_it_by_station() -> None:
    low = replace(HALL, ceiling_m=1.0)
    stations = (StationPlace("bar 1", 1, 1, 3, 3),)
    laid = LaidOut(replace(EMPTY, stations=stations))
    trouble = NoRoom("A", "bar stations", 3, 2, "No.", "Do.")
    asked = {"room": low, "doses": OVERHEAD}
    assert said(ceiling, **asked, floor=laid) == []
    assert len(said(ceiling, **asked, floor=LaidOut(EMPTY))) == 1
    assert len(said(ceiling, **asked, floor=replace(laid, no_room=(trouble,)))) == 1


def slot(start: time, day: Weekday = Weekday.MONDAY, *, hard: bool = True) -> WeekSlot:
    return WeekSlot("w", "Mat", day, start, time(23, 59), "mat", is_hard=hard)


@pytest.mark.parametrize(
    ("work", "words"),
    [
        # The session is over at 19:00.
        (slot(time(19)), "Mat starts 0 h after this session."),
        (slot(time(18, 59)), ""),
        (slot(time(18, 59), Weekday.TUESDAY), "Mat starts 24 h after this session."),
        (slot(time(19), Weekday.TUESDAY), ""),
        (slot(time(19), hard=False), ""),
    ],
)
def test_hard_mat_work_within_a_day(work: WeekSlot, words: str) -> None:
    club = replace(CLUB, week=(work,))
    assert said(hard_session_near, club=club) == ([words] if words else [])


def test_what_nobody_can_use_is_told_for_each() -> None:
    missing = (("A1", "B1", "B"), ("A3", "B2", "B"))
    assert said(nothing_fits, missing=missing) == [
        "Ada Brink has no ball or box that fits for B1 of B and leaves it out.",
        "Cil Dorn has no ball or box that fits for B2 of B and leaves it out.",
    ]


def test_what_was_cut_is_told_with_the_kit_that_saves_a_minute() -> None:
    assert said(slot_too_short, cuts=("A round",)) == []
    assert said(slot_too_short, minutes_needed=70.0) == []
    kit = (("bars", 1, 59), ("boxes", 2, 60), ("balls", 1, 150))
    (found,) = slot_too_short(
        view(cuts=("A round", "The last drill"), minutes_needed=70.4, kit_that_saves_time=kit)
    )
    assert found.sentence == "It would take 70 minutes; to fit 60: A round, The last drill."
    assert found.advice == (
        "Find more minutes, or choose other cuts; boxes: 2 more would save 1 min; balls: 1 more "
        "would save 2 min."
    )


def guests(count: int) -> tuple[object, ...]:
    return tuple(
        replace(p, athlete=replace(p.athlete, guest_until=TODAY + timedelta(days=9)))
        if n < count
        else p
        for n, p in enumerate(PEOPLE)
    )


LONG_WORK = replace(COMPLEX, rest=Rest(seconds=0), changeover_s=0)


@pytest.mark.parametrize(
    ("bars", "waves", "guest_count", "rounds", "needed", "is_told"),
    [
        # Four lift on one bar in two waves and want four: two guests too many for two waves.
        (1, 2, 2, 3, 60.0, True),
        (1, 2, 1, 3, 60.0, False),
        (1, 2, 3, 3, 60.0, True),
        # No more lift than the waves written take.
        (2, 2, 2, 3, 60.0, False),
        # A guest does two rounds: of three one is left, of two none.
        (1, 2, 2, 2, 60.0, False),
        (1, 2, 2, 3, 600.0, False),
    ],
)
def test_guests_who_make_a_wave_more_may_share_a_place(
    bars: int, waves: int, guest_count: int, rounds: int, needed: float, is_told: bool
) -> None:
    block = replace(LONG_WORK, rounds=rounds, waves=waves)
    kit = replace(KIT, bars=tuple(replace(KIT.bars[0], id=f"b{n}") for n in range(bars)))
    (found,) = slot_too_short(
        view(
            club=replace(CLUB, kit=kit),
            people=guests(guest_count),
            routine=replace(view().routine, blocks=(block,)),
            bars=(on("b0", 1, 2, 3, 4),),
            cuts=("A round",),
            minutes_needed=needed,
        )
    )
    words = "; or change 2 of those who stay in A to 1 of 3 rounds: Ada Brink and Bo Calder then"
    assert (words in found.advice) == is_told
    assert ("those who stay" in found.advice) == is_told


def test_what_a_shared_place_saves_is_the_waves_it_spares() -> None:
    """A deadlift takes 3.2 s, a power clean 3.6 s, a press 2.8 s: 16 + 14.4 + 8.4 s of work."""
    block = replace(LONG_WORK, waves=2, changeover_s=21)
    kit = replace(KIT, bars=KIT.bars[:1])
    asked = {
        "club": replace(CLUB, kit=kit),
        "people": guests(2),
        "routine": replace(view().routine, blocks=(block,)),
        "bars": (on("bar-1", 1, 2, 3, 4),),
        "cuts": ("A round",),
    }
    # 39 s and 21 s to change: a turn of a minute. Two waves less are 2 min a round, 6 min in all.
    (fits,) = slot_too_short(view(**asked, minutes_needed=66.0))
    assert fits.advice.endswith("takes that place, and 2 min a round are saved.")
    (too_long,) = slot_too_short(view(**asked, minutes_needed=66.1))
    assert "those who stay" not in too_long.advice


def laid(**found: object) -> LaidOut:
    return LaidOut(EMPTY, **found)  # type: ignore[arg-type]


def test_without_a_floor_nothing_is_said_of_it() -> None:
    for rule in (floor_capacity, throw_line, ceiling_over_station):
        assert said(rule) == []
        assert said(rule, floor=laid()) == []


def test_places_that_do_not_fit_are_told_with_the_waves_they_need() -> None:
    bars = NoRoom("A", "bar stations", 3, 2, "No.", "Do.")
    found = list(
        floor_capacity(
            view(
                floor=laid(no_room=(bars, replace(bars, what="places", block="B"))),
                bars=(on("1", 1, 2), on("2", 1, 2, 3), replace(on("3", 1), block="D")),
            )
        )
    )
    assert [f.severity for f in found] == [Severity.STOP, Severity.WARNING]
    assert found[0].sentence == "3 bar stations of A do not fit into Hall: 2 do. No."
    # Five lifters of the block on two stations.
    assert found[0].advice.startswith("5 lifters on 2 stations need 3 waves; the most is")
    assert found[1].advice == "Do."
    whole = replace(on("1", 1, 2), block="")
    for trouble, lifting in ((replace(bars, fits=0), (whole,)), (bars, ())):
        (alone,) = floor_capacity(view(floor=laid(no_room=(trouble,)), bars=lifting))
        assert alone.advice == "Do."
    (serves_all,) = floor_capacity(view(floor=laid(no_room=(bars,)), bars=(whole,)))
    assert serves_all.advice.startswith("2 lifters on 2 stations need 1 waves")


def test_near_places_and_hidden_ones_are_told() -> None:
    assert said(floor_capacity, floor=laid(closer=True)) == [
        "Places are nearer than the usual gap: Hall is too small for it."
    ]
    assert said(floor_capacity, floor=laid(hidden=("bar 1", "bar 2"))) == [
        "The coach cannot see the whole of bar 1, bar 2 from one spot."
    ]


def test_more_waves_for_less_floor_are_told_with_the_time_they_take() -> None:
    less = LessFloor("A", "bars", 3, 2, "2 waves", "3 waves", 75)
    assert said(run_on_less_floor, less_floor=(less, replace(less, longer_s=0))) == [
        "Hall takes 2 bars of A, not 3: 3 waves instead of 2 waves; a round takes 1:15 longer.",
        "Hall takes 2 bars of A, not 3: 3 waves instead of 2 waves.",
    ]


def test_a_throw_across_a_place_and_one_without_a_wall_are_refused() -> None:
    stations = (
        StationPlace("throw", 0, 0, 2, 2, kind="throw"),
        StationPlace("lane", 1, 1, 4, 2, kind="lane"),
    )
    crossed = list(throw_line(view(floor=LaidOut(replace(EMPTY, stations=stations)))))
    assert [(f.sentence, f.value) for f in crossed] == [("throw crosses lane.", 1.0)]
    (wall,) = said(throw_line, floor=laid(no_wall=("B",)))
    assert wall.startswith("B throws at a wall; Hall has none safe for throws")


def test_stations_under_one_low_ceiling_are_told_together() -> None:
    low = Low("bar 1", "under the duct", 2.4, 2.8, "Strict press")
    others = (replace(low, station="bar 2"), replace(low, station="bar 3", ceiling_m=2.3))
    assert said(ceiling_over_station, floor=laid(low=(low, *others))) == [
        "Strict press wants 2.8 m of clear height; under the duct there are 2.4 m over bar 1, "
        "bar 2.",
        "Strict press wants 2.8 m of clear height; under the duct there are 2.3 m over bar 3.",
    ]


def test_the_day_of_these_tests_is_a_monday() -> None:
    assert (TODAY, SESSION.starts_at, TODAY.weekday()) == (date(2026, 3, 2), time(18), 0)
    assert PLAN.doses[0].block == "A"
    assert ada()[0].shown_name == "Ada Brink"
