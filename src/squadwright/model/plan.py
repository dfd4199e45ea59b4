"""The plan: a frozen value that says who lifts what, with whom, on what, and when.

It is the document published by ``squadwright schema plan``. The same club, check-in and seed give
the same plan.
"""

from dataclasses import dataclass
from datetime import date, time
from enum import StrEnum
from typing import Literal

from squadwright.model.field import Identifier, Label, Name, Note

PLAN_VERSION: Literal[1] = 1


class Severity(StrEnum):
    """How much a finding matters."""

    NOTE = "note"
    WARNING = "warning"
    STOP = "stop"


class Basis(StrEnum):
    """What a load rests on."""

    TEST = "test"
    GUESSED = "guessed from another lift"
    EARLIER = "earlier sessions"
    RULE = "plain rule"
    TECHNIQUE_BAR = "technique bar"
    OVERRIDE = "coach's word"
    BODY = "body size"
    NONE = "no load"


@dataclass(frozen=True)
class SessionHead:
    """Which session this plan is for."""

    id: Identifier
    name: Name
    club: Name
    held_on: date
    starts_at: time
    minutes: int
    routine: Identifier
    routine_version: int
    routine_name: Name
    style: Name
    aim: Name
    staff: tuple[Name, ...] = ()


@dataclass(frozen=True)
class AttendanceLine:
    """One athlete: here, late, absent or out, and what changes for him.

    ``restrictions`` are for the coach, with their reasons; ``barred`` says the same without them.
    """

    athlete: Identifier
    shown_name: Name
    status: Literal["present", "late", "absent", "not training"]
    late_minutes: int = 0
    restrictions: tuple[str, ...] = ()
    note: Note = ""
    barred: tuple[str, ...] = ()


@dataclass(frozen=True)
class SwapLine:
    """One exercise replaced for one athlete."""

    step: Name
    from_exercise: Identifier
    to_exercise: Identifier
    reason: Note


@dataclass(frozen=True)
class PlannedExercise:
    """One exercise of one athlete as he will do it (swaps applied)."""

    step: Name
    exercise: Identifier
    name: Name
    amount: Name
    sets: int
    repetitions_per_set: int
    load_kg: float | None = None
    ball: Identifier | None = None
    ball_kg: float | None = None
    box: Identifier | None = None
    box_height_m: float | None = None
    contacts: int = 0
    throws: int = 0
    faults: tuple[Name, ...] = ()
    block: Label = ""


@dataclass(frozen=True)
class ReservePoint:
    """Repetitions left in reserve (median) at the end of one exercise of one round."""

    round: int
    exercise: Identifier
    reserve_reps: float


@dataclass(frozen=True)
class Dose:
    """What one athlete does. ``exercise`` is None where one load serves the whole complex.

    ``block`` is the complex the load is for; empty where everything is done without a bar.
    Exercises of blocks without a bar stand in the athlete's first dose, each with its block.
    ``last_load_kg`` is the load of the same complex in the last session, ``progress`` where this
    one goes from there, ``progress_reason`` why; empty where he does it for the first time.
    ``two_for_two`` is whether the handbook's rule for raising a load is met.
    """

    athlete: Identifier
    exercise: Identifier | None
    target_kg: float | None
    load_kg: float | None
    rounds: int
    first_round: int
    target_probability: float | None
    completion_probability: float | None
    reserve_reps: float | None
    limiting_exercise: Identifier | None
    limiting_round: int | None
    basis: Basis
    reason: Note
    plain_rule_kg: float | None = None
    kit_limited: bool = False
    contacts: int = 0
    throws: int = 0
    swaps: tuple[SwapLine, ...] = ()
    exercises: tuple[PlannedExercise, ...] = ()
    reserve: tuple[ReservePoint, ...] = ()
    cautions: tuple[Note, ...] = ()
    block: Label = ""
    last_load_kg: float | None = None
    progress: Literal["", "up", "hold", "back"] = ""
    progress_reason: Note = ""
    two_for_two: bool = False


@dataclass(frozen=True)
class PlatesOnSide:
    """``count`` equal plates on each side of a bar."""

    plate_kg: float
    count: int


