"""A session and the check-in before it: who is here, who is late, what hurts."""

from dataclasses import dataclass, replace
from datetime import date, time
from enum import StrEnum

from squadwright.errors import InvalidInput
from squadwright.model.field import (
    Celsius,
    Count,
    FaultTaps,
    Fraction,
    Identifier,
    Label,
    Metres,
    Minutes,
    Name,
    Note,
    PainScore,
    PositiveCount,
    Probability,
)
from squadwright.model.muscles import BodyArea
from squadwright.model.routine import Scheme
from squadwright.units import Mass


class Presence(StrEnum):
    """Whether an athlete is here."""

    PRESENT = "present"
    ABSENT = "absent"
    LATE = "late"


@dataclass(frozen=True)
class Pain:
    """Pain named at the door, 0 to 10."""

    area: BodyArea
    score: PainScore
    side: Name = "not stated"


@dataclass(frozen=True)
class CheckIn:
    """One athlete at the door."""

    athlete: Identifier
    presence: Presence = Presence.PRESENT
    late_minutes: Count = 0
    pains: tuple[Pain, ...] = ()
    note: Note = ""


@dataclass(frozen=True)
class Swap:
    """An exercise of the routine replaced for one athlete.

    ``scheme`` is the amount of the new exercise; left out, it fills the same seconds of work.
    """

    step_label: Name
    exercise: Identifier
    scheme: Scheme | None = None


@dataclass(frozen=True)
class Override:
    """A personal change by the coach, with its reason.

    ``block`` names the block it is for, empty for all of them. ``with_stick``: no bar, he learns
    the movements with a stick.
    """

    athlete: Identifier
    reason: Note
    rounds: Count | None = None
    load: Mass | None = None
    swaps: tuple[Swap, ...] = ()
    bar: Identifier | None = None
    block: Label = ""
    with_stick: bool = False


class MinorRule(StrEnum):
    """Whether a minor may be the only partner of an adult: the coach's setting."""

    ALLOWED = "allowed"
    AVOID = "avoid"
    NEVER = "never"


class OddSquad(StrEnum):
    """How an odd number is divided where pairs are wanted: nobody sits out."""

    ONE_THREE = "pairs and one three"
    THREES = "threes, pairs for the rest"


@dataclass(frozen=True)
class Settings:
    """The coach's settings for a session, each with its default."""

    target_probability: Probability = 0.90
    plain_rule_fraction: Fraction = 0.60
    first_session_keeps_to_plain_rule: bool = True
    reserve_repetitions: Count = 1
    hinge_reserve_repetitions: Count = 2
    taper_days: Count = 7
    taper_rounds_fraction: Fraction = 0.5
    late_warm_up_minutes: Count = 8
    technique_bar_below_age: Count = 16
    youth_contacts_fraction: Fraction = 0.5
    least_warm_up_minutes: Count = 8
    minor_rule: MinorRule = MinorRule.AVOID
    banned_pairs: tuple[tuple[Identifier, Identifier], ...] = ()
    required_pairs: tuple[tuple[Identifier, Identifier], ...] = ()
    athletes_per_coach: PositiveCount = 10
    odd_squad: OddSquad = OddSquad.ONE_THREE
    guest_rounds: PositiveCount = 2
    stop_after_faults: FaultTaps = 3


@dataclass(frozen=True)
class FloorPart:
    """The rectangle of a room that is free, from its corner nearest the first one of the room."""

    x_m: Metres
    y_m: Metres
    width_m: Metres
    depth_m: Metres


@dataclass(frozen=True)
class FloorToday:
    """The floor a session has where it is not the whole of its room.

    ``room`` is another room of the club; ``part`` what is free of the room it is held in.
    """

    room: Identifier | None = None
    part: FloorPart | None = None
    reason: Note = ""


@dataclass(frozen=True)
class MissingKit:
    """So many of a piece of the store (pairs of plates and collars) are not there for a session."""

    piece: Identifier
    count: PositiveCount = 1


@dataclass(frozen=True)
class HeatReading:
    """How hot it is: wet-bulb globe temperature [degC], or air [degC] and its relative humidity."""

    wet_bulb_globe_c: Celsius | None = None
    air_c: Celsius | None = None
    humidity_fraction: Fraction | None = None

    def __post_init__(self) -> None:
        if self.wet_bulb_globe_c is None and (self.air_c is None or self.humidity_fraction is None):
            raise InvalidInput(
                "sessions.heat",
                "tells neither the wet-bulb globe temperature nor air and humidity",
                "Give one of the two",
            )


@dataclass(frozen=True)
class Session:
    """A session on one day: slot, room, routine and who is expected.

    ``minutes_left``, where the coach has set it, is the slot that is left of the one written.
    """

    id: Identifier
    name: Name
    held_on: date
    starts_at: time
    minutes: Minutes
    room: Identifier
    routine: Identifier
    routine_version: PositiveCount
    athletes: tuple[Identifier, ...]
    staff: tuple[Name, ...] = ()
    check_ins: tuple[CheckIn, ...] = ()
    overrides: tuple[Override, ...] = ()
    arrive_minutes: Count = 6
    spare_minutes: Count = 6
    close_minutes: Count = 6
    pack_minutes: Count = 6
    settings: Settings = Settings()
    seed: Count = 1
    floor_today: FloorToday | None = None
    minutes_left: Minutes | None = None
    missing: tuple[MissingKit, ...] = ()
    waves: PositiveCount | None = None
    heat: HeatReading | None = None

    def is_before(self, other: "Session") -> bool:
        """Whether it starts before another one."""
        return (self.held_on, self.starts_at) < (other.held_on, other.starts_at)

    def as_held(self) -> "Session":
        """The session in the minutes that are left for it."""
        return self if self.minutes_left is None else replace(self, minutes=self.minutes_left)
