"""The page of published sets, from a few made-up findings and sets of fewer people."""

import re
from functools import cache

import pytest

from squadwright.planning.dose import validation
from squadwright.planning.dose.fatigue import GROUPS, FatigueConstants
from squadwright.planning.dose.protocol import read_protocol
from squadwright.planning.dose.published_sets import Finding, Use
from squadwright.planning.dose.set_series import SeriesResult, simulate_series

FOUND = [
    Finding("willardson_2005", Use.FITTED, "one", "1.26", "1.20", True),
    Finding("willardson_2005", Use.FITTED, "two", "1.50", "1.90", False),
    Finding("speretta_2012", Use.CHECKED, "three", "26", "27", True),
]


@cache
def few(exercise: str, intensity: str, sets: int, rest_s: float) -> SeriesResult:
    protocol = read_protocol(exercise, intensity, sets, rest_s, "max")
    return simulate_series(protocol.sets(), people_count=80)


@pytest.fixture
def page(monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.setattr(validation, "findings", lambda: FOUND)
    monkeypatch.setattr(validation, "run", few)
    return validation.page()


def cells(line: str) -> list[str]:
    return [cell.strip() for cell in line.strip("|").split("|")]


def table(page: str, heading: str) -> list[list[str]]:
    """The rows of the table under a heading, without its head and rule."""
    part = page.split(f"## {heading}\n")[1].split("\n## ")[0]
    return [cells(line) for line in part.splitlines() if line.startswith("|")][2:]


def test_it_counts_what_holds_by_use_and_lists_each_finding_under_its_own(page: str) -> None:
    assert "- fitted: 1 of 2 hold" in page
    assert "- kept out of the fit: 1 of 1 hold" in page
    assert "- soft check, from memory: 0 of 0 hold" in page
    fitted = table(page, "Fitted")
    assert [row[1:] for row in fitted] == [
        ["one", "1.26", "1.20", "holds"],
        ["two", "1.50", "1.90", "**misses**"],
    ]
    assert "Willardson" in fitted[0][0]
    assert [row[1] for row in table(page, "Kept out of the fit")] == ["three"]
    assert table(page, "From memory") == []


def test_totals_are_given_for_each_rest_and_never_fall_as_it_grows(page: str) -> None:
    heading = "Totals never fall as rest grows"
    part = page.split(f"## {heading}\n")[1]
    head = next(line for line in part.splitlines() if line.startswith("| Protocol"))
    rests = [int(found) for found in re.findall(r"(\d+) s", head)]
    assert rests == sorted(rests)
    rows = table(page, heading)
    assert len(rows) == 5
    for name, *totals in rows:
        numbers = [float(each) for each in totals]
        assert len(numbers) == len(rests)
        assert numbers == sorted(numbers)
        exercise, sets, load = re.fullmatch(r"(.*), (\d) sets at (\S+)", name).groups()  # type: ignore[union-attr]
        mean = few(exercise, load, int(sets), rests[0]).totals().mean()
        assert numbers[0] == pytest.approx(mean, abs=0.051)


def test_each_constant_stands_with_its_value_and_each_source_once(page: str) -> None:
    rows = dict(table(page, "Constants"))
    constants = FatigueConstants()
    assert float(rows["load_exponent"]) == constants.load_exponent
    assert float(rows["strength_sd"]) == constants.strength_sd
    for group in GROUPS:
        fast, slow, factor = rows[f"{group}: fast, slow, repetition factor"].split(", ")
        assert fast == f"{constants.fast_s[group]:g} s"
        assert slow == f"{constants.slow_s[group]:g} s"
        assert float(factor) == constants.repetition_factor[group]
    sources = page.split("## Sources\n")[1].strip().splitlines()
    assert [line[:4] for line in sources] == ["- Sp", "- Wi"]
