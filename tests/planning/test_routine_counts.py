"""What is said of contacts, throws, levels and the two halves in a routine, counted by hand."""

from dataclasses import replace

import pytest

from squadwright.library import exercise
from squadwright.model.plan import Severity
from squadwright.model.routine import Block, CountedIn, LaneRule, Routine, Scheme, Step, Style
from squadwright.planning.routine_check.dose import (
    contacts_and_throws,
    exercises_above_the_level,
    level_of,
    region_balance,
)
from squadwright.planning.routine_check.finding import RoutineFinding
from squadwright.planning.routine_check.usual import usual_lane, usual_scheme

BANDS = {"novice": (80, 100), "intermediate": (100, 120), "advanced": (120, 140)}
"""Those of the NSCA handbook, from memory, as the finding says."""


def step(name: str, count: int, sets: int = 1, label: str = "") -> Step:
    return Step(name, Scheme(CountedIn.REPETITIONS, count, sets), label)


def routine(*steps: Step, rounds: int = 1, level: str = "novice") -> Routine:
    block = Block("M", Style.SETS, steps, rounds=rounds)
    return Routine("r", 1, "R", "aim", (block,), level=level)


def counted(asked: Routine) -> RoutineFinding:
    (found,) = contacts_and_throws(asked)
    return found


@pytest.mark.parametrize("level", BANDS)
def test_contacts_lie_below_within_or_above_the_band_of_the_level(level: str) -> None:
    low, high = BANDS[level]
    for contacts, place in (
        (low - 1, "below"),
        (low, "within"),
        (high, "within"),
        (high + 1, "above"),
    ):
        found = counted(routine(step("squat-jump", contacts), level=level))
        assert found.sentence == (
            f"{contacts} contacts for each athlete, {place} the band of {low} to {high} for the "
            f"level {level}."
        )
        is_over = place == "above"
        assert found.severity is (Severity.WARNING if is_over else Severity.NOTE)
        assert found.advice == ("Take sets off the highest jump first." if is_over else "")
        assert "Novice: 80 to 100 contacts a session." in found.why
        assert "NSCA" in found.why[-1]


def test_throws_alone_have_no_band() -> None:
    found = counted(routine(step("overhead-slam", 5, 2), rounds=3))
    assert found.sentence == "30 throws for each athlete."
    assert found.why[-1] == "No band for throws is published."
    assert not any("contacts a session" in line for line in found.why)


def test_neither_contact_nor_throw_is_not_told() -> None:
    assert list(contacts_and_throws(routine(step("push-up", 5), step("clap-push-up", 5)))) == []


def test_each_step_is_told_with_what_it_has() -> None:
    found = counted(
        routine(
            step("squat-jump", 5, 2, "A1"),
            step("squat-jump-and-overhead-throw", 1, label="A2"),
            step("overhead-slam", 4),
            step("clap-push-up", 1),
            step("throw-fall-and-catch", 3, label="A5"),
            step("push-up", 9, label="A6"),
            rounds=2,
        )
    )
    names = {n: exercise(n).name for n in ("overhead-slam", "clap-push-up", "throw-fall-and-catch")}
    assert found.sentence.startswith("22 contacts and 16 throws for each athlete")
    assert found.why[:5] == (
        "A1 Squat jump: 20 contacts.",
        "A2 Squat jump with the ball thrown straight up: 2 contacts, 2 throws.",
        f"{names['overhead-slam']}: 8 throws.",
        f"{names['clap-push-up']}: 2 landings of the hands.",
        f"A5 {names['throw-fall-and-catch']}: 6 throws, 6 landings of the hands.",
    )
    assert not any("A6" in line for line in found.why)
    alone = counted(routine(step("squat-jump", 1), step("clap-push-up", 1)))
    assert f"{names['clap-push-up']}: 1 landing of the hands." in alone.why


def test_a_row_counts_its_boxes() -> None:
    passes = Step("row-hop-over", Scheme(CountedIn.PASSES_ONE_WAY, 2, 3))
    block = Block("L", Style.LANES, (passes,), lane=LaneRule(boxes=4))
    asked = replace(routine(step("push-up", 1)), blocks=(block,))
    assert counted(asked).sentence.startswith("24 contacts for each athlete")


def test_a_routine_without_a_known_level_is_for_novices() -> None:
    assert level_of(routine(step("push-up", 1), level="elite")).value == "novice"
    assert level_of(routine(step("push-up", 1), level="advanced")).value == "advanced"


