"""Limits: stricter allowed, looser never; and what lifts a gate."""

from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import InvalidInput, NotFound
from squadwright.formulas.sources import find_source
from squadwright.model.athlete import AuthorRole
from squadwright.model.plan import Severity
from squadwright.planning.gates import mass, means
from squadwright.planning.gates.lifting import NEVER_LIFTED, MedicalEntry, still_in_force
from squadwright.planning.gates.limits import DEFAULT, LIMITS, Settings, Stricter, published
from squadwright.planning.gates.subject import Subject
from squadwright.units import kilograms

ANA = Subject("ana", "Ana", 24)
DAY = date(2025, 3, 1)


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


def entry(*lifts: str, until: date | None = None) -> MedicalEntry:
    return MedicalEntry("Dr Example", AuthorRole.MEDICAL, "12345", DAY, lifts, until)


def test_only_a_medical_entry_lifts_what_it_names_while_it_holds() -> None:
    stop = mass.needed_weekly_loss(ANA, kilograms(78), kilograms(74), 14)
    assert stop is not None
    assert stop.severity is Severity.STOP
    assert still_in_force([stop], [], DAY) == (stop,)
    assert still_in_force([stop], [entry("something else")], DAY) == (stop,)
    named = entry(mass.WEEKLY, until=DAY + timedelta(days=7))
    assert still_in_force([stop], [named], DAY) == ()
    assert still_in_force([stop], [named], DAY - timedelta(days=1)) == (stop,)
    assert still_in_force([stop], [named], DAY + timedelta(days=8)) == (stop,)


def test_nobody_lifts_a_prohibited_means_or_the_age() -> None:
    from datetime import UTC, datetime

    ben = Subject("ben", "Ben", 16)
    answer = means.judge_plan(ben, "sauna", at=datetime(2025, 3, 1, tzinfo=UTC))
    assert {item.rule for item in answer.findings} == set(NEVER_LIFTED)
    assert still_in_force(answer.findings, [entry(*NEVER_LIFTED)], DAY) == answer.findings
