"""The reference page of the formulas is written from the list and up to date."""

from pathlib import Path

from squadwright.formulas.reference import page
from squadwright.formulas.registry import all_formulas

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "formulas.md"


def test_the_page_in_the_documentation_is_up_to_date() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "run `make docs`"


def test_every_formula_has_a_section_and_names_its_source() -> None:
    text = page()
    for formula in all_formulas().values():
        assert f"\n## {formula.name}\n" in text
        assert all(f"`{key}`" in text for key in formula.source_keys)
