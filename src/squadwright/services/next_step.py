"""Query: what comes next for each athlete of a session, after what he did before."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import pairwise

from squadwright.learning.evidence import work_of
from squadwright.learning.history import Trial, Work
from squadwright.learning.lesson import Lesson, lessons_of
from squadwright.learning.other_step import OtherStep, Room, other_step
from squadwright.model.club import Club
from squadwright.model.plan import Basis, Dose, Plan
from squadwright.model.routine import RestKind
from squadwright.model.session import Override, Session
from squadwright.planning.attendance import people_today
from squadwright.planning.block_plan import override_of
from squadwright.planning.by_hand import next_loads
from squadwright.planning.dose.capacity import capacities_from_tests, tested_sets
from squadwright.services.planning import ShownSession, show_session
from squadwright.services.plans_in_mind import outcome
from squadwright.services.unit_of_work import Keeper

ABOUT_THE_SAME_S = 15


@dataclass(frozen=True)
class NextStep:
    """One athlete in one complex.

    ``last`` is his last session of it, ``sessions`` how many there were. ``word`` is the coach's,
    and ``own`` the dose he would have without it. ``other`` is what is proposed where the plates
    give no step up. ``restrictions`` are in force.
    """

    dose: Dose
    name: str
    last: Trial | None
    sessions: int
    restrictions: tuple[str, ...]
    word: Override | None = None
    own: Dose | None = None
    other: OtherStep | None = None


@dataclass(frozen=True)
class NextSteps:
    """A session with its plan, and the next step of everybody who has a load; ``steps`` is empty
    where there is no plan.
    """

    shown: ShownSession
    steps: tuple[NextStep, ...]


def next_steps(keeper: Keeper, session_id: str, *, today: date) -> NextSteps:
    """What comes next in a session; NotFound where there is none of this name."""
    shown = show_session(keeper, session_id, today=today)
    assert isinstance(shown, ShownSession)
    if shown.plan is None:
        return NextSteps(shown, ())
    club, session, plan = shown.club, shown.session, shown.plan
    loaded = [dose for dose in plan.doses if dose.block]
    words = {(d.athlete, d.block): _word(session, d) for d in loaded}
    bare = _without_words(keeper, club, session) if any(words.values()) else None
    lessons = {lesson.athlete: lesson for lesson in lessons_of(club)}
    barred = {line.athlete: line.restrictions for line in plan.attendance}
    found = []
    for dose in loaded:
        work, lesson = work_of(plan, dose), lessons.get(dose.athlete)
        trials = () if work is None or lesson is None else lesson.of_work(work.movements)
        step = NextStep(
            dose,
            plan.shown_name(dose.athlete),
            trials[-1] if trials else None,
            len(trials),
            barred.get(dose.athlete, ()),
            words[dose.athlete, dose.block],
            own=_same_dose(bare, dose),
        )
        if step.word is None and trials and lesson is not None and work is not None:
            other = _other(club, session, plan, dose, _Known(lesson, trials, work))
            step = replace(step, other=other)
        found.append(step)
    return NextSteps(shown, tuple(found))


def next_with_same_routine(club: Club, session: Session) -> Session | None:
    """The session that comes next after one with its routine, in any version; None without one."""
    later = [s for s in club.sessions if session.is_before(s) and s.routine == session.routine]
    return min(later, key=lambda s: (s.held_on, s.starts_at, s.id), default=None)


@dataclass(frozen=True)
class _Known:
    lesson: Lesson
    trials: Sequence[Trial]
    work: Work


def _word(session: Session, dose: Dose) -> Override | None:
    """What the coach set of load, rounds or bar."""
    word = override_of(session, dose.athlete, dose.block)
    if word is None:
        return None
    says = word.load is not None or word.rounds is not None or word.bar is not None
    return word if says or word.with_stick else None


def _without_words(keeper: Keeper, club: Club, session: Session) -> Plan | None:
    """The plan as it would be if the coach had set no load, rounds or bar."""
    kept = tuple(
        replace(word, rounds=None, load=None, bar=None, with_stick=False)
        for word in session.overrides
        if word.swaps
    )
    plan, _ = outcome(keeper, club, replace(session, overrides=kept), previous=None)
    return plan


def _same_dose(plan: Plan | None, dose: Dose) -> Dose | None:
    doses = () if plan is None else plan.doses
    return next((d for d in doses if (d.athlete, d.block) == (dose.athlete, dose.block)), None)


def _other(club: Club, session: Session, plan: Plan, dose: Dose, known: _Known) -> OtherStep | None:
    """One round more or less rest, where the plates give no step up."""
    if dose.load_kg is None or dose.target_kg is None or dose.basis is not Basis.EARLIER:
        return None
    if dose.target_probability is None:
        return None
    person = next(p for p in people_today(club, session) if p.id == dose.athlete)
    capacities = capacities_from_tests(
        tested_sets(person.athlete.tests), known.work.reference_lifts, sex=person.athlete.sex.value
    )
    room = Room(
        load_kg=dose.load_kg,
        target_kg=dose.target_kg,
        next_kg=next_loads(club.kit, None, known.trials[-1].load_kg)[1],
        target_probability=dose.target_probability,
        spare_s=_spare_s(session, plan),
        round_s=_round_s(plan, dose),
        sets_rest=_sets_rest(club, session, dose, known.work.rest_s),
    )
    return other_step(known.trials, known.lesson.learned, known.work, capacities, room)


def _spare_s(session: Session, plan: Plan) -> float:
    """Time between the end of the sheet and the end of the slot."""
    end_s = max((line.end_s for line in plan.run_sheet), default=0)
    return 60 * session.as_held().minutes - end_s


def _round_s(plan: Plan, dose: Dose) -> float:
    """What one round of his takes, from its start to the start of the next; 0 where unknown."""
    starts = sorted(
        line.start_s
        for line in plan.run_sheet
        if line.block == dose.block
        and line.activity.startswith("work")
        and dose.athlete in line.athletes
    )
    return max((b - a for a, b in pairwise(starts)), default=0)


def _sets_rest(club: Club, session: Session, dose: Dose, rest_s: float) -> bool:
    """Whether the routine sets the rest in seconds, and turns do not make it longer."""
    routine = club.routine(session.routine, session.routine_version)
    block = next((b for b in routine.blocks if b.name == dose.block), None)
    if block is None or block.rest.kind is not RestKind.SECONDS:
        return False
    return rest_s - (block.rest.seconds or 0) < ABOUT_THE_SAME_S
