"""Bar flow: breaks are found where they are, and every fix mends."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.complexes import personal_steps, repaired
from squadwright.errors import NoSolution
from squadwright.library import exercise, exercises, routine
from squadwright.model.exercise import BarPosition, Exercise, Modality
from squadwright.model.routine import CountedIn, Scheme, Step
from squadwright.model.session import Swap
from squadwright.planning.bar_flow import (
    ends_at,
    flow_breaks,
    starts_at,
)
from squadwright.planning.bar_flow.fix import FixKind, FlowProblem, flow_fixes
from squadwright.planning.bar_flow.transition import TRANSITIONS, flows, way

FIVE = Scheme(CountedIn.REPETITIONS, 5)
ROPEWALK = routine("ropewalk").blocks[0].steps


def steps_of(*ids: str) -> tuple[Step, ...]:
    return tuple(Step(i, FIVE, label=str(n)) for n, i in enumerate(ids, start=1))


def problem(*ids: str, keeps_order: bool = False) -> FlowProblem:
    return FlowProblem(steps_of(*ids), exercises(), keeps_order=keeps_order)


def test_ropewalk_flows_all_the_way_round() -> None:
    assert flow_breaks(ROPEWALK, exercise) == ()


def test_ropewalk_without_its_last_word_breaks_at_the_turn_of_the_round() -> None:
    steps = (*ROPEWALK[:-1], Step("split-stance-strict-press", FIVE, label="6"))
    (broken,) = flow_breaks(steps, exercise)
    assert (broken.index, broken.wraps) == (5, True)
    assert broken.sentence == (
        "At the turn of the round: 6 Split-stance strict press leaves the bar at the front rack, "
        "and 1 Snatch-grip Romanian deadlift takes it at the hang."
    )


def test_a_press_after_a_row_breaks_between_the_two() -> None:
    found = flow_breaks(steps_of("bent-over-row", "strict-press", "muscle-clean"), exercise)
    assert [(b.index, b.ends, b.starts, b.wraps) for b in found] == [
        (0, BarPosition.HANG, BarPosition.FRONT_RACK, False),
        (1, BarPosition.FRONT_RACK, BarPosition.HANG, False),
        (2, BarPosition.FRONT_RACK, BarPosition.HANG, True),
    ]


def test_picking_up_setting_down_and_the_hip_crease_need_no_word() -> None:
    steps = steps_of("deadlift", "romanian-deadlift", "hip-start-power-clean")
    found = flow_breaks(steps, exercise)
    assert [b.index for b in found] == [2]


def test_a_word_that_would_lift_the_bar_is_refused() -> None:
    lifted = Step("bent-over-row", FIVE, label="1", last_ends=BarPosition.OVERHEAD)
    (broken,) = flow_breaks((lifted,), exercise)
    assert broken.last_ends_is_wrong
    assert "no way to lower the bar there from the hang" in broken.sentence
    fix = flow_fixes(FlowProblem((lifted,), exercises()), broken)[0]
    assert fix.sentence == "Leave out that 1 Bent-over row ends at the overhead."
    assert flow_breaks(fix.steps, exercise) == ()


def test_an_exercise_without_a_bar_has_the_bar_on_the_floor() -> None:
    assert flow_breaks(steps_of("deadlift", "push-up"), exercise) == ()
    assert [b.index for b in flow_breaks(steps_of("front-squat", "push-up"), exercise)] == [0, 1]


def test_the_first_fix_of_a_bar_left_in_the_rack_is_to_write_where_it_ends() -> None:
    broken = problem("romanian-deadlift", "muscle-clean", "strict-press")
    (found,) = flow_breaks(broken.steps, exercise)
    fix = flow_fixes(broken, found)[0]
    assert fix.kind is FixKind.WORD
    assert fix.sentence == (
        "Write that the last repetition of 3 Strict press ends at the hang (lower to the hang)."
    )


def test_another_order_is_offered_where_one_flows() -> None:
    broken = problem("strict-press", "hang-power-snatch")
    first = flow_breaks(broken.steps, exercise)[0]
    assert FixKind.ORDER not in {f.kind for f in flow_fixes(broken, first)}
    mendable = problem("romanian-deadlift", "front-squat", "muscle-clean", "strict-press")
    first = flow_breaks(mendable.steps, exercise)[0]
    steps = (*mendable.steps[:3], Step("strict-press", FIVE, "4", BarPosition.HANG))
    fixes = flow_fixes(FlowProblem(steps, exercises()), first)
    order = next(f for f in fixes if f.kind is FixKind.ORDER)
    assert [s.exercise for s in order.steps] == [
        "romanian-deadlift",
        "muscle-clean",
        "front-squat",
        "strict-press",
    ]


def test_a_clean_is_put_in_where_the_bar_must_come_up() -> None:
    broken = problem("bent-over-row", "front-squat")
    found = flow_breaks(broken.steps, exercise)[0]
    inserts = [f for f in flow_fixes(broken, found) if f.kind is FixKind.INSERT]
    assert inserts
    for fix in inserts:
        new = exercise(fix.steps[1].exercise)
        assert flows(BarPosition.HANG, starts_at(new))
        assert ends_at(new) is BarPosition.FRONT_RACK


def test_two_exercises_are_put_in_where_one_cannot_bring_the_bar_there() -> None:
    # By hand: from the hang to the back takes a clean, then a press that comes down behind.
    broken = problem("romanian-deadlift", "back-squat")
    found = flow_breaks(broken.steps, exercise)[0]
    fix = next(f for f in flow_fixes(broken, found) if f.kind is FixKind.INSERT)
    assert [ends_at(exercise(s.exercise)) for s in fix.steps[1:-1]][-1] in {
        BarPosition.BACK_RACK,
        BarPosition.OVERHEAD,
    }


def test_one_athletes_version_keeps_the_order_of_his_wave() -> None:
    broken = problem("bent-over-row", "front-squat", keeps_order=True)
    found = flow_breaks(broken.steps, exercise)[0]
    kinds = {f.kind for f in flow_fixes(broken, found)}
    assert kinds
    assert kinds <= {FixKind.WORD, FixKind.SWAP}


def test_fixes_come_with_the_least_change_first() -> None:
    broken = problem("romanian-deadlift", "muscle-clean", "strict-press")
    (found,) = flow_breaks(broken.steps, exercise)
    kinds = [f.kind for f in flow_fixes(broken, found)]
    assert kinds == sorted(kinds)
    assert {FixKind.WORD, FixKind.INSERT} <= set(kinds)


def test_every_named_transition_lowers_the_bar_or_is_free() -> None:
    height = [
        BarPosition.FLOOR,
        BarPosition.HANG,
        BarPosition.HIP,
        BarPosition.FRONT_RACK,
        BarPosition.BACK_RACK,
        BarPosition.OVERHEAD,
    ]
    written = [t for t in TRANSITIONS if not t.is_free]
    assert all(height.index(t.end) < height.index(t.start) for t in written)


def test_a_way_may_take_two_transitions() -> None:
    chain = way(BarPosition.OVERHEAD, BarPosition.HANG)
    assert chain is not None
    assert [t.name for t in chain] == ["lower to the front rack", "lower to the hang"]
    assert way(BarPosition.HANG, BarPosition.FRONT_RACK) is None
    assert way(BarPosition.HANG, BarPosition.HANG) == ()


def flows_inside(exercise: Exercise) -> bool:
    """Whether the parts of a repetition follow on, and one repetition can follow another."""
    places = [(part.start, part.end) for part in exercise.parts]
    if any(start is None or end is None for start, end in places):
        return all(start is None and end is None for start, end in places)
    follow_on = all(
        before.end is after.start
        for before, after in zip(exercise.parts, exercise.parts[1:], strict=False)
    )
    return follow_on and way(ends_at(exercise), starts_at(exercise)) is not None


@pytest.mark.parametrize("item", exercises(), ids=lambda e: e.id)
def test_every_exercise_flows_within_itself(item: Exercise) -> None:
    assert flows_inside(item)


BAR_IDS = [e.id for e in exercises() if e.modality is Modality.BARBELL]
complexes = st.lists(st.sampled_from(BAR_IDS), min_size=1, max_size=7, unique=True)


@given(complexes)
def test_a_repaired_complex_has_no_break(ids: list[str]) -> None:
    assert flow_breaks(repaired(problem(*ids)), exercise) == ()


@given(st.integers(0, 5), st.sampled_from(BAR_IDS))
def test_one_bad_swap_is_always_mended_without_touching_the_order(place: int, bad: str) -> None:
    mine = personal_steps(ROPEWALK, {str(place + 1): Swap(str(place + 1), bad)}, exercise)
    mended = repaired(FlowProblem(mine, exercises(), keeps_order=True))
    assert flow_breaks(mended, exercise) == ()
    assert [s.label for s in mended] == [s.label for s in ROPEWALK]


def test_a_complex_that_no_word_or_swap_can_mend_says_so() -> None:
    stuck = problem("bent-over-row", "shrug", "good-morning", "back-squat", keeps_order=True)
    with pytest.raises(NoSolution):
        repaired(stuck)


@given(complexes)
def test_every_fix_leaves_fewer_breaks(ids: list[str]) -> None:
    broken = problem(*ids)
    before = flow_breaks(broken.steps, exercise)
    for found in before[:1]:
        for fix in flow_fixes(broken, found):
            assert len(flow_breaks(fix.steps, exercise)) < len(before)
            assert len({s.label for s in fix.steps}) == len(fix.steps)


@given(complexes)
def test_a_complex_without_a_break_matches_a_walk_by_hand(ids: list[str]) -> None:
    # Independent: walk the bar round with a table of free moves written out here.
    low = {BarPosition.FLOOR, BarPosition.HANG, BarPosition.HIP}
    steps = steps_of(*ids)
    smooth = True
    for one, other in zip(steps, [*steps[1:], steps[0]], strict=True):
        left, taken = exercise(one.exercise).end, exercise(other.exercise).start
        smooth = smooth and (left is taken or {left, taken} <= low)
    assert (flow_breaks(steps, exercise) == ()) is smooth
