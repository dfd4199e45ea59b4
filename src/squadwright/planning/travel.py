"""The same session with what a room away from home has: intents, rounds and minutes are kept."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from squadwright.library import exercise as library_exercise
from squadwright.library import exercises as library_exercises
from squadwright.model.club import Club
from squadwright.model.exercise import Exercise, Pattern
from squadwright.model.routine import Block, RestKind, Routine, Scheme, Step, Style
from squadwright.model.session import Session
from squadwright.planning.attendance import PersonToday
from squadwright.planning.ball import ball_band
from squadwright.planning.contacts import count_set
from squadwright.planning.done_before import ENOUGH_SESSIONS, done_before
from squadwright.planning.personal import PersonalStep, amount_text, unswapped
from squadwright.planning.rounds import RoundsProblem, personal_rounds
from squadwright.planning.session_time import complex_cycle_s
from squadwright.planning.slot_blocks import ready_blocks
from squadwright.planning.substitution import (
    KitThere,
    SpaceThere,
    SubstitutionProblem,
    is_there,
    substitute,
)
from squadwright.planning.substitution.barred import barred_by

NOTHING_NEW_DAYS = 8
"""So near an event nothing is done for the first time, a default of ours."""
NOTHING_FITS = "nothing that is allowed fits here: help and watch, or rest"


class Intent(StrEnum):
    """What an exercise is in a session for, in one word."""

    PUSH = "push"
    PULL = "pull"
    HINGE = "hinge"
    LUNGE = "lunge"
    SQUAT = "squat"
    ROTATE = "rotate"
    JUMP = "jump"
    THROW = "throw"
    CARRY = "carry"
    BRACE = "brace"
    CALF = "calf"
    BREATHE = "breathe"


INTENT_OF = {
    Pattern.PUSH_OVERHEAD: Intent.PUSH,
    Pattern.PUSH_HORIZONTAL: Intent.PUSH,
    Pattern.PULL: Intent.PULL,
    Pattern.UPRIGHT_PULL: Intent.PULL,
    Pattern.CLEAN: Intent.PULL,
    Pattern.BOUND: Intent.JUMP,
    Pattern.HOP: Intent.JUMP,
    **{
        pattern: Intent(pattern.value)
        for pattern in Pattern
        if pattern.value in {intent.value for intent in Intent}
    },
}


@dataclass(frozen=True)
class TravelKit:
    """What is there: one ball [kg] or none, a room [m], and whatever else was found."""

    ball_kg: float | None = 4.0
    width_m: float = 3.0
    length_m: float = 3.0
    ceiling_m: float = 2.4
    has_mat: bool = True
    has_partner: bool = False
    has_fixed_bar: bool = False


@dataclass(frozen=True)
class TravelLine:
    """One exercise of the session and what is done instead; None where nothing fits."""

    key: str
    intent: Intent
    written: Exercise
    chosen: Exercise | None
    amount: str
    reason: str
    is_new: bool = False

    @property
    def keeps_intent(self) -> bool:
        """Whether what is done is for the same thing."""
        return self.chosen is not None and INTENT_OF[self.chosen.pattern] is self.intent


@dataclass(frozen=True)
class TravelBlock:
    """A block: rounds, work of all of them, rest after each set or round, and how long it takes.

    ``written_s`` is its length as written for as many rounds. All in seconds.
    """

    name: str
    style: Style
    rounds: int
    rounds_reason: str
    lines: tuple[TravelLine, ...]
    work_s: float
    rest_s: float
    written_s: float
    travel_s: float


@dataclass(frozen=True)
class TravelCard:
    """The whole session away from home; ``person`` is None where it is for the unrestricted."""

    routine: Routine
    kit: TravelKit
    blocks: tuple[TravelBlock, ...]
    person: PersonToday | None = None
    ball_left_out: bool = False

    @property
    def lines(self) -> tuple[TravelLine, ...]:
        """Every exercise."""
        return tuple(line for block in self.blocks for line in block.lines)

    @property
    def intents(self) -> tuple[Intent, ...]:
        """What the session is for, in its order."""
        return tuple(dict.fromkeys(line.intent for line in self.lines))

    @property
    def lost(self) -> tuple[Intent, ...]:
        """Intents of which no exercise is left."""
        kept = {line.intent for line in self.lines if line.keeps_intent}
        return tuple(intent for intent in self.intents if intent not in kept)


def travel_card(
    club: Club, session: Session, kit: TravelKit, person: PersonToday | None = None
) -> TravelCard:
    """The session with this kit, for one athlete with his restrictions and taper, or for anybody.

    Each exercise that needs what is not there is swapped for one of the same intent, done for as
    many seconds, so that rounds, rest and minutes stay as written.
    """
    routine = club.routine(session.routine, session.routine_version)
    is_too_heavy = person is not None and _is_too_heavy(kit, person)
    there = replace(kit, ball_kg=None) if is_too_heavy else kit
    return TravelCard(
        routine=routine,
        kit=kit,
        blocks=tuple(
            _block(club, session, there, person, block)
            for block in ready_blocks(routine, library_exercise)
        ),
        person=person,
        ball_left_out=is_too_heavy,
    )


def _is_too_heavy(kit: TravelKit, person: PersonToday) -> bool:
    heaviest = ball_band(person.body_mass_kg, person.age).heaviest_kg
    return kit.ball_kg is not None and kit.ball_kg > heaviest + 1e-9


def _block(
    club: Club, session: Session, kit: TravelKit, person: PersonToday | None, block: Block
) -> TravelBlock:
    written = unswapped(block, library_exercise)
    known = None
    if person is not None:
        count, done = done_before(club, session, person.id)
        known = done if count >= ENOUGH_SESSIONS else None
    days = None if person is None else person.days_to_main_event()
    is_near = days is not None and days <= NOTHING_NEW_DAYS
    chosen: list[PersonalStep | None] = []
    lines = []
    for step in written:
        others = tuple(c.exercise for c in chosen if c is not None)
        problem = _problem(step, block, kit, person, others)
        found, reason = _choice(problem, known if is_near else None)
        chosen.append(found and replace(step, step=found.step, exercise=found.exercise))
        lines.append(
            TravelLine(
                key=step.key,
                intent=INTENT_OF[step.exercise.pattern],
                written=step.exercise,
                chosen=None if found is None else found.exercise,
                amount="" if found is None else _amount(found, block),
                reason=reason,
                is_new=found is not None and known is not None and found.exercise.id not in known,
            )
        )
    rounds, why = block.rounds, ""
    if person is not None:
        own = personal_rounds(RoundsProblem(person, block.rounds, session.settings))
        rounds, why = own.rounds, own.reason
    return TravelBlock(
        name=block.name,
        style=block.style,
        rounds=rounds,
        rounds_reason=why,
        lines=tuple(lines),
        **_times(block, written, [step for step in chosen if step is not None], rounds),
    )


def _times(
    block: Block, written: Sequence[PersonalStep], chosen: Sequence[PersonalStep], rounds: int
) -> dict[str, float]:
    """The block keeps its length: what the work leaves of it is rest."""
    written_s = _seconds(block, written, rounds)
    is_in_rounds = block.style in (Style.COMPLEX, Style.CIRCUIT)
    per_round = [
        (1 if is_in_rounds else step.step.scheme.sets) * _work_s(block, step) for step in chosen
    ]
    turns = rounds * (1 if is_in_rounds else sum(s.step.scheme.sets for s in chosen))
    work_s = rounds * sum(per_round)
    rest_s = max(0.0, written_s - work_s) / turns if turns and chosen else 0.0
    return {
        "work_s": work_s,
        "rest_s": rest_s,
        "written_s": written_s,
        "travel_s": max(written_s, work_s) if chosen and rounds else 0.0,
    }


def _work_s(block: Block, step: PersonalStep) -> float:
    return count_set(step.exercise, step.step.scheme, lane=block.lane).work_s


def _problem(
    step: PersonalStep,
    block: Block,
    kit: TravelKit,
    person: PersonToday | None,
    others: tuple[Exercise, ...],
) -> SubstitutionProblem:
    return SubstitutionProblem(
        exercise=step.exercise,
        scheme=step.step.scheme,
        library=tuple(e for e in library_exercises() if not e.needs.box_row),
        restrictions=() if person is None else person.restrictions,
        pains=() if person is None else person.pains,
        level=None if person is None else person.athlete.level,
        age=None if person is None else person.age,
        others=others,
        kit=KitThere(
            bar=False,
            no_bounce_balls=1 if kit.ball_kg is not None else 0,
            mats=1 if kit.has_mat else 0,
            partner=kit.has_partner,
            fixed_bar=kit.has_fixed_bar,
        ),
        space=SpaceThere(kit.width_m, kit.length_m, kit.ceiling_m),
        lane=block.lane,
    )


def _choice(
    problem: SubstitutionProblem, known: set[str] | None
) -> tuple[PersonalStep | None, str]:
    """The exercise itself where it can be done, else the best swap of the same intent.

    Where ``known`` is given, he competes soon: what he has done before goes first.
    """
    old = problem.exercise
    may = not (
        problem.is_kept_from_training
        or old.needs.box_row
        or barred_by(old, problem.restrictions, problem.pains, problem.level, problem.age)
    )
    if may and is_there(problem, old.needs):
        return _step(problem, old), "as written"
    swaps = [
        (c.exercise, c.scheme, c.reason)
        for c in substitute(problem).choices
        if c.exercise is not None and c.scheme is not None
    ]
    used = {other.id for other in problem.others}

    def rank(swap: tuple[Exercise, Scheme, str]) -> tuple[bool, bool, bool]:
        new = swap[0]
        is_other = INTENT_OF[new.pattern] is not INTENT_OF[old.pattern]
        return is_other, known is not None and new.id not in known, new.id in used

    if not swaps:
        return None, NOTHING_FITS
    exercise, scheme, reason = min(swaps, key=rank)
    step = _step(problem, exercise)
    return replace(step, step=replace(step.step, scheme=scheme)), reason


def _step(problem: SubstitutionProblem, exercise: Exercise) -> PersonalStep:
    return PersonalStep("", Step(exercise.id, problem.scheme), exercise)


def _amount(step: PersonalStep, block: Block) -> str:
    sets = step.step.scheme.sets
    amount = amount_text(step)
    is_in_rounds = block.style in (Style.COMPLEX, Style.CIRCUIT)
    return amount if sets == 1 or is_in_rounds else f"{sets} sets of {amount}"


def _seconds(block: Block, steps: Sequence[PersonalStep], rounds: int) -> float:
    """How long a block takes one athlete as written, rest included [s]."""
    works = [_work_s(block, step) for step in steps]
    if block.style is Style.COMPLEX:
        work_s, cycle_s = complex_cycle_s(block, block.waves, library_exercise)
        return rounds * (sum(works) + cycle_s - work_s)
    if block.style is Style.CIRCUIT:
        return rounds * sum(work + block.changeover_s for work in works)
    return rounds * sum(
        step.step.scheme.sets * (work + _rest_s(block, work))
        for step, work in zip(steps, works, strict=True)
    )


def _rest_s(block: Block, work_s: float) -> float:
    match block.rest.kind:
        case RestKind.SECONDS:
            return block.rest.seconds
        case RestKind.WORK_TO_REST:
            return block.rest.ratio * work_s
        case RestKind.PARTNER_WORKS:
            return work_s
