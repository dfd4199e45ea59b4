"""Each rule and each weight of a swap by itself: an exercise against its twin.

A twin is the same exercise under another name with one thing changed. What it costs is the
coach's default weight of that thing; what forbids it is read off the words of the rule.
"""

from dataclasses import replace

import pytest

from squadwright.model.exercise import (
    BarPosition,
    Effort,
    Exercise,
    ImpactClass,
    Landing,
    Limb,
    Modality,
    Needs,
    Part,
    Pattern,
    ReferenceLift,
    Region,
    RowLanding,
    RowPlace,
    Sides,
)
from squadwright.model.muscles import MuscleGroup
from squadwright.model.routine import CountedIn, LaneRule, Scheme
from squadwright.planning.substitution import (
    KitThere,
    SpaceThere,
    SubstitutionProblem,
    SwapChoice,
    substitute,
)
from squadwright.planning.substitution.likeness import likeness

FRONT, BACK, *_ = MuscleGroup
TEN = Scheme(CountedIn.REPETITIONS, 10)
RACK, OVER, HANG = BarPosition.FRONT_RACK, BarPosition.OVERHEAD, BarPosition.HANG


def moved(groups: dict[MuscleGroup, float], end: BarPosition = RACK) -> tuple[Part, ...]:
    return (Part("lift", RACK, end, Effort(groups, ReferenceLift.FRONT_SQUAT, 1.0)),)


OLD = Exercise(
    "old",
    "Old",
    Modality.BARBELL,
    Pattern.SQUAT,
    Region.LOWER,
    3.0,
    parts=moved({FRONT: 1.0}),
    aims=("strength", "balance"),
    needs=Needs(bar=True),
)


def swapped(
    old: Exercise = OLD, fields: dict[str, object] | None = None, **twin: object
) -> SwapChoice | None:
    """The twin as a swap of the old one, or None where it is not allowed."""
    new = replace(old, id="twin", name="Twin", **twin)  # type: ignore[arg-type]
    problem = SubstitutionProblem(old, TEN, (old, new), **(fields or {}))  # type: ignore[arg-type]
    solution = substitute(problem)
    assert solution.choices[-1].exercise is None
    assert len(solution.choices) <= 2
    return solution.choices[0] if len(solution.choices) == 2 else None


def score(old: Exercise = OLD, fields: dict[str, object] | None = None, **twin: object) -> float:
    found = swapped(old, fields, **twin)
    assert found is not None
    return found.score


@pytest.mark.parametrize(
    ("twin", "expected"),
    [
        ({}, 1.0),
        ({"pattern": Pattern.LUNGE}, 0.75),
        ({"region": Region.UPPER}, 0.75),
        ({"region": Region.WHOLE}, 0.875),
        ({"aims": ("balance",)}, 0.9),
        ({"aims": ("speed",)}, 0.8),
        ({"aims": ("balance", "speed", "strength")}, 1.0),
        ({"parts": moved({BACK: 1.0})}, 0.8),
        ({"parts": moved({FRONT: 0.6, BACK: 0.8})}, 0.92),
        ({"modality": Modality.BODYWEIGHT}, 0.95),
        ({"sides": Sides.EACH}, 0.97),
    ],
)
def test_a_twin_loses_the_weight_of_what_it_does_not_keep(
    twin: dict[str, object], expected: float
) -> None:
    """Pattern and half of the body weigh 0.25; groups and aims 0.2; kit 0.05; sides 0.03."""
    assert score(**twin) == pytest.approx(expected)


def test_half_the_body_is_half_kept_by_an_exercise_for_the_whole_and_the_other_way_round() -> None:
    whole = replace(OLD, region=Region.WHOLE)
    assert score(whole) == pytest.approx(1.0)
    assert score(whole, region=Region.LOWER) == pytest.approx(0.875)


def test_an_exercise_without_aims_loses_nothing_by_them() -> None:
    assert score(replace(OLD, aims=())) == pytest.approx(0.8)
    assert score(replace(OLD, aims=()), aims=("speed",)) == pytest.approx(0.8)


def test_a_word_costs_a_little_and_a_twin_that_is_there_already_costs_much() -> None:
    lowered = {"bar_from": RACK, "bar_to": HANG}
    worded = swapped(OLD, lowered)
    assert worded is not None
    assert (worded.last_ends, worded.score) == (HANG, pytest.approx(0.98))
    straight = swapped(OLD, {"bar_from": RACK, "bar_to": RACK})
    assert straight is not None
    assert (straight.last_ends, straight.score) == (None, pytest.approx(1.0))
    assert score(OLD, {"others": (replace(OLD, id="twin"),)}) == pytest.approx(0.7)
    assert score(OLD, {"others": (replace(OLD, id="third"),)}) == pytest.approx(1.0)
    row = replace(OLD, row_landings=(RowLanding(RowPlace.GAP_BEYOND),))
    lane = {"lane": LaneRule(boxes=3)}
    assert score(row, lane) == pytest.approx(1.0)
    assert score(row, lane, row_landings=()) == pytest.approx(0.7)


