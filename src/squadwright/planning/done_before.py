"""What an athlete has done before: the exercises of the earlier sessions he was named in."""

from squadwright.model.club import Club
from squadwright.model.session import Session

ENOUGH_SESSIONS = 3
"""Below so many earlier sessions nothing is called new to him, a default of ours."""


def done_before(club: Club, session: Session, athlete: str) -> tuple[int, set[str]]:
    """How many earlier sessions he was named in, and the exercises of their routines."""
    count, done = 0, set()
    for earlier in club.sessions:
        if athlete not in earlier.athletes or not earlier.is_before(session):
            continue
        count += 1
        routine = club.routine(earlier.routine, earlier.routine_version)
        done |= {step.exercise for block in routine.blocks for step in block.steps}
    return count, done
