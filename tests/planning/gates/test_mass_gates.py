"""Gates on body mass: borders to the last digit, with the mark of each figure.

Cases are those of the list of weigh-in and gate cases; "calc" is arithmetic from the stated rule.
"""

from datetime import UTC, date, datetime
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import InvalidInput
from squadwright.model.athlete import MassReading
from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates import mass
from squadwright.planning.gates.limits import Settings
from squadwright.planning.gates.subject import Subject
from squadwright.planning.gates.trend import day_words, mass_trend
from squadwright.units import kilograms, pounds

GROWN = Subject("ana", "Ana", 24)
MINOR = Subject("ben", "Ben", 16)


def severity(item: Finding | None) -> Severity | None:
    return None if item is None else item.severity


@pytest.mark.parametrize(
    ("days", "percent", "expected"),
    [(28, 1.2821, Severity.WARNING), (14, 2.5641, Severity.STOP)],
)
def test_case_5_a_needed_rate(days: int, percent: float, expected: Severity) -> None:
    """Case 5 (calc; 1.5 % second hand, 1.0 % a choice): 78 to 74 kg in 28 and in 14 days."""
    found = mass.needed_weekly_loss(GROWN, kilograms(78), kilograms(74), days)
    assert found is not None
    assert found.severity is expected
    assert found.value == pytest.approx(percent, abs=0.00005)
    assert "of the mass of today" in found.sentence
    assert ("Refer" in found.advice) == (expected is Severity.STOP)


def test_case_6_exactly_the_limit_is_allowed_and_a_hair_more_is_not() -> None:
    """Case 6 (second hand): 1.5 % is not more than 1.5 %; 1.5001 % is."""
    exactly = mass.needed_weekly_loss(GROWN, kilograms("80.0"), kilograms("78.8"), 7)
    assert severity(exactly) is Severity.WARNING
    more = mass.needed_weekly_loss(GROWN, kilograms("100"), kilograms("98.4999"), 7)
    assert more is not None
    assert more.severity is Severity.STOP
    assert "1.5001 % a week" in more.sentence
    assert more.limit == 1.5
    assert more.unit == "% a week"
    assert "second hand" in more.source


def test_one_percent_is_quiet_and_a_hair_more_a_caution() -> None:
    assert mass.weekly_loss_of(GROWN, Decimal("1.0"), "of the mean") is None
    caution = mass.weekly_loss_of(GROWN, Decimal("1.0001"), "of the mean of the window")
    assert caution is not None
    assert caution.severity is Severity.WARNING
    assert "of the mean of the window" in caution.sentence
    assert "memory" in caution.source


@given(tenths=st.integers(400, 1400), loss=st.integers(0, 100), days=st.integers(1, 60))
def test_a_rate_is_judged_exactly(tenths: int, loss: int, days: int) -> None:
    first, last = Decimal(tenths) / 10, Decimal(tenths - loss) / 10
    found = mass.needed_weekly_loss(GROWN, kilograms(first), kilograms(last), days)
    exact = Fraction(loss * 700, tenths * days)
    expected = None
    if exact > 1:
        expected = Severity.STOP if exact > Fraction(3, 2) else Severity.WARNING
    assert severity(found) is expected


def test_a_mass_in_pounds_and_one_in_kilograms_are_compared_exactly() -> None:
    in_kg = kilograms("45.359237")
    assert mass.needed_weekly_loss(GROWN, in_kg, pounds(100), 7) is None
    more = mass.same_day_loss(GROWN, kilograms("50"), pounds(100))
    assert severity(more) is Severity.STOP


def test_no_days_is_refused() -> None:
    with pytest.raises(InvalidInput, match="days: is 0"):
        mass.needed_weekly_loss(GROWN, kilograms(80), kilograms(79), 0)


def test_a_minor_gets_no_plan_however_slow() -> None:
    """Memory, and a choice of this program."""
    for found in (
        mass.needed_weekly_loss(MINOR, kilograms(60), kilograms("59.9"), 300),
        mass.same_day_loss(MINOR, kilograms(60), kilograms("59.9")),
        mass.last_days_loss(
            MINOR, kilograms(60), kilograms("59.9"), hours_to_weigh_in=24, hours_to_recover=30
        ),
    ):
        assert found is not None
        assert found.rule == mass.MINOR
        assert found.severity is Severity.STOP
    for now in (59, 60):
        assert mass.needed_weekly_loss(MINOR, kilograms(now), kilograms(60), 7) is None


