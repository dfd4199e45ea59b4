"""A routine: blocks of exercises, each with a scheme and a way of running it."""

from dataclasses import dataclass
from enum import StrEnum

from squadwright.errors import InvalidInput
from squadwright.model.exercise import BarPosition
from squadwright.model.field import (
    Count,
    Identifier,
    Label,
    Metres,
    Minutes,
    Name,
    Note,
    PositiveCount,
    Seconds,
)


class CountedIn(StrEnum):
    """What the number of a scheme counts."""

    REPETITIONS = "repetitions"
    REPETITIONS_EACH_SIDE = "repetitions each side"
    SECONDS = "seconds"
    PASSES_DOWN_AND_BACK = "passes down and back"
    PASSES_ONE_WAY = "passes one way, sprint back"
    LADDER_TO = "ladder up to and back to 1"


@dataclass(frozen=True)
class Scheme:
    """``sets`` of ``count``; ``hold_after_s`` is held after the last repetition of each set.

    A ladder up to n and back to 1 has n squared repetitions. A pass down and back goes along the
    row twice; a pass one way goes along it once.
    """

    counted_in: CountedIn
    count: PositiveCount
    sets: PositiveCount = 1
    hold_after_s: Seconds = 0


class Facing(StrEnum):
    """Which way the athlete looks along a row."""

    FORWARD = "forward"
    CHANGED_EVERY_OTHER_SET = "changed every other set"


@dataclass(frozen=True)
class Step:
    """One exercise of a block. ``label`` is short ("A1"); ``last_ends`` moves the bar at the end.

    ``last_ends`` is where the last repetition leaves the bar when that differs from the others
    (the last press goes down to the hang).
    """

    exercise: Identifier
    scheme: Scheme
    label: Label = ""
    last_ends: BarPosition | None = None
    facing: Facing = Facing.FORWARD
    note: Note = ""


class Style(StrEnum):
    """How a block is run."""

    COMPLEX = "complex"
    CIRCUIT = "circuit"
    LANES = "lanes"
    SETS = "sets"


class RestKind(StrEnum):
    """What sets the rest between sets or rounds."""

    SECONDS = "seconds"
    PARTNER_WORKS = "partner works"
    WORK_TO_REST = "work to rest"


@dataclass(frozen=True)
class Rest:
    """``seconds`` of rest, or rest while the partner works, or ``ratio`` times the work."""

    kind: RestKind = RestKind.SECONDS
    seconds: Seconds = 60
    ratio: float = 1.0


class Alternation(StrEnum):
    """The order in which the exercises of a block are taken."""

    AS_WRITTEN = "all sets of one, then the next"
    IN_TURN = "one set of each in turn"
    LOWER_THEN_UPPER = "a lower-body set, then an upper-body set"


class GroupKind(StrEnum):
    """Who works together in a block."""

    ALONE = "alone"
    PAIRS = "pairs"
    THREES = "threes"
    WAVES = "waves"
    LANES = "lanes"


@dataclass(frozen=True)
class LaneRule:
    """How a line runs: boxes in its row, free boxes kept between athletes, gap, way back."""

    boxes: Count = 0
    free_boxes_between: Count = 2
    start_gap_s: Seconds = 3
    longest_line: PositiveCount = 5
    box_spacing_m: Metres = 1.0
    sprint_back: bool = False


@dataclass(frozen=True)
class Block:
    """Exercises run in one way.

    ``work_s`` is the time given to one round of a complex or one station of a circuit (None: taken
    from the exercises); ``changeover_s`` follows it.
    """

    name: Name
    style: Style
    steps: tuple[Step, ...]
    rounds: PositiveCount = 1
    work_s: Seconds | None = None
    changeover_s: Seconds = 20
    rest: Rest = Rest()
    alternation: Alternation = Alternation.AS_WRITTEN
    group_kind: GroupKind = GroupKind.ALONE
    waves: PositiveCount = 1
    lane: LaneRule | None = None
    note: Note = ""

    def __post_init__(self) -> None:
        if not self.steps:
            raise InvalidInput(
                "blocks.steps", f"block {self.name} has no exercise", "Add at least one step"
            )
        if self.style is Style.LANES and self.lane is None:
            raise InvalidInput(
                "blocks.lane",
                f"block {self.name} runs in lanes but says nothing about them",
                "Give its lane rule (boxes, free boxes between athletes, start gap)",
            )


@dataclass(frozen=True)
class Routine:
    """A routine with its version; a stored plan keeps the version it used.

    ``slot_minutes`` is the slot it is meant for, set-up and packing included; ``fits`` says in a
    word or two each what it suits ("big group", "no kit"). One that is put away is off the list and
    kept for the sessions that used it.
    """

    id: Identifier
    version: PositiveCount
    name: Name
    aim: Name
    blocks: tuple[Block, ...]
    level: Name = "novice"
    warm_up_s: Seconds = 720
    rehearsal_s: Seconds = 480
    cautions: tuple[Note, ...] = ()
    note: Note = ""
    slot_minutes: Minutes = 60
    fits: tuple[Name, ...] = ()
    is_put_away: bool = False
