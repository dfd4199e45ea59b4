"""Totals of questionnaires: opposite directions, and no total with an item missing."""

import pytest

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.wellness_score import HOOPER, MCLEAN, wellness_hooper, wellness_mclean

HARD_DAY = {"fatigue": 3, "sleep": 4, "soreness": 2, "stress": 3}
GOOD_DAY = {"fatigue": 4, "sleep": 3, "soreness": 4, "stress": 4, "mood": 5}


def test_totals_are_those_of_the_formulas() -> None:
    assert HOOPER.total(HARD_DAY) == wellness_hooper(**HARD_DAY) == 12
    assert MCLEAN.total(GOOD_DAY) == wellness_mclean(**GOOD_DAY) == 20


def test_the_ends_of_both_scales() -> None:
    assert [HOOPER.total(dict.fromkeys(HOOPER.items, step)) for step in (1, 7)] == [4, 28]
    assert [MCLEAN.total(dict.fromkeys(MCLEAN.items, step)) for step in (1, 5)] == [5, 25]


def test_the_same_rise_is_worse_on_one_scale_and_better_on_the_other() -> None:
    assert HOOPER.is_worse(20, 12)
    assert not MCLEAN.is_worse(20, 12)
    assert MCLEAN.is_worse(12, 20)
    assert not HOOPER.is_worse(12, 12)


@pytest.mark.parametrize("item", HOOPER.items)
def test_a_missing_item_leaves_no_total(item: str) -> None:
    assert HOOPER.total({**HARD_DAY, item: None}) is None
    assert HOOPER.total({name: n for name, n in HARD_DAY.items() if name != item}) is None


def test_answers_outside_the_steps_and_unknown_items_are_refused() -> None:
    with pytest.raises(OutsidePublishedRange, match="sleep is 8"):
        HOOPER.total({**HARD_DAY, "sleep": 8})
    with pytest.raises(OutsidePublishedRange, match="mood is 6"):
        MCLEAN.total({**GOOD_DAY, "mood": 6})
    with pytest.raises(InvalidInput, match="mood: is no item of hooper"):
        HOOPER.total({**HARD_DAY, "mood": 3})
