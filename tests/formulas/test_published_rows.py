"""Every printed or worked-out value of the formulas, at half a unit of its last digit.

In ``tests/published``: ``provenance`` is "read" for a number seen in print, "memory" for one
recalled, "calc" for arithmetic from the stated equation.
"""

import csv
from decimal import Decimal
from pathlib import Path

import pytest

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.registry import all_formulas
from squadwright.formulas.sources import all_sources

PUBLISHED = Path(__file__).parent.parent / "published"
ROWS = [
    pytest.param(row, id=f"{row['formula']}({row['inputs'].replace(' ', ',')})")
    for path in sorted(PUBLISHED.glob("*.csv"))
    for row in csv.DictReader(path.read_text(encoding="utf-8").splitlines())
    if "formula" in row
]


def arguments(row: dict[str, str]) -> dict[str, object]:
    rules = all_formulas()[row["formula"]].rules
    pairs = (pair.partition("=")[::2] for pair in row["inputs"].split())
    return {name: rules[name].read(name, text) for name, text in pairs}


def compute(row: dict[str, str]) -> float:
    return all_formulas()[row["formula"]].call(**arguments(row))


@pytest.mark.parametrize("row", [r for r in ROWS if r.values[0]["expected"] != "refused"])
def test_a_formula_gives_the_value_in_its_row(row: dict[str, str]) -> None:
    half_a_unit = 0.5 * 10.0 ** -int(row["decimals"])
    assert abs(compute(row) - float(row["expected"])) <= half_a_unit * (1 + 1e-9)


@pytest.mark.parametrize("row", [r for r in ROWS if r.values[0]["expected"] == "refused"])
def test_a_formula_refuses_what_its_row_says_it_cannot_give(row: dict[str, str]) -> None:
    with pytest.raises(OutsidePublishedRange):
        compute(row)


@pytest.mark.parametrize("row", ROWS)
def test_a_row_says_where_it_is_from_and_how_many_digits_it_prints(row: dict[str, str]) -> None:
    assert row["source"] in all_sources()
    assert row["provenance"] in {"read", "memory", "calc"}
    if row["expected"] != "refused":
        assert -Decimal(row["expected"]).as_tuple().exponent == int(row["decimals"])


def test_every_formula_has_a_row() -> None:
    assert {row.values[0]["formula"] for row in ROWS} >= set(all_formulas()) - WITHOUT_A_ROW


WITHOUT_A_ROW = {"one_rep_max", "repetitions_at_fraction"}
"""Covered by tests of their own."""
