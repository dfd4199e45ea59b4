"""The reference page of findings, read off the calls that make them in the program's own code."""

import ast
import inspect
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules
from types import ModuleType

from squadwright.model.plan import Severity
from squadwright.planning import audit, gates
from squadwright.planning.audit import RULES

INTRODUCTION = """\
# Findings

This page is generated from the program: `make docs` reads it off the rules themselves.

A finding is what the coach should look at before a session starts. Each has a value, a limit and a
unit where there are any, where the limit comes from, and what to do; they stand on Today, on the
session sheet and in the plan document under `audit`. **Stop**: not like this. **Warning**: look at
it. **Note**: know it. `…` stands for what is filled in: a name, a number, a part of the plan.
"Varies" is a limit that depends on the athlete, the room or a setting of the session.

A finding never diagnoses and never clears: medical staff, local rules and licensed practice come
first.
"""
GATES = """\
## Findings of the safety gates

What a gate finds about an athlete stands among the findings of every session he is expected in;
what it finds about body mass and intake stands on his page of body mass. The limits, with their
units, sources and marks, are in [safety gates](safety-gates.md).
"""
# What only ends a word or a list in one of two cases.
ENDINGS = {"", ")", "s", "es"}
COLUMNS = {
    "Finding": "rule",
    "Mark": "severity",
    "What it says": "sentence",
    "Limit": "limit",
    "Unit": "unit",
    "Source": "source",
    "What to do": "advice",
}


@dataclass(frozen=True)
class Told:
    """One call that makes a finding, as far as it can be read without running it."""

    rule: str
    severity: str
    sentence: str
    limit: str
    unit: str
    source: str
    advice: str


def page() -> str:
    """The whole page as Markdown."""
    parts = [INTRODUCTION]
    for module in modules_of(audit):
        rules = [rule for rule in RULES if rule.__module__ == module.__name__]
        if not rules or module.__name__.endswith(".gates"):
            continue
        parts.append(f"## {first_line(module.__doc__).rstrip('.')}\n")
        for rule in rules:
            parts.append(f"{first_line(rule.__doc__)}\n")
            parts.append(table(calls(ast.parse(inspect.getsource(rule)), vars(module), "finding")))
    parts.append(GATES)
    of_gates = [
        replace(told, sentence=told.sentence.removeprefix("…: "))
        for module in modules_of(gates)
        for name in ("found", "finding")
        for told in calls(ast.parse(inspect.getsource(module)), vars(module), name)
        if told.rule != "…"
    ]
    of_gates += [
        told
        for module in modules_of(gates)
        for told in steps(ast.parse(inspect.getsource(module)), vars(module))
    ]
    of_gates.sort(key=lambda told: told.rule)
    parts.append(table(iter(of_gates), ("Finding", "Mark", "What it says", "What to do")))
    return "\n".join(parts)


def first_line(docstring: str | None) -> str:
    """What a module or a function says of itself."""
    return (docstring or "").strip().splitlines()[0]


def modules_of(package: ModuleType) -> list[ModuleType]:
    """The modules of a package, by name."""
    folder = str(Path(str(package.__file__)).parent)
    names = sorted(info.name for info in iter_modules([folder]) if info.name != "reference")
    return [import_module(f"{package.__name__}.{name}") for name in names]


def calls(tree: ast.AST, known: Mapping[str, object], name: str) -> Iterator[Told]:
    """Every call of ``finding`` or ``found`` in a piece of code."""
    for node in ast.walk(tree):
        if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Name)):
            continue
        if node.func.id != name or len(node.args) < 3:
            continue
        more = {each.arg: each.value for each in node.keywords}
        yield Told(
            rule=text(node.args[0], known),
            severity=", ".join(severities(node.args[1])) or "varies",
            sentence=text(node.args[-1], known),
            limit=limit(more.get("limit"), known),
            unit=text(more.get("unit"), known),
            source=text(more.get("source"), known),
            advice=text(more.get("advice"), known),
        )


def steps(tree: ast.AST, known: Mapping[str, object]) -> Iterator[Told]:
    """Every step of a limit in steps: each has a mark and an advice of its own."""
    for node in ast.walk(tree):
        if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Name)):
            continue
        if node.func.id != "first_above" or not isinstance(node.args[3], ast.Tuple):
            continue
        sentence = text(node.args[4], known).replace("{limit}", "…").replace("{}", "…")
        for step in node.args[3].elts:
            assert isinstance(step, ast.Tuple)
            _, severity, advice = step.elts
            mark = ", ".join(severities(severity))
            rule = text(node.args[0], known)
            yield Told(rule, mark, sentence, "varies", "", "", text(advice, known))


def severities(node: ast.AST) -> list[str]:
    """The marks that an expression may give, the gravest first."""
    named = {each.attr for each in ast.walk(node) if isinstance(each, ast.Attribute)}
    return [each.value for each in Severity if each.name in named]


def text(node: ast.AST | None, known: Mapping[str, object]) -> str:
    """An expression as text, with … in the place of what is only known when it runs."""
    if node is None:
        return ""
    if isinstance(node, ast.JoinedStr):
        return "".join(text(each, known) for each in node.values)
    if isinstance(node, ast.FormattedValue):
        return text(node.value, known)
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        return text(node.left, known) + text(node.right, known)
    if isinstance(node, ast.IfExp):
        both = (text(node.body, known), text(node.orelse, known))
        return " / ".join(each for each in both if each not in ENDINGS) or "…"
    value = constant(node, known)
    return "…" if value is None else str(value)


def limit(node: ast.AST | None, known: Mapping[str, object]) -> str:
    """A limit as a number, where it is one and the same for everybody."""
    if node is None or (isinstance(node, ast.Constant) and node.value is None):
        return ""
    value = constant(node, known)
    return f"{value:g}" if isinstance(value, int | float) else "varies"


def constant(node: ast.AST, known: Mapping[str, object]) -> object | None:
    """The value of a literal, of a constant of the module, or of ``float`` of one."""
    if isinstance(node, ast.Constant):
        return node.value
    if isinstance(node, ast.Name):
        value = known.get(node.id)
        return value if isinstance(value, str | int | float) else None
    if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
        value = getattr(known.get(node.value.id), node.attr, None)
        return value if isinstance(value, str | int | float) else None
    if isinstance(node, ast.Subscript) and isinstance(node.value, ast.Name):
        held, key = known.get(node.value.id), constant(node.slice, known)
        return held.get(key) if isinstance(held, dict) else None
    is_float = isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    if is_float and node.func.id == "float" and len(node.args) == 1:  # type: ignore[attr-defined]
        return constant(node.args[0], known)  # type: ignore[attr-defined]
    return None


def table(rows: Iterator[Told], columns: tuple[str, ...] = tuple(COLUMNS)) -> str:
    """Findings as a table of Markdown."""
    lines = [f"| {' | '.join(columns)} |", f"|{' --- |' * len(columns)}"]
    for row in rows:
        cells = (getattr(row, COLUMNS[column]).replace("|", "/") for column in columns)
        lines.append(f"| {' | '.join(cells)} |")
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    print(page(), end="")
