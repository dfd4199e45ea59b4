"""From an athlete's own version of a complex to a dose problem, and the target it gives."""

from dataclasses import dataclass, replace

from squadwright.errors import InvalidInput
from squadwright.learning.calibration import Rule
from squadwright.learning.history import Trial
from squadwright.learning.progression import Bound, bound, last_load_kg
from squadwright.model.exercise import Exercise, Pattern, ReferenceLift
from squadwright.model.kit import Kit
from squadwright.model.plan import Basis
from squadwright.model.routine import CountedIn
from squadwright.model.session import Override, Settings
from squadwright.planning.attendance import PersonToday
from squadwright.planning.by_hand import next_loads, step_for_all_kg
from squadwright.planning.complex_movement import asks_for_strength, complex_movement
from squadwright.planning.contacts import repetitions_per_set
from squadwright.planning.dose import memory
from squadwright.planning.dose.capacity import capacities_from_tests, tested_sets
from squadwright.planning.dose.problem import (
    CapacityBasis,
    ComplexDoseProblem,
    ComplexDoseSolution,
    ComplexMovement,
)
from squadwright.planning.personal import PersonalStep
from squadwright.planning.rounds import COACHS_OVERRIDE, Rounds

PLAIN_RULE_REPETITIONS = 5
HELD = "not above what holds under the restriction"


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
    learns the movements with a stick. ``trials`` are those of this complex in earlier
    sessions, ``next_kg`` the next load up from the last of them.
    """

    athlete: str
    target_kg: float | None
    basis: Basis
    reason: str
    solution: ComplexDoseSolution | None = None
    needs_technique_bar: bool = False
    problem: ComplexDoseProblem | None = None
    trials: tuple[Trial, ...] = ()
    next_kg: float | None = None


def targets(
    lifters: tuple[LifterTask, ...], kit: Kit, settings: Settings, rest_s: int
) -> dict[str, LifterTarget]:
    """The target of each lifter; all modelled ones are solved in one call."""
    found: dict[str, LifterTarget] = {}
    people = {lifter.person.id: lifter.person for lifter in lifters}
    problems: dict[str, ComplexDoseProblem] = {}
    next_kg: dict[str, float | None] = {}
    for lifter in lifters:
        held = _technique_bar(lifter, kit, settings)
        if held is not None:
            found[lifter.person.id] = held
            continue
        step = _step(lifter, kit, settings)
        problem = _problem(lifter, step, settings, rest_s)
        if problem is not None:
            problems[lifter.person.id] = problem
            next_kg[lifter.person.id] = None if step is None else step.next_kg
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
        held_kg = _gate_limit_kg(people[athlete], problems[athlete])
        if held_kg is not None and held_kg < solution.limit_kg:
            solution = replace(solution, limit_kg=held_kg)
            word = _capped_words(people[athlete])
        found[athlete] = LifterTarget(
            athlete,
            solution.limit_kg,
            _basis(problems[athlete], solution),
            _sentence(people[athlete], f"{word}: {HELD}" if athlete in above else word),
            solution,
            problem=unsaid.get(athlete, problems[athlete]),
            trials=_trials(people[athlete], problems[athlete].movements),
            next_kg=next_kg.get(athlete),
        )
    return found


def _gate_limit_kg(person: PersonToday, problem: ComplexDoseProblem) -> float | None:
    """The most the gates allow him on the bar [kg]: a share of his weakest movement."""
    share = person.gate.caps.share_of_maximum
    if share is None:
        return None
    weakest_kg = min(
        part.ratio * problem.capacities[part.reference_lift].mean_kg
        for movement in problem.movements
        for part in movement.parts
    )
    return float(share) * weakest_kg


def _capped_words(person: PersonToday) -> str:
    share = person.gate.caps.share_of_maximum
    why = person.gate.caps.why or ("under 18",)
    return f"{'; '.join(why)}: {share:.0%} of the maximum at most"


def _sentence(person: PersonToday, word: str) -> str:
    """The coach's word, else the plain rule his dose goes by, with its ground."""
    lesson = person.lesson
    if word or lesson is None or lesson.rule is Rule.MODEL:
        return word
    return lesson.rule_words


