"""The demo club grown to forty who train together: made up, with the kit and the floor for it."""

from dataclasses import replace
from datetime import date

from healthy import healthy
from squadwright.demo import demo_club
from squadwright.model.club import Club
from squadwright.model.kit import Kit
from squadwright.model.room import Room, ThrowWall

FORTY = 40
TIMES = 4


def forty_athletes(monday: date) -> Club:
    """Forty in both sessions of the demo week, everybody here, in a hall of 24 x 18 m."""
    small = demo_club(monday)
    athletes = tuple(
        replace(
            model,
            id=f"{model.id}-{lap}",
            name=f"{model.name} {lap}",
            restrictions=() if lap else model.restrictions,
            medical=healthy(model) if lap else model.medical,
            clearances=() if lap else model.clearances,
        )
        for lap in range(3)
        for model in small.athletes
    )[:FORTY]
    ids = tuple(athlete.id for athlete in athletes)
    sessions = tuple(
        replace(session, athletes=ids, check_ins=(), minutes=90, staff=session.staff * 2)
        for session in small.sessions
    )
    return replace(
        small,
        athletes=athletes,
        kit=_times(small.kit),
        rooms=tuple(_hall(room) for room in small.rooms),
        sessions=sessions,
    )


def _times(kit: Kit) -> Kit:
    laps = range(TIMES)
    return replace(
        kit,
        bars=tuple(replace(b, id=f"{b.id}-{lap}") for lap in laps for b in kit.bars),
        plates=tuple(replace(p, pairs=TIMES * p.pairs) for p in kit.plates),
        collars=tuple(replace(c, pairs=TIMES * c.pairs) for c in kit.collars),
        balls=tuple(replace(b, count=TIMES * b.count) for b in kit.balls),
        boxes=tuple(replace(b, id=f"{b.id}-{lap}") for lap in laps for b in kit.boxes),
    )


def _hall(room: Room) -> Room:
    corners = ((0.0, 0.0), (24.0, 0.0), (24.0, 18.0), (0.0, 18.0))
    return replace(
        room,
        outline=corners,
        obstacles=(),
        ceiling_zones=(),
        throw_walls=(ThrowWall("long wall", (0.0, 0.0), (24.0, 0.0)),),
        doors=(),
    )
