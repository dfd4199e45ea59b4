"""Labels beside the pages: commands, names in the library, tables and their columns, colours."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from labels.label import Label

COLOUR = re.compile(r"--([\w-]+):\s*(#[0-9a-fA-F]{3,8}|(?:rgb|hsl|oklch|color-mix)\([^;]*\))\s*;")
THEME = re.compile(r'\[data-theme="([\w-]+)"\]|@media ([^{]+)\{')
SHEET_COLOUR = re.compile(r"#let ([\w-]+) = ((?:luma|rgb|cmyk|color)\([^)]*\)|black|white)")


def command_labels() -> Iterator[Label]:
    """Every command, argument and option."""
    import typer

    from squadwright.cli import app

    yield from _of_command(typer.main.get_command(app), "squadwright")


def _of_command(command: Any, path: str) -> Iterator[Label]:
    for parameter in command.params:
        if parameter.name not in {"help", "install_completion", "show_completion"}:
            is_option = parameter.param_type_name == "option"
            names = [*parameter.opts, *parameter.secondary_opts] if is_option else [parameter.name]
            for name in names:
                yield Label("option of a command" if is_option else "argument", name, path)
    for name, child in getattr(command, "commands", {}).items():
        if not child.hidden:
            yield Label("command", f"{path} {name}", path)
            yield from _of_command(child, f"{path} {name}")


def library_labels() -> Iterator[Label]:
    """Every name that comes with the program: exercises, routines, tests, weigh-ins, limits."""
    from squadwright import library
    from squadwright.library.fitness_tests import fitness_tests
    from squadwright.library.weigh_ins import weigh_in_rules
    from squadwright.planning.gates.limits import LIMITS

    for place, names in (
        ("exercises", [each.name for each in library.exercises()]),
        ("routines", [each.name for each in library.routines()]),
        ("tests", [each.name for each in fitness_tests()]),
        ("weigh-ins", [each.body for each in weigh_in_rules()]),
        ("limits of the safety gates", list(LIMITS)),
    ):
        yield from (Label("name in the library", name, place) for name in names)


def column_labels() -> Iterator[Label]:
    """Every table of the data files, which is a sheet of the XLSX and a file of the ZIP."""
    from squadwright.exchange import data_codes, record_out
    from squadwright.exchange.data_shape import all_shapes

    for shape in all_shapes():
        yield Label("sheet or file", shape.name, "data files")
        yield from (Label("column of a file", head, shape.name) for head in shape.heads)
    for name, heads in (
        (data_codes.COLUMNS, data_codes.COLUMN_HEADS),
        (data_codes.CODES, data_codes.CODE_HEADS),
        (data_codes.INCIDENTS, data_codes.INCIDENT_HEADS),
        ("record.csv", record_out.EVENT_HEADS),
        ("done.csv", record_out.DONE_HEADS),
    ):
        yield Label("sheet or file", name, "data files")
        yield from (Label("column of a file", head, name) for head in heads)


def colour_labels(tokens: Path, sheets: Path) -> Iterator[Label]:
    """Each colour by its name, with its value in each look."""
    theme = "light"
    for line in tokens.read_text(encoding="utf-8").splitlines():
        if found := THEME.search(line):
            theme = found[1] or found[2].strip()
        for name, value in COLOUR.findall(line):
            yield Label("colour", f"{name} {value}", theme)
    for path in sorted(sheets.rglob("*.typ")):
        for name, value in SHEET_COLOUR.findall(path.read_text(encoding="utf-8")):
            yield Label("colour", f"{name} {value}", f"printed, {path.name}")
