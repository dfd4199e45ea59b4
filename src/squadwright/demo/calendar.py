"""Week and calendar of the demo club.

Planned efforts and body regions are our own values, invented like the club.
"""

from datetime import date, time, timedelta

from squadwright.demo.premises import (
    CAGE,
    FRY,
    GROUND,
    GROUND_ASSISTANT,
    HEAD_COACH,
    MAT,
    MAT_HALL,
    SQUADS,
    WEIGHTS_ROOM,
    WRESTLING_ASSISTANT,
)
from squadwright.model.calendar import BodyRegion, Closure, SchoolTerm, Travel, Work
from squadwright.model.club import Weekday, WeekSlot
from squadwright.model.room import Room

TIME_ZONE = "Europe/Lisbon"
STRENGTH = "strength and conditioning"
ADULTS = (MAT, GROUND, CAGE)
LEGS, BACK, SHOULDERS, GRIP, NECK = BodyRegion

Hours = tuple[Weekday, time, time]
Asks = tuple[Work, int, tuple[BodyRegion, ...]]
Where = tuple[Room, tuple[str, ...]]


def _slot(
    slot_id: str,
    name: str,
    hours: Hours,
    kind: str,
    squads: tuple[str, ...],
    asks: Asks,
    where: Where,
    *,
    is_hard: bool = False,
) -> WeekSlot:
    day, starts_at, ends_at = hours
    work, effort, regions = asks
    room, staff = where
    return WeekSlot(
        slot_id,
        name,
        day,
        starts_at,
        ends_at,
        kind,
        is_hard,
        squads,
        work,
        effort,
        regions,
        room=room.id,
        staff=staff,
    )


WEEK = (
    _slot(
        "mon-barbell",
        "Barbell",
        (Weekday.MONDAY, time(18, 0), time(19, 0)),
        STRENGTH,
        SQUADS,
        (Work.BARBELL, 6, (LEGS, BACK, SHOULDERS, GRIP)),
        (WEIGHTS_ROOM, (HEAD_COACH, GROUND_ASSISTANT)),
    ),
    _slot(
        "mon-wrestling",
        "Wrestling technique",
        (Weekday.MONDAY, time(19, 15), time(20, 45)),
        "technique",
        (MAT,),
        (Work.TECHNIQUE, 4, (LEGS, BACK, GRIP, NECK)),
        (MAT_HALL, (HEAD_COACH,)),
    ),
    _slot(
        "tue-early",
        "Early lift (night shift and students)",
        (Weekday.TUESDAY, time(7, 0), time(7, 45)),
        STRENGTH,
        ADULTS,
        (Work.BARBELL, 6, (LEGS, BACK, GRIP)),
        (WEIGHTS_ROOM, (HEAD_COACH,)),
    ),
    _slot(
        "tue-sparring",
        "MMA sparring",
        (Weekday.TUESDAY, time(19, 0), time(20, 30)),
        "sparring",
        (CAGE,),
        (Work.SPARRING, 8, (LEGS, SHOULDERS, NECK)),
        (MAT_HALL, (HEAD_COACH,)),
        is_hard=True,
    ),
    _slot(
        "wed-fry",
        "Fry",
        (Weekday.WEDNESDAY, time(17, 0), time(17, 45)),
        "technique",
        (FRY,),
        (Work.TECHNIQUE, 3, (LEGS, BACK, GRIP)),
        (MAT_HALL, (WRESTLING_ASSISTANT,)),
    ),
    _slot(
        "wed-plyometric",
        "Plyometric (half the mat hall)",
        (Weekday.WEDNESDAY, time(18, 0), time(18, 50)),
        STRENGTH,
        SQUADS,
        (Work.PLYOMETRIC, 5, (LEGS, SHOULDERS)),
        (MAT_HALL, (HEAD_COACH, GROUND_ASSISTANT, WRESTLING_ASSISTANT)),
    ),
    _slot(
        "wed-ground",
        "Ground live rounds",
        (Weekday.WEDNESDAY, time(19, 15), time(20, 45)),
        "live rounds",
        (GROUND,),
        (Work.LIVE, 8, (LEGS, BACK, GRIP, NECK)),
        (MAT_HALL, (GROUND_ASSISTANT,)),
        is_hard=True,
    ),
    _slot(
        "thu-skills",
        "MMA skills",
        (Weekday.THURSDAY, time(19, 0), time(20, 30)),
        "technique",
        (CAGE,),
        (Work.SKILLS, 4, (LEGS, SHOULDERS)),
        (MAT_HALL, (HEAD_COACH,)),
    ),
    _slot(
        "fri-short",
        "Short",
        (Weekday.FRIDAY, time(18, 0), time(18, 35)),
        STRENGTH,
        SQUADS,
        (Work.BARBELL, 5, (SHOULDERS, BACK, GRIP)),
        (WEIGHTS_ROOM, (HEAD_COACH,)),
    ),
    _slot(
        "fri-wrestling",
        "Wrestling live",
        (Weekday.FRIDAY, time(19, 0), time(20, 30)),
        "live rounds",
        (MAT,),
        (Work.LIVE, 8, (LEGS, BACK, GRIP, NECK)),
        (MAT_HALL, (WRESTLING_ASSISTANT,)),
        is_hard=True,
    ),
    _slot(
        "sat-open",
        "Open mat",
        (Weekday.SATURDAY, time(10, 0), time(12, 0)),
        "open mat",
        ADULTS,
        (Work.OPEN_MAT, 7, (LEGS, BACK, SHOULDERS, GRIP, NECK)),
        (MAT_HALL, (HEAD_COACH,)),
        is_hard=True,
    ),
)


def closures(monday: date) -> tuple[Closure, ...]:
    """The days on which the place is lost."""
    return (
        Closure("blood-donor-day", "blood-donor day", *_days(monday, 16, 16)),
        Closure("floor-varnish", "floor varnish", *_days(monday, 28, 33)),
    )


def terms(monday: date) -> tuple[SchoolTerm, ...]:
    """The school terms of the town."""
    return (
        SchoolTerm("spring-term", "Spring term", *_days(monday, -56, 25)),
        SchoolTerm("summer-term", "Summer term", *_days(monday, 42, 123)),
    )


def travel(monday: date) -> tuple[Travel, ...]:
    """Who is away, and where."""
    first, last = _days(monday, 36, 41)
    return (Travel("a06-bout", "bout abroad", "A06", first, last, "America/Sao_Paulo"),)


def _days(monday: date, first: int, last: int) -> tuple[date, date]:
    return monday + timedelta(days=first), monday + timedelta(days=last)
