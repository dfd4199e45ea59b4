"""Counting of contacts, lines and rests, volume, plates, push-ups."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas import line_rest, plate_steps, plyometric_contacts, volume_load
from squadwright.formulas import push_up_load as push_up

counts = st.integers(1, 40)


@given(top=st.integers(1, 60))
def test_a_ladder_is_the_sum_of_its_rungs(top: int) -> None:
    up = range(1, top + 1)
    assert plyometric_contacts.ladder_contacts(top) == sum(up) + sum(range(1, top))
    assert plyometric_contacts.ladder_contacts_top_twice(top) == 2 * sum(up)
    assert plyometric_contacts.ladder_contacts_up_only(top) == sum(up)


def test_four_sets_of_a_ladder_to_five_are_a_hundred_contacts_in_475_seconds() -> None:
    assert 4 * plyometric_contacts.ladder_contacts(5) == 100
    work_s = line_rest.ladder_work_time(5, 1)
    assert line_rest.sets_duration(4, work_s, line_rest.rest_for_work(work_s, 5)) == 475


@given(boxes=counts, passes=counts, turns=st.integers(0, 5))
def test_onto_and_off_counts_a_box_and_a_floor_landing_for_each_box(
    boxes: int, passes: int, turns: int
) -> None:
    over = plyometric_contacts.contacts_over_boxes(boxes, passes, turns)
    onto = plyometric_contacts.contacts_onto_and_off_boxes(boxes, passes, turns)
    drops = plyometric_contacts.drops_onto_and_off_boxes(boxes, passes)
    assert onto == over + drops
    assert onto == plyometric_contacts.contacts_of_pattern(boxes, passes, 2, turn_hops=turns)


def test_a_half_box_is_refused() -> None:
    with pytest.raises(InvalidInput, match=r"boxes: 2\.5 is not a whole number"):
        plyometric_contacts.contacts_over_boxes(2.5, 4)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("distance_m", "step_m", "contacts"), [(30, 1.5, 20), (1.1, 0.1, 11), (30, 1.4, 22), (1, 2, 1)]
)
def test_the_last_bound_over_a_distance_counts_whole(
    distance_m: float, step_m: float, contacts: int
) -> None:
    assert plyometric_contacts.contacts_over_distance(distance_m, step_m) == contacts


def lane_sizes(athletes: int, lanes: int) -> tuple[int, ...]:
    """Athletes in each lane, as even as can be, larger lanes first."""
    size, larger = divmod(athletes, lanes)
    return (size + 1,) * larger + (size,) * (lanes - larger)


@given(athletes=st.integers(1, 200), rest_per_work=st.integers(0, 12))
def test_lanes_keep_the_rest_and_one_more_lane_would_not(athletes: int, rest_per_work: int) -> None:
    if athletes < rest_per_work + 1:
        with pytest.raises(OutsidePublishedRange, match="rests too little"):
            line_rest.lanes_for_rest_per_work(athletes, rest_per_work)
        return
    lanes = line_rest.lanes_for_rest_per_work(athletes, rest_per_work)
    sizes = lane_sizes(athletes, lanes)
    assert sum(sizes) == athletes
    assert min(sizes) - 1 >= rest_per_work
    if lanes < athletes:
        assert min(lane_sizes(athletes, lanes + 1)) - 1 < rest_per_work


def test_twenty_two_athletes_fill_three_lanes_at_one_to_five_and_four_would_break_it() -> None:
    assert lane_sizes(22, line_rest.lanes_for_rest_per_work(22, 5)) == (8, 7, 7)
    four = lane_sizes(22, 4)
    assert four == (6, 6, 5, 5)
    assert [line_rest.line_rest_per_work(size) for size in four] == [5, 5, 4, 4]


@given(athletes=st.integers(2, 40), work_s=st.floats(0.5, 30))
def test_a_line_staggered_by_a_whole_pass_rests_like_a_plain_line(
    athletes: int, work_s: float
) -> None:
    staggered = line_rest.staggered_line_rest(athletes, work_s, work_s)
    assert staggered == pytest.approx(line_rest.line_rest(athletes, work_s))


def test_a_pass_that_meets_the_back_of_its_own_line_is_refused() -> None:
    assert line_rest.staggered_line_rest(5, 2, 10) == 0
    with pytest.raises(OutsidePublishedRange, match=r"work_s is 10\.5.*own line"):
        line_rest.staggered_line_rest(5, 2, 10.5)


@given(sets=counts, repetitions=counts, load_kg=st.floats(1, 300))
def test_volume_load_is_the_sum_over_the_repetitions(
    sets: int, repetitions: int, load_kg: float
) -> None:
    volume_kg = volume_load.volume_load(sets, repetitions, load_kg)
    assert volume_kg == pytest.approx(sum([load_kg] * (sets * repetitions)))
    relative = volume_load.relative_volume(sets, repetitions, load_kg, one_rep_max_kg=2 * load_kg)
    assert relative == pytest.approx(sets * repetitions / 2)


@given(side_kg=st.floats(0, 200), bar_kg=st.floats(5, 25), collars_kg=st.floats(0, 5))
def test_plates_on_both_sides_and_the_bar_make_the_load(
    side_kg: float, bar_kg: float, collars_kg: float
) -> None:
    load_kg = bar_kg + collars_kg + 2 * side_kg
    assert plate_steps.plates_per_side(load_kg, bar_kg, collars_kg) == pytest.approx(
        side_kg, abs=1e-9
    )


def test_a_load_under_the_empty_bar_is_impossible() -> None:
    assert plate_steps.plates_per_side(25, 20, 5) == 0
    with pytest.raises(OutsidePublishedRange, match=r"load_kg is 24\.5.*at least 25.*empty bar"):
        plate_steps.plates_per_side(24.5, 20, 5)


def test_push_ups_stand_in_the_published_order_of_load() -> None:
    """Ebben and others 2011 (read, abstract): feet raised, regular, then knees or hands raised."""
    load = {name: push_up.push_up_load_ebben(80, name) for name in push_up.HANDS_SHARE_EBBEN}
    assert load["feet_raised"] > load["regular"] > load["knees"] > load["hands_on_61_cm"]


@given(mass_kg=st.floats(20, 150))
def test_the_hands_hold_more_of_a_heavier_athlete_and_never_all(mass_kg: float) -> None:
    for position in push_up.HANDS_SHARE_GOUVALI:
        held_kg = push_up.push_up_load_gouvali(mass_kg, position)
        assert 0.5 * mass_kg < held_kg < 0.7 * mass_kg
        assert push_up.push_up_load_gouvali(2 * mass_kg, position) == pytest.approx(2 * held_kg)


def test_a_position_that_was_not_measured_is_refused() -> None:
    with pytest.raises(InvalidInput, match="position: 'one_arm' is not known"):
        push_up.push_up_load_ebben(80, "one_arm")
