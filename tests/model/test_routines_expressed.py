"""The model says every routine of the trade that the coach may write, without tricks.

Amounts in these tests are common practice, no source, unless another source is named.
"""

from dataclasses import replace

import pytest
from pydantic import TypeAdapter

from squadwright.errors import InvalidInput
from squadwright.library import exercise
from squadwright.model.exercise import (
    BarPosition,
    Exercise,
    ImpactClass,
    Limb,
    RowPlace,
    Sides,
    Surface,
    Travel,
)
from squadwright.model.kit import Ball, Box, Kit
from squadwright.model.plan import PlannedExercise
from squadwright.model.routine import (
    Alternation,
    Block,
    CountedIn,
    Facing,
    GroupKind,
    LaneRule,
    Rest,
    RestKind,
    Routine,
    Scheme,
    Step,
    Style,
)
from squadwright.planning.bar_flow import flow_breaks
from squadwright.planning.contacts import count_block, count_set, count_step
from squadwright.units import METRES_PER_INCH, pounds

REPETITIONS, EACH_SIDE = CountedIn.REPETITIONS, CountedIn.REPETITIONS_EACH_SIDE


def step(exercise_id: str, counted_in: CountedIn, count: int, **fields: object) -> Step:
    scheme = Scheme(
        counted_in,
        count,
        sets=fields.pop("sets", 1),  # type: ignore[arg-type]
        hold_after_s=fields.pop("hold_after_s", 0),  # type: ignore[arg-type]
    )
    return Step(exercise_id, scheme, **{"label": exercise_id, **fields})  # type: ignore[arg-type]


def counted(block: Block) -> dict[str, int]:
    """Repetitions of one set of each step."""
    return {
        s.exercise: count_set(exercise(s.exercise), s.scheme, lane=block.lane).repetitions
        for s in block.steps
    }


def kept(block: Block) -> Routine:
    """The routine of one block after a journey through JSON."""
    routine = Routine("test", 1, "Test", "test", (block,))
    adapter = TypeAdapter(Routine)
    return adapter.validate_json(adapter.dump_json(routine))


def in_lanes(one: Step, lane: LaneRule) -> Block:
    return Block("Lanes", Style.LANES, (one,), lane=lane, group_kind=GroupKind.LANES)


def test_one_bar_serves_many_exercises_some_done_on_each_side() -> None:
    block = Block(
        "Complex",
        Style.COMPLEX,
        (
            step("romanian-deadlift", REPETITIONS, 6, label="1"),
            step("staggered-stance-row", EACH_SIDE, 3, label="2"),
            step("hang-power-clean", REPETITIONS, 3, label="3"),
            step("reverse-lunge-into-press", EACH_SIDE, 3, label="4"),
            step(
                "front-squat-with-heel-raise", REPETITIONS, 6, label="5", last_ends=BarPosition.HANG
            ),
        ),
        rounds=4,
        work_s=100,
        changeover_s=20,
        group_kind=GroupKind.WAVES,
        waves=2,
    )
    assert kept(block).blocks == (block,)
    assert flow_breaks(block.steps, exercise) == ()
    assert counted(block) == {
        "romanian-deadlift": 6,
        "staggered-stance-row": 6,
        "hang-power-clean": 3,
        "reverse-lunge-into-press": 6,
        "front-squat-with-heel-raise": 6,
    }
    assert count_block(block, exercise).repetitions == 4 * 27


def test_a_repetition_has_two_parts_with_the_feet_moved_between_them() -> None:
    lunge_and_press = exercise("reverse-lunge-into-press")
    first, second = lunge_and_press.parts
    assert (first.feet_move, second.feet_move) == (False, True)
    assert first.end is second.start
    assert first.effort != second.effort


def test_a_small_extra_movement_ends_a_repetition() -> None:
    squat, heel_raise = exercise("front-squat-with-heel-raise").parts
    assert (squat.small_extra, heel_raise.small_extra) == (False, True)


def test_a_squat_flows_into_a_press() -> None:
    squat, press = exercise("squat-to-press").parts
    assert (squat.end, press.start) == ("front rack", "front rack")


def test_a_ladder_goes_up_and_back_to_one_with_a_timed_hold_after_it() -> None:
    ladder = step("squat-jump", CountedIn.LADDER_TO, 6, sets=3, hold_after_s=20)
    one_set = count_set(exercise("squat-jump"), ladder.scheme)
    assert (one_set.repetitions, one_set.contacts) == (36, 36)
    assert one_set.work_s == 36 * exercise("squat-jump").seconds_per_repetition + 20
    assert kept(Block("Ladder", Style.SETS, (ladder,))).blocks[0].steps == (ladder,)


