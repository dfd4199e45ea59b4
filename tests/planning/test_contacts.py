"""Counting is arithmetic; the formulas of `squadwright.formulas` are the independent check."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import InvalidInput
from squadwright.formulas.plyometric_contacts import (
    contacts_of_pattern,
    contacts_onto_and_off_boxes,
    contacts_over_boxes,
    drops_onto_and_off_boxes,
    ladder_contacts,
    partner_throws_and_catches,
)
from squadwright.library import exercise, routine
from squadwright.model.exercise import (
    Exercise,
    ImpactClass,
    Landing,
    Limb,
    Modality,
    Pattern,
    Region,
    RowLanding,
    RowPlace,
    Sides,
    Surface,
    Travel,
)
from squadwright.model.routine import Block, CountedIn, LaneRule, Scheme, Step, Style
from squadwright.planning.contacts import (
    Count,
    count_block,
    count_routine,
    count_set,
    count_step,
    repetitions_per_set,
)

OVER = (RowPlace.GAP_BEYOND,)
ONTO_AND_OFF = (RowPlace.ON_BOX, RowPlace.GAP_BEYOND)
UP_GAP_UP_BACK_OVER = (
    RowPlace.ON_BOX,
    RowPlace.GAP_BEYOND,
    RowPlace.ON_BOX,
    RowPlace.GAP_BEFORE,
    RowPlace.GAP_BEYOND,
)


def drill(**fields: object) -> Exercise:
    given_fields = {
        "id": "drill",
        "name": "Drill",
        "modality": Modality.PLYOMETRIC,
        "pattern": Pattern.JUMP,
        "region": Region.LOWER,
        "seconds_per_repetition": 1.0,
        **fields,
    }
    return Exercise(**given_fields)  # type: ignore[arg-type]


def row(*places: RowPlace) -> Exercise:
    return drill(row_landings=tuple(RowLanding(p) for p in places), travel=Travel.ALONG_ROW)


def passes(count: int, counted_in: CountedIn = CountedIn.PASSES_ONE_WAY) -> Scheme:
    return Scheme(counted_in, count)


boxes_and_passes = st.tuples(st.integers(1, 12), st.integers(1, 20))


@pytest.mark.parametrize(("top", "jumps"), [(3, 9), (4, 16), (5, 25), (6, 36), (8, 64), (10, 100)])
def test_a_ladder_up_and_down_again_has_its_top_squared(top: int, jumps: int) -> None:
    # By hand, 1 + 2 + ... + n + ... + 2 + 1; 1..6..1 is 36 (common practice, no source).
    scheme = Scheme(CountedIn.LADDER_TO, top)
    jump = drill(landings=(Landing(),))
    assert repetitions_per_set(jump, scheme) == jumps == ladder_contacts(top)
    assert sum([*range(1, top + 1), *range(top - 1, 0, -1)]) == jumps
    assert count_set(jump, scheme).contacts == jumps


@given(boxes_and_passes)
def test_hops_over_a_row_land_once_at_each_box(size: tuple[int, int]) -> None:
    boxes, times = size
    count = count_set(row(*OVER), passes(times), lane=LaneRule(boxes=boxes))
    assert count.contacts == contacts_over_boxes(boxes, times)
    assert count.contacts_on(Surface.BOX) == count.drop_count == 0


@given(boxes_and_passes)
def test_hops_onto_and_off_land_twice_and_drop_once_at_each_box(size: tuple[int, int]) -> None:
    boxes, times = size
    lane = LaneRule(boxes=boxes)
    count = count_set(row(*ONTO_AND_OFF), passes(times), lane=lane, box_height_m=0.45)
    assert count.contacts == contacts_onto_and_off_boxes(boxes, times)
    assert count.contacts_on(Surface.BOX) == count.contacts_on(Surface.FLOOR) == boxes * times
    assert count.drops == ((0.45, drops_onto_and_off_boxes(boxes, times)),)


@given(boxes_and_passes)
def test_the_combined_pattern_lands_five_times_at_each_box(size: tuple[int, int]) -> None:
    # Up, into the gap, up again, back, over: two on the box, three on the floor, two of them drops.
    boxes, times = size
    pattern = row(*UP_GAP_UP_BACK_OVER)
    count = count_set(pattern, passes(times), lane=LaneRule(boxes=boxes))
    assert count.contacts == contacts_of_pattern(boxes, times, 5)
    assert count.contacts_on(Surface.BOX) == 2 * boxes * times
    assert count.contacts_on(Surface.FLOOR) == 3 * boxes * times
    assert count.drop_count == 2 * boxes * times


def test_a_pass_down_and_back_goes_along_the_row_twice() -> None:
    lane = LaneRule(boxes=5)
    there = count_set(row(*OVER), passes(4), lane=lane)
    both = count_set(row(*OVER), passes(4, CountedIn.PASSES_DOWN_AND_BACK), lane=lane)
    assert (there.contacts, both.contacts) == (20, 40)


def test_the_way_back_of_a_one_way_line_takes_time_and_no_contact() -> None:
    lane = LaneRule(boxes=8, box_spacing_m=1.0, sprint_back=True)
    line = count_set(row(*OVER), passes(2), lane=lane)
    walked = count_set(row(*OVER), passes(2), lane=LaneRule(boxes=8, box_spacing_m=1.0))
    assert line.contacts == walked.contacts
    # By hand: 2 ways back of 8 m at 4 m/s are 4 s.
    assert line.work_s - walked.work_s == pytest.approx(4.0)


def test_passes_without_a_row_of_boxes_are_refused() -> None:
    with pytest.raises(InvalidInput, match="does not go along a row"):
        count_set(drill(landings=(Landing(),)), passes(2), lane=LaneRule(boxes=5))
    with pytest.raises(InvalidInput, match="its row has 0 boxes"):
        count_set(row(*OVER), passes(2))


def test_each_side_doubles_the_repetitions_and_a_plain_count_does_not() -> None:
    lunge = drill(sides=Sides.EACH)
    assert repetitions_per_set(lunge, Scheme(CountedIn.REPETITIONS_EACH_SIDE, 3)) == 6
    assert repetitions_per_set(lunge, Scheme(CountedIn.REPETITIONS, 8)) == 8


def test_each_side_of_an_exercise_of_both_sides_is_refused() -> None:
    with pytest.raises(InvalidInput, match="both sides at once"):
        repetitions_per_set(drill(), Scheme(CountedIn.REPETITIONS_EACH_SIDE, 3))


def test_there_and_back_counts_once_and_lands_twice() -> None:
    over = drill(over_and_back=True, landings=(Landing(count=2),), travel=Travel.SIDEWAYS)
    count = count_set(over, Scheme(CountedIn.REPETITIONS, 10))
    assert (count.repetitions, count.contacts) == (10, 20)


def test_hands_are_counted_apart_from_feet() -> None:
    push_up = drill(landings=(Landing(Surface.PLATE, Limb.HANDS, ImpactClass.HIGH),))
    count = count_set(push_up, Scheme(CountedIn.REPETITIONS, 6))
    assert (count.hand_landings, count.contacts, count.contacts_on(Surface.PLATE)) == (6, 0, 0)


def test_a_partner_who_returns_the_ball_makes_as_many_catches_as_throws() -> None:
    throw = drill(throws_per_repetition=1, catches_per_repetition=1)
    count = count_step(throw, Scheme(CountedIn.REPETITIONS, 10, sets=3))
    assert (count.throws, count.catches) == (30, 30)
    assert count.throws + count.catches == 3 * partner_throws_and_catches(10)


def test_seconds_become_the_whole_repetitions_that_fit_and_say_so() -> None:
    hop = drill(seconds_per_repetition=0.6, landings=(Landing(),))
    count = count_set(hop, Scheme(CountedIn.SECONDS, 30))
    assert (count.repetitions, count.work_s, count.is_estimate) == (50, 30.0, True)


def test_fewer_seconds_than_a_repetition_takes_are_refused() -> None:
    with pytest.raises(InvalidInput, match="less than one repetition"):
        count_set(drill(seconds_per_repetition=5.0), Scheme(CountedIn.SECONDS, 3))


def test_a_hold_is_one_repetition_and_the_hold_after_a_ladder_is_work() -> None:
    hold = drill(is_hold=True)
    assert count_set(hold, Scheme(CountedIn.SECONDS, 20)).repetitions == 1
    ladder = Scheme(CountedIn.LADDER_TO, 5, hold_after_s=10)
    assert count_set(drill(), ladder).work_s == 25 * 1.0 + 10


def test_a_circuit_of_eight_by_eight_by_six_has_384_repetitions() -> None:
    # Common practice, no source: eight exercises x 8 repetitions (each side counted) x 6 rounds.
    steps = tuple(Step(f"e{i}", Scheme(CountedIn.REPETITIONS, 8)) for i in range(8))
    circuit = Block("Circuit", Style.CIRCUIT, steps, rounds=6)
    count = count_block(circuit, lambda _: drill(sides=Sides.EACH))
    assert count.repetitions == 8 * 8 * 6 == 384


def test_three_sets_of_ten_are_thirty() -> None:
    # Common practice, no source: 3 sets of 10 for ball and push-up drills.
    assert count_step(drill(), Scheme(CountedIn.REPETITIONS, 10, sets=3)).repetitions == 30


def test_tide_lanes_totals_fifty_contacts_and_forty_two_throws() -> None:
    # Worked out by hand from the routine as the coach wrote it.
    by_hand = {
        "P1": (20, 0),
        "A1": (8, 0),
        "A2": (12, 0),
        "A3": (10, 0),
        "B1": (0, 10),
        "B2": (0, 16),
        "B3": (0, 16),
    }
    tide = routine("tide-lanes")
    counted = {
        step.label: count_step(exercise(step.exercise), step.scheme)
        for block in tide.blocks
        for step in block.steps
    }
    assert {k: (c.contacts, c.throws) for k, c in counted.items()} == by_hand
    total = count_routine(tide, exercise)
    assert (total.contacts, total.throws) == (50, 42)


def test_ropewalk_has_32_repetitions_a_round_that_fit_its_hundred_seconds() -> None:
    (block,) = routine("ropewalk").blocks
    one_round = count_block(block, exercise, rounds=1)
    assert one_round.repetitions == 32
    assert count_block(block, exercise).repetitions == 128
    assert block.work_s is not None
    assert one_round.work_s <= block.work_s


@given(st.integers(0, 9), st.integers(0, 9))
def test_rounds_add_up(first: int, second: int) -> None:
    one = count_set(row(*ONTO_AND_OFF), passes(1), lane=LaneRule(boxes=3), box_height_m=0.3)
    added, multiplied = one.times(first) + one.times(second), one.times(first + second)
    assert added.work_s == pytest.approx(multiplied.work_s)
    assert (added.landings, added.drops) == (multiplied.landings, multiplied.drops)
    assert (added.contacts, added.contacts_of(ImpactClass.MODERATE)) == (
        one.contacts * (first + second),
        one.contacts * (first + second),
    )


def test_nothing_is_nothing() -> None:
    assert (Count() + Count()).contacts == 0


def test_drops_stand_by_height_and_those_of_no_known_height_last() -> None:
    """Added in either order, each height once."""
    low, high = Count(drops=((0.3, 4),)), Count(drops=((0.5, 2),))
    unknown = Count(drops=((None, 3),))
    for total in (unknown + high + low, low + high + unknown, high + unknown + low):
        assert total.drops == ((0.3, 4), (0.5, 2), (None, 3))
        assert total.drop_count == 9
    assert (low + low).drops == ((0.3, 8),)
    assert low.times(0).drops == ()
    assert (Count(is_estimate=True) + low).is_estimate
    assert not (low + high).is_estimate
