"""What a session needs of the floor: a station for each bar, a place for each group.

Sizes follow from what the exercises need. A bar station is the bar by 1.8 m of depth; the clear
strip round it is shared with its neighbours, so an exercise may use it too.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from squadwright.model.exercise import Exercise, Travel
from squadwright.model.plan import BarPlan, RunLine
from squadwright.model.room import Room
from squadwright.model.routine import RestKind, Style
from squadwright.planning.block_plan import BlockPlan
from squadwright.planning.floor import (
    DoorWay,
    FloorProblem,
    FloorSettings,
    LowCeiling,
    NamedRectangle,
    Piece,
    PieceKind,
    Rectangle,
    SafeWall,
)

BAR_WIDTH_M = 2.2
"""Men's bar of the IWF rules, 2,200 mm."""
BAR_DEPTH_M = 1.8
"""Floor in front of and behind the bar; our estimate, editable."""
LANE_START_M = 1.5
LANDING_M = 1.5
"""Start and landing zone of a lane; our estimates."""
PLAN_WORK_LIMIT = 0.05


@dataclass(frozen=True)
class Needed:
    """A piece of floor, the block it is for, who uses it, and the exercise that wants most height.

    ``spot`` tells places that can be one and the same in several blocks.
    """

    piece: Piece
    block: str
    holds: tuple[str, ...]
    spot: str
    tallest: str = ""


@dataclass(frozen=True)
class FloorTask:
    """A session as far as the floor is concerned."""

    room: Room
    blocks: tuple[BlockPlan, ...]
    bars: tuple[BarPlan, ...]
    run_sheet: tuple[RunLine, ...]
    settings: FloorSettings = field(
        default_factory=lambda: FloorSettings(work_limit=PLAN_WORK_LIMIT)
    )


def room_problem(room: Room, settings: FloorSettings) -> FloorProblem:
    """The room of a club as a floor to lay out, empty."""
    return FloorProblem(
        outline=tuple((x, y) for x, y in room.outline),
        pieces=(),
        ceiling_m=room.ceiling_m,
        obstacles=tuple(
            NamedRectangle(
                o.name,
                Rectangle(o.x_m - o.width_m / 2, o.y_m - o.depth_m / 2, o.width_m, o.depth_m),
            )
            for o in room.obstacles
        ),
        low_ceilings=tuple(
            LowCeiling(z.name, Rectangle(z.x_m, z.y_m, z.width_m, z.depth_m), z.ceiling_m)
            for z in room.ceiling_zones
            if z.ceiling_m < room.ceiling_m
        ),
        safe_walls=tuple(SafeWall(w.name, w.start, w.end) for w in room.throw_walls),
        doors=tuple(DoorWay(d.name, (d.x_m, d.y_m), d.width_m) for d in room.doors),
        landing_lanes=tuple(
            NamedRectangle(lane.name, Rectangle(lane.x_m, lane.y_m, lane.width_m, lane.depth_m))
            for lane in room.lanes
        ),
        settings=settings,
    )


def needed_floor(task: FloorTask) -> tuple[Needed, ...]:
    """Everything that needs floor, block by block."""
    found: list[Needed] = []
    for plan in task.blocks:
        if plan.block.style is Style.COMPLEX:
            found += _bars(task, plan)
        elif plan.block.style is Style.CIRCUIT:
            found += _circuit(task, plan)
        else:
            found += _groups(task, plan)
    return tuple(found)


