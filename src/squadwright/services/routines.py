"""Use cases of routines: add, change, copy, rename, put away, move sessions on, share.

A stored version of a routine never changes. What is saved becomes the next version; one that a
session of the club names stays beside it, any other gives way.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date

from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.exchange.routine_file import read_routine
from squadwright.model.club import Club
from squadwright.model.routine import Routine
from squadwright.model.session import Session
from squadwright.services.club_changes import Changed, change_club, require_unchanged
from squadwright.services.clubs import load_club, present_club
from squadwright.services.free_id import free_id, id_words
from squadwright.services.unit_of_work import Keeper

LONGEST_ID = 50
LONGEST_NAME = 120


@dataclass(frozen=True)
class Saved:
    """A routine as stored now, and the step that takes the change back."""

    routine: Routine
    changed: Changed


@dataclass(frozen=True)
class Moved:
    """Sessions that were moved to the newest version of their routine."""

    routine: Routine
    sessions: tuple[Session, ...]
    changed: Changed


def current_routines(club: Club) -> tuple[Routine, ...]:
    """The newest version of each routine, in the club's order, those put away too."""
    newest: dict[str, Routine] = {}
    for routine in club.routines:
        if routine.id not in newest or routine.version > newest[routine.id].version:
            newest[routine.id] = routine
    return tuple(newest.values())


def current_routine(club: Club, routine_id: str) -> Routine:
    """The newest version of a routine; raises NotFound."""
    for routine in current_routines(club):
        if routine.id == routine_id:
            return routine
    raise NotFound(f"no routine of the club has the id {routine_id!r}")


def versions_of(club: Club, routine_id: str) -> tuple[tuple[Routine, tuple[Session, ...]], ...]:
    """Every version of a routine with the sessions that name it, the newest first."""
    found = [
        (
            routine,
            tuple(
                s
                for s in club.sessions
                if (s.routine, s.routine_version) == (routine.id, routine.version)
            ),
        )
        for routine in club.routines
        if routine.id == routine_id
    ]
    return tuple(sorted(found, key=lambda pair: -pair[0].version))


def sessions_to_come(club: Club, routine: Routine, *, today: date) -> tuple[Session, ...]:
    """Sessions from today on that name an older version of a routine."""
    return tuple(
        s
        for s in club.sessions
        if s.routine == routine.id and s.routine_version < routine.version and s.held_on >= today
    )


def add_routine(keeper: Keeper, routine: Routine, *, today: date) -> Saved:
    """Take a new routine into the club, under an id of its own made from its name."""
    stored = _stored_versions(keeper)

    def change(club: Club) -> Club:
        new = replace(routine, id=_free_id(routine.name, club, stored), version=1)
        return replace(club, routines=(*club.routines, new))

    changed = change_club(keeper, change, today=today)
    return Saved(changed.club.routines[-1], changed)


def save_routine(
    keeper: Keeper, routine_id: str, routine: Routine, shown: str, *, today: date
) -> Saved:
    """Save a changed routine as its next version; ``shown`` marks what the form was filled from."""

    def made(now: Routine) -> Routine:
        require_unchanged(now, shown, "routine")
        return routine

    return _next_version(keeper, routine_id, made, today=today)


def rename_routine(keeper: Keeper, routine_id: str, name: str, *, today: date) -> Saved:
    """Give a routine another name, as its next version."""
    return _next_version(keeper, routine_id, lambda now: replace(now, name=name), today=today)


def copy_routine(keeper: Keeper, routine: Routine, *, today: date) -> Saved:
    """Take a copy of a routine into the club; named apart where the name is taken."""
    club = present_club(keeper)
    taken = {r.name for r in current_routines(club)} if club else set()
    start = f"{routine.name[: LONGEST_NAME - 12].strip()} copy"
    name, number = routine.name, 1
    while name in taken:
        name, number = start if number == 1 else f"{start} {number}", number + 1
    return add_routine(keeper, replace(routine, name=name, is_put_away=False), today=today)


