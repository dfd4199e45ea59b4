"""A routine in words: blocks, steps, choices."""

from collections.abc import Iterable

from squadwright.library import exercise as library_exercise
from squadwright.library import exercises as library_exercises
from squadwright.library import routines as library_routines
from squadwright.model.athlete import Level
from squadwright.model.exercise import BarPosition, Exercise
from squadwright.model.routine import (
    Alternation,
    Block,
    CountedIn,
    Facing,
    GroupKind,
    LaneRule,
    RestKind,
    Routine,
    Step,
    Style,
)
from squadwright.planning.bar_flow import ends_at, leaves_at, starts_at
from squadwright.planning.personal import PersonalStep, amount_text, step_keys
from squadwright.web.routines.contexts import BlockLine, StepLine, Words
from squadwright.web.wording import clock_text, count_text

STYLES = {
    Style.COMPLEX: "Complex: one bar, not put down",
    Style.CIRCUIT: "Circuit: stations in turn",
    Style.LANES: "Lanes: lines with gaps",
    Style.SETS: "Sets",
}
COUNTED = {
    CountedIn.REPETITIONS: "repetitions",
    CountedIn.REPETITIONS_EACH_SIDE: "each side",
    CountedIn.SECONDS: "seconds",
    CountedIn.PASSES_DOWN_AND_BACK: "down and back",
    CountedIn.PASSES_ONE_WAY: "one way",
    CountedIn.LADDER_TO: "ladder up to, and back",
}
RESTS = {
    RestKind.SECONDS: "so many seconds",
    RestKind.PARTNER_WORKS: "while the partner works",
    RestKind.WORK_TO_REST: "so many times the work",
}
GROUPS = {
    GroupKind.ALONE: "each alone",
    GroupKind.PAIRS: "pairs",
    GroupKind.THREES: "threes: work, feed, watch",
    GroupKind.WAVES: "waves on shared bars",
    GroupKind.LANES: "lines",
}
FACINGS = {Facing.FORWARD: "forward", Facing.CHANGED_EVERY_OTHER_SET: "changed every other set"}
NO_KIT = "no kit"


def editor_words() -> Words:
    """The choices of the editor."""
    shelf = dict.fromkeys(routine.aim for routine in library_routines())
    return Words(
        styles=tuple((style.value, words) for style, words in STYLES.items()),
        levels=tuple((level.value, level.value) for level in Level),
        counted=tuple((kind.value, words) for kind, words in COUNTED.items()),
        rests=tuple((kind.value, words) for kind, words in RESTS.items()),
        orders=tuple((order.value, order.value) for order in Alternation),
        groups=tuple((kind.value, words) for kind, words in GROUPS.items()),
        places=tuple((place.value, place.value) for place in BarPosition),
        facings=tuple((way.value, words) for way, words in FACINGS.items()),
        aims=tuple(shelf),
    )


def routine_facts(routine: Routine) -> str:
    """Level, minutes and kit in one line: "Novice, 60 minutes, bars"."""
    kit = ", ".join(kit_kinds(routine))
    return f"{routine.level.capitalize()}, {routine.slot_minutes} minutes, {kit}"


def kit_kinds(routine: Routine) -> tuple[str, ...]:
    """Kinds of kit a routine uses; "no kit" where it uses none."""
    found: dict[str, None] = {}
    for exercise in _exercises(routine):
        found.update(dict.fromkeys(_kit_of(exercise)))
    return tuple(found) or (NO_KIT,)


def _kit_of(exercise: Exercise) -> Iterable[str]:
    needs = exercise.needs
    wanted = (
        ("bars", needs.bar),
        ("balls", needs.ball),
        ("boxes", bool(needs.boxes) or needs.box_row),
        ("a fixed bar", needs.fixed_bar),
        ("plates for the hands", bool(needs.hand_targets)),
        ("mats", needs.mat),
    )
    return (name for name, is_wanted in wanted if is_wanted)


