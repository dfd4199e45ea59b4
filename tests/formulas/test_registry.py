"""The list of formulas is complete, in step with its docstrings, and quick to load."""

import ast
import inspect
import re
import subprocess
import sys
from pathlib import Path

import pytest

from squadwright import formulas
from squadwright.errors import NotFound
from squadwright.formulas.published import Choice, Formula, Range, Series, published
from squadwright.formulas.registry import MODULES, all_formulas, find_formula
from squadwright.formulas.sources import Provenance, all_sources, find_source

EVERY = [pytest.param(formula, id=name) for name, formula in all_formulas().items()]
FOLDER = Path(formulas.__file__).parent


@pytest.mark.parametrize("formula", EVERY)
def test_a_docstring_says_all_that_the_style_asks(formula: Formula) -> None:
    assert list(formula.sections) == [
        "Summary",
        "Parameters",
        "Returns",
        "Raises",
        "Notes",
        "References",
    ]
    assert formula.unit
    assert formula.summary
    assert all(parameter.meaning for parameter in formula.parameters)


@pytest.mark.parametrize("formula", EVERY)
def test_a_docstring_prints_the_range_that_is_enforced(formula: Formula) -> None:
    text = " ".join(formula.sections["Parameters"].split())
    for parameter in formula.parameters:
        described = text.partition(f"{parameter.name} : ")[2]
        if isinstance(parameter.rule, Choice) and re.search(r"\], one of [A-Z_]+", described):
            continue
        assert f"[{parameter.unit}], {parameter.rule.text}" in described


@pytest.mark.parametrize("formula", EVERY)
def test_every_source_of_a_docstring_resolves(formula: Formula) -> None:
    assert formula.source_keys
    for key in formula.source_keys:
        assert find_source(key).key == key


def test_every_source_is_used_somewhere_in_the_program() -> None:
    text = "\n".join(path.read_text(encoding="utf-8") for path in FOLDER.parent.rglob("*.py"))
    assert set(all_sources()) - set(re.findall(r"\w+", text)) == set()


def test_every_source_says_how_its_numbers_were_had() -> None:
    for source in all_sources().values():
        assert source.authors
        assert source.provenance in set(Provenance)


def test_an_unknown_source_is_refused_by_its_key() -> None:
    with pytest.raises(NotFound, match="'nobody_1900' is not in"):
        find_source("nobody_1900")


def test_every_declared_formula_is_in_the_list() -> None:
    declared = {
        node.name
        for path in FOLDER.glob("*.py")
        for node in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(node, ast.FunctionDef)
        and any("published" in ast.unparse(mark) for mark in node.decorator_list)
    }
    assert declared == set(all_formulas())


@pytest.mark.parametrize("formula", EVERY)
def test_a_parameter_that_is_a_number_names_its_unit(formula: Formula) -> None:
    endings = {
        "kg": "_kg",
        "m": "_m",
        "s": "_s",
        "m/s": "_m_s",
        "N s": "_n_s",
        "m/s^2": "_m_s2",
    }
    for parameter in formula.parameters:
        ending = endings.get(parameter.unit, "")
        assert parameter.name.endswith(ending) or parameter.name == "seconds_per_jump"


@pytest.mark.parametrize("formula", EVERY)
def test_at_most_three_inputs_go_by_place(formula: Formula) -> None:
    kinds = [p.kind for p in inspect.signature(formula.function).parameters.values()]
    assert kinds.count(inspect.Parameter.POSITIONAL_OR_KEYWORD) <= 3


@pytest.mark.parametrize("formula", EVERY)
def test_a_formula_refuses_what_lies_just_outside_each_end(formula: Formula) -> None:
    inside = {p.name: usable(p.rule) for p in formula.parameters}
    for parameter in formula.parameters:
        rule = parameter.rule
        if not isinstance(rule, Range):
            continue
        step = 1 if rule.is_whole else 1e-6 * max(1, abs(rule.high or 1))
        for end, outwards in ((rule.low, -step), (rule.high, step)):
            if end is not None:
                with pytest.raises(ValueError, match=f"^{parameter.name} is "):
                    formula.call(**{**inside, parameter.name: end + outwards})
        with pytest.raises(ValueError, match=f"^{parameter.name}: nan is not a finite number"):
            formula.call(**{**inside, parameter.name: float("nan")})


def usable(rule: object) -> object:
    if isinstance(rule, Choice):
        return rule.options[0]
    if isinstance(rule, Series):
        ups_and_downs = (1.0, 2.0, 4.0) * rule.at_least
        return ups_and_downs[: max(3, rule.at_least)]
    assert isinstance(rule, Range)
    low, high = rule.low or 0, rule.high or 100
    return int(low + 1) if rule.is_whole else low + 0.4 * (high - low)


def test_an_unknown_formula_is_refused_with_the_nearest_names() -> None:
    with pytest.raises(NotFound, match=r"'one_rep_max_epli' does not exist.*one_rep_max_epley"):
        find_formula("one_rep_max_epli")


def test_a_formula_without_a_rule_for_a_parameter_cannot_be_declared() -> None:
    def half(load_kg: float) -> float:
        """Half.

        Returns
        -------
        half [kg]
        """
        return load_kg / 2

    with pytest.raises(TypeError, match="half needs one rule for each"):
        published()(half)


def test_the_list_loads_without_the_heavy_libraries() -> None:
    code = (
        "import sys; from squadwright.formulas.registry import all_formulas; all_formulas();"
        "print(sorted({'numpy', 'scipy', 'pydantic', 'sqlalchemy'} & set(sys.modules)))"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"


def test_the_modules_are_named_once() -> None:
    assert len(set(MODULES)) == len(MODULES)