@pytest.mark.parametrize(
    ("hours", "stays", "refers"),
    [(72, "75.35", "75.36"), (48, "74.55", "74.56"), (24, "73.54", "73.55")],
)
def test_the_last_days_are_a_line_for_referral(hours: int, stays: str, refers: str) -> None:
    """Read (abstract 2025) and calc: 70.31 kg at 72, 48 and 24 h gives 75.36, 74.56, 73.55 kg."""
    for reading, expected in ((stays, None), (refers, Severity.STOP)):
        found = mass.last_days_loss(
            GROWN,
            kilograms(reading),
            kilograms("70.31"),
            hours_to_weigh_in=hours,
            hours_to_recover=24,
        )
        assert severity(found) is expected
    assert found is not None
    assert "No further loss" in found.advice


def test_too_little_time_to_recover_is_judged_like_the_same_day() -> None:
    found = mass.last_days_loss(
        GROWN, kilograms(73), kilograms("70.31"), hours_to_weigh_in=24, hours_to_recover=23
    )
    assert found is not None
    assert found.rule == mass.SAME_DAY
    assert found.severity is Severity.STOP


@pytest.mark.parametrize(
    ("now", "expected"),
    [("100", None), ("100.01", Severity.WARNING), ("101.04", Severity.STOP), ("98", None)],
)
def test_a_weigh_in_of_the_same_day(now: str, expected: Severity | None) -> None:
    """A choice of this program: caution above 2 %, refer above 3 % of the mass of today."""
    assert severity(mass.same_day_loss(GROWN, kilograms(now), kilograms("98"))) is expected


@pytest.mark.parametrize(("usual", "is_told"), [("80.50", False), ("80.51", True)])
def test_mass_out_of_camp(usual: str, is_told: bool) -> None:
    """Read (abstract 2025): 15 % above the limit of 70 kg is 80.5 kg."""
    found = mass.mass_out_of_camp(GROWN, kilograms(usual), kilograms(70))
    assert (found is not None) is is_told
    if found is not None:
        assert "Review the class" in found.advice


@pytest.mark.parametrize(
    ("today", "expected"),
    [
        ("79.0", None),
        ("78.4", None),
        ("78.39", Severity.WARNING),
        ("77.6", Severity.WARNING),
        ("77.59", Severity.STOP),
    ],
)
def test_morning_mass_below_the_mean_of_the_week(today: str, expected: Severity | None) -> None:
    """Read (2017): effects from about 2 %, usual range down to 3 %."""
    week = [kilograms(m) for m in ("80.2", "79.8", "80.1", "79.9", "80.0", "80.3", "79.7")]
    assert severity(mass.morning_mass(GROWN, kilograms(today), week)) is expected


def test_a_morning_without_a_week_is_refused() -> None:
    with pytest.raises(InvalidInput, match="holds no reading"):
        mass.morning_mass(GROWN, kilograms(80), [])


@pytest.mark.parametrize(
    ("gravity", "word"), [("1.020", None), ("1.021", "significant"), ("1.031", "serious")]
)
def test_urine_of_the_morning(gravity: str, word: str | None) -> None:
    """Bands from memory."""
    found = mass.urine_gravity(GROWN, Decimal(gravity))
    assert (found is None) == (word is None)
    if found is not None:
        assert word is not None
        assert word in found.sentence
        assert "memory" in found.source


def test_cases_3_and_4_urine_before_an_assessment() -> None:
    """Case 3 and 4: 1.025 fails, 1.011 passes (rulebook example, second hand); 24 h later."""
    taken_at = datetime(2025, 10, 1, 8, 0, tzinfo=UTC)
    again = mass.assessment_refused_until(Decimal("1.025"), "college", taken_at)
    assert again == datetime(2025, 10, 2, 8, 0, tzinfo=UTC)
    assert mass.assessment_refused_until(Decimal("1.011"), "college", taken_at) is None
    assert mass.assessment_refused_until(Decimal("1.020"), "college", taken_at) is None
    assert mass.assessment_refused_until(Decimal("1.025"), "high school", taken_at) is None


def test_a_gravity_typed_without_its_one_is_refused() -> None:
    with pytest.raises(InvalidInput, match=r"25 is not between 1\.000 and 1\.060"):
        mass.urine_gravity(GROWN, Decimal("25"))


