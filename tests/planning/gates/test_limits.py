"""Limits: stricter allowed, looser never."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import InvalidInput, NotFound
from squadwright.formulas.sources import find_source
from squadwright.planning.gates.limits import DEFAULT, LIMITS, Settings, Stricter, published


@pytest.mark.parametrize("name", LIMITS)
def test_each_limit_has_a_source_and_refuses_what_is_looser(name: str) -> None:
    limit = published(name)
    assert find_source(limit.source_key)
    assert limit.unit
    looser = limit.value + (Decimal("0.001") if limit.stricter is Stricter.LOWER else -1)
    looser = max(looser, Decimal(0))
    with pytest.raises(InvalidInput, match="is looser than"):
        Settings(((name, looser),))
    assert Settings(((name, limit.value),)).of(name) == limit


@given(st.sampled_from(sorted(LIMITS)), st.integers(0, 100_000))
def test_a_setting_is_accepted_exactly_where_it_is_at_least_as_strict(
    name: str, thousandths: int
) -> None:
    limit, value = published(name), Decimal(thousandths) / 1000
    is_strict = value <= limit.value if limit.stricter is Stricter.LOWER else value >= limit.value
    if is_strict:
        assert Settings(((name, value),)).of(name).value == value
    else:
        with pytest.raises(InvalidInput, match="is looser than"):
            Settings(((name, value),))


def test_a_looser_weekly_limit_is_refused_with_what_to_do() -> None:
    with pytest.raises(InvalidInput) as caught:
        Settings((("weekly loss, stop", Decimal("1.6")),))
    message = str(caught.value)
    assert message.startswith("weekly loss, stop: 1.6 is looser than 1.5 % a week (Turocy")
    assert message.endswith("Give at most 1.5, or leave the setting out")


@pytest.mark.parametrize("value", ["NaN", "Infinity", "-1"])
def test_a_setting_that_is_no_number_is_refused(value: str) -> None:
    with pytest.raises(InvalidInput, match="is not a number from 0"):
        Settings((("weekly loss, stop", Decimal(value)),))


def test_an_unknown_limit_is_refused() -> None:
    with pytest.raises(NotFound, match="weekly loss, stop"):
        Settings((("weekly", Decimal(1)),))


def test_an_own_limit_is_shown_as_own_and_what_is_recalled_as_memory() -> None:
    own = Settings((("energy, low", Decimal(35)),)).of("energy, low")
    assert own.is_own
    assert own.source.startswith("coach's setting, stricter than")
    assert DEFAULT.of("fever").source.endswith("[memory]")