def all_kits() -> tuple[str, ...]:
    """Kinds of kit to choose among."""
    return (NO_KIT, *dict.fromkeys(k for e in library_exercises() for k in _kit_of(e)))


def _exercises(routine: Routine) -> Iterable[Exercise]:
    return (library_exercise(step.exercise) for block in routine.blocks for step in block.steps)


def style_words(routine: Routine) -> str:
    """The styles of a routine: "complex", "sets and lanes"."""
    return " and ".join(dict.fromkeys(block.style.value for block in routine.blocks))


def block_lines(routine: Routine) -> tuple[BlockLine, ...]:
    """Every block as it is read."""
    return tuple(block_line(block) for block in routine.blocks)


def block_line(block: Block) -> BlockLine:
    """One block as it is read."""
    steps = tuple(
        _step_line(step, key, has_rounds=block.style in (Style.COMPLEX, Style.CIRCUIT))
        for step, key in zip(block.steps, step_keys(block), strict=True)
    )
    return BlockLine(
        name=block.name,
        words=tuple(_block_words(block)),
        steps=steps,
        note=block.note,
        has_bar=any(step.bar for step in steps),
    )


def _block_words(block: Block) -> Iterable[str]:
    yield block.style.value.capitalize()
    if block.rounds > 1:
        yield count_text(block.rounds, "round")
    if block.work_s is not None:
        yield f"{clock_text(block.work_s)} of work"
    if block.style in (Style.COMPLEX, Style.CIRCUIT):
        yield f"{clock_text(block.changeover_s)} to change"
    yield _rest_words(block)
    if block.style is Style.COMPLEX and block.waves > 1:
        yield count_text(block.waves, "wave")
    if block.group_kind not in (GroupKind.WAVES, GroupKind.LANES):
        yield GROUPS[block.group_kind]
    if block.alternation is not Alternation.AS_WRITTEN:
        yield block.alternation.value
    if block.style is Style.LANES and block.lane is not None:
        yield from _lane_words(block.lane)


def _rest_words(block: Block) -> str:
    match block.rest.kind:
        case RestKind.SECONDS:
            return f"rest {clock_text(block.rest.seconds)}"
        case RestKind.PARTNER_WORKS:
            return "rest while the partner works"
        case RestKind.WORK_TO_REST:
            return f"rest {block.rest.ratio:g} times the work"


def _lane_words(lane: LaneRule) -> Iterable[str]:
    if lane.boxes:
        yield f"{count_text(lane.boxes, 'box', 'boxes')} in a row, {lane.box_spacing_m:g} m apart"
        yield f"{count_text(lane.free_boxes_between, 'free box', 'free boxes')} between athletes"
    else:
        yield f"{lane.start_gap_s} s between starts"
    yield f"lines of {lane.longest_line} at most"
    if lane.sprint_back:
        yield "sprint back"


def _step_line(step: Step, key: str, *, has_rounds: bool) -> StepLine:
    exercise = library_exercise(step.exercise)
    amount = amount_text(PersonalStep(key, step, exercise))
    sets = step.scheme.sets
    said = f"{sets} sets of {amount}" if sets > 1 or not has_rounds else amount
    if step.facing is not Facing.FORWARD:
        said = f"{said}, facing {FACINGS[step.facing]}"
    return StepLine(
        label=step.label or key,
        name=exercise.name,
        amount=said.replace("1 sets", "1 set"),
        bar=bar_words(step, exercise),
        note=step.note,
        cues=exercise.cues,
        faults=exercise.faults,
    )


def bar_words(step: Step, exercise: Exercise) -> str:
    """Where the bar goes: "hang to front rack, then hang"; empty without a bar."""
    if exercise.start is None:
        return ""
    words = f"{starts_at(exercise)} to {ends_at(exercise)}"
    left = leaves_at(step, exercise)
    return words if left is ends_at(exercise) else f"{words}, last one to {left}"
