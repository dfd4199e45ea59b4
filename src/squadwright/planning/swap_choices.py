"""What an athlete may do instead, exercise by exercise of a session, and what is planned now."""

from dataclasses import dataclass, replace

from squadwright.errors import NotFound
from squadwright.library import exercise as library_exercise
from squadwright.model.club import Club
from squadwright.model.exercise import Exercise
from squadwright.model.session import Session
from squadwright.planning.attendance import PersonToday, people_today
from squadwright.planning.block_plan import sits_out_by_word
from squadwright.planning.kit_there import club_there
from squadwright.planning.own_version import (
    VersionTask,
    by_coach_s_word,
    own_versions,
    swap_problem,
    what_lacks,
)
from squadwright.planning.personal import PersonalStep, amount_text, unswapped
from squadwright.planning.slot_blocks import ready_blocks
from squadwright.planning.substitution import SwapChoice, substitute

HELPS = "helps and watches"


@dataclass(frozen=True)
class RankedSwap:
    """One swap with its amount; ``exercise`` None is help and watch."""

    exercise: Exercise | None
    amount: str
    reason: str


@dataclass(frozen=True)
class StepChoices:
    """One exercise of the routine for one athlete: why not, what instead, what is planned.

    ``planned`` is None where he helps and watches; ``is_word`` says that the coach chose the
    exercise, ``sits_out`` that he gave him no round of the block.
    """

    block: str
    key: str
    written: Exercise
    amount: str
    barred: tuple[str, ...]
    planned: Exercise | None
    planned_amount: str
    is_word: bool
    sits_out: bool
    swaps: tuple[RankedSwap, ...]


def step_choices(club: Club, session: Session, athlete: str) -> tuple[StepChoices, ...]:
    """Every exercise of a session with its swaps, best first and help and watch last."""
    people = people_today(club, session)
    person = next((p for p in people if p.id == athlete), None)
    if person is None:
        raise NotFound(f"{athlete!r} is not expected in {session.name}")
    training = tuple(p for p in people if p.trains or p is person)
    there, room = club_there(club, session), club.room_of(session)
    routine = club.routine(session.routine, session.routine_version)
    return tuple(
        choices
        for block in ready_blocks(routine, library_exercise)
        for choices in _of_block(VersionTask(there, session, room, block, training), person)
    )


def _of_block(task: VersionTask, person: PersonToday) -> tuple[StepChoices, ...]:
    written = unswapped(task.block, library_exercise)
    by_word = by_coach_s_word(task, person, written)
    planned = {step.key: step for step in own_versions(task)[person.id]}
    sits_out = sits_out_by_word(task.session, person.id, task.block.name)
    if sits_out:
        planned = {}
    found = []
    for place, step in enumerate(written):
        steps = tuple(step if at == place else other for at, other in enumerate(by_word))
        lack = what_lacks(task, person, step.exercise)
        solution = substitute(swap_problem(task, person, steps, place))
        now = planned.get(step.key)
        found.append(
            StepChoices(
                block=task.block.name,
                key=step.key,
                written=step.exercise,
                amount=amount_text(step),
                barred=(*((lack,) if lack else ()), *solution.barred),
                planned=now.exercise if now else None,
                planned_amount=amount_text(now) if now else "",
                is_word=by_word[place].exercise is not step.exercise,
                sits_out=sits_out,
                swaps=tuple(_ranked(step, choice) for choice in solution.choices),
            )
        )
    return tuple(found)


def _ranked(step: PersonalStep, choice: SwapChoice) -> RankedSwap:
    if choice.exercise is None or choice.scheme is None:
        return RankedSwap(choice.exercise, "", choice.reason)
    changed = replace(step.step, exercise=choice.exercise.id, scheme=choice.scheme)
    return RankedSwap(
        choice.exercise,
        amount_text(PersonalStep(step.key, changed, choice.exercise)),
        choice.reason,
    )
