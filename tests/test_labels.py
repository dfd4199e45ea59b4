"""The reference page of labels holds every word, column, colour and picture a user sees."""

import re
import sys
from collections.abc import Iterable
from pathlib import Path

from squadwright.formulas.sources import all_sources

PROJECT = Path(__file__).parent.parent
sys.path.insert(0, str(PROJECT / "tools"))

from labels.label import Label  # noqa: E402
from labels.list_page import PARTS, all_labels, page, terms, terms_in  # noqa: E402
from labels.pictures import picture_labels  # noqa: E402
from labels.program_words import enumeration_labels, program_labels  # noqa: E402
from labels.script_words import script_labels, sheet_labels  # noqa: E402
from labels.template_words import template_labels  # noqa: E402


def written(folder: Path, name: str, text: str) -> Path:
    """A folder with one file in it."""
    (folder / name).write_text(text, encoding="utf-8")
    return folder


def words(labels: Iterable[Label], kind: str) -> list[str]:
    """The words of the labels of one kind, in order."""
    return sorted(label.words for label in set(labels) if label.kind == kind)


def test_the_page_of_labels_is_what_the_program_shows_now() -> None:
    held = (PROJECT / "docs" / "reference" / "labels.md").read_text(encoding="utf-8")
    now = page()
    new = sorted(set(now.splitlines()) - set(held.splitlines()))
    assert new == [], "run `make docs`, and look at each new label: whose word is it?"
    assert held == now


def test_a_label_is_found_wherever_a_template_may_hold_it(tmp_path: Path) -> None:
    text = """
    {% macro key(said) %}<button>{{ said }}</button>{% endmacro %}
    {% macro heads(all) %}{% for each in all %}<th>{{ each }}</th>{% endfor %}{% endmacro %}
    <h2>Spare {{ thing }}</h2>{{ key("Put it back") }}{{ heads(("Bar", "Plates")) }}
    {% if a %}<p aria-label="Who lifts"><a href="/">{{ "Up" if b else "Down" }}</a></p>{% endif %}
    <label>Mass{% if c %}, with collars{% endif %} <span class="field-may">may stay empty</span>
    </label>{% call inside() %}<summary>Why so</summary>{% endcall %}
    {% macro inside() %}<details>{{ caller() }}</details>{% endmacro %}
    """
    found = set(template_labels(written(tmp_path, "page.html", text)))
    assert words(found, "heading") == ["Spare …"]
    assert words(found, "link or button") == ["Down", "Put it back", "Up", "Why so"]
    assert words(found, "column") == ["Bar", "Plates"]
    assert words(found, "field") == ["Mass⟨, with collars⟩"]
    assert words(found, "read aloud") == ["Who lifts"]


def test_a_label_is_found_in_code_and_a_mistake_or_a_docstring_is_none(tmp_path: Path) -> None:
    text = '''
"""Not this one"""
from enum import StrEnum
KINDS = {"a": "spare bar", "b": "Spare plate"}
class Way(StrEnum):
    UP = "goes up"
def words(count):
    """Nor This"""
    if count == "Nor that":
        raise ValueError("Not a label")
    return f"Bar {count}", show(heading="Own bar"), "This is a sentence."
'''
    folder = written(tmp_path, "words.py", text)
    found = words(program_labels(folder, folder), "words in the code")
    assert found == ["Bar …", "Own bar", "Spare plate", "spare bar"]
    assert words(enumeration_labels(folder, folder), "choice") == ["goes up"]


def test_a_label_is_found_in_a_script_and_on_a_sheet(tmp_path: Path) -> None:
    written(tmp_path, "s.js", 'part.textContent = `Bar ${bar.number}`; // "Not This"\nsay("Held");')
    written(tmp_path, "s.typ", '== Who lifts\n#table([Clock], "Round")\n// [Not This]\n#circle()')
    assert words(script_labels(tmp_path, tmp_path), "words of a script") == ["Bar …", "Held"]
    sheet = set(sheet_labels(tmp_path, tmp_path))
    assert words(sheet, "heading of a sheet") == ["Who lifts"]
    assert words(sheet, "words of a sheet") == ["Clock", "Round"]
    assert words(picture_labels(tmp_path), "picture") == ["s"]


def test_every_kind_of_label_has_its_place_on_the_page() -> None:
    placed = {kind for _, kinds in PARTS for kind in kinds}
    assert {label.kind for label in all_labels()} == placed


def test_a_term_says_whose_it_is_and_stands_in_a_label() -> None:
    seen = {term for label in all_labels() for term in terms_in(label.words)}
    assert set(terms().values()) - seen == set()
    reasons = " ".join(term.reason for term in terms().values())
    keys = set(re.findall(r"\b[a-z]+(?:_[a-z0-9]+)+\b", reasons))
    assert len(keys) > 10
    assert keys - set(all_sources()) == set()


def test_a_term_inside_a_longer_one_is_not_told_twice() -> None:
    assert [term.words for term in terms_in("Training impulse by author")] == ["training impulse"]
    assert terms_in("Name") == []
