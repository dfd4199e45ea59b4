"""A view of the sound plan for one rule of the audit, changed just enough to bring it about."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

from planning.verify.sound_plan import CLUB, HALL, PLAN, ROUTINE, SESSION, TODAY
from squadwright.library import exercises
from squadwright.model.athlete import MassReading
from squadwright.model.plan import Dose, Finding, PlannedExercise
from squadwright.planning.attendance import PersonToday
from squadwright.planning.audit.view import AuditView
from squadwright.units import kilograms

Rule = Callable[[AuditView], Iterator[Finding]]
PEOPLE = tuple(PersonToday(a, a.name, "present", TODAY) for a in CLUB.athletes)


def view(**changes: Any) -> AuditView:
    usual = AuditView(
        club=CLUB,
        session=SESSION,
        room=HALL,
        routine=ROUTINE,
        people=PEOPLE,
        doses=PLAN.doses,
        bars=PLAN.bars,
        run_sheet=PLAN.run_sheet,
        exercises={each.id: each for each in exercises()},
    )
    return replace(usual, **changes)


def ada(athlete: dict[str, Any] | None = None, **today: Any) -> tuple[PersonToday, ...]:
    """The four, the first of them with other facts of herself and of her day."""
    first = PEOPLE[0]
    return (
        replace(first, athlete=replace(first.athlete, **(athlete or {})), **today),
        *PEOPLE[1:],
    )


def weighing(mass_kg: str) -> tuple[MassReading, ...]:
    return (MassReading(kilograms(mass_kg), TODAY),)


def does(*exercises_: PlannedExercise, **changes: Any) -> tuple[Dose, ...]:
    """One dose, of the first of them, with these exercises."""
    return (replace(PLAN.doses[0], exercises=exercises_, **changes),)


def said(rule: Rule, **changes: Any) -> list[str]:
    """The sentences of a rule."""
    return [found.sentence for found in rule(view(**changes))]
