"""What is asked of a run sheet, and what comes back: a sheet, or what would fit."""

from dataclasses import dataclass
from enum import StrEnum

from squadwright.errors import InvalidInput
from squadwright.planning.run_sheet.blocks import LONGEST_S, Block, check_whole

LEAST_WARM_UP_S = 480
"""Shortest warm-up [s]: 8 minutes, a default of ours that the coach may change."""


class PartKind(StrEnum):
    """Fixed parts of a session."""

    SET_UP = "set-up"
    ARRIVE = "arrive and check in"
    WARM_UP = "warm-up"
    REHEARSAL = "rehearsal"
    FINISH = "finish what is under way"
    SPARE = "spare"
    COOL_DOWN = "cool-down and scores"
    PACK = "pack away"


@dataclass(frozen=True)
class FixedPart:
    """A part of fixed length. ``minimum_s`` left out: the default of ours for its kind.

    A rehearsal and what is under way are never shortened, a warm-up not below 8 minutes, spare time
    may go altogether, the rest not below one minute. Set-up lies before the slot.
    """

    kind: PartKind
    duration_s: int
    minimum_s: int | None = None

    def __post_init__(self) -> None:
        check_whole(f"{self.kind}.duration_s", self.duration_s, 0, LONGEST_S, "s")
        if self.minimum_s is not None:
            check_whole(f"{self.kind}.minimum_s", self.minimum_s, 0, self.duration_s, "s")
        if self.kind is PartKind.REHEARSAL and self.shortest_s < self.duration_s:
            raise InvalidInput(
                "rehearsal.minimum_s",
                f"{self.minimum_s} s is below its length of {self.duration_s} s",
                "A rehearsal is never shortened: leave the minimum out",
            )

    @property
    def shortest_s(self) -> int:
        """Least length [s]."""
        if self.minimum_s is not None:
            return self.minimum_s
        match self.kind:
            case PartKind.SPARE:
                return 0
            case PartKind.WARM_UP:
                return min(self.duration_s, LEAST_WARM_UP_S)
            case PartKind.REHEARSAL | PartKind.FINISH | PartKind.SET_UP:
                return self.duration_s
            case _:
                return min(self.duration_s, 60)


@dataclass(frozen=True)
class LateArrival:
    """Somebody who comes late: warms up alone, rehearses, and joins at a boundary.

    ``arrives_s`` counts from the start of the slot [s]. ``rehearsal_s`` left out means as long as
    the squad's rehearsal.
    """

    athlete: str
    arrives_s: int
    warm_up_s: int = LEAST_WARM_UP_S
    rehearsal_s: int | None = None

    def __post_init__(self) -> None:
        check_whole(f"late.{self.athlete}.arrives_s", self.arrives_s, 0, LONGEST_S, "s")
        check_whole(f"late.{self.athlete}.warm_up_s", self.warm_up_s, 0, LONGEST_S, "s")
        if self.rehearsal_s is not None:
            check_whole(f"late.{self.athlete}.rehearsal_s", self.rehearsal_s, 0, LONGEST_S, "s")


class CutKind(StrEnum):
    """What may be cut. Other parts are check-in, cool-down and packing away."""

    ROUNDS = "rounds"
    PART = "other parts shortened"
    EXERCISE = "exercise"
    WARM_UP = "warm-up shortened"


ROUNDS_FIRST = (CutKind.ROUNDS, CutKind.PART, CutKind.EXERCISE, CutKind.WARM_UP)
"""Order of cuts, a default of ours: rounds, then exercises; the warm-up last, to its minimum."""

PARTS_FIRST = (CutKind.PART, CutKind.ROUNDS, CutKind.EXERCISE, CutKind.WARM_UP)
"""The other order that is shown beside it: keep rounds as long as other parts can shrink."""


