"""The reference page of the gates is written from the limits and up to date."""

from pathlib import Path

from squadwright.formulas.sources import find_source
from squadwright.planning.gates.limits import LIMITS
from squadwright.planning.gates.means import kinds_of_means_in
from squadwright.planning.gates.reference import page

PAGE = Path(__file__).parents[3] / "docs" / "reference" / "safety-gates.md"


def test_the_page_in_the_documentation_is_up_to_date() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "run `make docs`"


def test_every_limit_stands_there_with_its_mark() -> None:
    text = page()
    for limit in LIMITS.values():
        mark = find_source(limit.source_key).provenance.value
        (row,) = [line for line in text.splitlines() if line.startswith(f"| {limit.name} |")]
        assert f"| {limit.value} | {limit.unit} |" in row
        assert row.endswith(f"| {mark} |")


def test_no_line_of_the_page_names_a_means() -> None:
    assert [line for line in page().splitlines() if kinds_of_means_in(line)] == []
