"""Regressions from a five-repetition maximum, one lift each."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.one_rep_max_from_five import (
    one_rep_max_bench_press_reynolds,
    one_rep_max_leg_press_reynolds,
)
from squadwright.formulas.registry import all_formulas

BOTH = (one_rep_max_bench_press_reynolds, one_rep_max_leg_press_reynolds)


def test_the_published_standard_errors_stand_beside_the_lines() -> None:
    """Reynolds and others 2006: 2.98 kg for the bench press, 16.16 kg for the leg press."""
    formulas = all_formulas()
    assert formulas["one_rep_max_bench_press_reynolds"].standard_error == 2.98
    assert formulas["one_rep_max_leg_press_reynolds"].standard_error == 16.16


@pytest.mark.parametrize("line", BOTH)
def test_ends_are_usable_and_just_outside_is_refused(line) -> None:
    assert line(1000) > line(0.5) > 0.5
    for load_kg in (0, -1, 1000.1):
        with pytest.raises(OutsidePublishedRange, match="five_rep_max_kg is"):
            line(load_kg)


@given(load_kg=st.floats(1, 400), more_kg=st.floats(0.5, 100))
def test_a_heavier_five_means_a_heavier_single(load_kg: float, more_kg: float) -> None:
    for line in BOTH:
        assert load_kg < line(load_kg) < line(load_kg + more_kg)