@dataclass(frozen=True)
class RunSheetProblem:
    """A slot to be filled second by second. ``block_gap_s`` lies between two blocks."""

    slot_s: int
    before: tuple[FixedPart, ...]
    blocks: tuple[Block, ...]
    after: tuple[FixedPart, ...]
    late: tuple[LateArrival, ...] = ()
    block_gap_s: int = 0
    least_warm_up_s: int = LEAST_WARM_UP_S
    cut_order: tuple[CutKind, ...] = ROUNDS_FIRST
    time_limit_s: float = 5.0

    def __post_init__(self) -> None:
        check_whole("slot_s", self.slot_s, 1, LONGEST_S, "s")
        check_whole("block_gap_s", self.block_gap_s, 0, LONGEST_S, "s")
        if not self.time_limit_s > 0:
            raise InvalidInput(
                "time_limit_s", f"{self.time_limit_s:g} s is not above 0", "Give at least 0.1 s"
            )
        if any(part.kind is PartKind.SPARE for part in self.before):
            raise InvalidInput("before", "spare time stands before the work", "Put it after")
        for part in (*self.before, *self.after):
            if part.kind is PartKind.WARM_UP and part.shortest_s < self.least_warm_up_s:
                raise InvalidInput(
                    "warm-up",
                    f"may shrink to {part.shortest_s} s, below the least of "
                    f"{self.least_warm_up_s} s",
                    "Lengthen the warm-up, or change the setting on purpose",
                )
        for arrival in self.late:
            if arrival.warm_up_s < self.least_warm_up_s:
                raise InvalidInput(
                    f"late.{arrival.athlete}.warm_up_s",
                    f"{arrival.warm_up_s} s is below the least of {self.least_warm_up_s} s",
                    "Lengthen it: nobody starts cold",
                )


@dataclass(frozen=True)
class RunEntry:
    """One line of the sheet; seconds count from the start of the slot, set-up is negative."""

    start_s: int
    end_s: int
    group: str
    station: str
    exercise: str
    activity: str
    round: int | None = None
    set: int | None = None
    role: str = ""
    athletes: tuple[str, ...] = ()
    kit: tuple[str, ...] = ()


@dataclass(frozen=True)
class RestOwed:
    """Rest between two own rounds or sets [s], by wave or group."""

    block: str
    who: str
    rest_s: int


@dataclass(frozen=True)
class ExerciseStep:
    """Where an exercise lies within one pass of a complex [s]."""

    exercise: str
    start_s: int
    end_s: int


@dataclass(frozen=True)
class BlockTiming:
    """One block in time. No sheet can do it in less than ``lower_bound_s`` [s]."""

    name: str
    start_s: int
    duration_s: int
    lower_bound_s: int
    entries: tuple[RunEntry, ...]
    rests: tuple[RestOwed, ...] = ()
    steps: tuple[ExerciseStep, ...] = ()
    boundaries_s: tuple[int, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class JoiningPoint:
    """Where a late athlete joins a block; ``first_round`` None: too late, helps and watches."""

    athlete: str
    block: str
    ready_s: int
    first_round: int | None
    rounds: int


@dataclass(frozen=True)
class RunSheetSolution:
    """A sheet that fits the slot.

    ``makespan_s`` is the time used without spare time, ``spare_s`` what is left of the slot.
    """

    entries: tuple[RunEntry, ...]
    blocks: tuple[BlockTiming, ...]
    makespan_s: int
    lower_bound_s: int
    spare_s: int
    rests: tuple[RestOwed, ...]
    joins: tuple[JoiningPoint, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def is_proven(self) -> bool:
        """Whether no sheet for the same work is shorter."""
        return self.makespan_s == self.lower_bound_s


@dataclass(frozen=True)
class Cut:
    """One cut and the seconds it gains [s]."""

    kind: CutKind
    where: str
    what: str
    gained_s: int


@dataclass(frozen=True)
class KitGain:
    """Kit that would shorten the session: how many more pieces, and by how much [s].

    ``rest_s`` is the rest that is left between rounds where fewer waves change it [s].
    """

    kit: str
    more: int
    gained_s: int
    rest_s: int | None = None


@dataclass(frozen=True)
class Fit:
    """Cuts after which the session fits, the problem they leave, and its sheet."""

    cuts: tuple[Cut, ...]
    problem: RunSheetProblem
    solution: RunSheetSolution


@dataclass(frozen=True)
class NotFitting:
    """The slot is too short by ``over_by_s`` [s].

    ``fit`` obeys the order of cuts asked for, and is None when nothing fits; ``other_fit`` shrinks
    other parts before rounds, where that gives another sheet. ``options`` are all single first
    cuts. With every cut made, the session needs ``least_s`` [s].
    """

    over_by_s: int
    least_s: int
    fit: Fit | None
    other_fit: Fit | None
    options: tuple[Cut, ...]
    kit_gains: tuple[KitGain, ...]
    message: str

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """Cuts of the order asked for; none when nothing fits."""
        return () if self.fit is None else self.fit.cuts

    @property
    def problem(self) -> RunSheetProblem | None:
        """The problem left after the cuts."""
        return None if self.fit is None else self.fit.problem

    @property
    def solution(self) -> RunSheetSolution | None:
        """The sheet after the cuts."""
        return None if self.fit is None else self.fit.solution
