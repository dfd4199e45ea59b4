"""The drawing of amounts with their ranges: to scale, from zero, with words of its own."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.web.drawing.interval import MOST_TICKS, Interval, draw_intervals


def test_places_are_in_proportion_on_a_scale_from_zero() -> None:
    picture = draw_intervals(
        (Interval("a", 50, 40, 60, is_measured=True), Interval("b", 100, 80, 125, False))
    )
    first, second = picture.rows
    # The scale ends 4 % beyond 125, at 130.
    assert first.low_percent == pytest.approx(100 * 40 / 130, abs=0.01)
    assert first.width_percent == pytest.approx(100 * 20 / 130, abs=0.01)
    assert second.middle_percent == pytest.approx(100 * 100 / 130, abs=0.01)
    assert [tick.value for tick in picture.ticks] == [0, 50, 100]


@given(
    st.lists(st.floats(min_value=1, max_value=1500), min_size=1, max_size=12),
    st.floats(min_value=0.01, max_value=0.5),
)
def test_nothing_leaves_the_scale_and_its_numbers_fit(middles: list[float], spread: float) -> None:
    picture = draw_intervals(
        Interval("x", m, m * (1 - spread), m * (1 + spread), is_measured=False) for m in middles
    )
    assert 1 <= len(picture.ticks) <= MOST_TICKS + 1
    for row in picture.rows:
        assert 0 <= row.low_percent <= row.middle_percent + 0.01
        # Places are rounded to a hundredth of a per cent.
        assert row.middle_percent <= row.low_percent + row.width_percent + 0.02
        assert row.low_percent + row.width_percent <= 100


def test_nothing_to_draw_is_an_empty_picture() -> None:
    assert draw_intervals(()).rows == ()
