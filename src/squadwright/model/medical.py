"""What medical staff wrote about an athlete, and what is for them: head knocks, illness, the rest.

An instant carries its offset from UTC, so that hours that passed are counted and not hours that a
clock showed. The program keeps what was written; it diagnoses nothing and clears nobody.
"""

from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from enum import StrEnum

from squadwright.errors import InvalidInput
from squadwright.model.field import (
    BodyTemperature,
    CalendarYear,
    Identifier,
    Name,
    Note,
    PainScore,
    PositiveCount,
    ReturnStep,
)

STEP_HOURS = 24
"""No step of the return is shorter, whatever is set [h] (return_to_sport_2017)."""
LAST_STEP = 6


class Sign(StrEnum):
    """A sign of illness that the athlete tells."""

    SORE_THROAT = "sore throat"
    RUNNY_NOSE = "runny nose"
    BLOCKED_NOSE = "blocked nose"
    MUSCLE_ACHE = "muscle ache"
    CHEST_COUGH = "cough from the chest"
    VOMITING = "vomiting"
    DIARRHOEA = "diarrhoea"
    CHEST_PAIN = "chest pain"
    PALPITATIONS = "palpitations"
    BREATHLESS = "short of breath"
    FAINTING = "fainting"
    SKIN_INFECTION = "skin infection"
    GLANDULAR_FEVER = "glandular fever"


class Outcome(StrEnum):
    """What a screening form came to."""

    CLEARED = "cleared"
    FOLLOW_UP = "follow-up"
    REFER = "refer"


@dataclass(frozen=True)
class Screening:
    """A screening form, by name and year; where the paper lies, and the day it runs out."""

    form_name: Name
    version_year: CalendarYear
    completed_on: date
    outcome: Outcome
    expires_on: date
    file_reference: Name = "not stated"

    def holds_on(self, day: date) -> bool:
        """Whether it clears on a day."""
        return self.outcome is Outcome.CLEARED and self.completed_on <= day <= self.expires_on


@dataclass(frozen=True)
class MedicalClearance:
    """A written word of medical staff: the rules it lifts, by name, and its last day if any."""

    id: Identifier
    author: Name
    licence: Name
    given_on: date
    lifts: tuple[Name, ...]
    until: date | None = None
    note: Note = ""

    def __post_init__(self) -> None:
        for name, value in (("author", self.author), ("licence", self.licence)):
            if not value.strip():
                raise InvalidInput(
                    f"clearances.{name}", "is empty", "Give the name and licence of who gives it"
                )

    def holds_on(self, day: date) -> bool:
        """Whether it has been given by a day and has not run out."""
        return self.given_on <= day and (self.until is None or day <= self.until)


@dataclass(frozen=True)
class Suspension:
    """One suspension as written. The days given are the last ones barred.

    ``needs`` names the clearances it asks for; ``is_open`` says that it holds until they are all
    there, whatever the date. No contact means no sparring either. ``starts_on`` None: from the
    first day on.
    """

    id: Identifier
    issuer: Name
    reason: Note
    no_contact_until: date | None
    no_competition_until: date | None
    needs: tuple[Name, ...] = ()
    is_open: bool = False
    source_document: Note = ""
    starts_on: date | None = None

    def __post_init__(self) -> None:
        if self.is_open and not self.needs:
            raise InvalidInput(
                "suspensions.needs",
                f"{self.id} is open and names no clearance",
                "Say what has to be cleared",
            )
        if not (self.is_open or self.no_contact_until or self.no_competition_until):
            raise InvalidInput("suspensions", f"{self.id} bars nothing", "Give a last barred day")


@dataclass(frozen=True)
class ReturnStage:
    """A step of the return after a head knock, and when it began.

    ``no_training`` keeps him out whatever the step allows; ``instruction`` says what he does
    instead, as medical staff set it.
    """

    step: ReturnStep
    began_at: datetime
    author: Name
    licence: Name = "not stated"
    no_training: bool = False
    instruction: Note = ""


@dataclass(frozen=True)
class SymptomsTold:
    """Symptoms told on the way back: how much worse on a scale of 10, and for how many minutes."""

    at: datetime
    worse_by: PainScore
    minutes: PositiveCount


