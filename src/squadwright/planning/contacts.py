"""Counting: repetitions, landings, drops, throws, catches and seconds of work.

A contact is each time a foot, or both feet together, meet a surface. A landing of the hands is
counted apart from the contacts of the feet. A ladder up to n and back to 1 has n squared
repetitions; a row of k boxes passed p times has k times p repetitions, each with the landings of
its pattern.
"""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import pairwise

from squadwright.errors import InvalidInput
from squadwright.model.exercise import (
    Exercise,
    ImpactClass,
    Limb,
    RowPlace,
    Sides,
    Surface,
)
from squadwright.model.routine import Block, CountedIn, LaneRule, Routine, Scheme, Step

SPRINT_BACK_M_PER_S = 4.0
"""Speed of the way back beside a row [m/s]; our estimate, from a standing start to a stop."""

Lookup = Callable[[str], Exercise]

_ALONG_THE_ROW = {CountedIn.PASSES_DOWN_AND_BACK: 2, CountedIn.PASSES_ONE_WAY: 1}


@dataclass(frozen=True, order=True)
class Contact:
    """One kind of landing: what is landed on, what lands, how hard."""

    surface: Surface
    limb: Limb
    impact: ImpactClass


@dataclass(frozen=True)
class Count:
    """What a set, a step, a block or a routine holds for one athlete.

    ``drops`` gives, by height of the box [m] (None where no height was said), the landings that
    come down from a box. ``is_estimate`` is set where repetitions were worked out from seconds.
    """

    repetitions: int = 0
    landings: tuple[tuple[Contact, int], ...] = ()
    drops: tuple[tuple[float | None, int], ...] = ()
    throws: int = 0
    catches: int = 0
    work_s: float = 0.0
    is_estimate: bool = False

    @property
    def contacts(self) -> int:
        """Landings of the feet."""
        return sum(n for contact, n in self.landings if contact.limb is not Limb.HANDS)

    @property
    def hand_landings(self) -> int:
        """Landings of the hands."""
        return sum(n for contact, n in self.landings if contact.limb is Limb.HANDS)

    @property
    def drop_count(self) -> int:
        """Landings that come down from a box."""
        return sum(n for _, n in self.drops)

    def contacts_on(self, surface: Surface) -> int:
        """Landings of the feet on a surface."""
        return sum(n for c, n in self.landings if c.limb is not Limb.HANDS and c.surface is surface)

    def contacts_of(self, impact: ImpactClass) -> int:
        """Landings of the feet of an impact class."""
        return sum(n for c, n in self.landings if c.limb is not Limb.HANDS and c.impact is impact)

    def times(self, factor: int) -> "Count":
        """The same, ``factor`` times over."""
        return replace(
            self,
            repetitions=self.repetitions * factor,
            landings=tuple((contact, n * factor) for contact, n in self.landings if factor),
            drops=tuple((height, n * factor) for height, n in self.drops if factor),
            throws=self.throws * factor,
            catches=self.catches * factor,
            work_s=self.work_s * factor,
        )

    def __add__(self, other: "Count") -> "Count":
        landings = Counter(dict(self.landings)) + Counter(dict(other.landings))
        drops = Counter(dict(self.drops)) + Counter(dict(other.drops))
        return Count(
            repetitions=self.repetitions + other.repetitions,
            landings=tuple(sorted(landings.items())),
            drops=tuple(sorted(drops.items(), key=lambda item: (item[0] is None, item[0] or 0.0))),
            throws=self.throws + other.throws,
            catches=self.catches + other.catches,
            work_s=self.work_s + other.work_s,
            is_estimate=self.is_estimate or other.is_estimate,
        )


def repetitions_per_set(exercise: Exercise, scheme: Scheme, boxes: int = 0) -> int:
    """Repetitions of one set; each side's repetition counts as one, each box of a row as one."""
    match scheme.counted_in:
        case CountedIn.REPETITIONS:
            return scheme.count
        case CountedIn.REPETITIONS_EACH_SIDE:
            if exercise.sides is not Sides.EACH:
                raise InvalidInput(
                    "scheme.counted_in",
                    f"{exercise.name} uses both sides at once and has no repetitions each side",
                    "Count it in repetitions",
                )
            return 2 * scheme.count
        case CountedIn.LADDER_TO:
            return scheme.count**2
        case CountedIn.SECONDS:
            return 1 if exercise.is_hold else _repetitions_in(exercise, scheme.count)
        case CountedIn.PASSES_DOWN_AND_BACK | CountedIn.PASSES_ONE_WAY:
            _refuse_without_row(exercise, boxes)
            return _ALONG_THE_ROW[scheme.counted_in] * scheme.count * boxes


