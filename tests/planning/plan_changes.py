"""Small changes to a plan, its session or its club, by which a test breaks one rule."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from squadwright.model.club import Club
from squadwright.model.plan import Dose, Plan, PlannedExercise, RunLine, SwapLine
from squadwright.model.session import CheckIn, Override, Session


@dataclass(frozen=True)
class Case:
    """A plan with what it was made from."""

    club: Club
    session: Session
    plan: Plan

    def with_plan(self, **changes: Any) -> "Case":
        """The same with fields of the plan changed."""
        return replace(self, plan=replace(self.plan, **changes))


def first_dose(case: Case, athlete: str) -> Dose:
    return next(dose for dose in case.plan.doses if dose.athlete == athlete)


def change_dose(case: Case, athlete: str, **changes: Any) -> Case:
    found = first_dose(case, athlete)
    doses = tuple(replace(d, **changes) if d is found else d for d in case.plan.doses)
    return case.with_plan(doses=doses)


def exercise_of(case: Case, athlete: str, step: str) -> PlannedExercise:
    return next(e for e in first_dose(case, athlete).exercises if e.step == step)


def change_exercise(case: Case, athlete: str, step: str, /, **changes: Any) -> Case:
    exercises = tuple(
        replace(e, **changes) if e.step == step else e for e in first_dose(case, athlete).exercises
    )
    return change_dose(case, athlete, exercises=exercises)


def swap_in(case: Case, athlete: str, step: str, exercise: str) -> Case:
    """Another exercise at a step, with a swap that says so; limited by what he still does."""
    dose, old = first_dose(case, athlete), exercise_of(case, athlete, step)
    swap = SwapLine(step, old.exercise, exercise, "because")
    changed = change_exercise(case, athlete, step, exercise=exercise)
    limit = dose.limiting_exercise
    kept = next(e.exercise for e in dose.exercises if e.step != step)
    return change_dose(
        changed,
        athlete,
        swaps=(*dose.swaps, swap),
        limiting_exercise=kept if limit == old.exercise else limit,
    )


def change_athlete(case: Case, athlete: str, **changes: Any) -> Case:
    people = tuple(replace(a, **changes) if a.id == athlete else a for a in case.club.athletes)
    return replace(case, club=replace(case.club, athletes=people))


def change_kit(case: Case, **changes: Any) -> Case:
    kit = replace(case.club.kit, **changes)
    return replace(case, club=replace(case.club, kit=kit))


def change_settings(case: Case, **changes: Any) -> Case:
    settings = replace(case.session.settings, **changes)
    return replace(case, session=replace(case.session, settings=settings))


def check_in(case: Case, new: CheckIn) -> Case:
    others = tuple(c for c in case.session.check_ins if c.athlete != new.athlete)
    return replace(case, session=replace(case.session, check_ins=(*others, new)))


def with_override(case: Case, athlete: str, **changes: Any) -> Case:
    override = Override(athlete, "the coach saw it", **changes)
    return replace(case, session=replace(case.session, overrides=(override,)))


def line_of(case: Case, athlete: str) -> RunLine:
    """His first turn."""
    return next(
        line
        for line in case.plan.run_sheet
        if line.activity.startswith("work") and athlete in line.athletes
    )


def with_lines(case: Case, lines: Iterable[RunLine]) -> Case:
    ordered = sorted(lines, key=lambda line: (line.start_s, line.end_s))
    return case.with_plan(run_sheet=tuple(ordered))


def with_line(case: Case, line: RunLine) -> Case:
    return with_lines(case, (*case.plan.run_sheet, line))


def without_turn(case: Case, athlete: str, *, round: int | None = None, step: str = "") -> Case:
    """His turn of a round, or his first turn at a step, taken off the sheet."""
    turn = next(
        line
        for line in case.plan.run_sheet
        if line.activity.startswith("work")
        and athlete in line.athletes
        and (line.round == round if round is not None else line.step == step)
    )
    left = tuple(a for a in turn.athletes if a != athlete)
    lines = [line for line in case.plan.run_sheet if line is not turn]
    return with_lines(case, [*lines, replace(turn, athletes=left)] if left else lines)


def recount(case: Case) -> Case:
    """Shortfalls as they follow from the loads and targets on the bars."""
    users = [user for bar in case.plan.bars for user in bar.wave_users]
    short = [(int(u.target_kg * 1000 + 1e-6) - round(u.load_kg * 1000), u) for u in users]
    largest = max(g / int(u.target_kg * 1000 + 1e-6) for g, u in short)
    bound = replace(
        case.plan.kit_bound,
        largest_shortfall_fraction=max(0.0, largest),
        largest_shortfall_bound=0.0,
        total_shortfall_kg=sum(g for g, _ in short) / 1000,
        proven=False,
    )
    return case.with_plan(kit_bound=bound)
