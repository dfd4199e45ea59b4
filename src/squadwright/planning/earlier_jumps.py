"""Sessions with landings that lie before the one that is planned."""

from squadwright.library import exercise as library_exercise
from squadwright.model.club import Club
from squadwright.model.session import Session


def earlier_jumps(club: Club, session: Session) -> tuple[Session, ...]:
    """Other sessions of the club, before this one, whose routine has landings."""
    found = []
    for other in club.sessions:
        if other.id == session.id or not other.is_before(session):
            continue
        routine = club.routine(other.routine, other.routine_version)
        steps = [step for block in routine.blocks for step in block.steps]
        if any(_lands(step.exercise) for step in steps):
            found.append(other)
    return tuple(found)


def _lands(exercise_id: str) -> bool:
    exercise = library_exercise(exercise_id)
    return bool(exercise.landings or exercise.row_landings)
