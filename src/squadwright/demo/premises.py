"""Staff and rooms of the demo club."""

from squadwright.model.club import EmergencyCard, StaffMember
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
