"""Bars and time bands: what lies where."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.printing.loaded_bars import Disc
from squadwright.web.drawing.bar import draw_bar
from squadwright.web.drawing.time_band import MOST_TICKS, Span, draw_time_band

# 450 mm for a full-size disc: rule of the International Weightlifting Federation (from memory).
FULL = Disc("20", 450, 45)
HALF = Disc("5", 225, 30)


def test_diameters_are_to_scale_with_each_other() -> None:
    full, half = draw_bar((FULL, HALF)).discs
    assert half.height == pytest.approx(full.height / 2, abs=0.1)


def test_discs_lie_side_by_side_in_order_and_on_the_axis() -> None:
    drawing = draw_bar((FULL, FULL, HALF))
    assert [disc.label for disc in drawing.discs] == ["20", "20", "5"]
    for inner, outer in pairwise(drawing.discs):
        assert inner.x + inner.width <= outer.x
    for block in (*drawing.discs, *drawing.metal):
        assert block.y + block.height / 2 == pytest.approx(drawing.middle, abs=0.11)
        assert block.x >= 0
        assert block.x + block.width <= drawing.width
        assert block.y >= 0
        assert block.y + block.height <= drawing.height


def test_bars_of_any_load_are_drawn_to_the_same_scale() -> None:
    assert draw_bar(()).height == draw_bar((FULL,)).height
    assert draw_bar((HALF,)).discs[0].height == draw_bar((FULL, HALF)).discs[1].height


def test_a_span_lies_at_its_share_of_the_time() -> None:
    band = draw_time_band((("A", (Span(300, 600, "Round 1"),)),), 1200)
    (drawn,) = band.rows[0].spans
    assert (drawn.x_percent, drawn.width_percent) == (25.0, 25.0)


def test_words_stand_only_where_they_fit() -> None:
    spans = (
        Span(0, 900, "Warm-up", "W"),
        Span(900, 1000, "Rehearsal", "R"),
        Span(1000, 1003, "Go", "G"),
    )
    (row,) = draw_time_band((("A", spans),), 1200).rows
    assert [s.wide_words for s in row.spans] == ["Warm-up", "R", ""]
    assert [s.narrow_words for s in row.spans] == ["Warm-up", "R", ""]


@given(st.integers(60, 14_400))
def test_ticks_are_few_and_inside(total_s: int) -> None:
    ticks = draw_time_band((), total_s).ticks
    assert 1 <= len(ticks) <= MOST_TICKS + 1
    assert all(0 <= tick.x_percent < 100 for tick in ticks)
    assert ticks[0].at_s == 0
