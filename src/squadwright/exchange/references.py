"""Names and ids in a club file that must stand for something in the same file."""

from collections.abc import Iterator, Sequence
from dataclasses import fields
from difflib import get_close_matches

from squadwright.errors import NotFound
from squadwright.exchange.complaint import Complaint
from squadwright.exchange.names import twins, unknown
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.kit import Kit
from squadwright.model.routine import Routine
from squadwright.model.session import Presence, Session
from squadwright.model.shelf import Shelf, pieces_on


def broken_references(club: Club) -> Iterator[Complaint]:
    """Every name or id of the club that stands for nothing, or for two things."""
    yield from twins("week", [slot.id for slot in club.week])
    yield from twins("squads", club.squads, field="")
    yield from twins("staff", [member.name for member in club.staff], field="name")
    yield from _kit_twins(club.kit)
    for index, slot in enumerate(club.week):
        for number, squad in enumerate(slot.squads):
            yield from unknown(
                f"week[{index}].squads[{number}]", squad, club.squads, "a squad of the club"
            )
    for index, athlete in enumerate(club.athletes):
        yield from _of_athlete(f"athletes[{index}]", athlete, club.squads)
    for index, routine in enumerate(club.routines):
        yield from _of_routine(f"routines[{index}]", routine)
    for index, session in enumerate(club.sessions):
        yield from _of_session(f"sessions[{index}]", session, club)


def _kit_twins(kit: Kit) -> Iterator[Complaint]:
    holder: dict[str, str] = {}
    for shelf in Shelf:
        for index, piece in enumerate(pieces_on(kit, shelf)):
            place = f"kit.{shelf.value}[{index}].id"
            if piece.id in holder:
                yield Complaint(
                    place,
                    f"{piece.id!r} is used already at {holder[piece.id]}",
                    "Give each piece of kit its own id",
                )
            holder.setdefault(piece.id, place)


def _of_athlete(place: str, athlete: Athlete, squads: Sequence[str]) -> Iterator[Complaint]:
    if athlete.squad:
        yield from unknown(f"{place}.squad", athlete.squad, squads, "a squad of the club")
    yield from twins(f"{place}.events", [event.id for event in athlete.events])
    yield from twins(f"{place}.restrictions", [r.id for r in athlete.restrictions])
    yield from twins(f"{place}.clearances", [c.id for c in athlete.clearances])
    medical = athlete.medical
    for field, ids in (
        ("head_knocks", [knock.id for knock in medical.head_knocks]),
        ("suspensions", [held.id for held in medical.suspensions]),
        ("illnesses", [told.id for told in medical.illnesses]),
        ("clearances", [each.id for each in medical.clearances]),
    ):
        yield from twins(f"{place}.medical.{field}", ids)
    for part in fields(athlete.measured):
        held = getattr(athlete.measured, part.name)
        yield from twins(f"{place}.measured.{part.name}", [each.id for each in held])
    known = [restriction.id for restriction in athlete.restrictions]
    for index, clearance in enumerate(athlete.clearances):
        yield from unknown(
            f"{place}.clearances[{index}].restriction",
            clearance.restriction,
            known,
            "a restriction of this athlete",
        )


def _of_routine(place: str, routine: Routine) -> Iterator[Complaint]:
    for number, block in enumerate(routine.blocks):
        for index, step in enumerate(block.steps):
            where = f"{place}.blocks[{number}].steps[{index}].exercise"
            yield from _not_in_library(where, step.exercise)


def _not_in_library(place: str, exercise_id: str) -> Iterator[Complaint]:
    from squadwright.library import exercise, exercises

    try:
        exercise(exercise_id)
    except NotFound:
        known = [e.id for e in exercises()]
        near = get_close_matches(exercise_id, known, n=1, cutoff=0.5)
        advice = f"Did you mean {near[0]!r}?" if near else "Write the id of one that is"
        yield Complaint(place, f"{exercise_id!r} is not an exercise of the library", advice)