def word_of(override: Override | None) -> str:
    """The coach's word on load or bar as it stands in the plan; empty where he said nothing."""
    if override is None or not (override.load or override.bar or override.with_stick):
        return ""
    return f"{COACHS_OVERRIDE}: {override.reason}"


def own_limit_kg(problem: ComplexDoseProblem, solution: ComplexDoseSolution) -> float:
    """What he would have without the coach's word [kg]."""
    keeps_to_rule = problem.is_first_session and problem.first_session_within_plain_rule
    if problem.goes_by_plain_rule or problem.rule_kg is not None:
        limits = [problem.rule_kg or solution.plain_rule_kg]
    else:
        limits = [solution.modelled_limit_kg]
        limits += [solution.plain_rule_kg] if keeps_to_rule else []
    limits += [] if problem.step_kg is None else [problem.step_kg]
    return min(limits)


def _trials(person: PersonToday, moves: tuple[ComplexMovement, ...]) -> tuple[Trial, ...]:
    """His trials of these movements in earlier sessions."""
    return () if person.lesson is None else person.lesson.of_work(moves)


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
        complex_movement(
            step.exercise, _repetitions(step), reserve=wanted_reserve(step.exercise, settings)
        )
        for step in steps
        if asks_for_strength(step.exercise)
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
    is_young = person.age < settings.technique_bar_below_age
    is_learner = is_young or person.is_guest or bool(person.gate.caps.no_load)
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
        if is_young
        else "guest"
        if person.is_guest
        else person.gate.caps.no_load or "no strength test yet"
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


def _step(lifter: LifterTask, kit: Kit, settings: Settings) -> Bound | None:
    """The step from his last session of this complex; None where there was none."""
    trials = _trials(lifter.person, movements(lifter.steps, settings))
    return bound(trials, lambda load_kg: next_loads(kit, None, load_kg), step_for_all_kg(kit))


def _problem(
    lifter: LifterTask, step: Bound | None, settings: Settings, rest_s: int
) -> ComplexDoseProblem | None:
    moves = movements(lifter.steps, settings)
    if not moves:
        return None
    athlete = lifter.person.athlete
    lifts = tuple(dict.fromkeys(part.reference_lift for m in moves for part in m.parts))
    override, lesson = lifter.override, lifter.person.lesson
    return ComplexDoseProblem(
        movements=moves,
        rounds=max(1, lifter.rounds.rounds),
        rest_s=float(rest_s),
        capacities=capacities_from_tests(tested_sets(athlete.tests), lifts, sex=athlete.sex.value),
        target_probability=settings.target_probability,
        is_first_session=step is None,
        first_session_within_plain_rule=settings.first_session_keeps_to_plain_rule,
        plain_rule_share=settings.plain_rule_fraction,
        plain_rule_kg=plain_rule_kg(lifter.person, settings),
        coach_load_kg=None if override is None or override.load is None else override.load.kg,
        learned=None if lesson is None else lesson.learned,
        step_kg=None if step is None else step.at_most_kg,
        rule_kg=_rule_kg(lifter, moves, step),
        goes_by_plain_rule=lesson is not None and lesson.rule is Rule.WEAKEST_LIFT,
    )


def _rule_kg(
    lifter: LifterTask, moves: tuple[ComplexMovement, ...], step: Bound | None
) -> float | None:
    """The load by the last one [kg], where that came nearer than the forecast; else None."""
    lesson = lifter.person.lesson
    if lesson is None or lesson.rule is not Rule.LAST_LOAD or step is None:
        return None
    return last_load_kg(lesson.of_work(moves), step.next_kg)


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


def _basis(problem: ComplexDoseProblem, solution: ComplexDoseSolution) -> Basis:
    if solution.set_by_coach:
        return Basis.OVERRIDE
    if solution.goes_by_rule:
        return Basis.RULE
    if problem.learned is not None:
        return Basis.EARLIER
    return Basis.TEST if solution.basis is CapacityBasis.TESTED else Basis.GUESSED