def remove_routine(keeper: Keeper, routine_id: str, *, today: date) -> Saved:
    """Take a routine off the list. What a session used is kept, so it is put away instead.

    Conflict where a session to come names it.
    """
    club = load_club(keeper)
    routine = current_routine(club, routine_id)
    used = [s for _, sessions in versions_of(club, routine_id) for s in sessions]
    coming = [f"{s.name} on {s.held_on}" for s in used if s.held_on >= today]
    if coming:
        raise Conflict(
            f"{routine.name} stays, for {', '.join(coming)} will use it. "
            "Give those sessions another routine first"
        )
    if used:
        return _next_version(
            keeper, routine_id, lambda now: replace(now, is_put_away=True), today=today
        )

    def change(club: Club) -> Club:
        return replace(club, routines=tuple(r for r in club.routines if r.id != routine_id))

    return Saved(routine, change_club(keeper, change, today=today))


def bring_back(keeper: Keeper, routine_id: str, *, today: date) -> Saved:
    """Put a routine that was put away back on the list."""
    return _next_version(
        keeper, routine_id, lambda now: replace(now, is_put_away=False), today=today
    )


def move_sessions(keeper: Keeper, routine_id: str, *, today: date) -> Moved:
    """Give every session to come the newest version of its routine.

    InvalidInput where a swap of a session names a step that the newest version has not.
    """
    moved: list[Session] = []

    def change(club: Club) -> Club:
        routine = current_routine(club, routine_id)
        coming = sessions_to_come(club, routine, today=today)
        if not coming:
            raise Conflict(f"No session to come uses an older version of {routine.name}")
        moved[:] = [replace(s, routine_version=routine.version) for s in coming]
        for session in moved:
            _require_steps(session, routine)
        now = {s.id: s for s in moved}
        return replace(club, sessions=tuple(now.get(s.id, s) for s in club.sessions))

    changed = change_club(keeper, change, today=today)
    return Moved(current_routine(changed.club, routine_id), tuple(moved), changed)


def take_in_routine(keeper: Keeper, text: str, *, today: date) -> Saved:
    """Take the routine of a file into the club, as a copy of its own."""
    return copy_routine(keeper, read_routine(text), today=today)


def _next_version(
    keeper: Keeper, routine_id: str, make: Callable[[Routine], Routine], *, today: date
) -> Saved:
    stored = _stored_versions(keeper)

    def change(club: Club) -> Club:
        now = current_routine(club, routine_id)
        changed = make(now)
        if replace(changed, id=now.id, version=now.version) == now:
            return club
        version = 1 + max(now.version, stored.get(routine_id, 0))
        new = replace(changed, id=routine_id, version=version)
        return replace(club, routines=_with_version(club, now, new))

    changed = change_club(keeper, change, today=today)
    return Saved(current_routine(changed.club, routine_id), changed)


def _with_version(club: Club, now: Routine, new: Routine) -> tuple[Routine, ...]:
    """The new version in the place of the present one, which stays if a session names it."""
    is_used = any((s.routine, s.routine_version) == (now.id, now.version) for s in club.sessions)
    put = (now, new) if is_used else (new,)
    return tuple(each for r in club.routines for each in (put if r is now else (r,)))


def _require_steps(session: Session, routine: Routine) -> None:
    labels = {step.label for block in routine.blocks for step in block.steps}
    for override in session.overrides:
        for swap in override.swaps:
            if swap.step_label not in labels:
                raise InvalidInput(
                    "sessions",
                    f"{session.name} has a swap in step {swap.step_label!r}, which version "
                    f"{routine.version} of {routine.name} has not",
                    "Take that swap out of the session, or give a step that label",
                )


def _stored_versions(keeper: Keeper) -> Mapping[str, int]:
    with keeper.reading() as store:
        return store.routine_versions()


def _free_id(name: str, club: Club, stored: Mapping[str, int]) -> str:
    """An id from a name: "Long pier" is "long-pier", the second one "long-pier-2"."""
    taken = {routine.id for routine in club.routines} | set(stored)
    return free_id(id_words(name, LONGEST_ID) or "routine", taken)
