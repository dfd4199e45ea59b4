"""Use cases of the floor a session has today: half of the room, metres, or another room.

What it does to the session is told before it is stored, and again after.
"""

from dataclasses import dataclass, replace
from datetime import date

from squadwright.errors import InvalidInput
from squadwright.library import exercise
from squadwright.library import routines as shelf
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.room import Room
from squadwright.model.room_part import part_of
from squadwright.model.routine import Routine
from squadwright.model.session import FloorPart, FloorToday, Session
from squadwright.services.club_changes import change_club
from squadwright.services.clubs import load_club
from squadwright.services.floor_effect import effect_words, fits
from squadwright.services.planning import last_kept_plan
from squadwright.services.plans_in_mind import Outcome, outcome
from squadwright.services.routines import current_routines
from squadwright.services.session_changes import Replanned, with_session
from squadwright.services.unit_of_work import Keeper


@dataclass(frozen=True)
class FloorChange:
    """Another floor for a session, or another routine on it (None: as it is)."""

    floor: FloorToday | None
    routine: str | None = None


@dataclass(frozen=True)
class FloorPreview:
    """A session on another floor as it would be planned, against the whole floor of its room."""

    club: Club
    session: Session
    room: Room
    plan: Plan | None
    effect: str
    fits: bool


@dataclass(frozen=True)
class Half:
    """Half of a room: its name in an address, in words, and the rectangle."""

    key: str
    words: str
    part: FloorPart


def halves(room: Room) -> tuple[Half, ...]:
    """The four halves of a room, by the side of the drawing, with the doors each has."""
    xs, ys = [x for x, _ in room.outline], [y for _, y in room.outline]
    left, low, long, wide = min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)
    found = [
        ("left", "Left half", FloorPart(left, low, _cm(long / 2), wide)),
        ("right", "Right half", FloorPart(_cm(left + long / 2), low, _cm(long / 2), wide)),
        ("lower", "Lower half", FloorPart(left, low, long, _cm(wide / 2))),
        ("upper", "Upper half", FloorPart(left, _cm(low + wide / 2), long, _cm(wide / 2))),
    ]
    return tuple(
        Half(key, f"{words}, {part.width_m:g} x {part.depth_m:g} m{_door_words(room, part)}", part)
        for key, words, part in found
    )


def _door_words(room: Room, part: FloorPart) -> str:
    try:
        doors = part_of(room, part.x_m, part.y_m, part.width_m, part.depth_m).doors
    except InvalidInput:
        return ", hardly any of it in the room"
    return f", with {' and '.join(door.name for door in doors)}" if doors else ", no door"


def preview(keeper: Keeper, session_id: str, change: FloorChange) -> FloorPreview:
    """What a change of the floor would do; nothing is stored."""
    club = load_club(keeper)
    with keeper.reading() as store:
        kept = last_kept_plan(store, session_id)
    session = club.session(session_id)
    before = _whole(keeper, club, session, kept)
    after_club, after = _changed(club, session, change)
    plan, trouble = outcome(keeper, after_club, after, previous=kept)
    words = effect_words(before[0], plan, trouble)
    return FloorPreview(after_club, after, after_club.room_of(after), plan, words, fits(plan))


def set_floor(keeper: Keeper, session_id: str, change: FloorChange, *, today: date) -> Replanned:
    """Store another floor, plan the session on it, and say what it did."""
    shown = preview(keeper, session_id, change)

    def on_club(club: Club) -> Club:
        return _changed(club, club.session(session_id), change)[0]

    done = change_club(keeper, on_club, today=today)
    after = done.club.session(session_id)
    plan, _ = outcome(keeper, done.club, after, previous=shown.plan)
    if plan is not None:
        with keeper.writing() as store:
            store.save_plan(plan)
    return Replanned(f"{floor_words(done.club, after)} {shown.effect}", done.step)


def floor_words(club: Club, session: Session) -> str:
    """The floor a session has today: "Monday barbell has 8 x 8 m of Weights room today."."""
    today = session.floor_today
    room = club.room((today.room if today else None) or session.room)
    if today is None or (today.part is None and today.room is None):
        return f"{session.name} has the whole of {room.name}."
    if today.part is None:
        return f"{session.name} is in {room.name} today."
    size = f"{today.part.width_m:g} x {today.part.depth_m:g} m"
    return f"{session.name} has {size} of {room.name} today."


def throw_routines(club: Club) -> tuple[Routine, ...]:
    """Routines with throws and without a bar: those of the club, then those of the shelf."""
    own = current_routines(club)
    known = {routine.id for routine in club.routines}
    others = [routine for routine in shelf() if routine.id not in known]
    return tuple(routine for routine in (*own, *others) if _is_of_throws(routine))


def _is_of_throws(routine: Routine) -> bool:
    every = [exercise(step.exercise) for block in routine.blocks for step in block.steps]
    throws = any(e.throws_per_repetition for e in every)
    return throws and not any(e.modality.value == "barbell" for e in every)


def _whole(keeper: Keeper, club: Club, session: Session, kept: Plan | None) -> Outcome:
    """The plan on the whole floor of the room the session is held in."""
    if session.floor_today is None:
        return outcome(keeper, club, session, previous=kept)
    whole = replace(session, floor_today=None)
    return outcome(keeper, with_session(club, whole), whole, previous=kept)


def _changed(club: Club, session: Session, change: FloorChange) -> tuple[Club, Session]:
    after = replace(session, floor_today=change.floor)
    if change.routine is not None and change.routine != session.routine:
        club, routine = _with_routine(club, change.routine)
        # The coach's words on loads and steps of the old routine mean nothing in the new one.
        after = replace(
            after,
            routine=routine.id,
            routine_version=routine.version,
            overrides=(),
        )
    club.room_of(after)
    return with_session(club, after), after


def _with_routine(club: Club, routine_id: str) -> tuple[Club, Routine]:
    """The routine, taken from the shelf into the club where the club has it not."""
    for routine in throw_routines(club):
        if routine.id == routine_id:
            if any(r.id == routine_id for r in club.routines):
                return club, routine
            return replace(club, routines=(*club.routines, routine)), routine
    raise InvalidInput(
        "routine", f"{routine_id!r} is no routine of throws", "Choose one of those shown"
    )


def _cm(value_m: float) -> float:
    return round(value_m, 2)
