"""A block of sets, lanes or a circuit as the run sheet times it."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil

from squadwright.model.exercise import Region
from squadwright.model.kit import Kit
from squadwright.model.plan import GroupLine
from squadwright.model.routine import (
    Alternation,
    Block,
    CountedIn,
    Facing,
    GroupKind,
    RestKind,
    Style,
)
from squadwright.planning.contacts import SPRINT_BACK_M_PER_S, Lookup, count_set
from squadwright.planning.drill_groups import Fitting, box_type, rows_of_boxes
from squadwright.planning.personal import PersonalStep, Versions, step_keys
from squadwright.planning.run_sheet.blocks import (
    CircuitBlock,
    CircuitStation,
    Drill,
    DrillBlock,
    DrillStyle,
    KitPool,
    LaneWay,
    WorkGroup,
)

SET_OVERHEAD_S = 3
CHANGE_S = 5
WALK_BACK_M_PER_S = 1.3
ROW_POOL = "row of boxes"


@dataclass(frozen=True)
class DrillTask:
    """A block with its groups and what everybody does in it."""

    block: Block
    groups: tuple[GroupLine, ...]
    versions: Versions
    fittings: Mapping[tuple[str, str], Fitting]
    kit: Kit
    lookup: Lookup


def timed_block(task: DrillTask) -> tuple[DrillBlock | CircuitBlock, dict[str, str]]:
    """The block with its stations, drills, kit pools and groups; and the step of each drill."""
    if task.block.style is Style.CIRCUIT:
        return _circuit(task), {key: key for key in step_keys(task.block)}
    return _drills(task)


def set_seconds(task: DrillTask, key: str) -> int:
    """Seconds of one set: the slowest version of anybody, and a little to get in place [s]."""
    lengths = [
        count_set(step.exercise, step.step.scheme, lane=task.block.lane).work_s
        for steps in task.versions.values()
        for step in steps
        if step.key == key
    ]
    return ceil(max(lengths, default=0.0)) + SET_OVERHEAD_S


def _circuit(task: DrillTask) -> CircuitBlock:
    block = task.block
    keys = step_keys(block)
    longest = max(set_seconds(task, key) for key in keys)
    largest = max(len(group.athletes) for group in task.groups)
    return CircuitBlock(
        name=block.name,
        stations=tuple(CircuitStation(key, key, largest) for key in keys),
        groups=_work_groups(task, {}),
        work_s=block.work_s or longest,
        move_s=block.changeover_s,
        rounds=block.rounds,
        round_rest_s=block.rest.seconds if block.rest.kind is RestKind.SECONDS else 0,
    )


def _drills(task: DrillTask) -> tuple[DrillBlock, dict[str, str]]:
    block = task.block
    pools = _kit_pools(task)
    variants = _variants(task, pools)
    may_change_places = block.alternation is Alternation.AS_WRITTEN
    scarce = may_change_places and _somebody_waits(task, pools)
    drills: list[Drill] = []
    names_of: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for order, (key, number, sets) in enumerate(_sequence(task), start=1):
        for kit_names in variants[key]:
            name = _drill_name(key, (number, sets), kit_names, variants[key])
            names_of.setdefault((key, kit_names), []).append(name)
            drills.append(_drill(task, key, name, sets, kit_names, 1 if scarce else order))
    done = {
        group.name: tuple(
            name
            for (key, kit_names), names in names_of.items()
            if kit_names != _kit_of(task, group, key, pools) or not _anybody_does(task, group, key)
            for name in names
        )
        for group in task.groups
    }
    timed = DrillBlock(
        name=block.name,
        drills=tuple(drills),
        groups=_work_groups(task, done),
        pools=tuple(KitPool(name, count) for name, count in pools.items()),
        change_s=_change_s(task, drills),
    )
    return timed, {name: key for (key, _), names in names_of.items() for name in names}


def _change_s(task: DrillTask, drills: list[Drill]) -> int:
    """Between two drills [s]. Where drills take turns and a group leaves one out, the sets of the
    others meet, so the change is as long as the rest they are owed.
    """
    keys = {key for key in step_keys(task.block) if _steps_of(task, key)}
    takes_turns = task.block.alternation is not Alternation.AS_WRITTEN
    if takes_turns and not all(_anybody_does(task, g, key) for g in task.groups for key in keys):
        return max(task.block.changeover_s, *(drill.rest_s for drill in drills))
    return task.block.changeover_s


def _drill_name(
    key: str,
    numbers: tuple[int | None, int],
    kit_names: tuple[str, ...],
    variants: list[tuple[str, ...]],
) -> str:
    """The step; timed in several stretches, with its sets: "A1 set 3", "A1 set 3 to 5"."""
    number, sets = numbers
    name = key if number is None else f"{key} set {number}"
    if number is not None and sets > 1:
        name = f"{name} to {number + sets - 1}"
    return name if len(variants) == 1 else f"{name} ({', '.join(kit_names) or 'free'})"


def _work_groups(task: DrillTask, done: Mapping[str, tuple[str, ...]]) -> tuple[WorkGroup, ...]:
    return tuple(
        WorkGroup(group.name, group.athletes, done.get(group.name, ())) for group in task.groups
    )


def _steps_of(task: DrillTask, key: str) -> dict[str, PersonalStep]:
    return {
        athlete: step
        for athlete, steps in task.versions.items()
        for step in steps
        if step.key == key
    }


def _anybody_does(task: DrillTask, group: GroupLine, key: str) -> bool:
    return any(athlete in _steps_of(task, key) for athlete in group.athletes)


def _sequence(task: DrillTask) -> list[tuple[str, int | None, int]]:
    """(step, set number or None for all sets, sets) in the order in which they are taken."""
    block = task.block
    sets = {
        key: max((s.step.scheme.sets for s in _steps_of(task, key).values()), default=0)
        for key in step_keys(block)
    }
    keys = [key for key in step_keys(block) if sets[key]]
    if block.alternation is Alternation.AS_WRITTEN:
        return [(key, None, sets[key] * block.rounds) for key in keys]
    total = {key: sets[key] * block.rounds for key in keys}
    if block.alternation is Alternation.IN_TURN:
        order = [(key, n) for n in range(1, max(total.values()) + 1) for key in keys]
    else:
        order = _lower_then_upper(task, keys, total)
    return _runs([(key, number) for key, number in order if number <= total[key]])


def _runs(order: list[tuple[str, int]]) -> list[tuple[str, int | None, int]]:
    """Sets of one step with nothing between them are timed together, so that rest is kept."""
    runs: list[tuple[str, int | None, int]] = []
    for key, number in order:
        if runs and runs[-1][0] == key:
            _, first, sets = runs[-1]
            runs[-1] = (key, first, sets + 1)
        else:
            runs.append((key, number, 1))
    return runs


def _lower_then_upper(
    task: DrillTask, keys: list[str], total: Mapping[str, int]
) -> list[tuple[str, int]]:
    """A lower-body set, then an upper-body set, as long as both last."""
    region = {
        key: task.lookup(step.exercise).region
        for key, step in zip(step_keys(task.block), task.block.steps, strict=True)
    }
    lower = [(k, n) for k in keys if region[k] is not Region.UPPER for n in range(1, total[k] + 1)]
    upper = [(k, n) for k in keys if region[k] is Region.UPPER for n in range(1, total[k] + 1)]
    mixed: list[tuple[str, int]] = []
    for place in range(max(len(lower), len(upper))):
        mixed += lower[place : place + 1] + upper[place : place + 1]
    return mixed


def _drill(
    task: DrillTask, key: str, name: str, sets: int, kit_names: tuple[str, ...], order: int
) -> Drill:
    block, rest = task.block, task.block.rest
    set_s = set_seconds(task, key)
    partner = rest.kind is RestKind.PARTNER_WORKS or block.group_kind in (
        GroupKind.PAIRS,
        GroupKind.THREES,
    )
    rest_s = {
        RestKind.SECONDS: rest.seconds,
        RestKind.PARTNER_WORKS: 0,
        RestKind.WORK_TO_REST: ceil(rest.ratio * set_s),
    }[rest.kind]
    if block.style is Style.LANES:
        return _lane_drill(task, key, name, (sets, rest_s), kit_names, order)
    doing = _steps_of(task, key).values()
    both_throw = all(
        step.exercise.needs.partner and step.exercise.catches_per_repetition for step in doing
    )
    at_a_box = any(step.exercise.needs.boxes for step in doing)
    in_turn = partner and (rest.kind is RestKind.PARTNER_WORKS or at_a_box)
    return Drill(
        name=name,
        sets=sets,
        set_s=set_s,
        rest_s=rest_s,
        change_s=CHANGE_S if in_turn else 0,
        style=DrillStyle.TOGETHER
        if not in_turn
        else DrillStyle.BOTH_THROW
        if both_throw
        else DrillStyle.IN_TURN,
        kit=kit_names,
        step=order,
    )


def _lane_drill(
    task: DrillTask,
    key: str,
    name: str,
    work: tuple[int, int],
    kit_names: tuple[str, ...],
    order: int,
) -> Drill:
    """A drill in a line; ``work`` is its sets and the rest owed between them [s]."""
    sets, rest_s = work
    lane = task.block.lane
    assert lane is not None
    steps = list(_steps_of(task, key).values())
    written = dict(zip(step_keys(task.block), task.block.steps, strict=True))[key]
    passes = written.scheme.count if lane.boxes else 1
    pass_s = max(1, ceil(set_seconds(task, key) / passes))
    row_m = lane.boxes * lane.box_spacing_m
    slowest = max(step.exercise.seconds_per_repetition for step in steps)
    speed = SPRINT_BACK_M_PER_S if lane.sprint_back else WALK_BACK_M_PER_S
    down_and_back = written.scheme.counted_in is CountedIn.PASSES_DOWN_AND_BACK
    return Drill(
        name=name,
        sets=sets * passes,
        set_s=pass_s,
        rest_s=rest_s,
        style=DrillStyle.LANE,
        kit=kit_names,
        step=order,
        gap_s=lane.start_gap_s,
        clear_s=pass_s if down_and_back else ceil((lane.free_boxes_between + 1) * slowest),
        return_s=0 if down_and_back else ceil(row_m / speed),
        way=LaneWay.DOWN_AND_BACK
        if down_and_back
        else LaneWay.SPRINT_BACK
        if lane.sprint_back
        else LaneWay.WALK_BACK,
        turns_round=written.facing is Facing.CHANGED_EVERY_OTHER_SET,
    )


def _kit_pools(task: DrillTask) -> dict[str, int]:
    """Boxes of each type the block may hold at once, and balls that several groups share."""
    balls = _scarce_balls(task)
    rows = rows_of_boxes(task.block, task.kit)
    if rows is not None:
        return {ROW_POOL: rows, **balls}
    used = {box_type(f.box.box) for f in task.fittings.values() if f.box is not None}
    boxes = {
        name: sum(
            1
            for box in task.kit.boxes
            if box.in_service and box.fit_for_landing and box_type(box) == name
        )
        for name in sorted(used)
    }
    return {**boxes, **balls}


def _somebody_waits(task: DrillTask, pools: Mapping[str, int]) -> bool:
    """Whether more groups want a piece than there are: then drills may change places."""
    return any(
        sum(name in _kit_of(task, group, key, pools) for group in task.groups) > count
        for name, count in pools.items()
        for key in step_keys(task.block)
    )


def _scarce_balls(task: DrillTask) -> dict[str, int]:
    group_of = {a: g.name for g in task.groups for a in g.athletes}
    users: dict[str, set[str]] = {}
    for (athlete, _), fitting in task.fittings.items():
        if fitting.ball is not None:
            users.setdefault(fitting.ball, set()).add(group_of[athlete])
    count = {ball.id: ball.count for ball in task.kit.balls}
    return {f"ball {b}": count[b] for b, groups in sorted(users.items()) if len(groups) > count[b]}


def _kit_of(
    task: DrillTask, group: GroupLine, key: str, pools: Mapping[str, int]
) -> tuple[str, ...]:
    held = {ROW_POOL} & set(pools)
    for athlete in group.athletes:
        fitting = task.fittings.get((athlete, key))
        if fitting is None:
            continue
        if fitting.box is not None and ROW_POOL not in pools:
            held.add(box_type(fitting.box.box))
        if f"ball {fitting.ball}" in pools:
            held.add(f"ball {fitting.ball}")
    return tuple(sorted(held))


def _variants(task: DrillTask, pools: Mapping[str, int]) -> dict[str, list[tuple[str, ...]]]:
    """The sets of boxes that groups need for each step."""
    return {
        key: sorted(
            {
                _kit_of(task, group, key, pools)
                for group in task.groups
                if _anybody_does(task, group, key)
            }
        )
        for key in step_keys(task.block)
    }
