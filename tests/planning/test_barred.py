"""What bars an exercise: restrictions to the letter, then pain, level and age."""

from dataclasses import replace
from datetime import date

import pytest

from squadwright.errors import InvalidInput
from squadwright.library import exercise, exercises
from squadwright.model.athlete import AuthorRole, Level, Restriction
from squadwright.model.exercise import (
    Demand,
    ImpactClass,
    Landing,
    Limb,
    Modality,
    Region,
    RowLanding,
    RowPlace,
)
from squadwright.model.muscles import BodyArea
from squadwright.model.session import Pain
from squadwright.planning.substitution.barred import (
    DEMANDS_OF_AREA,
    LOWER_HALF,
    UPPER_HALF,
    barred_by,
    level_rank,
    needs_referral,
)


def restriction(**fields: object) -> Restriction:
    return Restriction("r", "Physio", AuthorRole.MEDICAL, date(2026, 3, 2), **fields)  # type: ignore[arg-type]


def knee(score: int) -> tuple[Pain, ...]:
    return (Pain(BodyArea.KNEE, score),)


def test_a_demand_is_barred_with_its_author() -> None:
    nothing_overhead = (restriction(demands=(Demand.OVERHEAD,)),)
    assert barred_by(exercise("strict-press"), nothing_overhead) == ("Physio: no overhead",)
    assert barred_by(exercise("front-rack-march"), nothing_overhead) == ()


def test_a_body_area_is_barred() -> None:
    spare_the_wrist = (restriction(body_areas=(BodyArea.WRIST_HAND,)),)
    assert barred_by(exercise("front-squat"), spare_the_wrist) == (
        "Physio: nothing that loads the wrist or hand",
    )
    assert barred_by(exercise("back-squat"), spare_the_wrist) == ()


def test_no_training_bars_everything_but_what_medical_staff_set() -> None:
    told = (restriction(all_training=True, instruction="walking, ten minutes"),)
    allowed = {e.modality for e in exercises() if not barred_by(e, told)}
    assert allowed == {Modality.BREATHING}


def test_no_training_without_an_instruction_bars_the_breathing_drill_too() -> None:
    assert all(barred_by(e, (restriction(all_training=True),)) for e in exercises())


@pytest.mark.parametrize("score", [0, 1, 2])
def test_little_pain_goes_on_and_is_watched(score: int) -> None:
    assert barred_by(exercise("front-rack-reverse-lunge"), pains=knee(score)) == ()


@pytest.mark.parametrize("score", [3, 4, 5])
@pytest.mark.parametrize(
    "barred", ["front-rack-reverse-lunge", "broad-jump-and-stick", "front-squat", "depth-jump"]
)
def test_some_knee_pain_leaves_out_lunges_jumps_landings_and_deep_bends(
    score: int, barred: str
) -> None:
    assert barred_by(exercise(barred), pains=knee(score)) == (
        f"knee pain {score} of 10: nothing that loads it today",
    )


@pytest.mark.parametrize("kept", ["romanian-deadlift", "strict-press", "seated-chest-pass"])
def test_some_knee_pain_leaves_the_rest(kept: str) -> None:
    assert barred_by(exercise(kept), pains=knee(4)) == ()


def test_much_knee_pain_bars_all_that_loads_the_lower_half_and_refers() -> None:
    allowed = [e for e in exercises() if not barred_by(e, pains=knee(6))]
    assert allowed
    for item in allowed:
        if item.modality is Modality.BREATHING:
            continue
        assert item.region.value == "upper"
        assert not set(item.body_areas) & LOWER_HALF
        assert Demand.STANDING_WORK not in item.demands
    (reason,) = barred_by(exercise("strict-press"), pains=knee(6))
    assert reason == ("knee pain 6 of 10: nothing that loads the lower half, see medical staff")


def test_much_low_back_pain_bars_both_halves() -> None:
    pain = (Pain(BodyArea.LOW_BACK, 7),)
    assert {e.modality for e in exercises() if not barred_by(e, pains=pain)} == {Modality.BREATHING}


@pytest.mark.parametrize("pain", [Pain(BodyArea.HEAD, 1), Pain(BodyArea.NECK, 3)])
def test_pain_in_head_or_neck_bars_everything(pain: Pain) -> None:
    assert all(barred_by(e, pains=(pain,)) for e in exercises())
    assert needs_referral((pain,))


def test_referral_starts_at_six() -> None:
    assert not needs_referral(knee(5))
    assert needs_referral(knee(6))
    assert not needs_referral(())


def test_each_area_is_in_a_half_or_bars_everything() -> None:
    assert LOWER_HALF | UPPER_HALF | {BodyArea.HEAD} == set(BodyArea)
    assert set(DEMANDS_OF_AREA) == set(BodyArea) - {BodyArea.HEAD, BodyArea.NECK}


