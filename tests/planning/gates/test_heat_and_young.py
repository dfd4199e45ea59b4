"""Heat rows with their borders, and lifting under 18."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.formulas.wet_bulb_globe import wet_bulb_globe_indoors, wet_bulb_globe_outdoors
from squadwright.model.plan import Severity
from squadwright.planning.gates.heat import (
    CUT_IN_HEAT,
    KNOWN_ILLNESS,
    RULE,
    fahrenheit,
    heat,
    heat_row,
    heat_row_of_minors,
)
from squadwright.planning.gates.subject import Subject
from squadwright.planning.gates.young_lifters import (
    LiftingToday,
    before_a_strength_test,
    lifting_under_18,
)

GROWN = Subject("ana", "Ana", 24)
MINOR = Subject("ben", "Ben", 16)


def test_case_15_a_hot_day_and_one_that_is_cancelled_for_all() -> None:
    """Case 15: 28.7 degC is 83.66 degF, row 2 (second hand, 2007); 32.3 is cancelled."""
    measured = round(Decimal(str(wet_bulb_globe_outdoors(25, 40, 32))), 2)
    assert fahrenheit(measured) == Decimal("83.66")
    assert heat_row(measured) == 2
    (found,) = heat(GROWN, measured, is_used_to_heat=False)
    assert found.severity is Severity.WARNING
    assert "rest as long as the work" in found.sentence
    for used in (False, True):
        (stopped,) = heat(GROWN, Decimal("32.3"), is_used_to_heat=used)
        assert stopped.severity is Severity.STOP
        assert "cancel" in stopped.sentence


def test_indoors_is_row_1() -> None:
    """calc; the weights without sun are from memory."""
    assert heat_row(Decimal(str(wet_bulb_globe_indoors(25, 31)))) == 1


@pytest.mark.parametrize(
    ("celsius", "row"),
    [
        ("27.7", 1),
        ("27.77", 1),
        ("27.78", 2),
        ("27.8", 2),
        ("30.0", 2),
        ("30.01", 3),
        ("32.2", 3),
        ("32.22", 3),
        ("32.23", 4),
    ],
)
def test_the_gap_between_printed_rows_belongs_to_the_lower_one_up_to_its_border(
    celsius: str, row: int
) -> None:
    """82.0, 86.0 and 90.0 degF are 27.778, 30.0 and 32.222 degC (calc)."""
    assert heat_row(Decimal(celsius)) == row


GRID = [
    (1, False, Severity.NOTE),
    (1, True, None),
    (2, False, Severity.WARNING),
    (2, True, Severity.NOTE),
    (3, False, Severity.STOP),
    (3, True, Severity.WARNING),
    (4, False, Severity.STOP),
    (4, True, Severity.STOP),
]


@pytest.mark.parametrize(("row", "is_used", "expected"), GRID)
def test_each_row_for_each_athlete(row: int, is_used: bool, expected: Severity | None) -> None:
    """Second hand (2007)."""
    celsius = Decimal(("26", "29", "31", "33")[row - 1])
    found = heat(GROWN, celsius, is_used_to_heat=is_used)
    assert [item.severity for item in found] == ([] if expected is None else [expected])


@pytest.mark.parametrize(
    ("celsius", "row"),
    [("23.9", 1), ("24", 2), ("25.9", 2), ("25.95", 2), ("26", 3), ("29", 3), ("29.01", 4)],
)
def test_rows_of_the_young(celsius: str, row: int) -> None:
    """Second hand (American Academy of Pediatrics)."""
    assert heat_row_of_minors(Decimal(celsius)) == row


def test_a_minor_is_held_to_the_stricter_table() -> None:
    (found,) = heat(MINOR, Decimal("26.5"), is_used_to_heat=False)
    assert found.severity is Severity.STOP
    assert found.unit == "degC WBGT"
    (hotter,) = heat(MINOR, Decimal("29.5"), is_used_to_heat=True)
    assert hotter.severity is Severity.STOP
    (drink,) = heat(MINOR, Decimal("24.5"), is_used_to_heat=True)
    assert "a drink every 15 minutes" in drink.sentence


def test_a_plan_to_lose_mass_never_goes_with_heat() -> None:
    rules = [
        item.rule
        for item in heat(
            GROWN,
            Decimal("28.7"),
            is_used_to_heat=True,
            has_weight_plan=True,
            has_had_heat_illness=True,
        )
    ]
    assert rules == [RULE, CUT_IN_HEAT, KNOWN_ILLNESS]
    meant = heat(
        GROWN, Decimal(20), is_used_to_heat=True, is_heat_session=True, has_weight_plan=True
    )
    assert [item.rule for item in meant] == [CUT_IN_HEAT]
    assert heat(GROWN, Decimal(20), is_used_to_heat=True, has_weight_plan=True) == ()


@given(st.integers(-1000, 5000), st.integers(0, 500))
def test_hotter_is_never_a_lower_row(hundredths: int, more: int) -> None:
    cooler, hotter = Decimal(hundredths) / 100, Decimal(hundredths + more) / 100
    assert heat_row(cooler) <= heat_row(hotter)
    assert heat_row_of_minors(cooler) <= heat_row_of_minors(hotter)


FINE = LiftingToday(
    share_of_maximum=Decimal("0.60"),
    sets=2,
    days_this_week=3,
    has_consent=True,
    supervisor="A. Coach",
    has_technique=True,
    step_of_load=Decimal("0.10"),
)


def test_a_young_lifter_with_everything_in_place_is_let_alone() -> None:
    assert lifting_under_18(MINOR, FINE) == ()


@pytest.mark.parametrize(
    ("change", "words", "severity"),
    [
        ({"has_consent": False}, "no consent", Severity.STOP),
        ({"supervisor": " "}, "names no supervisor", Severity.STOP),
        ({"has_technique": False}, "technique is not ticked off", Severity.STOP),
        ({"is_day_after_lifting": True}, "lifted yesterday", Severity.WARNING),
    ],
)
def test_what_a_young_lifter_needs_first(
    change: dict[str, object], words: str, severity: Severity
) -> None:
    """That lifting of the young is supervised is read; technique first is read as well."""
    found = lifting_under_18(MINOR, replace(FINE, **change))  # type: ignore[arg-type]
    assert [item.severity for item in found] == [severity]
    assert words in found[0].sentence
    assert lifting_under_18(GROWN, replace(FINE, **change)) == ()  # type: ignore[arg-type]


def test_with_the_bare_bar_alone_he_learns_and_the_words_stay() -> None:
    bare = replace(FINE, has_consent=False, has_technique=False, share_of_maximum=Decimal(0))
    found = lifting_under_18(MINOR, bare)
    assert [item.severity for item in found] == [Severity.WARNING, Severity.NOTE]


def test_a_strength_test_waits_for_consent_technique_and_a_growth_check() -> None:
    """That a test of the young waits for them is from memory."""
    ready = {"has_consent": True, "has_technique": True, "is_growth_checked": True}
    assert before_a_strength_test(**ready) == ()
    for name in ready:
        (words,) = before_a_strength_test(**{**ready, name: False})
        assert words.split()[0] in ("no", "technique", "growth")


@pytest.mark.parametrize(
    ("change", "limit"),
    [
        ({"share_of_maximum": Decimal("0.61")}, 0.60),
        ({"share_of_maximum": Decimal("0.81"), "is_beginner": False}, 0.80),
        ({"sets": 3}, 2.0),
        ({"sets": 5, "is_beginner": False}, 4.0),
        ({"days_this_week": 4}, 3.0),
        ({"step_of_load": Decimal("0.11")}, 0.10),
    ],
)
def test_numbers_of_a_young_lifter(change: dict[str, object], limit: float) -> None:
    """Memory."""
    found = lifting_under_18(MINOR, replace(FINE, **change))  # type: ignore[arg-type]
    assert [item.limit for item in found] == [limit]
    assert "memory" in found[0].source