@dataclass(frozen=True)
class HeadKnock:
    """A head knock and the way back from it, in the order in which its steps began.

    Without a step he is out and waits for medical staff. A step goes up by one, after 24 hours;
    it may go down at any time.
    """

    id: Identifier
    knocked_at: datetime
    author: Name
    licence: Name = "not stated"
    stages: tuple[ReturnStage, ...] = ()
    symptoms: tuple[SymptomsTold, ...] = ()
    note: Note = ""

    def __post_init__(self) -> None:
        moments = [("knocked_at", self.knocked_at)]
        moments += [("stages.began_at", stage.began_at) for stage in self.stages]
        moments += [("symptoms.at", told.at) for told in self.symptoms]
        for name, moment in moments:
            if moment.tzinfo is None:
                raise InvalidInput(
                    f"head_knocks.{name}",
                    f"{moment.isoformat()} has no offset from UTC",
                    "Write it with one, for example 2026-03-02T18:00:00+01:00",
                )
        before: ReturnStage | None = None
        for stage in self.stages:
            _require_in_order(self, before, stage)
            before = stage

    def stage_at(self, day: date, at: time) -> ReturnStage | None:
        """The step under way at an hour of the clock by which it was written; None before one.

        A lower step that begins later that day holds for the whole of it.
        """
        moment = datetime.combine(day, at)
        found: ReturnStage | None = None
        for stage in self.stages:
            began = stage.began_at.replace(tzinfo=None)
            is_lower = found is not None and stage.step < found.step and began.date() == day
            if began <= moment or is_lower:
                found = stage
        return found

    def happened_by(self, day: date) -> bool:
        """Whether it had happened by a day: at whatever hour, it bars the whole of that day."""
        return self.knocked_at.date() <= day


def _require_in_order(knock: HeadKnock, before: ReturnStage | None, stage: ReturnStage) -> None:
    since = knock.knocked_at if before is None else before.began_at
    step = 0 if before is None else before.step
    if stage.began_at < since:
        raise InvalidInput(
            "head_knocks.stages",
            f"step {stage.step} begins at {stage.began_at.isoformat()}, before "
            + ("the knock" if before is None else f"step {step}"),
            "Give a later time",
        )
    hours = (stage.began_at - since) / timedelta(hours=1)
    if before is not None and stage.step > step and hours < STEP_HOURS:
        raise InvalidInput(
            "head_knocks.stages",
            f"step {stage.step} begins {hours:.1f} h after step {step}; a step lasts "
            f"{STEP_HOURS} h at least",
            "Give a later time; no setting makes a step shorter",
        )
    if before is not None and stage.step > step + 1:
        raise InvalidInput(
            "head_knocks.stages",
            f"step {stage.step} follows step {step}",
            "Write every step, one after the other",
        )


@dataclass(frozen=True)
class Illness:
    """An illness as told; ``gone_at`` is when fever and all below the neck were gone."""

    id: Identifier
    author: Name
    began_on: date
    signs: tuple[Sign, ...] = ()
    temperature_c: BodyTemperature | None = None
    gone_at: datetime | None = None
    note: Note = ""

    def __post_init__(self) -> None:
        if not self.signs and self.temperature_c is None:
            raise InvalidInput(
                "illnesses", f"{self.id} tells no sign", "Name a sign or give a temperature"
            )
        if self.gone_at is not None and self.gone_at.tzinfo is None:
            raise InvalidInput(
                "illnesses.gone_at",
                f"{self.gone_at.isoformat()} has no offset from UTC",
                "Write it with one, for example 2026-03-02T18:00:00+01:00",
            )
        if self.gone_at is not None and self.gone_at.date() < self.began_on:
            raise InvalidInput(
                "illnesses.gone_at",
                f"{self.gone_at.date()} is before {self.began_on}, when it began",
                "Check both dates",
            )

    @property
    def exact_temperature_c(self) -> Decimal | None:
        """The temperature as it was typed [degC], for comparing with a limit."""
        return None if self.temperature_c is None else Decimal(str(self.temperature_c))


