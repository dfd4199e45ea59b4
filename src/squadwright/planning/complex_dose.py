"""From an athlete's own version of a complex to a dose problem, and the target it gives."""

from dataclasses import dataclass, replace

from squadwright.errors import InvalidInput
from squadwright.model.exercise import Exercise, Pattern, ReferenceLift
from squadwright.model.kit import Kit
from squadwright.model.plan import Basis
from squadwright.model.routine import CountedIn
from squadwright.model.session import Override, Settings
from squadwright.planning.attendance import PersonToday
from squadwright.planning.contacts import repetitions_per_set
from squadwright.planning.dose import memory
from squadwright.planning.dose.capacity import TestedSet, capacities_from_tests
from squadwright.planning.dose.problem import (
    CapacityBasis,
    ComplexDoseProblem,
    ComplexDoseSolution,
    ComplexMovement,
    MovementPart,
)
from squadwright.planning.personal import PersonalStep
from squadwright.planning.rounds import COACHS_OVERRIDE, Rounds

PLAIN_RULE_REPETITIONS = 5


@dataclass(frozen=True)
class LifterTask:
    """One athlete of a complex: who, his version, his rounds, the coach's word if any."""

    person: PersonToday
    steps: tuple[PersonalStep, ...]
    rounds: Rounds
    override: Override | None = None


@dataclass(frozen=True)
class LifterTarget:
    """What may lie in his hands at most, and what that rests on.

    ``solution`` is None on the technique bar. ``target_kg`` None: no bar is light enough, so he
    learns the movements with a stick.
    """

    athlete: str
    target_kg: float | None
    basis: Basis
    reason: str
    solution: ComplexDoseSolution | None = None
    needs_technique_bar: bool = False
    problem: ComplexDoseProblem | None = None


def targets(
    lifters: tuple[LifterTask, ...], kit: Kit, settings: Settings, rest_s: int
) -> dict[str, LifterTarget]:
    """The target of each lifter; all modelled ones are solved in one call."""
    found: dict[str, LifterTarget] = {}
    people = {lifter.person.id: lifter.person for lifter in lifters}
    problems: dict[str, ComplexDoseProblem] = {}
    for lifter in lifters:
        held = _technique_bar(lifter, kit, settings)
        if held is not None:
            found[lifter.person.id] = held
            continue
        problem = _problem(lifter, settings, rest_s)
        if problem is not None:
            problems[lifter.person.id] = problem
        else:
            found[lifter.person.id] = _no_effort(lifter, kit)
    solved = dict(zip(problems, memory.doses(list(problems.values())), strict=True))
    above = {a for a, s in solved.items() if _is_above_what_holds(people[a], problems[a], s)}
    unsaid = {a: replace(problems[a], coach_load_kg=None) for a in above}
    solved |= dict(zip(unsaid, memory.doses(list(unsaid.values())), strict=True))
    for lifter in lifters:
        athlete = lifter.person.id
        if athlete not in solved:
            continue
        solution, word = solved[athlete], word_of(lifter.override)
        found[athlete] = LifterTarget(
            athlete,
            solution.limit_kg,
            _basis(solution),
            f"{word}: not above what holds under the restriction" if athlete in above else word,
            solution,
            problem=unsaid.get(athlete, problems[athlete]),
        )
    return found


def word_of(override: Override | None) -> str:
    """The coach's word on load or bar as it stands in the plan; empty where he said nothing."""
    if override is None or not (override.load or override.bar or override.with_stick):
        return ""
    return f"{COACHS_OVERRIDE}: {override.reason}"


def own_limit_kg(problem: ComplexDoseProblem, solution: ComplexDoseSolution) -> float:
    """What he would have without the coach's word [kg]."""
    keeps_to_rule = problem.is_first_session and problem.first_session_within_plain_rule
    if keeps_to_rule and solution.plain_rule_kg is not None:
        return min(solution.plain_rule_kg, solution.modelled_limit_kg)
    return solution.modelled_limit_kg


def _is_above_what_holds(
    person: PersonToday, problem: ComplexDoseProblem, solution: ComplexDoseSolution
) -> bool:
    """Whether the coach set more than the model while a restriction by medical staff holds."""
    if not solution.set_by_coach or not person.has_medical_restriction:
        return False
    return solution.limit_kg > own_limit_kg(problem, solution) + 1e-9


def movements(steps: tuple[PersonalStep, ...], settings: Settings) -> tuple[ComplexMovement, ...]:
    """The movements of a complex that ask for strength, as the dose sees them."""
    return tuple(
        ComplexMovement(
            name=step.exercise.name,
            parts=tuple(
                MovementPart(
                    involvement=part.effort.involvement,
                    reference_lift=part.effort.reference_lift.value,
                    ratio=part.effort.ratio,
                    ratio_sd_fraction=part.effort.ratio_sd_fraction,
                )
                for part in step.exercise.parts
                if part.effort is not None
            ),
            repetitions=_repetitions(step),
            wanted_reserve=wanted_reserve(step.exercise, settings),
            seconds_per_repetition=step.exercise.seconds_per_repetition,
        )
        for step in steps
        if any(part.effort is not None for part in step.exercise.parts)
    )


