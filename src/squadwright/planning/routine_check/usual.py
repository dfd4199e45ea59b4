"""What is usual where the coach writes nothing: defaults of ours by the style of a block."""

from dataclasses import dataclass

from squadwright.model.exercise import Exercise, Modality, Sides
from squadwright.model.routine import (
    Alternation,
    CountedIn,
    GroupKind,
    LaneRule,
    Rest,
    RestKind,
    Scheme,
    Style,
)

SLOW_REPETITION_S = 10.0
ROW_BOXES = 4


@dataclass(frozen=True)
class UsualBlock:
    """The usual way of running a block of one style."""

    rounds: int
    changeover_s: int
    rest: Rest
    group_kind: GroupKind
    waves: int = 1
    sets: int = 1
    repetitions: int = 4
    each_side: int = 3
    alternation: Alternation = Alternation.AS_WRITTEN


USUAL = {
    Style.COMPLEX: UsualBlock(4, 20, Rest(RestKind.PARTNER_WORKS), GroupKind.WAVES, waves=2),
    Style.CIRCUIT: UsualBlock(3, 15, Rest(RestKind.SECONDS, 60), GroupKind.ALONE),
    Style.LANES: UsualBlock(
        1, 20, Rest(RestKind.SECONDS, 45), GroupKind.LANES, sets=3, repetitions=5, each_side=4
    ),
    Style.SETS: UsualBlock(
        1, 20, Rest(RestKind.PARTNER_WORKS), GroupKind.PAIRS, sets=3, repetitions=5, each_side=4
    ),
}
USUAL_COUNT = {
    CountedIn.REPETITIONS: 4,
    CountedIn.REPETITIONS_EACH_SIDE: 3,
    CountedIn.SECONDS: 30,
    CountedIn.PASSES_DOWN_AND_BACK: 1,
    CountedIn.PASSES_ONE_WAY: 2,
    CountedIn.LADDER_TO: 5,
}


def usual_scheme(style: Style, exercise: Exercise) -> Scheme:
    """The usual amount of an exercise in a block of a style."""
    usual = USUAL[style]
    if exercise.row_landings:
        return Scheme(CountedIn.PASSES_DOWN_AND_BACK, 1, usual.sets)
    if exercise.is_hold:
        return Scheme(CountedIn.SECONDS, round(exercise.seconds_per_repetition), usual.sets)
    if exercise.modality is Modality.BREATHING:
        return Scheme(CountedIn.SECONDS, round(2 * exercise.seconds_per_repetition), 1)
    if style is Style.CIRCUIT and exercise.seconds_per_repetition < SLOW_REPETITION_S:
        return Scheme(CountedIn.SECONDS, USUAL_COUNT[CountedIn.SECONDS], usual.sets)
    if exercise.sides is Sides.EACH:
        return Scheme(CountedIn.REPETITIONS_EACH_SIDE, usual.each_side, usual.sets)
    return Scheme(CountedIn.REPETITIONS, usual.repetitions, usual.sets)


def usual_lane(exercises: tuple[Exercise, ...]) -> LaneRule:
    """A line along a row of boxes where an exercise goes along one, else on the bare floor."""
    if any(exercise.row_landings for exercise in exercises):
        return LaneRule(boxes=ROW_BOXES)
    return LaneRule()
