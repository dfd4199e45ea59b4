"""No text of the program names a means of losing mass: pages, prints, library, docs, messages."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from squadwright.planning.gates.means import KINDS, kinds_of_means_in

PROJECT = Path(__file__).parent.parent
TEXTS = {".html", ".js", ".toml", ".typ", ".css", ".json", ".txt", ".md"}
# The words by which a means is recognised stand in one file, and nowhere else.
RECOGNISED_IN = "src/squadwright/planning/gates/means.py"
# Symptoms asked about before training, and a movement that happens to be called so.
OTHER_SENSE = {
    "src/squadwright/planning/gates/first_weeks.py": {"vomiting"},
    "src/squadwright/planning/gates/illness.py": {"vomiting"},
    "src/squadwright/model/medical.py": {"vomiting"},
    "docs/reference/data-files.md": {"vomiting"},
    "docs/reference/labels.md": {"vomiting"},
    "docs/reference/file-schemas.md": {"vomiting"},
    "src/squadwright/library/data/exercises/medicine_ball.toml": {"throw up"},
}


def texts(path: Path) -> Iterator[str]:
    """Every text of a file that somebody may read: strings of Python, lines of the rest."""
    source = path.read_text(encoding="utf-8")
    if path.suffix == ".py":
        for node in ast.walk(ast.parse(source)):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield node.value
    else:
        yield from source.splitlines()


def files() -> list[Path]:
    written = [p for p in (PROJECT / "src").rglob("*") if p.suffix in TEXTS | {".py"}]
    return sorted([*written, *(PROJECT / "docs").rglob("*.md"), *PROJECT.glob("*.md")])


def test_no_text_names_a_means_of_losing_mass() -> None:
    found = []
    for path in files():
        name = path.relative_to(PROJECT).as_posix()
        if name == RECOGNISED_IN:
            continue
        for text in texts(path):
            plain = text
            for word in OTHER_SENSE.get(name, ()):
                plain = plain.replace(word, "")
            found += [f"{name}: {kind}: {text[:80]}" for kind in kinds_of_means_in(plain)]
    assert len(files()) > 500
    assert found == []


@pytest.mark.parametrize("kind", [kind for kind, _, _ in KINDS])
def test_what_a_refusal_says_teaches_nothing(kind: str) -> None:
    """The name of a kind is the most that is ever answered; it is none of the words itself."""
    assert kinds_of_means_in(f"the plan names a means that is not allowed ({kind})") == ()
