"""Greatest heart rate, impulses by author and step tests: wrong variants stay out."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas import heart_rate as heart
from squadwright.formulas import training_impulse as impulse
from squadwright.formulas.registry import find_formula
from squadwright.formulas.sources import Provenance
from squadwright.formulas.step_test import step_index_harvard
from squadwright.formulas.training_impulse import TrainingImpulse, minutes_in_edwards_zones


def test_the_line_printed_elsewhere_under_the_name_of_tanaka_is_not_his() -> None:
    assert heart.heart_rate_maximum_tanaka(25) == 190.5
    assert heart.heart_rate_maximum_tanaka(25) != pytest.approx(217 - 0.85 * 25)


def test_the_womens_impulse_does_not_keep_the_mens_constant() -> None:
    """84.478 is what a page gets that keeps 0.64."""
    ours = impulse.training_impulse_banister_women(60, 150, resting_bpm=60, maximum_bpm=190)
    share = 90 / 130
    assert 60 * share * 0.64 * math.exp(1.67 * share) == pytest.approx(84.478, abs=5e-4)
    assert ours == pytest.approx(113.517, abs=5e-4)


@given(st.floats(0, 1))
def test_share_and_heart_rate_of_the_reserve_undo_each_other(share: float) -> None:
    rate = heart.heart_rate_at_reserve_karvonen(share, 60, 190)
    assert heart.reserve_fraction(min(rate, 190), 60, 190) == pytest.approx(share, abs=1e-12)


def test_a_heart_rate_outside_resting_to_maximum_is_refused() -> None:
    assert impulse.training_impulse_banister_men(60, 60, resting_bpm=60, maximum_bpm=190) == 0
    for rate in (59, 191):
        with pytest.raises(OutsidePublishedRange, match=f"heart_rate_bpm is {rate}; .* 60 to 190"):
            impulse.training_impulse_banister_men(60, rate, resting_bpm=60, maximum_bpm=190)
    with pytest.raises(OutsidePublishedRange, match="resting_bpm is 110"):
        heart.heart_rate_at_reserve_karvonen(0.5, 110, 105)


@given(st.floats(61, 189))
def test_an_impulse_rises_with_heart_rate_for_men_and_women(rate: float) -> None:
    for by_author in (
        impulse.training_impulse_banister_men,
        impulse.training_impulse_banister_women,
    ):
        lower = by_author(60, rate, resting_bpm=60, maximum_bpm=190)
        assert lower < by_author(60, rate + 1, resting_bpm=60, maximum_bpm=190)


def test_zones_hold_their_lower_end_and_the_last_one_both() -> None:
    """Maximum 200: zones begin at 100, 120, 140, 160, 180."""
    readings = [99, 100, 100, 119.9, 120, 140, 140, 160, 180, 200, None, 201]
    found = minutes_in_edwards_zones(readings, interval_s=60, maximum_bpm=200)
    assert found.zones_min == (3, 1, 2, 1, 2)
    assert (found.below_min, found.above_maximum_min, found.unknown_min) == (1, 1, 1)


def test_a_series_scores_what_its_minutes_score() -> None:
    readings = [110.0] * 10 + [130] * 15 + [150] * 20 + [170] * 10 + [190] * 5
    found = minutes_in_edwards_zones(
        [rate for rate in readings for _ in range(12)], interval_s=5, maximum_bpm=200
    )
    assert impulse.training_impulse_edwards(found.zones_min) == pytest.approx(165)


def test_impulses_of_one_method_add_up_and_those_of_two_are_refused() -> None:
    edwards, banister = TrainingImpulse(165, "edwards"), TrainingImpulse(100.4, "banister")
    assert impulse.add_impulses([edwards, edwards]) == TrainingImpulse(330, "edwards")
    with pytest.raises(InvalidInput, match=r"come from 2 methods \(banister, edwards\)"):
        impulse.add_impulses([edwards, banister])
    with pytest.raises(InvalidInput, match="come from 0 methods"):
        impulse.add_impulses([])


def test_four_or_six_zones_are_refused() -> None:
    with pytest.raises(InvalidInput, match=r"zones_min: holds 6 numbers\. Give 5 numbers"):
        impulse.training_impulse_edwards([10] * 6)
    with pytest.raises(InvalidInput, match="zones_min: holds 4 numbers"):
        impulse.training_impulse_lucia([10] * 4)


def test_a_heart_rate_that_rises_after_the_end_has_a_negative_recovery() -> None:
    assert heart.heart_rate_recovery(170, 175) == -5
    assert "not for hard rounds" in find_formula("heart_rate_recovery").notes


def test_who_stops_stepping_early_has_a_lower_index() -> None:
    assert step_index_harvard(150, [82, 68, 58]) == step_index_harvard(300, [82, 68, 58]) / 2
    with pytest.raises(OutsidePublishedRange, match="stepping_s is 301"):
        step_index_harvard(301, [82, 68, 58])


@pytest.mark.parametrize(
    "name",
    [
        "heart_rate_maximum_gellish_curved",
        "training_impulse_lucia",
        "rmssd",
        "ln_rmssd_band",
        "step_index_harvard",
        "exponential_mean_load",
        "wellness_hooper",
        "ewma_limit_distance",
    ],
)
def test_what_is_recalled_is_marked_as_recalled(name: str) -> None:
    assert Provenance.MEMORY in {source.provenance for source in find_formula(name).sources}
