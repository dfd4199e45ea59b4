"""Findings of the safety gates: of every athlete, and of the work planned for him."""

from collections.abc import Iterator
from decimal import Decimal

from squadwright.model.exercise import Exercise
from squadwright.model.plan import Basis, Dose, Finding, PlannedExercise
from squadwright.planning.attendance import PersonToday
from squadwright.planning.audit.view import AuditView
from squadwright.planning.complex_movement import asks_for_strength, complex_movement
from squadwright.planning.dose.capacity import capacities_from_tests, tested_sets
from squadwright.planning.gates.first_weeks import work_of_an_exercise
from squadwright.planning.gates.gate import is_beginner, settings_of
from squadwright.planning.gates.young_lifters import too_many_sets

FIRST_WEEKS = 4


def what_the_gates_found(view: AuditView) -> Iterator[Finding]:
    """What the safety gates found, of everybody who is not absent."""
    for person in view.people:
        if person.status != "absent":
            yield from person.gate.findings


def work_in_the_first_weeks(view: AuditView) -> Iterator[Finding]:
    """Sets by repetitions by share of the maximum, for who is new or comes back."""
    settings = settings_of(view.club.gate_limits)
    for person, dose, planned, exercise in view.planned():
        weeks = person.athlete.medical.first_weeks
        if weeks is None or not 0 <= (view.session.held_on - weeks.began_on).days < 7 * FIRST_WEEKS:
            continue
        share = share_of_maximum(person, planned, exercise)
        if share is None:
            continue
        item = work_of_an_exercise(
            person.gate.who,
            _sets(dose, planned),
            planned.repetitions_per_set,
            share,
            settings=settings,
        )
        if item is not None:
            yield item


def sets_of_the_young(view: AuditView) -> Iterator[Finding]:
    """A minor with a load has no more sets of an exercise than is published for the young."""
    settings = settings_of(view.club.gate_limits)
    told: set[str] = set()
    for person, dose, planned, _exercise in view.planned():
        bare = dose.basis is Basis.TECHNIQUE_BAR
        if not person.is_minor or planned.load_kg is None or bare or person.id in told:
            continue
        item = too_many_sets(
            person.gate.who,
            _sets(dose, planned),
            is_beginner=is_beginner(person.athlete),
            settings=settings,
        )
        if item is not None:
            told.add(person.id)
            yield item


def share_of_maximum(
    person: PersonToday, planned: PlannedExercise, exercise: Exercise
) -> Decimal | None:
    """The share of what he lifts once in an exercise; None without load or test."""
    if planned.load_kg is None or not person.athlete.tests or not asks_for_strength(exercise):
        return None
    parts = complex_movement(exercise, 1).parts
    known = capacities_from_tests(
        tested_sets(person.athlete.tests),
        tuple(dict.fromkeys(part.reference_lift for part in parts)),
        sex=person.athlete.sex.value,
    )
    weakest_kg = min(part.ratio * known[part.reference_lift].mean_kg for part in parts)
    return min(Decimal(1), Decimal(str(round(planned.load_kg / weakest_kg, 3))))


def _sets(dose: Dose, planned: PlannedExercise) -> int:
    return planned.sets * dose.rounds if dose.block else planned.sets