def test_a_repetition_goes_over_and_back_and_counts_once() -> None:
    hops = exercise("over-and-back-box-jump")
    assert (hops.over_and_back, hops.sides) == (True, Sides.BOTH)
    count = count_set(hops, Scheme(REPETITIONS, 10))
    assert (count.repetitions, count.contacts) == (10, 20)
    push_ups = count_set(exercise("over-and-back-ball-push-up"), Scheme(REPETITIONS, 8))
    assert (push_ups.repetitions, push_ups.hand_landings) == (8, 16)


@pytest.mark.parametrize(("boxes", "passes", "landings"), [(5, 2, 20), (3, 4, 24), (6, 1, 12)])
def test_passes_go_down_and_back_along_a_row(boxes: int, passes: int, landings: int) -> None:
    # By hand: each pass lands once at each box on the way down and once on the way back.
    block = in_lanes(
        step("row-hop-over", CountedIn.PASSES_DOWN_AND_BACK, passes, sets=3),
        LaneRule(boxes=boxes),
    )
    assert kept(block).blocks == (block,)
    one_set = count_set(exercise("row-hop-over"), block.steps[0].scheme, lane=block.lane)
    assert one_set.contacts == landings
    assert count_block(block, exercise).contacts == 3 * landings


def test_a_line_goes_one_way_sprints_back_and_changes_its_facing_every_other_set() -> None:
    block = in_lanes(
        step(
            "row-sideways-over",
            CountedIn.PASSES_ONE_WAY,
            2,
            sets=4,
            facing=Facing.CHANGED_EVERY_OTHER_SET,
        ),
        LaneRule(boxes=6, sprint_back=True),
    )
    assert kept(block).blocks == (block,)
    assert count_block(block, exercise).contacts == 4 * 2 * 6


@pytest.mark.parametrize(
    ("exercise_id", "places", "on_box", "on_floor", "drops"),
    [
        ("row-hop-over", ["gap beyond"], 0, 1, 0),
        ("row-onto-and-off", ["on the box", "gap beyond"], 1, 1, 1),
        (
            "row-up-gap-up-back-over",
            ["on the box", "gap beyond", "on the box", "gap before", "gap beyond"],
            2,
            3,
            2,
        ),
    ],
)
def test_contacts_on_floor_and_box_follow_from_the_landings_at_each_box(
    exercise_id: str, places: list[RowPlace], on_box: int, on_floor: int, drops: int
) -> None:
    pattern = exercise(exercise_id)
    assert [landing.place for landing in pattern.row_landings] == places
    assert pattern.travel is Travel.ALONG_ROW
    boxes, passes = 5, 4
    count = count_set(pattern, Scheme(CountedIn.PASSES_ONE_WAY, passes), lane=LaneRule(boxes=boxes))
    assert count.contacts_on(Surface.BOX) == on_box * boxes * passes
    assert count.contacts_on(Surface.FLOOR) == on_floor * boxes * passes
    assert count.drop_count == drops * boxes * passes


def test_lower_and_upper_body_are_taken_in_turn() -> None:
    block = Block(
        "In turn",
        Style.SETS,
        (
            step("squat-jump", REPETITIONS, 8, sets=3, label="A1"),
            step("push-up-across-ball", EACH_SIDE, 5, sets=3, label="A2"),
        ),
        alternation=Alternation.LOWER_THEN_UPPER,
    )
    assert kept(block).blocks == (block,)
    assert [exercise(s.exercise).region for s in block.steps] == ["lower", "upper"]


def test_one_works_while_his_partner_rests() -> None:
    block = Block(
        "Pairs",
        Style.SETS,
        (step("standing-chest-pass", REPETITIONS, 10, sets=3),),
        rest=Rest(RestKind.PARTNER_WORKS),
        group_kind=GroupKind.PAIRS,
    )
    assert kept(block).blocks[0].rest.kind is RestKind.PARTNER_WORKS


