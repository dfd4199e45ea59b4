"""What each athlete may do instead, exercise by exercise, for the coach who is on the floor."""

from collections.abc import Hashable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from squadwright.learning.lesson import untaught
from squadwright.library import exercise as library_exercise
from squadwright.model.club import Club
from squadwright.model.exercise import Exercise
from squadwright.model.plan import Plan
from squadwright.model.session import Session
from squadwright.planning.attendance import PersonToday, people_today
from squadwright.planning.kit_there import club_there
from squadwright.planning.own_version import VersionTask, own_versions, swap_problem
from squadwright.planning.personal import Versions
from squadwright.planning.slot_blocks import ready_blocks
from squadwright.planning.substitution import SubstitutionProblem, substitute
from squadwright.planning.swap_choices import HELPS

MOST_SWAPS = 5
"""Swaps offered on the floor before help and watch: six keys in all, a default of ours."""
RUNNING_AT_ONCE = 8


@dataclass(frozen=True)
class Instead:
    """An exercise of a block, and the names of the best swaps for it; help and watch is last."""

    block: str
    exercise: str
    name: str
    swaps: tuple[str, ...]


def instead_of(club: Club, session: Session, plan: Plan) -> Mapping[str, tuple[Instead, ...]]:
    """By athlete, every exercise that he does by a plan of the session, with his best swaps.

    Those for whom the same is barred and the same kit is there share one answer, and every device
    of a session shares the whole. What earlier sessions taught is no part of the question.
    """
    return _instead_of(untaught(club), session, plan)


@lru_cache(maxsize=RUNNING_AT_ONCE)
def _instead_of(club: Club, session: Session, plan: Plan) -> Mapping[str, tuple[Instead, ...]]:
    works = {line.athlete for line in plan.attendance if line.status in ("present", "late")}
    people = tuple(person for person in people_today(club, session) if person.id in works)
    there, room = club_there(club, session), club.room_of(session)
    routine = club.routine(session.routine, session.routine_version)
    found: dict[str, list[Instead]] = {person.id: [] for person in people}
    known: dict[Hashable, tuple[str, ...]] = {}
    for block in ready_blocks(routine, library_exercise):
        task = VersionTask(there, session, room, block, people)
        versions = own_versions(task)
        for person in people:
            for exercise, problem in _problems(task, person, versions):
                alike = _alike(problem)
                if alike not in known:
                    known[alike] = _best(problem)
                found[person.id].append(
                    Instead(block.name, exercise.id, exercise.name, known[alike])
                )
    return {athlete: tuple(each) for athlete, each in found.items()}


def _problems(
    task: VersionTask, person: PersonToday, versions: Versions
) -> Iterator[tuple[Exercise, SubstitutionProblem]]:
    """Each exercise of his own version, once."""
    steps = versions[person.id]
    seen: set[str] = set()
    for place, step in enumerate(steps):
        if step.exercise.id not in seen:
            seen.add(step.exercise.id)
            yield step.exercise, swap_problem(task, person, steps, place)


def _alike(problem: SubstitutionProblem) -> Hashable:
    """All that tells two problems of one session apart; exercises by their ids."""
    return (
        problem.exercise.id,
        problem.scheme,
        problem.bar_from,
        problem.bar_to,
        problem.restrictions,
        problem.pains,
        problem.level,
        problem.age,
        tuple(sorted(other.id for other in problem.others)),
        problem.kit,
        problem.lane,
    )


def _best(problem: SubstitutionProblem) -> tuple[str, ...]:
    choices = substitute(problem).choices
    names = [choice.exercise.name for choice in choices if choice.exercise is not None]
    return (*names[:MOST_SWAPS], HELPS)
