"""Small sheets written out by hand to the second: complexes, circuits, late arrivals."""

from dataclasses import replace

import pytest

from planning.test_drills_by_hand import drills
from squadwright.planning.run_sheet import (
    BarUser,
    BlockTiming,
    CircuitBlock,
    CircuitStation,
    ComplexBlock,
    Drill,
    FixedPart,
    LateArrival,
    PartKind,
    RestOwed,
    RunSheetProblem,
    TimedExercise,
    WorkGroup,
    lay_out,
)
from squadwright.planning.run_sheet.circuit_timing import time_circuit
from squadwright.planning.run_sheet.complex_timing import rest_s, time_complex
from squadwright.planning.run_sheet.late_arrival import first_round, own_track, ready_s

LIFTS = (TimedExercise("hinge", 40), TimedExercise("press", 20))
ANN, BO = BarUser("ann", "g", "bar 1", 1), BarUser("bo", "g", "bar 1", 2, rounds=2)
CY = BarUser("cy", "g", "bar 1", 2, first_round=3)
COMPLEX = ComplexBlock("A", LIFTS, (ANN, BO, CY), 3, change_s=20)

Row = tuple[int, int, str, str]


def rows(timing: BlockTiming, *, of: str = "") -> list[Row]:
    """Start, end, activity and who, of one athlete or of all."""
    return [
        (e.start_s, e.end_s, e.activity, ",".join(e.athletes) or e.group)
        for e in timing.entries
        if not of or of in e.athletes
    ]


def test_a_complex_of_two_waves_and_one_who_takes_a_place_later() -> None:
    """A turn takes 60 + 20 s, a round 160 s; it begins at 1000 s."""
    timing = time_complex(COMPLEX, 1000, {})
    assert rows(timing, of="ann") == [
        (1000, 1060, "work", "ann"),
        (1160, 1220, "work", "ann"),
        (1320, 1380, "work", "ann"),
    ]
    assert rows(timing, of="bo") == [
        (1080, 1140, "work", "bo"),
        (1240, 1300, "work", "bo"),
        (1300, 1480, "help and watch", "bo"),
    ]
    assert rows(timing, of="cy") == [
        (1000, 1400, "help and watch", "cy"),
        (1400, 1460, "work", "cy"),
    ]
    changes = [(e.start_s, e.end_s, e.role) for e in timing.entries if e.activity == "change-over"]
    assert changes == [
        (1060, 1080, "wave 1 to wave 2"),
        (1140, 1160, "wave 2 to wave 1"),
        (1220, 1240, "wave 1 to wave 2"),
        (1300, 1320, "wave 2 to wave 1"),
        (1380, 1400, "wave 1 to wave 2"),
        (1460, 1480, "wave 2 to wave 1"),
    ]
    assert (timing.duration_s, timing.lower_bound_s, timing.boundaries_s) == (
        *(480, 480),
        (1000, 1160, 1320),
    )
    assert [(s.exercise, s.start_s, s.end_s) for s in timing.steps] == [
        ("hinge", 0, 40),
        ("press", 40, 60),
    ]
    assert timing.rests == (RestOwed("A", "wave 1", 100), RestOwed("A", "wave 2", 100))
    assert [e.round for e in timing.entries if e.athletes == ("ann",)] == [1, 2, 3]


def test_the_least_rest_makes_a_round_longer() -> None:
    """60 s of work and 200 s of rest: 260 s; the last round is two turns."""
    timing = time_complex(replace(COMPLEX, minimum_rest_s=200), 0, {})
    assert (timing.duration_s, timing.boundaries_s) == (2 * 260 + 160, (0, 260, 520))
    # Nobody can be quicker: three turns and two rests behind a turn of the other wave.
    assert timing.lower_bound_s == 680
    assert rest_s(replace(COMPLEX, minimum_rest_s=200)) == 200
    assert rest_s(replace(COMPLEX, minimum_rest_s=100)) == 100
    assert rest_s(replace(COMPLEX, minimum_rest_s=101)) == 101


def test_the_bound_counts_the_waves_of_the_busiest_bar() -> None:
    """Waves 1 and 3 on bars of their own: a turn of 80 s a round would do, or the least rest."""
    users = (ANN, BarUser("bo", "g", "bar 2", 3))
    timing = time_complex(replace(COMPLEX, users=users), 0, {})
    assert (timing.duration_s, timing.lower_bound_s) == (3 * 240, 3 * 80)


def test_one_round_owes_no_rest_and_one_wave_changes_with_nobody() -> None:
    timing = time_complex(replace(COMPLEX, users=(ANN,), rounds=1), 0, {})
    assert timing.rests == ()
    assert [e.role for e in timing.entries if e.activity == "change-over"] == [""]
    quick = time_complex(replace(COMPLEX, users=(ANN,), rounds=1, change_s=0), 0, {})
    assert rows(quick) == [(0, 60, "work", "ann")]