def test_a_score_is_never_below_nothing() -> None:
    """Only an aim shared: 0.2 of the aims, 0.3 off because it is there already."""
    far = {
        "pattern": Pattern.PULL,
        "region": Region.UPPER,
        "modality": Modality.BODYWEIGHT,
        "sides": Sides.EACH,
        "parts": moved({BACK: 1.0}),
    }
    assert score(**far) == pytest.approx(0.22)
    assert score(OLD, {"others": (replace(OLD, id="twin"),)}, **far) == 0.0


@pytest.mark.parametrize(
    ("twin", "is_allowed"),
    [
        ({"pattern": Pattern.PULL, "region": Region.UPPER, "aims": ("speed",)}, False),
        ({"region": Region.UPPER, "aims": ("speed",)}, True),
        ({"pattern": Pattern.PULL, "aims": ("speed",)}, True),
        ({"pattern": Pattern.PULL, "region": Region.UPPER, "aims": ("speed", "balance")}, True),
        ({"row_landings": (RowLanding(RowPlace.ON_BOX),)}, False),
    ],
)
def test_a_twin_must_share_the_pattern_the_half_of_the_body_or_an_aim(
    twin: dict[str, object], is_allowed: bool
) -> None:
    assert (swapped(**twin) is not None) is is_allowed


@pytest.mark.parametrize(
    ("bar_from", "bar_to", "end", "is_allowed"),
    [
        (RACK, RACK, RACK, True),
        (HANG, RACK, RACK, False),
        (RACK, OVER, RACK, False),
        (RACK, RACK, OVER, True),
        (None, OVER, RACK, False),
        (HANG, None, RACK, False),
        (None, None, OVER, True),
    ],
)
def test_a_twin_takes_the_bar_where_it_is_and_can_leave_it_where_it_is_taken(
    bar_from: BarPosition | None, bar_to: BarPosition | None, end: BarPosition, is_allowed: bool
) -> None:
    fields: dict[str, object] = {"bar_from": bar_from, "bar_to": bar_to}
    assert (swapped(OLD, fields, parts=moved({FRONT: 1.0}, end)) is not None) is is_allowed


FEET = Landing(count=2, impact=ImpactClass.MODERATE)
HANDS = Landing(limb=Limb.HANDS, count=2, impact=ImpactClass.MODERATE)


@pytest.mark.parametrize(
    ("before", "after", "is_allowed"),
    [
        ((FEET,), (FEET,), True),
        ((FEET,), (replace(FEET, impact=ImpactClass.LOW),), True),
        ((FEET,), (replace(FEET, impact=ImpactClass.HIGH),), False),
        ((FEET,), (FEET, HANDS), False),
        ((FEET, HANDS), (FEET, HANDS), True),
        ((FEET, HANDS), (FEET,), True),
        ((FEET, HANDS), (FEET, replace(HANDS, count=3)), False),
        ((), (FEET,), False),
        ((FEET,), (), True),
    ],
)
def test_feet_and_hands_land_no_more_often_and_no_harder(
    before: tuple[Landing, ...], after: tuple[Landing, ...], is_allowed: bool
) -> None:
    old = replace(OLD, landings=before)
    assert (swapped(old, landings=after) is not None) is is_allowed


ALL_THERE = KitThere(
    bar=True,
    bouncing_balls=1,
    no_bounce_balls=1,
    boxes=2,
    hand_targets=2,
    mats=1,
    partner=True,
    fixed_bar=True,
)


@pytest.mark.parametrize(
    ("needs", "lack"),
    [
        (Needs(bar=True), {"bar": False}),
        (Needs(ball=True), {"bouncing_balls": 0, "no_bounce_balls": 0}),
        (Needs(ball=True, ball_must_bounce=True), {"bouncing_balls": 0}),
        (Needs(ball=True, ball_must_not_bounce=True), {"no_bounce_balls": 0}),
        (Needs(boxes=2), {"boxes": 1}),
        (Needs(hand_targets=2), {"hand_targets": 1}),
        (Needs(mat=True), {"mats": 0}),
        (Needs(partner=True), {"partner": False}),
        (Needs(fixed_bar=True), {"fixed_bar": False}),
    ],
)
def test_what_a_twin_needs_must_be_there_and_no_more_than_that(
    needs: Needs, lack: dict[str, object]
) -> None:
    assert swapped(OLD, {"kit": ALL_THERE}, needs=needs) is not None
    assert swapped(OLD, {"kit": replace(ALL_THERE, **lack)}, needs=needs) is None  # type: ignore[arg-type]
    nothing = KitThere(bar=False, partner=False)
    assert swapped(OLD, {"kit": nothing}, needs=Needs()) is not None


