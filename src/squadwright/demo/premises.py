"""Staff, rooms and week of the demo club."""

from datetime import time

from squadwright.model.club import EmergencyCard, StaffMember, Weekday, WeekSlot
from squadwright.model.room import CeilingZone, Door, Obstacle, Room, ThrowWall

MAT, GROUND, CAGE, FRY = SQUADS = ("Mat", "Ground", "Cage", "Fry")

HEAD_COACH = "Head coach"
GROUND_ASSISTANT = "Ines Talvikoja"
WRESTLING_ASSISTANT = "Moses Abernethy-Kolo"
PHYSIO = "Rutger Vantongerle"

STAFF = (
    StaffMember(HEAD_COACH, "head coach, strength and conditioning"),
    StaffMember(GROUND_ASSISTANT, "ground assistant", ("Monday", "Wednesday")),
    StaffMember(WRESTLING_ASSISTANT, "wrestling assistant", ("Wednesday", "Friday")),
    StaffMember(PHYSIO, "visiting physio, from 17:00", ("Tuesday",)),
)

EMERGENCY = EmergencyCard(
    address="Ferrow Quay Combat Club, Rope Walk, Ferrow Quay",
    access="side door on Rope Walk",
    defibrillator="by the ice machine",
)

WEIGHTS_ROOM = Room(
    id="weights-room",
    name="Weights room",
    outline=((0.0, 0.0), (11.5, 0.0), (11.5, 8.0), (0.0, 8.0)),
    ceiling_m=3.4,
    obstacles=(Obstacle("column", 6.0, 4.0),),
    ceiling_zones=(CeilingZone("duct along the short north wall", 10.9, 0.0, 0.6, 8.0, 2.9),),
    doors=(Door("door to the hall", 0.0, 0.8),),
    note="North is the short wall at 11.5 m. No wall is safe for throws.",
    north_deg=90.0,
)

MAT_HALL = Room(
    id="mat-hall",
    name="Mat hall",
    outline=((0.0, 0.0), (14.0, 0.0), (14.0, 12.0), (0.0, 12.0)),
    ceiling_m=5.2,
    surface="mat",
    throw_walls=(ThrowWall("padded south wall", (0.0, 0.0), (14.0, 0.0)),),
    doors=(Door("door to the weights room", 14.0, 10.0),),
    note="On Wednesdays strength and conditioning has the south half, 14 x 6 m.",
)

ROOMS = (WEIGHTS_ROOM, MAT_HALL)

STRENGTH = "strength and conditioning"
ADULTS = (MAT, GROUND, CAGE)


def _slot(
    slot_id: str,
    name: str,
    day: Weekday,
    hours: tuple[time, time],
    kind: str,
    squads: tuple[str, ...],
    *,
    is_hard: bool = False,
) -> WeekSlot:
    return WeekSlot(slot_id, name, day, hours[0], hours[1], kind, is_hard, squads)


WEEK = (
    _slot(
        "mon-barbell",
        "Barbell",
        Weekday.MONDAY,
        (time(18, 0), time(19, 0)),
        STRENGTH,
        SQUADS,
    ),
    _slot(
        "mon-wrestling",
        "Wrestling technique",
        Weekday.MONDAY,
        (time(19, 15), time(20, 45)),
        "technique",
        (MAT,),
    ),
    _slot(
        "tue-early",
        "Early lift (night shift and students)",
        Weekday.TUESDAY,
        (time(7, 0), time(7, 45)),
        STRENGTH,
        ADULTS,
    ),
    _slot(
        "tue-sparring",
        "MMA sparring",
        Weekday.TUESDAY,
        (time(19, 0), time(20, 30)),
        "sparring",
        (CAGE,),
        is_hard=True,
    ),
    _slot("wed-fry", "Fry", Weekday.WEDNESDAY, (time(17, 0), time(17, 45)), "technique", (FRY,)),
    _slot(
        "wed-plyometric",
        "Plyometric (half the mat hall)",
        Weekday.WEDNESDAY,
        (time(18, 0), time(18, 50)),
        STRENGTH,
        SQUADS,
    ),
    _slot(
        "wed-ground",
        "Ground live rounds",
        Weekday.WEDNESDAY,
        (time(19, 15), time(20, 45)),
        "live rounds",
        (GROUND,),
        is_hard=True,
    ),
    _slot(
        "thu-skills",
        "MMA skills",
        Weekday.THURSDAY,
        (time(19, 0), time(20, 30)),
        "technique",
        (CAGE,),
    ),
    _slot("fri-short", "Short", Weekday.FRIDAY, (time(18, 0), time(18, 35)), STRENGTH, SQUADS),
    _slot(
        "fri-wrestling",
        "Wrestling live",
        Weekday.FRIDAY,
        (time(19, 0), time(20, 30)),
        "live rounds",
        (MAT,),
        is_hard=True,
    ),
    _slot(
        "sat-open",
        "Open mat",
        Weekday.SATURDAY,
        (time(10, 0), time(12, 0)),
        "open mat",
        ADULTS,
        is_hard=True,
    ),
)