def test_a_partner_returns_the_ball() -> None:
    throw = exercise("standing-chest-pass")
    assert throw.needs.partner_returns_ball
    count = count_step(throw, Scheme(REPETITIONS, 10, sets=3))
    assert (count.throws, count.catches) == (30, 30)
    fall = count_step(exercise("throw-fall-and-catch"), Scheme(REPETITIONS, 6))
    assert (fall.throws, fall.catches, fall.hand_landings) == (6, 6, 6)


@pytest.mark.parametrize(
    ("exercise_id", "surface"),
    [("feet-on-box-hands-to-plates", Surface.PLATE), ("feet-on-box-hands-to-boxes", Surface.BOX)],
)
def test_push_ups_with_the_feet_on_a_box_land_the_hands_on_plates_or_boxes(
    exercise_id: str, surface: Surface
) -> None:
    push_up: Exercise = exercise(exercise_id)
    assert push_up.needs.boxes >= 1
    up, down = push_up.landings
    assert (up.surface, up.limb, down.surface) == (surface, Limb.HANDS, Surface.FLOOR)
    count = count_step(push_up, Scheme(REPETITIONS, 10, sets=3))
    assert (count.hand_landings, count.contacts) == (60, 0)


@pytest.mark.parametrize("free", [1, 2, 3])
def test_a_line_keeps_so_many_boxes_free_between_athletes(free: int) -> None:
    lane = LaneRule(boxes=8, free_boxes_between=free)
    block = in_lanes(step("row-hop-over", CountedIn.PASSES_ONE_WAY, 2), lane)
    assert kept(block).blocks[0].lane == lane
    assert LaneRule().free_boxes_between == 2


def test_a_line_without_a_lane_rule_is_refused() -> None:
    with pytest.raises(InvalidInput, match="runs in lanes but says nothing about them"):
        Block("Lanes", Style.LANES, (step("row-hop-over", CountedIn.PASSES_ONE_WAY, 2),))


def test_ball_and_box_are_chosen_by_the_person() -> None:
    light = PlannedExercise(
        step="B1",
        exercise="standing-chest-pass",
        name="Standing chest pass",
        amount="3 x 10",
        sets=3,
        repetitions_per_set=10,
        ball="ball-10-lb",
        ball_kg=pounds(10).kg,
    )
    heavy = replace(light, ball="ball-15-lb", ball_kg=pounds(15).kg)
    assert light.ball_kg == pytest.approx(4.5359, abs=5e-5)
    assert heavy.ball_kg == pytest.approx(6.8039, abs=5e-5)
    low = replace(light, exercise="jump-to-box", ball=None, box="a", box_height_m=0.40)
    high = replace(low, box="b", box_height_m=0.60)
    assert (low.box_height_m, high.box_height_m) == (0.40, 0.60)


def test_balls_keep_their_pounds_and_boxes_say_whom_they_carry() -> None:
    eighteen_inches = 18 * float(METRES_PER_INCH)
    kit = Kit(
        balls=(Ball("ball-10-lb", pounds(10)), Ball("ball-15-lb", pounds(15))),
        boxes=(
            Box("sound", (eighteen_inches,), maximum_body_mass=pounds(260)),
            Box("wobbles", (0.3,), fit_for_landing=False),
        ),
    )
    adapter = TypeAdapter(Kit)
    assert adapter.validate_json(adapter.dump_json(kit)) == kit
    assert eighteen_inches == pytest.approx(0.4572)
    assert [str(ball.mass) for ball in kit.balls] == ["10 lb", "15 lb"]
    assert [box.fit_for_landing for box in kit.boxes] == [True, False]


def test_a_circuit_of_eight_exercises_by_eight_by_six_rounds_rests_a_minute() -> None:
    ids = (
        *("romanian-deadlift", "bent-over-row", "muscle-clean", "strict-press"),
        *("front-squat", "front-rack-reverse-lunge", "split-stance-strict-press", "push-press"),
    )
    block = Block(
        "Circuit",
        Style.CIRCUIT,
        tuple(step(i, REPETITIONS, 8) for i in ids),
        rounds=6,
        rest=Rest(RestKind.SECONDS, seconds=60),
    )
    assert kept(block).blocks == (block,)
    assert count_block(block, exercise).repetitions == 8 * 8 * 6


def test_impact_and_limb_of_each_landing_are_told_apart() -> None:
    bounds = count_set(exercise("lateral-bounds"), Scheme(EACH_SIDE, 5))
    ((contact, count),) = bounds.landings
    assert (contact.limb, contact.impact, count) == (Limb.ONE_FOOT, ImpactClass.HIGH, 10)