def test_an_exercise_of_a_higher_level_is_told_once_with_easier_ones() -> None:
    depth = exercise("depth-jump")
    twice = routine(step("depth-jump", 3), step("push-up", 3), step("depth-jump", 2))
    (found,) = exercises_above_the_level(twice)
    assert found.sentence == (
        f"{depth.name} is kept for the level {depth.least_level}, and the routine is for the level "
        "novice."
    )
    assert found.advice == f"Easier: {', '.join(exercise(e).name for e in depth.easier)}."
    for level in ("advanced", depth.least_level):
        assert list(exercises_above_the_level(replace(twice, level=level))) == []


@pytest.mark.parametrize(
    ("lower", "upper", "whole", "share", "short"),
    [
        # Whole-body work counts half to each.
        (1, 3, 0, 25, ""),
        (3, 1, 0, 75, ""),
        (24, 76, 0, 24, "lower"),
        (76, 24, 0, 76, "upper"),
        (0, 1, 1, 25, ""),
        (0, 51, 49, 24, "lower"),
    ],
)
def test_each_half_has_a_quarter_of_the_repetitions(
    lower: int, upper: int, whole: int, share: int, short: str
) -> None:
    amounts = (("squat", lower), ("push-up", upper), ("hands-and-feet-crawl", whole))
    steps = tuple(step(name, count) for name, count in amounts if count)
    (found,) = region_balance(routine(*steps, rounds=2))
    count = {"lower": bool(lower), "upper": bool(upper), "whole": bool(whole)}
    assert found.sentence == (
        f"Exercises by half of the body: {count['lower']:d} lower, {count['upper']:d} upper, "
        f"{count['whole']:d} whole. {share}% of the repetitions are lower body."
    )
    assert found.advice == (f"Put in one exercise for the {short} body." if short else "")
    words = "repetition" if 2 * lower == 1 else "repetitions"
    assert found.why[0] == f"Lower: {2 * lower} {words}."


def test_whole_body_work_alone_has_no_share() -> None:
    (found,) = region_balance(routine(step("hands-and-feet-crawl", 5)))
    assert found.sentence == "Exercises by half of the body: 0 lower, 0 upper, 1 whole."
    assert found.advice == ""


REPS, EACH, SECONDS = (
    CountedIn.REPETITIONS,
    CountedIn.REPETITIONS_EACH_SIDE,
    CountedIn.SECONDS,
)


@pytest.mark.parametrize(
    ("style", "name", "scheme"),
    [
        # Our usual amounts (common practice, no source).
        (Style.SETS, "squat", Scheme(REPS, 5, 3)),
        (Style.SETS, "reverse-lunge", Scheme(EACH, 4, 3)),
        (Style.SETS, "wall-sit", Scheme(SECONDS, 30, 3)),
        (Style.SETS, "seated-breathing-drill", Scheme(SECONDS, 120, 1)),
        (Style.SETS, "row-hop-over", Scheme(CountedIn.PASSES_DOWN_AND_BACK, 1, 3)),
        (Style.COMPLEX, "deadlift", Scheme(REPS, 4, 1)),
        (Style.COMPLEX, "hang-split-clean", Scheme(EACH, 3, 1)),
        (Style.CIRCUIT, "squat", Scheme(SECONDS, 30, 1)),
        (Style.CIRCUIT, "reverse-lunge", Scheme(SECONDS, 30, 1)),
        (Style.CIRCUIT, "wall-sit", Scheme(SECONDS, 30, 1)),
        (Style.LANES, "broad-jump-and-stick", Scheme(REPS, 5, 3)),
    ],
)
def test_the_usual_amount_goes_by_the_style_of_the_block(
    style: Style, name: str, scheme: Scheme
) -> None:
    assert usual_scheme(style, exercise(name)) == scheme


def test_a_repetition_of_ten_seconds_is_too_slow_for_the_clock_of_a_circuit() -> None:
    squat = exercise("squat")
    for seconds, counted_in in ((9.9, SECONDS), (10.0, REPS)):
        slow = replace(squat, seconds_per_repetition=seconds)
        assert usual_scheme(Style.CIRCUIT, slow).counted_in is counted_in


def test_a_line_goes_along_a_row_where_one_of_its_exercises_does() -> None:
    jump, row = exercise("squat-jump"), exercise("row-hop-over")
    assert [usual_lane(each).boxes for each in ((), (jump,), (jump, row))] == [0, 0, 4]
