"""No text calls an athlete he: an athlete may be a woman, and the text may not know."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from read_pages import page_of, words_of
from site_server import Browse

BARBELL = "monday-barbell"
PRONOUN = re.compile(r"\b(?:he|his|him|himself)\b", re.IGNORECASE)
HE = re.compile(rf"[^.]{{0,60}}{PRONOUN.pattern}[^.]{{0,40}}", re.IGNORECASE)
SOURCE = Path(__file__).parents[2] / "src" / "squadwright"
# Kept in stores of before, or what somebody else may have written.
STORED = {"everything held of him", "everyone on his own", "against his usual"}
NO_READER = ("planning/gates/means.py",)


@pytest.mark.parametrize(
    "path",
    [
        f"/today/{BARBELL}",
        "/today/wednesday-plyometric",
        f"/today/{BARBELL}/check-in",
        f"/today/{BARBELL}/check-in/A01",
        f"/today/{BARBELL}/late",
        f"/today/{BARBELL}/change/A03?block=Ropewalk",
        f"/missing/{BARBELL}",
        f"/live/{BARBELL}",
        f"/done/{BARBELL}",
        f"/done/{BARBELL}/effort",
        f"/paper/{BARBELL}",
        f"/sessions/{BARBELL}/sheets",
        "/squad/athlete/A11/swaps",
        "/squad/athlete/A11/restrictions",
        "/wellness",
        "/wellness/A11",
        "/notice",
    ],
)
def test_no_page_of_the_day_calls_an_athlete_he(browse: Browse, path: str) -> None:
    page = page_of(browse.get(path))
    assert HE.findall(words_of(page.find("body"))) == []


def texts_of(path: Path) -> Iterator[str]:
    """The texts of a module but its docstrings."""
    source = path.read_text(encoding="utf-8")
    tree = ast.parse(source if PRONOUN.search(source) else "")
    docs = {id(n.value) for n in ast.walk(tree) if isinstance(n, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs:
            yield node.value


def test_no_text_of_the_program_calls_an_athlete_he() -> None:
    said = [
        (str(path.relative_to(SOURCE)), text)
        for path in sorted(SOURCE.rglob("*.py"))
        for text in texts_of(path)
        if PRONOUN.search(text) and text not in STORED
    ]
    assert [each for each in said if not each[0].startswith(NO_READER)] == []


def test_no_template_calls_an_athlete_he() -> None:
    for path in sorted(SOURCE.rglob("*.html")):
        assert HE.findall(path.read_text(encoding="utf-8")) == [], path.name
