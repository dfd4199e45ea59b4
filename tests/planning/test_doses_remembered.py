"""Doses worked out lately are not worked out again; the oldest are forgotten first."""

from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import replace

import pytest

from planning.test_complex_dose import COMPLEX
from squadwright.planning.dose import memory
from squadwright.planning.dose.problem import ComplexDoseProblem

PROBLEMS = {name: replace(COMPLEX, rest_s=float(n)) for n, name in enumerate("abcd")}


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """An empty memory of two, with a stand-in that answers a problem by its name."""
    names = {repr(problem): name for name, problem in PROBLEMS.items()}
    asked: list[str] = []

    def solve(problems: Sequence[ComplexDoseProblem]) -> tuple[str, ...]:
        found = tuple(names[repr(problem)] for problem in problems)
        asked.extend(found)
        return found

    def reserve_at(problem: ComplexDoseProblem, load_kg: float) -> str:
        asked.append(f"{names[repr(problem)]} {load_kg:g}")
        return asked[-1]

    monkeypatch.setattr(memory, "MOST_KNOWN", 2)
    monkeypatch.setattr(memory, "_doses", OrderedDict())
    monkeypatch.setattr(memory, "_reserves", OrderedDict())
    monkeypatch.setattr(memory, "solve_complex_doses", solve)
    monkeypatch.setattr(memory, "reserve_at", reserve_at)
    return asked


def doses(names: str) -> str:
    return "".join(map(str, memory.doses([PROBLEMS[name] for name in names])))


def test_answers_come_in_the_order_asked_and_each_is_worked_out_once(asked: list[str]) -> None:
    assert doses("ba") == "ba"
    assert doses("ab") == "ab"
    assert doses("aab") == "aab"
    assert asked == ["b", "a"]
    assert doses("") == ""


def test_the_one_asked_for_longest_ago_is_forgotten(asked: list[str]) -> None:
    doses("ab")
    doses("a")
    assert doses("c") == "c"
    asked.clear()
    assert doses("ac") == "ac"
    assert asked == []
    assert doses("b") == "b"
    assert asked == ["b"]


def test_more_than_are_remembered_at_once_still_get_their_answers(asked: list[str]) -> None:
    assert doses("abcd") == "abcd"
    asked.clear()
    assert doses("cd") == "cd"
    assert asked == []
    assert doses("a") == "a"
    assert asked == ["a"]


def test_reserves_are_remembered_by_problem_and_load(asked: list[str]) -> None:
    for name, load in (("a", 30.0), ("a", 31.0), ("a", 30.0), ("a", 31.0)):
        assert memory.reserve(PROBLEMS[name], load) == f"{name} {load:g}"
    assert asked == ["a 30", "a 31"]
    memory.reserve(PROBLEMS["a"], 30.0)
    memory.reserve(PROBLEMS["b"], 30.0)
    memory.reserve(PROBLEMS["a"], 30.0)
    assert asked == ["a 30", "a 31", "b 30"]
    memory.reserve(PROBLEMS["a"], 31.0)
    assert asked[-1] == "a 31"
