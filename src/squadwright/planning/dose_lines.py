"""The doses of the plan document, put together from the planned blocks."""

from collections.abc import Sequence
from dataclasses import replace
from math import floor

from squadwright.learning.progression import SAME_KG, direction, reason, two_for_two
from squadwright.model.plan import (
    BarUser,
    Basis,
    Dose,
    PlannedExercise,
    ReservePoint,
)
from squadwright.model.routine import Style
from squadwright.planning.attendance import PersonToday
from squadwright.planning.block_plan import BlockPlan
from squadwright.planning.complex_dose import LifterTarget, own_limit_kg
from squadwright.planning.contacts import count_step, repetitions_per_set
from squadwright.planning.dose import memory
from squadwright.planning.dose.problem import ComplexDoseSolution
from squadwright.planning.kit.measures import share_text
from squadwright.planning.personal import PersonalStep, amount_text
from squadwright.words import capital

KIT_LIMITED_ABOVE_FRACTION = 0.05
WORTH_SAYING_KG = 0.5


def dose_lines(people: Sequence[PersonToday], blocks: Sequence[BlockPlan]) -> tuple[Dose, ...]:
    """One dose for each athlete and complex; everything without a bar joins his first dose."""
    doses: list[Dose] = []
    for person in people:
        if not person.trains:
            continue
        own: list[Dose] = []
        loose: list[Dose] = []
        for plan in blocks:
            if plan.versions.get(person.id):
                is_complex = plan.block.style is Style.COMPLEX
                (own if is_complex else loose).append(_dose(person, plan))
        doses += _joined(own, loose)
    return tuple(doses)


def _joined(own: list[Dose], loose: list[Dose]) -> list[Dose]:
    if not loose:
        return own
    first, rest = (own[0], own[1:]) if own else (loose[0], [])
    for dose in loose if own else loose[1:]:
        first = replace(
            first,
            contacts=first.contacts + dose.contacts,
            throws=first.throws + dose.throws,
            swaps=first.swaps + dose.swaps,
            exercises=first.exercises + dose.exercises,
            reason=" ".join(dict.fromkeys(part for part in (first.reason, dose.reason) if part)),
        )
    return [first, *rest]


def _dose(person: PersonToday, plan: BlockPlan) -> Dose:
    steps = plan.versions[person.id]
    exercises = tuple(_exercise(person.id, plan, step) for step in steps)
    rounds = plan.rounds[person.id]
    swaps = tuple(swap for step in steps if (swap := step.swap) is not None)
    dose = Dose(
        athlete=person.id,
        exercise=None,
        target_kg=None,
        load_kg=None,
        rounds=rounds.rounds,
        first_round=rounds.first_round,
        target_probability=None,
        completion_probability=None,
        reserve_reps=None,
        limiting_exercise=None,
        limiting_round=None,
        basis=Basis.NONE,
        reason=_sentences([rounds.reason]),
        contacts=sum(e.contacts for e in exercises) * rounds.rounds,
        throws=sum(e.throws for e in exercises) * rounds.rounds,
        swaps=swaps,
        exercises=exercises,
        cautions=tuple(
            r.instruction for r in person.restrictions if r.instruction and not r.all_training
        ),
        block=plan.block.name if plan.block.style is Style.COMPLEX else "",
    )
    target = plan.targets.get(person.id)
    return dose if target is None else _with_load(dose, plan, target)


def _exercise(athlete: str, plan: BlockPlan, step: PersonalStep) -> PlannedExercise:
    fitting = plan.fittings.get((athlete, step.key))
    box = None if fitting is None else fitting.box
    count = count_step(
        step.exercise,
        step.step.scheme,
        lane=plan.block.lane,
        box_height_m=None if box is None else box.height_m,
    )
    boxes = 0 if plan.block.lane is None else plan.block.lane.boxes
    user = _user(plan, athlete)
    return PlannedExercise(
        step=step.key,
        exercise=step.exercise.id,
        name=step.exercise.name,
        amount=amount_text(step),
        sets=step.step.scheme.sets,
        repetitions_per_set=repetitions_per_set(step.exercise, step.step.scheme, boxes),
        load_kg=user.load_kg if user is not None and step.exercise.needs.bar else None,
        ball=None if fitting is None else fitting.ball,
        ball_kg=None if fitting is None else fitting.ball_kg,
        box=None if box is None else box.box.id,
        box_height_m=None if box is None else box.height_m,
        contacts=count.contacts,
        throws=count.throws,
        faults=step.exercise.faults,
        block=plan.block.name,
    )


def _user(plan: BlockPlan, athlete: str) -> BarUser | None:
    return next((u for bar in plan.bars for u in bar.wave_users if u.athlete == athlete), None)


