"""Every picture a user sees: where it is drawn, and what the one who drew it says it is."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from labels.label import Label

SVG = re.compile(r"<svg\b[^>]*>")
CLASS = re.compile(r'class="([\w -]+)')
MACRO = re.compile(r"\{% macro (\w+)")
COMMENT = re.compile(r"\{#(.*?)#\}", re.DOTALL)
DRAWS = re.compile(r"<svg\b|vegalite_to_svg|\"svg\"")
SHEET_DRAWS = re.compile(r"\b(?:image|polygon|circle|ellipse|curve|path|rect|line)\(")
SHEET_FUNCTION = re.compile(r"^#?let ([\w-]+)(?:\([^\n]*?\))? =", re.MULTILINE)


def picture_labels(source: Path) -> Iterator[Label]:
    """Pictures of pages, scripts, code and printed sheets."""
    for path in sorted(source.rglob("*.html")):
        yield from _of_template(path, path.relative_to(source).as_posix())
    for path in sorted(source.rglob("*.svg")):
        yield Label("picture", path.stem, path.relative_to(source).as_posix())
    for path in sorted(source.rglob("*.js")):
        if DRAWS.search(path.read_text(encoding="utf-8")):
            yield Label("picture", path.stem, path.relative_to(source).as_posix())
    for path in sorted(source.rglob("*.py")):
        yield from _of_code(path, path.relative_to(source).as_posix())
    for path in sorted(source.rglob("*.typ")):
        yield from _of_sheet(path, path.relative_to(source).as_posix())


def _of_template(path: Path, place: str) -> Iterator[Label]:
    macro = path.stem
    for line in path.read_text(encoding="utf-8").splitlines():
        if found := MACRO.search(line):
            macro = found[1]
        for svg in SVG.findall(line):
            said = CLASS.search(svg)
            yield Label("picture", said[1].split(" ")[0] if said else macro, place)


def _of_code(path: Path, place: str) -> Iterator[Label]:
    text = path.read_text(encoding="utf-8")
    if not DRAWS.search(text):
        return
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef) and DRAWS.search(
            ast.get_source_segment(text, node) or ""
        ):
            yield Label("picture", node.name, place)


def _of_sheet(path: Path, place: str) -> Iterator[Label]:
    text = path.read_text(encoding="utf-8")
    names = [(found.start(), found[1]) for found in SHEET_FUNCTION.finditer(text)]
    for found in SHEET_DRAWS.finditer(text):
        before = [name for start, name in names if start < found.start()]
        yield Label("picture", before[-1] if before else path.stem, place)