def test_heavier_after_training() -> None:
    """Read: a gain in exercise is the risk."""
    assert mass.heavier_after_training(GROWN, kilograms("80.0"), kilograms("80.0")) is None
    found = mass.heavier_after_training(GROWN, kilograms("80.0"), kilograms("80.1"))
    assert found is not None
    assert "medical help at once" in found.advice


@pytest.mark.parametrize(("fat", "is_stopped"), [("7.1", False), ("7.0", True), ("6.9", True)])
def test_at_the_floor_of_fat_nothing_more_is_lost(fat: str, is_stopped: bool) -> None:
    """7 % for high-school boys (second hand)."""
    found = mass.floor_of_fat(GROWN, Decimal(fat), Decimal(7), source_key="texas_minimum_weight")
    assert (found is not None) is is_stopped


@pytest.mark.parametrize(
    ("on_the_day", "expected"),
    [
        ("170.5", None),
        ("170.51", Severity.WARNING),
        ("178.25", Severity.WARNING),
        ("178.26", Severity.STOP),
    ],
)
def test_case_8_regain_on_the_day(on_the_day: str, expected: Severity | None) -> None:
    """Case 8 (second hand): exactly 10.0 % is not more than 10 %, nor 15.0 % more than 15."""
    assert severity(mass.fight_day_regain(GROWN, pounds(155), pounds(on_the_day))) is expected


def test_a_stricter_setting_works_and_is_told() -> None:
    own = Settings((("weekly loss, stop", Decimal("1.2")),))
    found = mass.needed_weekly_loss(GROWN, kilograms(78), kilograms(74), 28, settings=own)
    assert found is not None
    assert found.severity is Severity.STOP
    assert found.source.startswith("coach's setting, stricter than Turocy")


def readings(*masses: str, step: int = 1) -> list[MassReading]:
    return [
        MassReading(kilograms(each), date(2025, 3, 1 + step * place))
        for place, each in enumerate(masses)
    ]


WEEK = readings("80.4", "80.1", "80.3", "79.8", "79.9", "79.6", "79.5")


def test_a_trend_says_slope_interval_and_both_rates() -> None:
    """calc; the interval agrees with a statistics library in the tests of the formula."""
    found = mass_trend(list(reversed(WEEK)))
    assert found.slope_kg_a_day == pytest.approx(-0.146429, abs=1e-6)
    assert found.half_width_kg_a_day == pytest.approx(0.067589, abs=1e-6)
    assert found.weekly_loss_of_first == pytest.approx(1.2749, abs=5e-5)
    assert found.weekly_loss_of_mean == pytest.approx(1.2822, abs=5e-5)
    assert found.smoothed_kg == pytest.approx(
        (80.4, 80.325, 80.3188, 80.1891, 80.1168, 79.9876, 79.8657), abs=5.1e-5
    )
    assert found.fitted_on(date(2025, 3, 21)) == pytest.approx(77.453571, abs=1e-6)
    assert day_words(found, 77.46) == "21 Mar 2025"
    assert day_words(found, 80) == "7 Mar 2025"


@pytest.mark.parametrize("masses", [("80", "80.2", "80.4"), ("80", "80", "80")])
def test_a_line_that_is_flat_or_rises_has_no_date(masses: tuple[str, ...]) -> None:
    found = mass_trend(readings(*masses, step=3))
    assert found.slope_kg_a_day is not None
    assert day_words(found, 75) == "no date"


def test_a_line_that_hardly_falls_is_not_followed_for_years() -> None:
    found = mass_trend(readings("80.000", "79.999", "79.998", step=4))
    assert day_words(found, 70) == "no date"


@pytest.mark.parametrize(("count", "step"), [(2, 9), (3, 2), (5, 1)])
def test_too_few_readings_or_days_show_no_slope(count: int, step: int) -> None:
    """A choice of this program: 3 readings over 5 days at least."""
    found = mass_trend(readings(*["80", "79", "78", "77", "76"][:count], step=step))
    assert found.slope_kg_a_day is None
    assert found.weekly_loss_of_first is None
    assert day_words(found, 70) == "no date"
    assert len(found.smoothed_kg) == count


def test_no_reading_at_all_is_refused() -> None:
    with pytest.raises(InvalidInput, match="Enter a reading"):
        mass_trend([])