def test_level_and_age_bar_what_is_too_hard() -> None:
    depth = exercise("depth-jump")
    assert barred_by(depth, level=Level.NOVICE, age=24) == (
        "for advanced athletes, this one is novice",
    )
    assert barred_by(depth, level=Level.ADVANCED, age=14) == (
        "hard landings from 16 years, this athlete is 14",
    )
    assert barred_by(depth, level=Level.ADVANCED, age=16) == ()


def test_reasons_are_given_once_each_and_all_of_them() -> None:
    both = (restriction(demands=(Demand.OVERHEAD, Demand.LUNGE)),) * 2
    assert barred_by(exercise("overhead-reverse-lunge"), both) == (
        "Physio: no overhead",
        "Physio: no lunge",
    )


def test_an_unknown_level_is_refused() -> None:
    with pytest.raises(InvalidInput, match="'expert' is not a level"):
        level_rank("expert")


@pytest.mark.parametrize(("age", "is_barred"), [(12, True), (17, True), (18, False), (30, False)])
def test_all_out_efforts_begin_at_eighteen(age: int, is_barred: bool) -> None:
    all_out = replace(exercise("push-up"), demands=(Demand.MAXIMAL_EFFORT,))
    reasons = barred_by(all_out, age=age)
    assert reasons == ((f"all-out efforts from 18 years, this athlete is {age}",) * is_barred)
    assert barred_by(exercise("push-up"), age=age) == ()


@pytest.mark.parametrize(
    ("landings", "row_landings", "is_hard"),
    [
        ((Landing(impact=ImpactClass.HIGH),), (), True),
        ((Landing(impact=ImpactClass.HIGH, limb=Limb.ONE_FOOT),), (), True),
        ((Landing(impact=ImpactClass.HIGH, limb=Limb.HANDS),), (), False),
        ((Landing(impact=ImpactClass.MODERATE),), (), False),
        ((), (RowLanding(RowPlace.ON_BOX, impact=ImpactClass.HIGH),), True),
        ((), (RowLanding(RowPlace.ON_BOX),), False),
    ],
)
def test_hard_landings_of_the_feet_begin_at_sixteen(
    landings: tuple[Landing, ...], row_landings: tuple[RowLanding, ...], is_hard: bool
) -> None:
    jump = replace(exercise("push-up"), landings=landings, row_landings=row_landings)
    for age in (12, 15, 16, 30):
        assert bool(barred_by(jump, age=age)) is (is_hard and age < 16)


@pytest.mark.parametrize(
    ("region", "demands", "areas", "lower", "upper"),
    [
        (Region.LOWER, (), (), True, False),
        (Region.UPPER, (), (), False, True),
        (Region.WHOLE, (), (), True, True),
        (Region.UPPER, (Demand.STANDING_WORK,), (), True, True),
        (Region.LOWER, (Demand.BARBELL,), (), True, True),
        (Region.UPPER, (), (BodyArea.KNEE,), True, True),
        (Region.LOWER, (), (BodyArea.SHOULDER,), True, True),
    ],
)
def test_much_pain_spares_the_half_of_the_body_in_which_it_is(
    region: Region,
    demands: tuple[Demand, ...],
    areas: tuple[BodyArea, ...],
    lower: bool,
    upper: bool,
) -> None:
    """Standing work loads the lower half, a bar the upper; the low back lies in both."""
    work = replace(exercise("push-up"), region=region, demands=demands, body_areas=areas)
    for score in (6, 10):
        assert bool(barred_by(work, pains=(Pain(BodyArea.ANKLE_FOOT, score),))) is lower
        assert bool(barred_by(work, pains=(Pain(BodyArea.ELBOW, score),))) is upper
        (both,) = barred_by(work, pains=(Pain(BodyArea.LOW_BACK, score),))
        assert "nothing that loads the body" in both
    assert barred_by(work, pains=(Pain(BodyArea.ANKLE_FOOT, 5),)) == ()


@pytest.mark.parametrize("score", [0, 1, 2, 3])
def test_pain_in_head_and_neck_bars_all_from_its_own_score(score: int) -> None:
    for area, least in ((BodyArea.HEAD, 1), (BodyArea.NECK, 3)):
        reasons = barred_by(exercise("push-up"), pains=(Pain(area, score),))
        said = f"{area} pain {score} of 10: no training, see medical staff"
        assert reasons == ((said,) if score >= least else ())
        assert needs_referral((Pain(area, score),)) is (score >= least)


def test_an_athlete_of_the_level_or_above_may() -> None:
    for asked in Level:
        work = replace(exercise("push-up"), least_level=asked.value)
        for level in Level:
            may = level_rank(level) >= level_rank(asked)
            assert (barred_by(work, level=level) == ()) is may