def test_who_comes_late_joins_in_his_round_and_who_misses_all_is_not_on_it() -> None:
    timing = time_complex(COMPLEX, 1000, {"ann": 2, "bo": None, "cy": 2})
    assert [row[0] for row in rows(timing, of="ann")] == [1160, 1320]
    assert rows(timing, of="bo") == []
    # Cy's place is free in round 3; ready before, nobody waits in her name.
    assert rows(timing, of="cy") == [(1400, 1460, "work", "cy")]
    none_left = time_complex(replace(COMPLEX, users=(replace(ANN, rounds=0),)), 1000, {"ann": 2})
    assert rows(none_left, of="ann") == [(1080, 1240, "help and watch", "ann")]


def test_a_circuit_of_two_stations_for_three_groups() -> None:
    """A turn takes 30 + 10 s; three groups make three turns, and one group rests in each."""
    stations = (CircuitStation("box", "jump", kit=("box",)), CircuitStation("mat", "plank"))
    groups = tuple(WorkGroup(name, (name,)) for name in "abc")
    block = CircuitBlock("B", stations, groups, 30, 10, rounds=2, round_rest_s=60)
    timing = time_circuit(block, 500, {"b": 2})
    assert (timing.duration_s, timing.lower_bound_s) == (2 * 120 + 60, 300)
    assert timing.boundaries_s == (500, 680)
    assert rows(timing, of="a") == [
        (500, 530, "work", "a"),
        (530, 540, "move on", "a"),
        (540, 570, "work", "a"),
        (570, 580, "move on", "a"),
        (580, 610, "rest", "a"),
        (610, 620, "move on", "a"),
        (680, 710, "work", "a"),
        (710, 720, "move on", "a"),
        (720, 750, "work", "a"),
        (750, 760, "move on", "a"),
        (760, 790, "rest", "a"),
        (790, 800, "move on", "a"),
    ]
    assert rows(timing, of="b")[0] == (680, 710, "work", "b")
    assert [e.station for e in timing.entries if e.athletes == ("c",)][::2] == [
        "",
        "box",
        "mat",
    ] * 2
    assert timing.rests == (
        RestOwed("B", "between stations", 10),
        RestOwed("B", "between rounds", 70),
        RestOwed("B", "waiting once a round", 50),
    )


def test_groups_that_share_a_station_have_a_set_of_kit_each() -> None:
    stations = (CircuitStation("box", "jump", 4, ("box",)), CircuitStation("mat", "plank", 5))
    groups = tuple(WorkGroup(f"g{n}", (f"a{n}", f"b{n}")) for n in range(4))
    block = CircuitBlock("B", stations, groups, 30, 0, rounds=1)
    timing = time_circuit(block, 0, {})
    assert timing.duration_s == 60
    at_box = {e.group: (e.start_s, e.kit) for e in timing.entries if e.station == "box"}
    assert at_box == {
        "g0": (0, ("box (1)",)),
        "g1": (0, ("box (2)",)),
        "g2": (30, ("box (1)",)),
        "g3": (30, ("box (2)",)),
    }
    assert timing.rests == (RestOwed("B", "between stations", 0),)


BEFORE = (
    FixedPart(PartKind.SET_UP, 600),
    FixedPart(PartKind.ARRIVE, 100),
    FixedPart(PartKind.WARM_UP, 500),
    FixedPart(PartKind.REHEARSAL, 200),
)
W, R = PartKind.WARM_UP, PartKind.REHEARSAL


@pytest.mark.parametrize(
    ("late", "track", "ready"),
    [
        # The squad rehearses from 600 to 800 s.
        (LateArrival("ann", 120), [(120, 600, W), (600, 800, R)], 800),
        (LateArrival("ann", 121), [(121, 601, W), (601, 801, R)], 801),
        (LateArrival("ann", 121, rehearsal_s=50), [(121, 601, W), (601, 651, R)], 651),
        (LateArrival("ann", 121, rehearsal_s=0), [(121, 601, W)], 601),
        (LateArrival("ann", 0, warm_up_s=0, rehearsal_s=0), [(600, 800, R)], 800),
    ],
)
def test_who_comes_late_warms_up_alone_and_rehearses_with_the_squad_if_he_can(
    late: LateArrival, track: list[tuple[int, int, PartKind]], ready: int
) -> None:
    assert list(own_track(late, BEFORE)) == track
    assert ready_s(late, BEFORE) == ready


def test_without_a_rehearsal_he_is_ready_when_he_is_warm() -> None:
    assert own_track(LateArrival("ann", 120), BEFORE[:3]) == ((120, 600, W),)
    assert ready_s(LateArrival("ann", 7, warm_up_s=0), ()) == 7