@dataclass(frozen=True)
class FirstWeeks:
    """Since when a newcomer trains, or one who comes back trains again."""

    began_on: date
    is_newcomer: bool = True


@dataclass(frozen=True)
class TechniqueSeen:
    """Who has seen the technique of a young lifter and found it good, and his growth checked."""

    seen_on: date
    seen_by: Name
    growth_checked_on: date | None = None


@dataclass(frozen=True)
class PrivateLimit:
    """What an athlete declared of her own accord: nobody asks for it, and no reason is kept.

    ``licence`` "not stated" where she says so herself, else that of medical staff who wrote it for
    her. ``stopped_on``: the day a sign came at which she stops; a clearance given since ends it.
    """

    declared_on: date
    author: Name
    licence: Name = "not stated"
    stopped_on: date | None = None

    def __post_init__(self) -> None:
        if self.stopped_on is not None and self.stopped_on < self.declared_on:
            raise InvalidInput(
                "private_limit.stopped_on",
                f"{self.stopped_on} is before {self.declared_on}, when it was declared",
                "Check both dates",
            )


@dataclass(frozen=True)
class Medical:
    """All of it, for one athlete; empty where nobody wrote anything.

    ``known_disease`` is of heart, metabolism or kidneys; ``is_active`` None where nobody asked.
    """

    head_knocks: tuple[HeadKnock, ...] = ()
    suspensions: tuple[Suspension, ...] = ()
    illnesses: tuple[Illness, ...] = ()
    clearances: tuple[MedicalClearance, ...] = ()
    screening: Screening | None = None
    known_disease: Note = ""
    has_symptoms: bool = False
    is_active: bool | None = None
    is_used_to_heat: bool = False
    has_had_heat_illness: bool = False
    first_weeks: FirstWeeks | None = None
    technique: TechniqueSeen | None = None
    private_limit: PrivateLimit | None = None

    def with_knock(self, new: HeadKnock) -> "Medical":
        """The same with a head knock entered, or in place of the one with its id."""
        known = {knock.id for knock in self.head_knocks}
        knocks = tuple(new if knock.id == new.id else knock for knock in self.head_knocks)
        return replace(self, head_knocks=knocks if new.id in known else (*knocks, new))

    def private_on(self, day: date) -> PrivateLimit | None:
        """The private limit that holds on a day, or None."""
        held = self.private_limit
        return None if held is None or held.declared_on > day else held

    @property
    def ids(self) -> frozenset[str]:
        """The ids of everything that bars something by itself."""
        knocks = [knock.id for knock in self.head_knocks]
        held = [suspension.id for suspension in self.suspensions]
        return frozenset((*knocks, *held, *(told.id for told in self.illnesses)))


NOTHING_WRITTEN = Medical()


def both_medical(one: Medical, other: Medical) -> Medical:
    """The entries of two that are one person: all of them, and of single ones the stricter."""
    if other == NOTHING_WRITTEN or one == other:
        return one
    weeks = [each.first_weeks for each in (one, other) if each.first_weeks is not None]
    diseases = dict.fromkeys(text for text in (one.known_disease, other.known_disease) if text)
    return Medical(
        head_knocks=tuple(dict.fromkeys((*one.head_knocks, *other.head_knocks))),
        suspensions=tuple(dict.fromkeys((*one.suspensions, *other.suspensions))),
        illnesses=tuple(dict.fromkeys((*one.illnesses, *other.illnesses))),
        clearances=tuple(dict.fromkeys((*one.clearances, *other.clearances))),
        screening=one.screening or other.screening,
        known_disease="; ".join(diseases),
        has_symptoms=one.has_symptoms or other.has_symptoms,
        is_active=other.is_active if one.is_active is None else one.is_active,
        is_used_to_heat=one.is_used_to_heat and other.is_used_to_heat,
        has_had_heat_illness=one.has_had_heat_illness or other.has_had_heat_illness,
        first_weeks=max(weeks, key=lambda each: each.began_on, default=None),
        technique=one.technique or other.technique,
        private_limit=one.private_limit or other.private_limit,
    )
