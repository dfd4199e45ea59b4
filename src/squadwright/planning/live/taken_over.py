"""What is left of a session, with the people, bars and groups of a newer plan of it."""

from dataclasses import replace

from squadwright.errors import InvalidInput
from squadwright.planning.run_sheet import (
    CircuitBlock,
    ComplexBlock,
    DrillBlock,
    LateArrival,
    PartKind,
    RunSheetProblem,
    WorkGroup,
)
from squadwright.planning.run_sheet.blocks import Block, one_after_the_other


def taken_over(left: Block, newer: RunSheetProblem) -> Block:
    """A block that is left, done by whom and on what the newer plan has it; else as it is."""
    found = next((block for block in newer.blocks if block.name == left.name), None)
    match left, found:
        case ComplexBlock(), ComplexBlock():
            return _complex(left, found)
        case CircuitBlock(), CircuitBlock():
            names = {station.name for station in left.stations}
            stations = tuple(station for station in found.stations if station.name in names)
            return replace(left, groups=found.groups, stations=stations or found.stations)
        case DrillBlock(), DrillBlock():
            return _drills(left, found)
        case _:
            return left


def _complex(left: ComplexBlock, newer: ComplexBlock) -> ComplexBlock:
    former = {user.athlete: user for user in left.users}
    users = tuple(
        replace(
            user,
            rounds=former.get(user.athlete, user).rounds,
            first_round=former[user.athlete].first_round if user.athlete in former else 1,
        )
        for user in newer.users
    )
    return replace(left, users=one_after_the_other(users, left.rounds))


def _drills(left: DrillBlock, newer: DrillBlock) -> DrillBlock:
    """Drills that are left; a group has done what most of its members have done."""
    names = {drill.name for drill in left.drills}
    drills = tuple(drill for drill in newer.drills if drill.name in names)
    groups = tuple(replace(group, done=_done(group, left)) for group in newer.groups)
    return replace(left, drills=drills or left.drills, groups=groups, pools=newer.pools)


def _done(group: WorkGroup, left: DrillBlock) -> tuple[str, ...]:
    members = set(group.members)
    nearest = max(left.groups, key=lambda former: len(members & set(former.members)))
    return nearest.done if members & set(nearest.members) else ()


def arrival_now(athlete: str, newer: RunSheetProblem, left: RunSheetProblem) -> LateArrival:
    """Somebody who comes now: his own warm-up, then the rehearsal, alone where it is over."""
    planned = next((a for a in newer.late if a.athlete == athlete), None)
    if planned is None:
        raise InvalidInput("athlete", "does not train today", "Help and watch is the place")
    if any(part.kind is PartKind.REHEARSAL for part in left.before):
        return replace(planned, arrives_s=0)
    whole = sum(part.duration_s for part in newer.before if part.kind is PartKind.REHEARSAL)
    own = whole if planned.rehearsal_s is None else planned.rehearsal_s
    return replace(planned, arrives_s=0, rehearsal_s=own)
