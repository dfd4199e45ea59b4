"""The page of file schemas: up to date, and complete beside a schema read by itself."""

from pathlib import Path
from typing import Any

import pytest

from squadwright.exchange.schema import club_schema, plan_schema, record_schema, routine_schema
from squadwright.exchange.schema_reference import page

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "file-schemas.md"
SCHEMAS = {
    "club": club_schema(),
    "plan": plan_schema(),
    "routine": routine_schema(),
    "record": record_schema(),
}


def test_the_page_in_the_documentation_is_up_to_date() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "run `make docs`"


@pytest.mark.parametrize("document", SCHEMAS)
def test_every_field_of_every_class_has_a_row_that_says_what_it_holds(document: str) -> None:
    parts = {part.splitlines()[0]: part for part in page().split("\n### ")}
    checked = 0
    for name, body in SCHEMAS[document]["$defs"].items():
        for field, inner in body.get("properties", {}).items():
            (row,) = [r for r in parts[name].splitlines() if r.startswith(f"| `{field}` |")]
            assert inner["description"].split()[0] in row
            assert ("| yes |" in row) == (
                field in body["required"] if "required" in body else False
            )
            checked += 1
        words: list[Any] = body.get("enum", [])
        assert [word for word in words if f"`{word}`" not in parts[name]] == []
    assert checked > 20


@pytest.mark.parametrize("document", SCHEMAS)
def test_every_field_of_the_document_itself_is_there(document: str) -> None:
    part = page().split(f"`squadwright schema {document}`.\n")[1].split("\n#")[0]
    for field in SCHEMAS[document]["properties"]:
        assert f"| `{field}` |" in part