@pytest.mark.parametrize(("ready", "number"), [(0, 1), (100, 1), (101, 2), (300, 3), (301, None)])
def test_he_joins_in_the_first_round_that_begins_once_he_is_ready(
    ready: int, number: int | None
) -> None:
    assert first_round(ready, (100, 200, 300)) == number


DRILLS = drills(Drill("d", 2, 20, rest_s=10))
AFTER = (FixedPart(PartKind.SPARE, 100), FixedPart(PartKind.PACK, 60))


def sheet(slot_s: int, *late: LateArrival) -> RunSheetProblem:
    """800 s before the work, 480 s of a complex, 30 s, 50 s of drills, 60 s after it: 1420 s."""
    return RunSheetProblem(slot_s, BEFORE, (COMPLEX, DRILLS), AFTER, late, block_gap_s=30)


@pytest.mark.parametrize(
    ("slot_s", "spare_s", "spare_line", "note"),
    [
        (1600, 180, (1360, 1460), ()),
        (1520, 100, (1360, 1460), ()),
        (1519, 99, (1360, 1459), ("Spare time shrinks from 1:40 to 1:39.",)),
        (1420, 0, None, ("Spare time shrinks from 1:40 to 0:00.",)),
        (1419, -1, None, ()),
    ],
)
def test_the_slot_is_filled_and_spare_time_gives_way_first(
    slot_s: int, spare_s: int, spare_line: tuple[int, int] | None, note: tuple[str, ...]
) -> None:
    laid = lay_out(sheet(slot_s))
    assert (laid.makespan_s, laid.lower_bound_s, laid.spare_s) == (1420, 1420, spare_s)
    spare = [(e.start_s, e.end_s) for e in laid.entries if e.activity == "spare"]
    assert spare == ([] if spare_line is None else [spare_line])
    (packing,) = [e for e in laid.entries if e.activity == "pack away"]
    assert packing.start_s == (spare_line[1] if spare_line else 1360)
    assert [t.start_s for t in laid.blocks] == [800, 1310]
    assert laid.notes == note
    assert laid.entries[0].start_s == -600
    assert laid.entries[0].end_s == 0


def test_a_sheet_that_could_be_shorter_says_by_how_much() -> None:
    apart = replace(COMPLEX, users=(ANN, BarUser("bo", "g", "bar 2", 3)))
    laid = lay_out(replace(sheet(3600), blocks=(apart,)))
    assert (laid.makespan_s, laid.lower_bound_s) == (800 + 720 + 60, 800 + 240 + 60)
    assert not laid.is_proven


@pytest.mark.parametrize(
    ("late", "joins", "note"),
    [
        # Rounds begin at 800, 960 and 1120 s; Ann is ready after 480 s of warm-up and 200 s.
        (LateArrival("ann", 280), (2, 2), "is ready at 16:00 and joins A in round 2: 2 rounds are"),
        (LateArrival("ann", 281), (3, 1), "is ready at 16:01 and joins A in round 3: 1 rounds are"),
        (LateArrival("bo", 280), (2, 2), "is ready at 16:00 and joins A in round 2: 2 rounds are"),
        (LateArrival("bo", 100), (1, 2), "is ready at 13:20 and joins A in round 1: 2 rounds are"),
        (LateArrival("ann", 441), (None, 0), "is ready at 18:41, after the last round of A has"),
    ],
)
def test_where_a_late_one_joins_a_complex(
    late: LateArrival, joins: tuple[int | None, int], note: str
) -> None:
    laid = lay_out(sheet(3600, late))
    assert [(j.first_round, j.rounds) for j in laid.joins] == [joins]
    assert laid.notes[0].startswith(f"{late.athlete} {note}")


def test_a_late_one_prepares_alone_or_helps_where_nothing_is_left_to_join() -> None:
    joins = lay_out(sheet(3600, LateArrival("ann", 281)))
    own = [(e.start_s, e.end_s, e.activity) for e in joins.entries if e.station == "own corner"]
    assert own == [(281, 761, "warm-up"), (761, 961, "rehearsal")]
    alone = replace(sheet(3600, LateArrival("ann", 500)), blocks=(COMPLEX,))
    (helps,) = [e for e in lay_out(alone).entries if e.group == "late"]
    # Work ends at 1280 s.
    assert (helps.start_s, helps.end_s, helps.activity) == (500, 1280, "help and watch")
    for arrives_s, lines in ((1279, 1), (1280, 0)):
        asked = replace(alone, late=(LateArrival("ann", arrives_s),))
        assert sum(e.group == "late" for e in lay_out(asked).entries) == lines
    stranger = replace(alone, late=(LateArrival("zoe", 500),))
    assert not [e for e in lay_out(stranger).entries if "zoe" in e.athletes]