def _of_session(place: str, session: Session, club: Club) -> Iterator[Complaint]:
    rooms = [room.id for room in club.rooms]
    yield from unknown(f"{place}.room", session.room, rooms, "a room")
    today = session.floor_today
    if today is not None and today.room is not None:
        yield from unknown(f"{place}.floor_today.room", today.room, rooms, "a room")
    yield from twins(f"{place}.athletes", session.athletes, field="")
    for index, name in enumerate(session.staff):
        staff = [member.name for member in club.staff]
        yield from unknown(f"{place}.staff[{index}]", name, staff, "one of the staff")
    yield from _of_session_routine(place, session, club)
    yield from _of_check_ins(place, session)
    yield from _of_overrides(place, session, club)
    yield from _of_pairs(place, session)
    held = [piece.id for shelf in Shelf for piece in pieces_on(club.kit, shelf)]
    for index, each in enumerate(session.missing):
        where = f"{place}.missing[{index}].piece"
        yield from unknown(where, each.piece, held, "a piece of the store")


def _of_session_routine(place: str, session: Session, club: Club) -> Iterator[Complaint]:
    versions = [r.version for r in club.routines if r.id == session.routine]
    if not versions:
        known = list(dict.fromkeys(r.id for r in club.routines))
        yield from unknown(f"{place}.routine", session.routine, known, "a routine of the club")
    elif session.routine_version not in versions:
        there = ", ".join(str(version) for version in sorted(versions))
        yield Complaint(
            f"{place}.routine_version",
            f"routine {session.routine!r} has no version {session.routine_version}",
            f"Write one that is under routines: {there}",
        )


def _of_check_ins(place: str, session: Session) -> Iterator[Complaint]:
    ids = [check_in.athlete for check_in in session.check_ins]
    yield from twins(f"{place}.check_ins", ids, field="athlete")
    for index, check_in in enumerate(session.check_ins):
        where = f"{place}.check_ins[{index}]"
        yield from unknown(
            f"{where}.athlete", check_in.athlete, session.athletes, "expected in this session"
        )
        is_late = check_in.presence is Presence.LATE
        if check_in.late_minutes and not is_late:
            yield Complaint(
                f"{where}.late_minutes",
                f"{check_in.late_minutes} minutes late, but presence is {check_in.presence.value}",
                'Write presence "late", or take the minutes out',
            )
        if is_late and check_in.late_minutes >= session.minutes:
            yield Complaint(
                f"{where}.late_minutes",
                f"{check_in.late_minutes} minutes late for a session of {session.minutes} minutes",
                'Write fewer minutes, or presence "absent"',
            )


def _of_overrides(place: str, session: Session, club: Club) -> Iterator[Complaint]:
    labels = [
        step.label
        for routine in club.routines
        if (routine.id, routine.version) == (session.routine, session.routine_version)
        for block in routine.blocks
        for step in block.steps
    ]
    bars = [bar.id for bar in club.kit.bars]
    for index, override in enumerate(session.overrides):
        where = f"{place}.overrides[{index}]"
        yield from unknown(
            f"{where}.athlete", override.athlete, session.athletes, "expected in this session"
        )
        if override.bar is not None:
            yield from unknown(f"{where}.bar", override.bar, bars, "a bar in the store")
        for number, swap in enumerate(override.swaps):
            here = f"{where}.swaps[{number}]"
            yield from unknown(
                f"{here}.step_label", swap.step_label, labels, "the label of a step of the routine"
            )
            yield from _not_in_library(f"{here}.exercise", swap.exercise)


def _of_pairs(place: str, session: Session) -> Iterator[Complaint]:
    settings = session.settings
    banned = {frozenset(pair) for pair in settings.banned_pairs}
    for name in ("banned_pairs", "required_pairs"):
        for index, pair in enumerate(getattr(settings, name)):
            where = f"{place}.settings.{name}[{index}]"
            for number, athlete in enumerate(pair):
                yield from unknown(
                    f"{where}[{number}]", athlete, session.athletes, "expected in this session"
                )
            if pair[0] == pair[1]:
                yield Complaint(where, f"pairs {pair[0]!r}, one athlete twice", "Name two athletes")
            elif name == "required_pairs" and frozenset(pair) in banned:
                yield Complaint(
                    where,
                    f"{pair[0]!r} and {pair[1]!r} are also a banned pair",
                    "Keep one of the two",
                )