@pytest.mark.parametrize(("bouncing", "no_bounce"), [(1, 0), (0, 1)])
def test_any_ball_does_where_no_kind_is_asked_for(bouncing: int, no_bounce: int) -> None:
    kit = KitThere(bouncing_balls=bouncing, no_bounce_balls=no_bounce)
    assert swapped(OLD, {"kit": kit}, needs=Needs(ball=True)) is not None


@pytest.mark.parametrize(
    ("had", "needs", "is_allowed"),
    [
        (Needs(bar=True), Needs(bar=True), True),
        (Needs(), Needs(bar=True), False),
        (Needs(bar=True), Needs(fixed_bar=True), False),
        (Needs(fixed_bar=True), Needs(fixed_bar=True), True),
        (Needs(bar=True), Needs(), True),
        (Needs(fixed_bar=True), Needs(bar=True), False),
    ],
)
def test_where_nobody_looked_at_the_kit_a_swap_takes_only_the_bar_that_was_used(
    had: Needs, needs: Needs, is_allowed: bool
) -> None:
    assert (swapped(replace(OLD, needs=had), needs=needs) is not None) is is_allowed


@pytest.mark.parametrize(
    ("space", "is_allowed"),
    [
        (SpaceThere(2.0, 3.0, 2.8, throw_wall=True), True),
        (SpaceThere(1.9, 3.0, 2.8, throw_wall=True), False),
        (SpaceThere(2.0, 2.9, 2.8, throw_wall=True), False),
        (SpaceThere(2.0, 3.0, 2.7, throw_wall=True), False),
        (SpaceThere(2.0, 3.0, 2.8, throw_wall=False), False),
        (None, True),
    ],
)
def test_a_twin_needs_no_more_space_than_there_is(
    space: SpaceThere | None, is_allowed: bool
) -> None:
    needs = Needs(clear_width_m=2.0, clear_length_m=3.0, ceiling_m=2.8, throw_wall=True)
    assert (swapped(OLD, {"space": space}, needs=needs) is not None) is is_allowed


@pytest.mark.parametrize(
    ("first", "second", "expected"),
    [
        ({FRONT: 1.0}, {FRONT: 0.3}, 1.0),
        ({FRONT: 1.0}, {BACK: 1.0}, 0.0),
        ({FRONT: 0.6, BACK: 0.8}, {FRONT: 0.8, BACK: 0.6}, 0.96),
        ({FRONT: 3.0, BACK: 4.0}, {FRONT: 1.0}, 0.6),
        ({}, {FRONT: 1.0}, 0.0),
    ],
)
def test_likeness_is_the_cosine_of_two_mixes_worked_by_hand(
    first: dict[MuscleGroup, float], second: dict[MuscleGroup, float], expected: float
) -> None:
    one, other = (replace(OLD, parts=moved(groups)) for groups in (first, second))
    assert likeness(one, other) == pytest.approx(expected)
    assert likeness(other, one) == pytest.approx(expected)


def test_a_group_counts_with_its_greatest_share_of_all_parts() -> None:
    both = replace(OLD, parts=(*moved({FRONT: 0.2, BACK: 0.8}), *moved({FRONT: 0.6})))
    assert likeness(both, replace(OLD, parts=moved({FRONT: 1.0}))) == pytest.approx(0.6)


def test_the_reason_says_what_is_kept_and_how_the_bar_goes() -> None:
    kept = swapped(OLD, {"bar_from": RACK, "bar_to": HANG})
    assert kept is not None
    assert kept.reason == (
        "Twin keeps the squat, strength and balance, "
        "bar front rack to front rack, last one down to the hang."
    )
    half = swapped(OLD, {"bar_from": RACK, "bar_to": RACK}, pattern=Pattern.LUNGE, aims=())
    assert half is not None
    assert half.reason == "Twin keeps the lower body, bar front rack to front rack."
    body = swapped(OLD, {"bar_to": RACK}, modality=Modality.BODYWEIGHT, needs=Needs())
    assert body is not None
    assert body.reason == "Twin keeps the squat, strength and balance."