def wanted_reserve(exercise: Exercise, settings: Settings) -> int:
    """Repetitions to be left at the worst point; more for hinges, where a tired back rounds."""
    if exercise.pattern is Pattern.HINGE:
        return settings.hinge_reserve_repetitions
    return settings.reserve_repetitions


def _repetitions(step: PersonalStep) -> int:
    scheme = step.step.scheme
    if scheme.counted_in is CountedIn.SECONDS:
        return max(1, round(scheme.count / step.exercise.seconds_per_repetition))
    return repetitions_per_set(step.exercise, scheme)


def _technique_bar(lifter: LifterTask, kit: Kit, settings: Settings) -> LifterTarget | None:
    """The young, guests and the untested learn on the technique bar; no load is worked out for
    them.
    """
    person, override = lifter.person, lifter.override
    if override is not None and override.with_stick:
        return LifterTarget(person.id, None, Basis.OVERRIDE, word_of(override))
    is_learner = person.age < settings.technique_bar_below_age or person.is_guest
    if not is_learner and override is not None and override.load is not None:
        return None if person.athlete.tests else _by_word(person, override)
    if not is_learner and person.athlete.tests:
        return None
    lightest = min(
        (bar for bar in kit.bars if bar.in_service and bar.is_technique_bar),
        key=lambda bar: bar.mass.kg,
        default=None,
    )
    why = (
        f"age {person.age}, under {settings.technique_bar_below_age}"
        if person.age < settings.technique_bar_below_age
        else "guest"
        if person.is_guest
        else "no strength test yet"
    )
    if lightest is None:
        return LifterTarget(
            person.id,
            None,
            Basis.TECHNIQUE_BAR,
            f"{why}, and the store has no technique bar: learns the movements with a stick",
            needs_technique_bar=True,
        )
    return LifterTarget(
        person.id,
        lightest.mass.kg,
        Basis.TECHNIQUE_BAR,
        f"{why}: the bare technique bar, no load from a test",
        needs_technique_bar=True,
    )


def _by_word(person: PersonToday, override: Override) -> LifterTarget:
    assert override.load is not None
    return LifterTarget(
        person.id,
        override.load.kg,
        Basis.OVERRIDE,
        f"{word_of(override)}; no strength test to compare with",
    )


def _no_effort(lifter: LifterTask, kit: Kit) -> LifterTarget:
    bars = [bar.mass.kg for bar in kit.bars if bar.in_service]
    return LifterTarget(
        lifter.person.id,
        min(bars, default=None),
        Basis.NONE,
        "nothing in this version asks for strength: the lightest bar",
    )


def _problem(lifter: LifterTask, settings: Settings, rest_s: int) -> ComplexDoseProblem | None:
    moves = movements(lifter.steps, settings)
    if not moves:
        return None
    athlete = lifter.person.athlete
    lifts = tuple(dict.fromkeys(part.reference_lift for m in moves for part in m.parts))
    in_order = sorted(athlete.tests, key=lambda test: test.taken_on)
    sets = [TestedSet(t.lift.value, t.load.kg, t.repetitions) for t in in_order]
    override = lifter.override
    return ComplexDoseProblem(
        movements=moves,
        rounds=max(1, lifter.rounds.rounds),
        rest_s=float(rest_s),
        capacities=capacities_from_tests(sets, lifts, sex=athlete.sex.value),
        target_probability=settings.target_probability,
        is_first_session=True,
        first_session_within_plain_rule=settings.first_session_keeps_to_plain_rule,
        plain_rule_share=settings.plain_rule_fraction,
        plain_rule_kg=plain_rule_kg(lifter.person, settings),
        coach_load_kg=None if override is None or override.load is None else override.load.kg,
    )


def plain_rule_kg(person: PersonToday, settings: Settings) -> float | None:
    """The coach's plain rule: a share of the best strict press for five [kg], or None."""
    presses = [
        test
        for test in person.athlete.tests
        if test.lift is ReferenceLift.STRICT_PRESS and test.repetitions == PLAIN_RULE_REPETITIONS
    ]
    if not presses:
        return None
    latest = max(presses, key=lambda test: test.taken_on)
    rule = settings.plain_rule_fraction * latest.load.kg
    if rule <= 0:
        raise InvalidInput(
            "settings.plain_rule_fraction",
            f"{settings.plain_rule_fraction:g} gives a load of {rule:g} kg",
            "Give a share above 0, for example 0.6",
        )
    return rule


def _basis(solution: ComplexDoseSolution) -> Basis:
    if solution.set_by_coach:
        return Basis.OVERRIDE
    return Basis.TEST if solution.basis is CapacityBasis.TESTED else Basis.GUESSED