def _with_load(dose: Dose, plan: BlockPlan, target: LifterTarget) -> Dose:
    user = _user(plan, dose.athlete)
    load_kg = None if user is None else user.load_kg
    solution = target.solution
    if user is None or solution is None or load_kg is None:
        by_word = target.basis is Basis.OVERRIDE
        stick = "no bar is light enough: learns the movements with a stick"
        if by_word:
            stick = "without a bar: learns the movements with a stick"
        why = target.reason
        if dose.athlete in plan.in_turn:
            stick, why = "no place at a bar is free: learns the movements with a stick", ""
        reasons = [stick if user is None else "", why, dose.reason]
        return replace(
            dose,
            target_kg=target.target_kg if user is not None else None,
            load_kg=load_kg,
            basis=target.basis if user is not None else Basis.TECHNIQUE_BAR,
            reason=_sentences(reasons),
        )
    reserve = _reserve(plan, dose, target, load_kg)
    is_limited = 1 - load_kg / solution.limit_kg > KIT_LIMITED_ABOVE_FRACTION
    dose = replace(
        dose,
        target_kg=solution.limit_kg,
        load_kg=load_kg,
        target_probability=solution.target_probability,
        completion_probability=solution.completion_probability_at(load_kg),
        reserve_reps=min(point.reserve_reps for point in reserve),
        limiting_exercise=_id_of(plan, dose.athlete, solution.limiting_movement),
        limiting_round=dose.first_round + solution.limiting_round - 1,
        basis=target.basis,
        plain_rule_kg=solution.plain_rule_kg,
        kit_limited=is_limited,
        reserve=reserve,
    )
    dose = _with_progress(dose, target)
    return replace(
        dose,
        reason=_reason(dose, solution, target.reason),
        cautions=(*dose.cautions, *_above_the_model(target, load_kg)),
    )


def _with_progress(dose: Dose, target: LifterTarget) -> Dose:
    """The dose with where it goes from the last session, and why."""
    if not target.trials or dose.load_kg is None:
        return dose
    last = target.trials[-1]
    said = reason(dose.load_kg, last, _hindered(dose, target))
    return replace(
        dose,
        last_load_kg=last.load_kg,
        progress=direction(dose.load_kg, last).value,
        progress_reason=f"{said}.",
        two_for_two=two_for_two(target.trials),
    )


def _hindered(dose: Dose, target: LifterTarget) -> str:
    """What keeps somebody who did it all from the next step, or from his last load."""
    solution, next_kg = target.solution, target.next_kg
    if solution is None or next_kg is None or dose.load_kg is None or solution.set_by_coach:
        return ""
    if (
        solution.goes_by_rule
        or not target.trials[-1].is_whole
        or dose.load_kg > target.trials[-1].load_kg + SAME_KG
    ):
        return ""
    last_kg = target.trials[-1].load_kg
    at_kg = last_kg if dose.load_kg < last_kg - SAME_KG else next_kg
    if solution.modelled_limit_kg >= at_kg:
        wanted = "a step up" if at_kg > last_kg else f"{at_kg:g} kg"
        return f"plates for {wanted} lie on other bars today"
    # Cut down, so that a chance below the one wanted never reads as the same.
    chance = floor(100 * solution.completion_probability_at(at_kg))
    return (
        f"at {at_kg:g} kg the chance of {dose.rounds} rounds would be {chance}%, with "
        f"{solution.target_probability:.0%} wanted"
    )


def _above_the_model(target: LifterTarget, load_kg: float) -> tuple[str, ...]:
    """A caution where the coach's own load is above the dose of the model."""
    if target.solution is None or target.problem is None or not target.solution.set_by_coach:
        return ()
    own_kg = own_limit_kg(target.problem, target.solution)
    if load_kg <= own_kg + 1e-9:
        return ()
    return (f"Above the model's dose of {own_kg:.1f} kg by the coach's override: watch form.",)


def _reason(dose: Dose, solution: ComplexDoseSolution, word: str) -> str:
    """Why this load, in two or three short sentences."""
    assert dose.load_kg is not None
    assert dose.target_kg is not None
    where = f"{solution.limiting_movement} would give out first, in round {dose.limiting_round}"
    if solution.set_by_coach:
        first = f"{where}; the model's own limit is {solution.modelled_limit_kg:.1f} kg"
    elif solution.held_by_step and _differs(solution):
        first = (
            f"one step from the last session; the model would allow "
            f"{solution.modelled_limit_kg:.1f} kg, where {where.replace('would give', 'gives')}"
        )
    elif solution.held_by_first_session and _differs(solution):
        first = (
            f"first session, so the plain rule of {solution.plain_rule_kg:.1f} kg holds; the model "
            f"would allow {solution.modelled_limit_kg:.1f} kg, where "
            f"{where.replace('would give', 'gives')}"
        )
    else:
        first = where
    short = 1 - dose.load_kg / dose.target_kg
    return _sentences(
        [
            dose.progress_reason,
            first,
            "its strength is guessed from another lift" if dose.basis is Basis.GUESSED else "",
            f"the plates hold it {share_text(short)} below the dose" if dose.kit_limited else "",
            "" if word.casefold() in dose.reason.casefold() else word,
            dose.reason,
        ]
    )


def _differs(solution: ComplexDoseSolution) -> bool:
    """Whether the model would allow at least half a kilogram more than the plain rule."""
    return solution.modelled_limit_kg - solution.limit_kg >= WORTH_SAYING_KG


def _sentences(parts: list[str]) -> str:
    """Parts as sentences, empty ones left out."""
    said = [part.strip().rstrip(".") for part in parts if part.strip()]
    return " ".join(f"{capital(part)}." for part in said)


def _id_of(plan: BlockPlan, athlete: str, name: str) -> str:
    return next(s.exercise.id for s in plan.versions[athlete] if s.exercise.name == name)


def _reserve(
    plan: BlockPlan, dose: Dose, target: LifterTarget, load_kg: float
) -> tuple[ReservePoint, ...]:
    """Repetitions in reserve through the session at the load that lies on the bar."""
    assert target.problem is not None
    return tuple(
        ReservePoint(
            round=dose.first_round + point.round - 1,
            exercise=_id_of(plan, dose.athlete, point.movement),
            reserve_reps=point.reserve_repetitions,
        )
        for point in memory.reserve(target.problem, load_kg)
    )
