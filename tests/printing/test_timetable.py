"""The run sheet as rows: nothing lost in time, few enough to read."""

from dataclasses import replace

import pytest

from printing.printed import PLANS
from printing.sample_lanes import tide_lanes
from printing.sample_plan import ropewalk
from squadwright.model.plan import Plan, RunLine
from squadwright.printing.run_words import minutes_seconds, run_together
from squadwright.printing.timetable import timetable
from squadwright.printing.wording import with_wave_letters


def with_lines(*lines: RunLine) -> Plan:
    return replace(ropewalk(), run_sheet=lines)


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [(0, "0:00"), (100, "1:40"), (3725, "62:05"), (-600, "-10:00"), (-90, "-1:30")],
)
def test_seconds_read_as_minutes_and_seconds(seconds: int, shown: str) -> None:
    assert minutes_seconds(seconds) == shown


def test_numbered_groups_run_together() -> None:
    assert run_together(["lane 1", "lane 2", "lane 3", "lane 5"]) == "lane 1\N{EN DASH}3, lane 5"
    assert run_together(["pair 10", "pair 9", "pair 2"]) == "pair 2, pair 9\N{EN DASH}10"
    assert run_together(["everyone"]) == "everyone"


def test_waves_are_named_by_letter() -> None:
    assert with_wave_letters("Wave 2 waits for wave 1") == "Wave B waits for wave A"
    assert with_wave_letters("a wave of 12") == "a wave of 12"


def test_twelve_lifters_in_two_waves_make_one_row_a_turn() -> None:
    rows = timetable(ropewalk())
    work = [row for row in rows if row.what == "work"]
    assert [(row.number, row.who) for row in work] == [
        (str(number), f"wave {wave}") for number in range(1, 5) for wave in "AB"
    ]
    assert {row.where for row in work} == {"bars 1\N{EN DASH}6", "bars 1, 2, 3, 4, 6"} | {
        "bars 1, 3, 4, 5, 6"
    }


@pytest.mark.parametrize("name", PLANS)
@pytest.mark.parametrize("longest", [None, 40, 26, 1])
def test_no_grain_loses_the_first_or_last_second(name: str, longest: int | None) -> None:
    plan = PLANS[name]
    rows = timetable(plan, longest=longest)
    assert rows[0].start == minutes_seconds(min(line.start_s for line in plan.run_sheet))
    assert rows[-1].end == minutes_seconds(max(line.end_s for line in plan.run_sheet))
    assert len(rows) <= len(timetable(plan))


def test_drills_are_shown_whole_when_their_sets_are_too_many() -> None:
    by_drill = timetable(tide_lanes(), longest=26)
    hops = [row for row in by_drill if row.what.startswith("Ankle hops")]
    # two sets of three 20 s turns; the last pair's second set ends one turn sooner
    assert [(row.start, row.end, row.who, row.number) for row in hops] == [
        ("17:00", "18:40", "lane 4", "1\N{EN DASH}2"),
        ("17:00", "19:00", "lane 1\N{EN DASH}3", "1\N{EN DASH}2"),
    ]


def test_repeats_at_one_beat_fold_into_one_row() -> None:
    rounds = [RunLine(120 * n, 120 * n + 90, "all", "bars", None, "work", n + 1) for n in range(4)]
    (row,) = timetable(with_lines(*rounds), longest=1)
    assert (row.times, row.every, row.number) == (4, "2:00", "1\N{EN DASH}4")


def test_repeats_out_of_step_are_not_folded() -> None:
    starts = (0, 120, 300)
    rounds = [RunLine(s, s + 90, "all", "bars", None, "work", n) for n, s in enumerate(starts, 1)]
    assert [row.times for row in timetable(with_lines(*rounds), longest=1)] == [1, 1, 1]
