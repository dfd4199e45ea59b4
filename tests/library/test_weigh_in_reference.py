"""The reference page of the weigh-in rules is written from the library and up to date."""

from pathlib import Path

from squadwright.library.weigh_in_reference import page
from squadwright.library.weigh_ins import weigh_in_rules

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "weigh-ins.md"


def test_the_page_in_the_documentation_is_up_to_date() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "run `make docs`"


def test_every_rule_stands_there_with_its_sources() -> None:
    text = page()
    for rule in weigh_in_rules():
        assert f"## {rule.body}\n" in text
        assert all(group.source in text for group in rule.groups)
        assert all(item.source in text for item in rule.weigh_ins)


def test_a_class_that_is_recalled_in_a_row_that_is_not_is_bold() -> None:
    assert "**130**" in page()
    assert "**51**, **54**, **57**, **60**, 65, 70, 75" in page()
