"""Blocks made ready for planning: barbell sets become complexes, and cuts are taken over."""

from collections.abc import Mapping
from dataclasses import replace

from squadwright.errors import InvalidInput
from squadwright.model.exercise import Modality
from squadwright.model.routine import Block, GroupKind, RestKind, Routine, Step, Style
from squadwright.planning.personal import Lookup, step_keys
from squadwright.planning.run_sheet import clock
from squadwright.planning.run_sheet.blocks import Block as TimedBlock
from squadwright.planning.run_sheet.blocks import CircuitBlock, ComplexBlock, DrillBlock
from squadwright.planning.run_sheet.problem import FixedPart
from squadwright.planning.session_time import with_last_end


def ready_blocks(routine: Routine, lookup: Lookup) -> tuple[Block, ...]:
    """The blocks of a routine; each barbell exercise done in sets becomes a complex of one."""
    blocks: list[Block] = []
    for block in routine.blocks:
        if block.style is Style.SETS:
            blocks += _sets(block, lookup)
        else:
            blocks.append(block)
    names = [block.name for block in blocks]
    for place, name in enumerate(names):
        if names.index(name) != place:
            raise InvalidInput(
                f"blocks[{place}].name",
                f"{name!r} names two blocks of {routine.name}",
                "Give each block its own name",
            )
    return tuple(blocks)


def _sets(block: Block, lookup: Lookup) -> list[Block]:
    keys = step_keys(block)
    found: list[Block] = []
    run: list[Step] = []
    for key, step in zip(keys, block.steps, strict=True):
        labelled = replace(step, label=key)
        if lookup(step.exercise).modality is not Modality.BARBELL:
            run.append(labelled)
            continue
        found += _drill_part(block, run, keys)
        run = []
        found.append(_one_lift(block, labelled))
    return found + _drill_part(block, run, keys)


def _drill_part(block: Block, run: list[Step], keys: tuple[str, ...]) -> list[Block]:
    """A stretch of the block without a bar; the whole block keeps its name."""
    if not run:
        return []
    name = block.name if len(run) == len(keys) else f"{block.name} {run[0].label}"
    return [replace(block, name=name, steps=tuple(run))]


def _one_lift(block: Block, step: Step) -> Block:
    waves = block.waves
    if block.rest.kind is RestKind.PARTNER_WORKS:
        waves = 3 if block.group_kind is GroupKind.THREES else max(2, waves)
    return replace(
        block,
        name=f"{block.name} {step.label}",
        style=Style.COMPLEX,
        steps=(replace(step, scheme=replace(step.scheme, sets=1)),),
        rounds=step.scheme.sets * block.rounds,
        work_s=None,
        waves=waves,
        group_kind=GroupKind.WAVES,
    )


def with_cuts(
    blocks: tuple[Block, ...],
    timed: tuple[TimedBlock, ...],
    steps_of: Mapping[str, Mapping[str, str]],
    lookup: Lookup,
) -> tuple[Block, ...]:
    """The blocks after the run sheet has cut rounds, sets or exercises.

    Parameters
    ----------
    steps_of : by block, the step key of each drill as timed.
    """
    cut_of = {block.name: block for block in timed}
    found: list[Block] = []
    for block in blocks:
        cut = cut_of.get(block.name)
        match cut:
            case None:
                found.append(block)
            case ComplexBlock():
                kept = {exercise.name for exercise in cut.exercises}
                left = _keep(replace(block, rounds=cut.rounds), kept)
                steps = with_last_end(left.steps, block.steps[-1], lookup)
                found.append(replace(left, steps=steps))
            case CircuitBlock():
                kept = {station.name for station in cut.stations}
                found.append(_keep(replace(block, rounds=cut.rounds), kept))
            case DrillBlock():
                found.append(_fewer_sets(block, cut, steps_of[block.name]))
    return tuple(block for block in found if block.steps)


def _keep(block: Block, kept: set[str]) -> Block:
    """Only some steps, their keys written as labels; the work time shrinks with them."""
    keys = step_keys(block)
    steps = tuple(
        replace(step, label=key) for key, step in zip(keys, block.steps, strict=True) if key in kept
    )
    if len(steps) == len(block.steps):
        return block
    is_timed = block.work_s is not None and block.style is Style.COMPLEX
    work_s = round(block.work_s * len(steps) / len(keys)) if is_timed and block.work_s else None
    return replace(block, steps=steps, work_s=work_s if is_timed else block.work_s)


def _fewer_sets(block: Block, cut: DrillBlock, step_of: Mapping[str, str]) -> Block:
    """Sets of each step as they are left; where variants differ, the fewest."""
    left: dict[str, dict[str, int]] = {}
    for drill in cut.drills:
        key = step_of[drill.name]
        variant = drill.name.partition(" (")[2]
        sets = left.setdefault(key, {})
        sets[variant] = sets.get(variant, 0) + drill.sets
    steps = []
    for key, step in zip(step_keys(block), block.steps, strict=True):
        sets_left = min(left.get(key, {"": 0}).values())
        if block.lane is not None and block.lane.boxes:
            sets_left = -(-sets_left // step.scheme.count)
        if sets_left:
            scheme = replace(step.scheme, sets=sets_left)
            steps.append(replace(step, label=key, scheme=scheme))
    return replace(block, steps=tuple(steps) or block.steps[:1], rounds=1)


Parts = tuple[tuple[FixedPart, ...], tuple[FixedPart, ...]]


def cut_sentences(
    written: tuple[Block, ...],
    left: tuple[Block, ...],
    parts: Parts,
    parts_left: Parts,
    lookup: Lookup,
) -> tuple[str, ...]:
    """What was cut, block by block and part by part, in words."""
    after = {block.name: block for block in left}
    said = [
        sentence
        for block in written
        for sentence in _block_cuts(block, after.get(block.name), lookup)
    ]
    now = {part.kind: part.duration_s for side in parts_left for part in side}
    for part in (part for side in parts for part in side):
        if now.get(part.kind, 0) < part.duration_s:
            was, is_now = clock(part.duration_s), clock(now.get(part.kind, 0))
            said.append(f"{part.kind.value} {was} to {is_now}")
    return tuple(said)


def _block_cuts(block: Block, left: Block | None, lookup: Lookup) -> list[str]:
    names = {
        key: f"{key} {lookup(step.exercise).name}"
        for key, step in zip(step_keys(block), block.steps, strict=True)
    }
    if left is None:
        return [f"{block.name} left out"]
    sets = {
        key: step.scheme.sets * left.rounds
        for key, step in zip(step_keys(left), left.steps, strict=True)
    }
    said = [f"without {name}" for key, name in names.items() if key not in sets]
    if block.style in (Style.COMPLEX, Style.CIRCUIT):
        if left.rounds < block.rounds:
            said.insert(0, f"{block.name} {block.rounds} to {left.rounds} rounds")
        return said
    for key, step in zip(step_keys(block), block.steps, strict=True):
        before = step.scheme.sets * block.rounds
        if key in sets and sets[key] < before:
            said.append(f"{names[key]} {before} to {sets[key]} sets")
    return said