@dataclass(frozen=True)
class BarUser:
    """One athlete on a bar in one wave."""

    athlete: Identifier
    wave: int
    target_kg: float
    load_kg: float
    per_side: tuple[PlatesOnSide, ...]


@dataclass(frozen=True)
class BarPlan:
    """One bar with its users in wave order."""

    bar: Identifier
    name: Name
    bar_kg: float
    wave_users: tuple[BarUser, ...]
    block: Label = ""


@dataclass(frozen=True)
class KitBound:
    """How good the plate plan is, and what is proven about it."""

    largest_shortfall_fraction: float
    largest_shortfall_bound: float
    total_shortfall_kg: float
    plate_moves: int
    plates_handled: int
    proven: bool
    advice: tuple[Note, ...] = ()


@dataclass(frozen=True)
class GroupLine:
    """Who works together. ``lane`` or ``wave`` is set where the block has them (from 1)."""

    name: Name
    athletes: tuple[Identifier, ...]
    kind: Name
    block: Name
    lane: int | None = None
    wave: int | None = None
    bar: Identifier | None = None


@dataclass(frozen=True)
class RunLine:
    """From ``start_s`` to ``end_s`` (from the start of the slot) a group does an activity."""

    start_s: int
    end_s: int
    group: Name
    station: Label
    exercise: Identifier | None
    activity: Name
    round: int | None = None
    rest_s: int | None = None
    block: Label = ""
    step: Label = ""
    set: int | None = None
    role: Label = ""
    athletes: tuple[Identifier, ...] = ()
    kit: tuple[Name, ...] = ()


@dataclass(frozen=True)
class StationPlace:
    """One station on the floor, to scale: the corner nearest the first corner of the room, its
    size along and across the room, and 90 degrees where a bar or lane runs across it.

    ``number`` is its place in walking order, 0 for a zone. ``holds`` names the bars or groups that
    use it. ``block`` is empty where it stands for the whole session.
    """

    id: Name
    x_m: float
    y_m: float
    width_m: float
    depth_m: float
    angle_deg: float = 0.0
    number: int = 0
    kind: Label = ""
    block: Label = ""
    holds: tuple[Name, ...] = ()


@dataclass(frozen=True)
class FloorPlan:
    """Stations placed in the room; empty until they are laid out. ``notes`` say what is proven."""

    room: Identifier
    room_name: Name
    stations: tuple[StationPlace, ...] = ()
    zones: tuple[StationPlace, ...] = ()
    notes: tuple[Note, ...] = ()


@dataclass(frozen=True)
class Finding:
    """One finding of the audit, as a sentence with its value, limit and source."""

    rule: Name
    athlete: Identifier | None
    severity: Severity
    sentence: Note
    value: float | None
    limit: float | None
    unit: Label
    source: Note
    advice: Note


@dataclass(frozen=True)
class SetUpItem:
    """One thing to fetch and place before anyone arrives, in store-walk order.

    ``pieces`` are the pieces of the store that serve: any of them is as good as another.
    """

    place: Name
    item: Note
    count: int
    goes_to: Note
    pieces: tuple[Identifier, ...] = ()


@dataclass(frozen=True)
class Plan:
    """One session, planned."""

    session: SessionHead
    attendance: tuple[AttendanceLine, ...]
    doses: tuple[Dose, ...]
    bars: tuple[BarPlan, ...]
    kit_bound: KitBound | None
    groups: tuple[GroupLine, ...]
    run_sheet: tuple[RunLine, ...]
    floor: FloorPlan
    audit: tuple[Finding, ...]
    assumptions: tuple[Note, ...]
    set_up: tuple[SetUpItem, ...]
    cautions: tuple[Note, ...]
    seed: int
    version: Literal[1] = PLAN_VERSION

    def dose_of(self, athlete_id: str) -> Dose | None:
        """The dose of an athlete, or None."""
        return next((d for d in self.doses if d.athlete == athlete_id), None)

    def shown_name(self, athlete_id: str) -> str:
        """The unambiguous name of an athlete, else his id."""
        return next((a.shown_name for a in self.attendance if a.athlete == athlete_id), athlete_id)


def exercise_names(plan: Plan) -> dict[str, str]:
    """Name by id of each exercise somebody does."""
    return {e.exercise: e.name for dose in plan.doses for e in dose.exercises}
