"""What holds for every file of the project, whoever writes it."""

import ast
import csv
import re
from collections.abc import Iterator
from pathlib import Path
from statistics import median

from squadwright.formulas.registry import all_formulas
from squadwright.formulas.sources import all_sources

PROJECT = Path(__file__).parent.parent
LONGEST_FILE = 400
MEDIAN_FILE = 150
LONGEST_SCRIPT = 260
LONGEST_FUNCTION = 60
# A module named like this says nothing about what is in it.
NAMES_THAT_SAY_NOTHING = {
    *("util", "utils", "helper", "helpers", "manager", "managers", "base", "common"),
}


def python_files() -> list[Path]:
    """Every Python file that people write."""
    folders = ("src", "tests", "tools", "benchmarks")
    return sorted(path for folder in folders for path in (PROJECT / folder).rglob("*.py"))


def functions(tree: ast.AST) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
    """Every function and method in a module."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield node


def lines_of_code(function: ast.FunctionDef | ast.AsyncFunctionDef, text: list[str]) -> int:
    """Lines of a function that are neither blank, nor comment, nor its docstring."""
    skipped: set[int] = set()
    first = function.body[0]
    if ast.get_docstring(function) is not None:
        skipped.update(range(first.lineno, (first.end_lineno or first.lineno) + 1))
    span = range(function.lineno, (function.end_lineno or function.lineno) + 1)
    lines = (text[number - 1].strip() for number in span if number not in skipped)
    return sum(bool(line) and not line.startswith("#") for line in lines)


def test_lines_of_code_leave_out_docstring_comment_and_blank_line() -> None:
    source = (
        'def reserve(a,\n  b):\n  """One.\n\n  Two.\n  """\n\n  # why\n  c = a - b\n  return c\n'
    )
    (function,) = functions(ast.parse(source))
    assert lines_of_code(function, source.splitlines()) == 4


def test_no_python_file_is_longer_than_one_phenomenon_needs() -> None:
    lengths = {
        str(path.relative_to(PROJECT)): len(path.read_text(encoding="utf-8").splitlines())
        for path in python_files()
    }
    assert {name: length for name, length in lengths.items() if length > LONGEST_FILE} == {}


def test_half_of_the_python_files_are_read_at_one_glance() -> None:
    lengths = [len(path.read_text(encoding="utf-8").splitlines()) for path in python_files()]
    assert median(lengths) < MEDIAN_FILE


def test_no_script_is_longer_than_one_behaviour_needs() -> None:
    lengths = {
        str(path.relative_to(PROJECT)): len(path.read_text(encoding="utf-8").splitlines())
        for path in (PROJECT / "src").rglob("*.js")
    }
    assert len(lengths) > 20
    assert {name: length for name, length in lengths.items() if length > LONGEST_SCRIPT} == {}


def test_no_function_is_longer_than_a_screen() -> None:
    too_long = {}
    for path in python_files():
        source = path.read_text(encoding="utf-8")
        for function in functions(ast.parse(source)):
            length = lines_of_code(function, source.splitlines())
            if length > LONGEST_FUNCTION:
                too_long[f"{path.relative_to(PROJECT)}:{function.name}"] = length
    assert too_long == {}


def test_no_module_has_a_name_that_says_nothing() -> None:
    named = [
        str(path.relative_to(PROJECT))
        for path in python_files()
        if NAMES_THAT_SAY_NOTHING & {path.stem, path.parent.name}
    ]
    assert named == []


def test_every_source_that_a_formula_names_is_in_the_list_of_sources() -> None:
    named = {key for formula in all_formulas().values() for key in formula.source_keys}
    assert named
    assert named - set(all_sources()) == set()


def test_every_published_row_says_where_it_is_from_and_how_it_got_here() -> None:
    columns = {"source", "page_or_table", "inputs", "expected", "decimals", "provenance"}
    ways = {"read", "memory", "calc"}
    unsaid: list[str] = []
    for path in sorted((PROJECT / "tests" / "published").glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as file:
            rows = csv.DictReader(file)
            lacking = columns - set(rows.fieldnames or ())
            unsaid += [f"{path.name} has no column {column}" for column in sorted(lacking)]
            unsaid += [
                f"{path.name}, line {number}: {row.get('source')!r}, {row.get('provenance')!r}"
                for number, row in enumerate(rows, start=2)
                if not row.get("source") or row.get("provenance") not in ways
            ]
    assert unsaid == []


def test_no_form_stands_in_a_paragraph() -> None:
    """A browser ends a paragraph where a form begins, and its class is lost (HTML standard)."""
    for path in (PROJECT / "src").rglob("*.html"):
        text = path.read_text(encoding="utf-8")
        for paragraph in re.findall(r"<p[ >].*?</p>", text, re.DOTALL):
            assert "post_button(" not in paragraph, path.name
            assert "<form" not in paragraph, path.name