def count_set(
    exercise: Exercise,
    scheme: Scheme,
    *,
    lane: LaneRule | None = None,
    box_height_m: float | None = None,
) -> Count:
    """What one set holds for one athlete."""
    repetitions = repetitions_per_set(exercise, scheme, lane.boxes if lane else 0)
    landings, drops = _landings_of_a_repetition(exercise)
    return Count(
        repetitions=repetitions,
        landings=tuple((contact, n * repetitions) for contact, n in sorted(landings.items())),
        drops=((box_height_m, drops * repetitions),) if drops else (),
        throws=exercise.throws_per_repetition * repetitions,
        catches=exercise.catches_per_repetition * repetitions,
        work_s=_work_s(exercise, scheme, repetitions, lane),
        is_estimate=scheme.counted_in is CountedIn.SECONDS and not exercise.is_hold,
    )


def count_step(
    exercise: Exercise,
    scheme: Scheme,
    *,
    lane: LaneRule | None = None,
    box_height_m: float | None = None,
) -> Count:
    """What all sets of a step hold for one athlete."""
    return count_set(exercise, scheme, lane=lane, box_height_m=box_height_m).times(scheme.sets)


def count_block(
    block: Block, lookup: Lookup, *, rounds: int | None = None, box_height_m: float | None = None
) -> Count:
    """What a block holds for one athlete; ``rounds`` replaces the rounds of the block."""
    total = Count()
    for step in block.steps:
        total += _count(step, block, lookup, box_height_m)
    return total.times(block.rounds if rounds is None else rounds)


def count_routine(routine: Routine, lookup: Lookup, *, box_height_m: float | None = None) -> Count:
    """What a routine holds for one athlete who does all of it."""
    total = Count()
    for block in routine.blocks:
        total += count_block(block, lookup, box_height_m=box_height_m)
    return total


def _count(step: Step, block: Block, lookup: Lookup, box_height_m: float | None) -> Count:
    return count_step(
        lookup(step.exercise), step.scheme, lane=block.lane, box_height_m=box_height_m
    )


def _landings_of_a_repetition(exercise: Exercise) -> tuple[Counter[Contact], int]:
    """Landings by kind, and how many of them come down from a box."""
    landings: Counter[Contact] = Counter()
    drops = 0
    for landing in exercise.landings:
        landings[Contact(landing.surface, landing.limb, landing.impact)] += landing.count
        drops += landing.count if landing.drops_from_box else 0
    for row_landing in exercise.row_landings:
        landings[Contact(row_landing.surface, row_landing.limb, row_landing.impact)] += 1
    for before, after in pairwise(exercise.row_landings):
        drops += before.place is RowPlace.ON_BOX and after.place is not RowPlace.ON_BOX
    return landings, drops


def _work_s(exercise: Exercise, scheme: Scheme, repetitions: int, lane: LaneRule | None) -> float:
    """Seconds of work of one set, the hold at its end and the sprint back included [s]."""
    if scheme.counted_in is CountedIn.SECONDS:
        return float(scheme.count + scheme.hold_after_s)
    work_s = repetitions * exercise.seconds_per_repetition + scheme.hold_after_s
    if scheme.counted_in is CountedIn.PASSES_ONE_WAY and lane is not None and lane.sprint_back:
        work_s += scheme.count * lane.boxes * lane.box_spacing_m / SPRINT_BACK_M_PER_S
    return work_s


def _repetitions_in(exercise: Exercise, seconds: int) -> int:
    """Whole repetitions that fit into some seconds."""
    repetitions = int(seconds / exercise.seconds_per_repetition + 1e-9)
    if repetitions < 1:
        raise InvalidInput(
            "scheme.count",
            f"{seconds} s is less than one repetition of {exercise.name} "
            f"({exercise.seconds_per_repetition:g} s)",
            "Give more seconds, or count it in repetitions",
        )
    return repetitions


def _refuse_without_row(exercise: Exercise, boxes: int) -> None:
    if not exercise.row_landings:
        raise InvalidInput(
            "scheme.counted_in",
            f"{exercise.name} does not go along a row of boxes, so it has no passes",
            "Count it in repetitions, or choose an exercise that goes along a row",
        )
    if boxes < 1:
        raise InvalidInput(
            "lane.boxes",
            f"{exercise.name} goes along a row, and its row has {boxes} boxes",
            "Give the block a lane rule with at least 1 box",
        )