def _bars(task: FloorTask, plan: BlockPlan) -> Iterator[Needed]:
    exercises = _exercises(plan, plan.versions)
    lengths = {bar.bar: bar.name for bar in plan.bars}
    ceiling_m, tallest = _ceiling(exercises)
    wide = max((e.needs.clear_width_m for e in exercises), default=0.0)
    deep = max((e.needs.clear_length_m for e in exercises), default=0.0)
    shared = 2 * task.settings.between_m
    size = (max(BAR_WIDTH_M, _cm(wide - shared)), max(BAR_DEPTH_M, _cm(deep - shared)))
    numbers = {bar.bar: place for place, bar in reversed(list(enumerate(task.bars, start=1)))}
    sticks = sorted(
        {
            line.station
            for line in task.run_sheet
            if line.block == plan.block.name and line.station.startswith("stick ")
        }
    ) or [f"stick {place}" for place in range(1, -(-len(plan.with_stick) // plan.block.waves) + 1)]
    for bar in lengths:
        piece = Piece(f"bar {numbers[bar]}", PieceKind.BAR, *size, ceiling_m=ceiling_m)
        yield Needed(piece, plan.block.name, (bar,), f"bar {bar}", tallest)
    for stick in sticks if plan.with_stick else ():
        piece = Piece(stick, PieceKind.BAR, *size, ceiling_m=ceiling_m)
        yield Needed(piece, plan.block.name, (stick,), stick, tallest)


def _groups(task: FloorTask, plan: BlockPlan) -> list[Needed]:
    """A place for each group; all of a block are of one size, so that they stand in a row."""
    needed = []
    for place, group in enumerate(plan.groups, start=1):
        exercises = _exercises(plan, group.athletes)
        if not exercises:
            continue
        in_turn = plan.block.rest.kind is RestKind.PARTNER_WORKS or plan.block.lane is not None
        at_once = 1 if in_turn else len(group.athletes)
        piece = _place_for(f"place {place}", exercises, at_once, task.settings)
        if plan.block.lane is not None:
            piece = _lane(piece, plan)
        _, tallest = _ceiling(exercises)
        needed.append(Needed(piece, plan.block.name, (group.name,), f"place {place}", tallest))
    return _of_one_size(needed)


def _of_one_size(needed: Sequence[Needed]) -> list[Needed]:
    if not needed:
        return []
    largest = merged([item.piece for item in needed])
    return [replace(item, piece=replace(largest, id=item.piece.id)) for item in needed]


def merged(pieces: Sequence[Piece]) -> Piece:
    """One piece large enough for each of several, named after the first."""
    widest = max(pieces, key=lambda p: (p.at_throw_wall, p.landing_m, p.kind.value))
    return replace(
        widest,
        id=pieces[0].id,
        width_m=max(p.width_m for p in pieces),
        depth_m=max(p.depth_m for p in pieces),
        clear_m=max((p.clear_m for p in pieces if p.clear_m is not None), default=None),
        throw_m=max(p.throw_m for p in pieces),
        landing_m=max(p.landing_m for p in pieces),
        ceiling_m=max(p.ceiling_m for p in pieces),
    )


def _lane(piece: Piece, plan: BlockPlan) -> Piece:
    lane = plan.block.lane
    assert lane is not None
    row_m = lane.boxes * lane.box_spacing_m
    depth = _cm(LANE_START_M + max(row_m, piece.depth_m) + LANDING_M)
    return replace(piece, kind=PieceKind.LANE, depth_m=depth, landing_m=LANDING_M)


def _place_for(
    name: str, exercises: Sequence[Exercise], at_once: int, settings: FloorSettings
) -> Piece:
    """Room for so many at once, in each exercise of a group; throws at a wall want its width."""
    ceiling_m, _ = _ceiling(exercises)
    at_wall = [e for e in exercises if e.needs.throw_wall]
    width = depth = throw = 0.0
    for exercise in exercises:
        needs = exercise.needs
        if needs.throw_wall:
            sides = (needs.clear_width_m * at_once, needs.clear_length_m)
            throw = max(throw, needs.clear_length_m)
        else:
            narrow, long = sorted((needs.clear_width_m, needs.clear_length_m))
            side_by_side = 1 if exercise.travel is not Travel.IN_PLACE else at_once
            short, far = sorted((long, narrow * side_by_side))
            sides = (short, far)
        width, depth = max(width, sides[0]), max(depth, sides[1])
    return Piece(
        name,
        PieceKind.THROW if at_wall else PieceKind.GROUP,
        _cm(width),
        _cm(depth),
        clear_m=settings.lane_gap_m,
        at_throw_wall=bool(at_wall),
        throw_m=throw,
        ceiling_m=ceiling_m,
    )


def _circuit(task: FloorTask, plan: BlockPlan) -> Iterator[Needed]:
    """A station for each step, large enough for all who work there at once."""
    for key in plan.keys:
        at_once = _most_at(task.run_sheet, plan.block.name, key)
        exercises = [
            step.exercise for steps in plan.versions.values() for step in steps if step.key == key
        ]
        exercises = list({e.id: e for e in exercises}.values())
        if not exercises or at_once == 0:
            continue
        settings = replace(task.settings, lane_gap_m=task.settings.between_m)
        name = f"station {key}"
        piece = _place_for(name, exercises, at_once, settings)
        _, tallest = _ceiling(exercises)
        yield Needed(piece, plan.block.name, (key,), f"{plan.block.name} {name}", tallest)


def _most_at(lines: Iterable[RunLine], block: str, station: str) -> int:
    at: dict[int, int] = {}
    for line in lines:
        if (line.block, line.station) == (block, station) and line.activity.startswith("work"):
            at[line.start_s] = at.get(line.start_s, 0) + max(1, len(line.athletes))
    return max(at.values(), default=0)


def _exercises(plan: BlockPlan, athletes: Iterable[str]) -> list[Exercise]:
    found = {step.exercise.id: step.exercise for a in athletes for step in plan.versions.get(a, ())}
    return list(found.values())


def _ceiling(exercises: Sequence[Exercise]) -> tuple[float, str]:
    """The most height that is wanted, and the exercise that wants it."""
    if not exercises:
        return 0.0, ""
    tallest = max(exercises, key=lambda exercise: exercise.needs.ceiling_m)
    return tallest.needs.ceiling_m, tallest.name


def _cm(value_m: float) -> float:
    return round(value_m, 2)
