"""The plan as text: complete, and never wider than the terminal."""

import re
from dataclasses import replace

import pytest
from rich.cells import cell_len

from printing.sample_crowd import crowd
from printing.sample_lanes import tide_lanes
from printing.sample_plan import CAUTIONS, ropewalk
from squadwright.errors import InvalidInput
from squadwright.model.plan import Plan
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.text_view import LEAST_WIDTH, plan_text

PLANS = {
    "barbell": ropewalk(),
    "jumps": tide_lanes(),
    "forty": crowd(40),
    "six": crowd(6, long_names=False),
}


@pytest.fixture(params=PLANS.values(), ids=PLANS.keys())
def plan(request: pytest.FixtureRequest) -> Plan:
    return request.param


@pytest.mark.parametrize("width", [LEAST_WIDTH, 80, 120])
@pytest.mark.parametrize("unit", list(PrintedUnit))
def test_no_line_is_wider_than_the_terminal(plan: Plan, width: int, unit: PrintedUnit) -> None:
    lines = plan_text(plan, width=width, colour=False, unit=unit).splitlines()
    assert max(cell_len(line) for line in lines) <= width


@pytest.mark.parametrize("width", [80, 120])
def test_no_line_ends_in_blanks(plan: Plan, width: int) -> None:
    lines = plan_text(plan, width=width, colour=False).splitlines()
    assert [line for line in lines if line != line.rstrip()] == []


@pytest.mark.parametrize("width", [80, 120])
def test_every_athlete_stands_with_his_load_and_reason(plan: Plan, width: int) -> None:
    text = " ".join(plan_text(plan, width=width, colour=False).split())
    for dose in plan.doses:
        assert plan.shown_name(dose.athlete) in text
        assert dose.reason in text
        if dose.load_kg is not None:
            assert f"{dose.load_kg:g} kg" in text


def test_swaps_limits_findings_and_cautions_are_told() -> None:
    text = " ".join(plan_text(ropewalk(), width=80, colour=False).split())
    assert "Step 6: Front-rack march instead of Split-stance strict press" in text
    assert "Split-stance strict press, round 4:" in text
    assert "STOP Lobsang Tsewangpa is in return stage 2" in text
    for caution in CAUTIONS:
        assert caution in text


def test_the_run_sheet_is_told_in_minutes_and_seconds() -> None:
    text = plan_text(ropewalk(), width=120, colour=False)
    assert re.search(r"17:50\s+-10:00\s+0:00\s+coach\s+set-up", text)
    assert re.search(r"18:26\s+26:00\s+27:40\s+1\s+wave A\s+work, bars 1\N{EN DASH}6", text)
    assert re.search(r"18:12\s+12:00\s+26:00\s+Parwana Sohrabin\s+warm-up", text)
    # 26 minutes and four cycles of 240 s: the last change-over ends at 42:00
    assert re.search(r"18:41\s+41:40\s+42:00\s+4\s+everyone\s+change-over, wave B to wave A", text)


def test_turns_of_a_drill_are_taken_together() -> None:
    text = plan_text(tide_lanes(), width=120, colour=False)
    # three turns of 20 s in lanes of three, two in the lane of two
    assert re.search(r"17:00\s+18:00\s+1\s+lane 1\N{EN DASH}3\s+Ankle hops, low", text)
    assert re.search(r"17:00\s+17:40\s+1\s+lane 4\s+Ankle hops, low", text)


def test_plain_text_has_no_control_characters(plan: Plan) -> None:
    assert "\x1b" not in plan_text(plan, width=80, colour=False)


def test_colour_adds_only_colour(plan: Plan) -> None:
    coloured = plan_text(plan, width=80, colour=True)
    assert "\x1b[" in coloured
    without = re.sub(r"\x1b\[[0-9;]*m", "", coloured)
    stripped = "\n".join(line.rstrip() for line in without.splitlines()).strip("\n") + "\n"
    assert stripped == plan_text(plan, width=80, colour=False)


def test_waves_are_told_by_letter_and_shape() -> None:
    text = plan_text(ropewalk(), width=80, colour=False)
    assert "● A" in text
    assert "■ B" in text


def test_too_few_columns_are_refused_with_the_least() -> None:
    with pytest.raises(InvalidInput, match=r"40 columns.*least is 60"):
        plan_text(ropewalk(), width=40, colour=False)


def test_a_reason_that_names_the_limiting_exercise_and_round_is_not_told_twice() -> None:
    plan = ropewalk()
    named = "Split-stance strict press gives out first, in round 4"
    doses = tuple(replace(dose, reason=named) for dose in plan.doses)
    text = " ".join(plan_text(replace(plan, doses=doses), width=120, colour=False).split())
    assert "Split-stance strict press, round 4:" not in text
    # the tapering athlete ends in round 2, so his is told
    assert "Split-stance strict press, round 2: Split-stance" in text
