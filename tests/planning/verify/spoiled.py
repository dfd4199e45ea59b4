"""Ways to spoil the sound plan, and what a rule of the re-check then says of it."""

import ast
import inspect
import sys
from collections.abc import Iterable
from dataclasses import dataclass, replace
from types import ModuleType
from typing import Any

import pytest

from planning.plan_changes import Case, change_athlete, change_kit
from squadwright.model.plan import AttendanceLine, Dose
from squadwright.model.session import Override
from squadwright.planning.verify.check import Rule
from squadwright.planning.verify.day import Fault, read_day


@dataclass(frozen=True)
class Spoiled:
    """A plan that breaks a rule in one way, or just does not: no fault is then expected."""

    why: str
    rule: Rule
    case: Case
    faults: tuple[tuple[str, str], ...] = ()

    def __str__(self) -> str:
        return f"{self.rule.__name__}: {self.why}"


def found(each: Spoiled) -> tuple[tuple[str, str], ...]:
    """Place and sentence of each fault that the rule finds."""
    day = read_day(each.case.club, each.case.session, each.case.plan)
    return tuple((fault.place, fault.sentence) for fault in each.rule(day))


def lines_that_raise(module: ModuleType) -> set[int]:
    """The lines of a module on which a fault is made."""
    return {
        node.lineno
        for node in ast.walk(ast.parse(inspect.getsource(module)))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id == "Fault"
    }


def lines_raised(
    module: ModuleType, cases: Iterable[Spoiled], monkeypatch: pytest.MonkeyPatch
) -> set[int]:
    """Those of them that some case comes by."""
    lines: set[int] = set()

    def note(place: str, sentence: str) -> Fault:
        lines.add(sys._getframe(1).f_lineno)
        return Fault(place, sentence)

    monkeypatch.setattr(module, "Fault", note)
    for each in cases:
        found(each)
    return lines


def _with(items: Iterable[Any], index: int, changes: dict[str, Any]) -> tuple[Any, ...]:
    return tuple(replace(e, **changes) if i == index else e for i, e in enumerate(items))


def line(case: Case, index: int, **changes: Any) -> Case:
    """A line of the run sheet changed, where it stands."""
    return case.with_plan(run_sheet=_with(case.plan.run_sheet, index, changes))


def without_lines(case: Case, *indexes: int) -> Case:
    kept = [each for i, each in enumerate(case.plan.run_sheet) if i not in indexes]
    return case.with_plan(run_sheet=tuple(kept))


def attendance(case: Case, index: int, **changes: Any) -> Case:
    return case.with_plan(attendance=_with(case.plan.attendance, index, changes))


def with_attendance(case: Case, *more: AttendanceLine) -> Case:
    return case.with_plan(attendance=(*case.plan.attendance, *more))


def with_doses(case: Case, *more: Dose) -> Case:
    return case.with_plan(doses=(*case.plan.doses, *more))


def bar(case: Case, index: int, **changes: Any) -> Case:
    return case.with_plan(bars=_with(case.plan.bars, index, changes))


def user(case: Case, index: int, place: int, **changes: Any) -> Case:
    """A user of a bar changed."""
    return bar(case, index, wave_users=_with(case.plan.bars[index].wave_users, place, changes))


def bound(case: Case, **changes: Any) -> Case:
    assert case.plan.kit_bound is not None
    return case.with_plan(kit_bound=replace(case.plan.kit_bound, **changes))


def group(case: Case, index: int, **changes: Any) -> Case:
    return case.with_plan(groups=_with(case.plan.groups, index, changes))


def station(case: Case, index: int, **changes: Any) -> Case:
    floor = case.plan.floor
    stations = _with(floor.stations, index, changes)
    return case.with_plan(floor=replace(floor, stations=stations))


def block(case: Case, name: str, **changes: Any) -> Case:
    """A block of the routine changed."""
    (routine,) = case.club.routines
    blocks = tuple(replace(b, **changes) if b.name == name else b for b in routine.blocks)
    return replace(case, club=replace(case.club, routines=(replace(routine, blocks=blocks),)))


def piece(case: Case, family: str, id: str, **changes: Any) -> Case:
    """A piece of the store changed."""
    pieces = getattr(case.club.kit, family)
    changed = tuple(replace(p, **changes) if p.id == id else p for p in pieces)
    assert changed != pieces
    return change_kit(case, **{family: changed})


def medical(case: Case, athlete: str, **changes: Any) -> Case:
    written = case.club.athlete(athlete).medical
    return change_athlete(case, athlete, medical=replace(written, **changes))


def says(case: Case, *words: Override) -> Case:
    """What the coach said, in the order in which he said it."""
    return replace(case, session=replace(case.session, overrides=words))


def session(case: Case, **changes: Any) -> Case:
    return replace(case, session=replace(case.session, **changes))
