"""The reference page of the formulas, written from the list: ``python -m`` prints it."""

from squadwright.formulas.published import Formula, Parameter
from squadwright.formulas.registry import all_formulas
from squadwright.formulas.sources import Source

_INTRODUCTION = """\
# Published formulas

This page is generated from the program; change the docstrings and write it again with `make docs`.

Each formula works on single numbers in the units shown and refuses a value outside its range. Run
one with `squadwright formula NAME key=value ...`; add `--json` for full precision.

A source is marked `read` when the paper or its abstract was read, `second hand` when another page
that names it was, `memory` when the numbers are recalled and not confirmed (assumptions the coach
may change), and `arithmetic` when only counting, a definition or mechanics is behind it.

A formula describes the people it was made from. It clears nobody to train: medical staff, local
rules and licensed practice come first.
"""


def page() -> str:
    """The whole page as Markdown."""
    formulas = all_formulas().values()
    sources = {source.key: source for formula in formulas for source in formula.sources}
    index = "\n".join(
        f"| [`{formula.name}`](#{formula.name}) | {formula.summary} | {_unit(formula.unit)} |"
        for formula in formulas
    )
    return (
        f"{_INTRODUCTION}\n"
        f"| Formula | Gives | Unit |\n| --- | --- | --- |\n{index}\n\n"
        + "\n".join(_section(formula) for formula in formulas)
        + "\n## Sources\n\n"
        + "\n".join(_source_line(sources[key]) for key in sorted(sources))
        + "\n"
    )


def _section(formula: Formula) -> str:
    inputs = "\n".join(_input_row(parameter) for parameter in formula.parameters)
    error = (
        ""
        if formula.standard_error is None
        else f"Standard error of estimate: {formula.standard_error:g} {formula.unit}.\n\n"
    )
    sources = "; ".join(f"{source.label} ({source.provenance.value})" for source in formula.sources)
    return (
        f"## {formula.name}\n\n{formula.summary}. Unit of the result: {_unit(formula.unit)}.\n\n"
        f"| Input | Meaning | Unit | Valid |\n| --- | --- | --- | --- |\n{inputs}\n\n"
        f"{formula.notes}\n\n{error}Source: {sources}.\n"
    )


def _input_row(parameter: Parameter) -> str:
    default = "" if parameter.is_required else f"; {parameter.default} unless given"
    return (
        f"| `{parameter.name}` | {parameter.meaning} | {_unit(parameter.unit)} "
        f"| {parameter.rule.text}{default} |"
    )


def _unit(unit: str) -> str:
    return "none" if unit == "1" else unit


def _source_line(source: Source) -> str:
    note = f" {source.note}" if source.note else ""
    return f"- `{source.key}`: {source.citation}{note}"
