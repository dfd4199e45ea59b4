"""The athlete: who he is, what he has shown, what he must not do, when he competes."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from squadwright.errors import InvalidInput
from squadwright.model.event_weigh_in import EventWeighIn
from squadwright.model.exercise import Demand, ReferenceLift
from squadwright.model.field import (
    BoutMinutes,
    Count,
    Identifier,
    Label,
    Metres,
    Name,
    Note,
    Repetitions,
    StatureMetres,
    Years,
)
from squadwright.model.measured import NOTHING_MEASURED, Measured
from squadwright.model.medical import NOTHING_WRITTEN, Medical
from squadwright.model.muscles import BodyArea
from squadwright.units import Mass


def age_in_years(birth_date: date, day: date) -> int:
    """Age in whole years on a day; below 0 before the birth."""
    had_birthday = (day.month, day.day) >= (birth_date.month, birth_date.day)
    return day.year - birth_date.year - (0 if had_birthday else 1)


class Sex(StrEnum):
    """Sex, where a formula needs it."""

    FEMALE = "female"
    MALE = "male"


class Level(StrEnum):
    """How far an athlete has come in strength and conditioning."""

    NOVICE = "novice"
    INTERMEDIATE = "intermediate"
    ADVANCED = "advanced"


@dataclass(frozen=True)
class StrengthTest:
    """One set lifted as a test: the load, the good repetitions, and how it was taken."""

    lift: ReferenceLift
    load: Mass
    repetitions: Repetitions
    taken_on: date
    method: Name = "best set"


@dataclass(frozen=True)
class JumpTest:
    """One jump test; heights by different methods are never mixed."""

    kind: Name
    height_m: Metres
    taken_on: date
    method: Name


@dataclass(frozen=True)
class MassReading:
    """Body mass as read and typed, with its unit."""

    reading: Mass
    taken_on: date
    note: Note = ""


@dataclass(frozen=True)
class WeightPlan:
    """What somebody wrote down as a way to a class, and what became of it.

    ``refused`` holds why it was refused, empty where it was not; ``told`` who has to be told.
    ``kept_text`` is what was typed, for medical staff.
    """

    written_on: date
    kept_text: Note
    refused: tuple[Note, ...] = ()
    told: tuple[Name, ...] = ()


class Priority(StrEnum):
    """A: an event he peaks for. B: an event he takes part in."""

    A = "A"
    B = "B"


@dataclass(frozen=True)
class Event:
    """A competition, with its weigh-in limit if it has one."""

    id: Identifier
    name: Name
    starts_on: date
    priority: Priority = Priority.A
    mass_limit: Mass | None = None
    weigh_in_rule: Note = ""
    bouts_expected: Count | None = None
    weigh_in: EventWeighIn | None = None
    bout_minutes: BoutMinutes | None = None

    @property
    def weighs_on(self) -> date:
        """The day he first stands on the scales: that of the event where no time is known."""
        known = None if self.weigh_in is None else self.weigh_in.opens_at
        return self.starts_on if known is None else known.date()

    def weighs_next(self, day: date) -> date | None:
        """The next day he stands on the scales, from a day on; None when he has been weighed."""
        second = None if self.weigh_in is None else self.weigh_in.second_at
        days = [self.weighs_on, *([] if second is None else [second.date()])]
        return min((each for each in days if each >= day), default=None)


class AuthorRole(StrEnum):
    """Who entered a restriction; only medical entries are lifted by medical staff alone."""

    MEDICAL = "medical"
    COACH = "coach"
    ATHLETE = "athlete"
    OFFICIAL = "official"


@dataclass(frozen=True)
class Restriction:
    """What an athlete must not do, by whom, from when, until when.

    ``until`` is the first day on which it no longer holds; ``None`` means until somebody lifts it.
    It never expires in silence: the day it ends it becomes a question to the coach.
    """

    id: Identifier
    author: Name
    author_role: AuthorRole
    starts_on: date
    until: date | None = None
    demands: tuple[Demand, ...] = ()
    body_areas: tuple[BodyArea, ...] = ()
    all_training: bool = False
    reason: Note = ""
    instruction: Note = ""

    def __post_init__(self) -> None:
        if self.until is not None and self.until <= self.starts_on:
            raise InvalidInput(
                "restrictions.until",
                f"restriction {self.id} ends on {self.until}, not after its start {self.starts_on}",
                "Give a later end date, or leave it out if it holds until lifted",
            )
        if not (self.demands or self.body_areas or self.all_training):
            raise InvalidInput(
                "restrictions",
                f"restriction {self.id} bars nothing",
                "Name at least one demand or body area, or set all_training",
            )

    @property
    def is_set_from_outside(self) -> bool:
        """Whether medical staff or an official has set it."""
        return self.author_role in (AuthorRole.MEDICAL, AuthorRole.OFFICIAL)

    @property
    def needs_clearance(self) -> bool:
        """Whether only a written clearance lifts it: medical, official, or about the head."""
        return self.is_set_from_outside or BodyArea.HEAD in self.body_areas

    def holds_on(self, day: date) -> bool:
        """Whether it is in force on a day (an ended one is asked about, not applied)."""
        return self.starts_on <= day and (self.until is None or day < self.until)

    def is_ended_on(self, day: date) -> bool:
        """Whether its last day is over, so that it has to be asked about."""
        return self.until is not None and self.until <= day


@dataclass(frozen=True)
class Clearance:
    """What lifts one restriction or one return stage: a written clearance by medical staff.

    One that a coach or the athlete set himself may be lifted by a coach; it is kept here too.
    """

    id: Identifier
    restriction: Identifier
    author: Name
    given_on: date
    licence: Name = "not stated"
    note: Note = ""


@dataclass(frozen=True)
class Guardian:
    """The adult who answers for a minor."""

    name: Name
    relation: Name
    telephone: Note = ""


@dataclass(frozen=True)
class Consent:
    """What was agreed to, by whom, when."""

    purpose: Name
    given_by: Name
    given_on: date
    text_version: Name = "1"


@dataclass(frozen=True)
class Athlete:
    """One athlete. ``id`` tells two of the same name apart; pages also show the birth year.

    A guest has a day in ``guest_until``: on it the coach is asked whether he joins or is removed.
    """

    id: Identifier
    name: Name
    birth_date: date
    sex: Sex
    level: Level
    sport: Name
    squad: Label = ""
    weight_class: Label = ""
    training_age_years: Years = 0.0
    stature_m: StatureMetres | None = None
    tests: tuple[StrengthTest, ...] = ()
    jump_tests: tuple[JumpTest, ...] = ()
    body_mass: tuple[MassReading, ...] = ()
    events: tuple[Event, ...] = ()
    weight_plans: tuple[WeightPlan, ...] = ()
    restrictions: tuple[Restriction, ...] = ()
    clearances: tuple[Clearance, ...] = ()
    guardian: Guardian | None = None
    consents: tuple[Consent, ...] = ()
    medical: Medical = NOTHING_WRITTEN
    measured: Measured = NOTHING_MEASURED
    note: Note = ""
    guest_until: date | None = None

    def age_on(self, day: date) -> int:
        """Age in whole years on a day."""
        return age_in_years(self.birth_date, day)

    def is_minor_on(self, day: date) -> bool:
        """Whether he is under 18 on a day."""
        return self.age_on(day) < 18

    @property
    def has_consent_of_guardian(self) -> bool:
        """Whether the guardian has agreed to anything yet; False where there is none."""
        return self.guardian is not None and self.guardian.name in {
            consent.given_by for consent in self.consents
        }

    def latest_body_mass(self, day: date) -> MassReading | None:
        """The last reading on or before a day, of two on one day the one entered later; or None."""
        known = [reading for reading in reversed(self.body_mass) if reading.taken_on <= day]
        return max(known, key=lambda reading: reading.taken_on, default=None)

    def latest_body_mass_kg(self, day: date) -> float | None:
        """The last reading on or before a day, in kilograms, or None."""
        last = self.latest_body_mass(day)
        return None if last is None else last.reading.kg

    def restrictions_on(self, day: date) -> tuple[Restriction, ...]:
        """Restrictions in force on a day, less those a clearance has lifted."""
        lifted = self._lifted_by(day)
        return tuple(r for r in self.restrictions if r.holds_on(day) and r.id not in lifted)

    def ended_restrictions_on(self, day: date) -> tuple[Restriction, ...]:
        """Restrictions that ended and that nobody has answered for: each is a question."""
        lifted = self._lifted_by(day)
        return tuple(r for r in self.restrictions if r.is_ended_on(day) and r.id not in lifted)

    def _lifted_by(self, day: date) -> frozenset[str]:
        return frozenset(c.restriction for c in self.clearances if c.given_on <= day)
