"""Findings of the safety gates: of every athlete, and of the work planned for him."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from decimal import Decimal
from functools import cache

from squadwright.library import exercises
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.exercise import Exercise, Modality
from squadwright.model.plan import Basis, Dose, Finding, PlannedExercise
from squadwright.model.session import Session
from squadwright.planning.attendance import PersonToday
from squadwright.planning.audit.view import AuditView
from squadwright.planning.complex_movement import asks_for_strength, complex_movement
from squadwright.planning.dose.capacity import capacities_from_tests, tested_sets
from squadwright.planning.gates.first_weeks import work_of_an_exercise
from squadwright.planning.gates.gate import is_beginner, sessions_before, settings_of
from squadwright.planning.gates.young_lifters import LiftingToday, lifting_under_18

FIRST_WEEKS = 4
LEAST_SHARE = Decimal("0.001")
"""Some load, where no test says which share of the most it is."""


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


def lifting_of_the_young(view: AuditView) -> Iterator[Finding]:
    """A minor lifts with consent, watched, with technique, and within the numbers for the young."""
    settings = settings_of(view.club.gate_limits)
    lifts: dict[str, list[tuple[Dose, PlannedExercise, Exercise]]] = {}
    for person, dose, planned, exercise in view.planned():
        if person.is_minor and planned.load_kg is not None:
            lifts.setdefault(person.id, []).append((dose, planned, exercise))
    for person in view.training():
        if person.id in lifts:
            today = _lifting_today(view, person, lifts[person.id])
            yield from lifting_under_18(person.gate.who, today, settings=settings)


def _lifting_today(
    view: AuditView,
    person: PersonToday,
    lifts: Sequence[tuple[Dose, PlannedExercise, Exercise]],
) -> LiftingToday:
    loaded = [each for each in lifts if each[0].basis is not Basis.TECHNIQUE_BAR]
    shares = (share_of_maximum(person, planned, exercise) for _, planned, exercise in loaded)
    day, week = view.session.held_on, days_of_lifting(view.club, person.athlete, view.session)
    return LiftingToday(
        share_of_maximum=max((each or LEAST_SHARE for each in shares), default=Decimal(0)),
        sets=max((_sets(dose, planned) for dose, planned, _ in loaded), default=0),
        days_this_week=len(week | {day}),
        has_consent=person.athlete.has_consent_of_guardian,
        supervisor=", ".join(view.session.staff),
        has_technique=person.athlete.medical.technique is not None,
        is_beginner=is_beginner(person.athlete),
        step_of_load=max((_step(dose) for dose, _, _ in loaded), default=Decimal(0)),
        is_day_after_lifting=day - timedelta(days=1) in week,
    )


def days_of_lifting(club: Club, athlete: Athlete, session: Session) -> set[date]:
    """The days of the last week before a session on which he had a bar in his hands."""
    return {
        each.held_on
        for each in sessions_before(club, athlete, session, since_days=6)
        if _lifts(club, each)
    }


def _lifts(club: Club, session: Session) -> bool:
    routine = club.routine(session.routine, session.routine_version)
    return any(step.exercise in _with_a_bar() for block in routine.blocks for step in block.steps)


@cache
def _with_a_bar() -> frozenset[str]:
    return frozenset(each.id for each in exercises() if each.modality is Modality.BARBELL)


def _step(dose: Dose) -> Decimal:
    if not dose.load_kg or not dose.last_load_kg:
        return Decimal(0)
    return Decimal(str(round(dose.load_kg / dose.last_load_kg - 1, 3)))


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
