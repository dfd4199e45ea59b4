"""The diary of an athlete: what is known of his days beyond the sessions the floor recorded.

An entry is written once and never changed; who corrects one takes it out and writes another. What
the diary does not say is not known: a day without an entry is no day of rest.
"""

from dataclasses import dataclass
from datetime import date, datetime, time
from enum import StrEnum
from typing import Annotated, Literal

from annotated_types import Ge, Le, Len
from pydantic import Discriminator

from squadwright.errors import InvalidInput
from squadwright.model.composition import (
    FatError,
    FatFloor,
    FatMethod,
    FatPercent,
    LeastFatPercent,
    SkinFold,
    SpecificGravity,
    require_measured,
)
from squadwright.model.field import Identifier, Label, Name, Note, PainScore, PositiveCount
from squadwright.model.muscles import BodyArea
from squadwright.units import Mass

# A session of the diary may be a short skills class, or a day of competition.
DoneMinutes = Annotated[int, Ge(1), Le(720)]
Effort = Annotated[float, Ge(0.0), Le(10.0)]


class DiaryKind(StrEnum):
    """What an entry tells."""

    SESSION = "session"
    REST = "rest"
    WELLNESS = "wellness"
    TEST = "test"
    HEART = "heart"
    PAIN = "pain"
    CAMP_REVIEW = "camp review"
    BODY_COMPOSITION = "body composition"


@dataclass(frozen=True)
class SessionDone:
    """A session an athlete did, mat work included: minutes, and effort 0 to 10 if he told it.

    ``slot`` and ``session`` name the slot of the week or the session of the club it was, both
    empty for anything else. What was planned is kept beside it, and is never taken for what was
    done.
    """

    name: Name
    activity: Label
    minutes: DoneMinutes
    effort: Effort | None = None
    starts_at: time | None = None
    slot: Annotated[str, Len(0, 60)] = ""
    session: Annotated[str, Len(0, 60)] = ""
    planned_minutes: DoneMinutes | None = None
    planned_effort: Effort | None = None
    note: Note = ""
    kind: Literal[DiaryKind.SESSION] = DiaryKind.SESSION


@dataclass(frozen=True)
class RestDay:
    """A day known to be without training: a load of 0, which silence is not."""

    note: Note = ""
    kind: Literal[DiaryKind.REST] = DiaryKind.REST


@dataclass(frozen=True)
class Answer:
    """One item of a questionnaire and what was answered."""

    item: Name
    value: Annotated[int, Ge(0), Le(10)]


@dataclass(frozen=True)
class WellnessAnswers:
    """The answers of a short questionnaire, with its steps and the direction of its numbers."""

    scale: Name
    answers: Annotated[tuple[Answer, ...], Len(1, 12)]
    lowest: Annotated[int, Ge(0), Le(10)]
    highest: Annotated[int, Ge(1), Le(10)]
    is_high_good: bool
    note: Note = ""
    kind: Literal[DiaryKind.WELLNESS] = DiaryKind.WELLNESS

    def __post_init__(self) -> None:
        for answer in self.answers:
            if not self.lowest <= answer.value <= self.highest:
                raise InvalidInput(
                    answer.item,
                    f"{answer.value} is not from {self.lowest} to {self.highest}",
                    "Tap one of the steps shown",
                )


@dataclass(frozen=True)
class TestResult:
    """The result of a test: its number, unit and method, and the attempts it was taken from.

    ``test`` is the id of the battery. ``place`` is its place in the order of the day, where there
    was one. Two methods never stand in one line.
    """

    __test__ = False

    test: Identifier
    value: float
    unit: Name
    method: Name
    attempts: tuple[float, ...] = ()
    place: PositiveCount | None = None
    rest_before_minutes: Annotated[float, Ge(0.0), Le(1440.0)] | None = None
    kit: Label = ""
    source_file: Label = ""
    note: Note = ""
    kind: Literal[DiaryKind.TEST] = DiaryKind.TEST


@dataclass(frozen=True)
class HeartSeries:
    """A recording of the heart: RR intervals in ms, or heart rate in beats a minute at instants.

    ``seconds`` are the moments since ``starts_at``: one for each value. RR intervals stand at
    their end.
    """

    measure: Literal["rr_ms", "beats_per_minute"]
    values: Annotated[tuple[float, ...], Len(1, 200_000)]
    seconds: Annotated[tuple[float, ...], Len(1, 200_000)]
    starts_at: datetime | None = None
    during: Label = ""
    source_file: Label = ""
    note: Note = ""
    kind: Literal[DiaryKind.HEART] = DiaryKind.HEART

    def __post_init__(self) -> None:
        if len(self.values) != len(self.seconds):
            raise InvalidInput(
                "seconds",
                f"{len(self.seconds)} moments for {len(self.values)} values",
                "Give one moment for each value",
            )


@dataclass(frozen=True)
class PainTold:
    """Pain an athlete told outside a check-in: where, and how much from 0 to 10."""

    area: BodyArea
    score: PainScore
    side: Label = ""
    note: Note = ""
    kind: Literal[DiaryKind.PAIN] = DiaryKind.PAIN


@dataclass(frozen=True)
class CampReviewed:
    """A camp looked back on: the event it led to; what to keep, to change, and to do first."""

    event: Identifier
    keep: Note = ""
    change: Note = ""
    first: Note = ""
    kind: Literal[DiaryKind.CAMP_REVIEW] = DiaryKind.CAMP_REVIEW


@dataclass(frozen=True)
class BodyComposition:
    """An assessment of body fat: what was measured, how, and by whom; never by the coach.

    ``error_percent`` is the error of an instrument. ``floor`` is whose floor of body fat holds,
    ``least_fat_percent`` a stricter one of medical staff. What follows from it is worked out.
    """

    method: FatMethod
    mass: Mass
    assessor: Name
    licence: Name
    floor: FatFloor
    folds: Annotated[tuple[SkinFold, ...], Len(0, 8)] = ()
    measured_percent: FatPercent | None = None
    error_percent: FatError | None = None
    least_fat_percent: LeastFatPercent | None = None
    specific_gravity: SpecificGravity | None = None
    note: Note = ""
    kind: Literal[DiaryKind.BODY_COMPOSITION] = DiaryKind.BODY_COMPOSITION

    def __post_init__(self) -> None:
        require_measured(self.method, self.folds, self.measured_percent, self.error_percent)


Content = Annotated[
    SessionDone
    | RestDay
    | WellnessAnswers
    | TestResult
    | HeartSeries
    | PainTold
    | CampReviewed
    | BodyComposition,
    Discriminator("kind"),
]


@dataclass(frozen=True)
class DiaryEntry:
    """One entry: whose it is, of which day, what it tells, who wrote it and when."""

    id: Identifier
    athlete: Identifier
    day: date
    content: Content
    author: Name
    written_at: datetime


@dataclass(frozen=True)
class DiaryStep:
    """One write to the diary: the entries it brought in and those it took out, by id."""

    mark: Identifier
    made_on: date
    added: tuple[Identifier, ...] = ()
    taken_out: tuple[Identifier, ...] = ()
