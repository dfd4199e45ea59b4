"""Lay a block of drills out: who does which drill when, with which piece of kit, in which role."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from squadwright.planning.run_sheet.blocks import Drill, DrillBlock, DrillStyle, LaneWay, WorkGroup
from squadwright.planning.run_sheet.drill_timing import (
    Turn,
    drill_rest_s,
    drill_s,
    drill_turns,
    lane_rest_s,
)
from squadwright.planning.run_sheet.problem import BlockTiming, RestOwed, RunEntry
from squadwright.planning.run_sheet.station_schedule import (
    Schedule,
    ScheduleProblem,
    Task,
    schedule,
)

Placed = tuple[WorkGroup, Drill, int, int]
"""A group, its drill, the first set of it in this stretch (0 for all sets), and the start [s]."""


@lru_cache(maxsize=512)
def schedule_drills(block: DrillBlock, time_limit_s: float) -> tuple[tuple[Placed, ...], Schedule]:
    """The shortest order of drills over groups under the kit there is.

    Turns within a drill are laid out by its style; the proof is about the order of drills.
    """
    tasks: list[Task] = []
    what: list[tuple[WorkGroup, Drill, int]] = []
    for job, group in enumerate(block.groups):
        for drill in block.drills:
            if drill.name in group.done:
                continue
            for task, first in _tasks(block, job, group, drill):
                tasks.append(task)
                what.append((group, drill, first))
    solved = schedule(
        ScheduleProblem(tuple(tasks), {pool.name: pool.count for pool in block.pools}, time_limit_s)
    )
    placed = tuple((*of, start) for of, start in zip(what, solved.starts_s, strict=True))
    return placed, solved


def time_drills(
    block: DrillBlock, start_s: int, ready_s: Mapping[str, int], time_limit_s: float
) -> BlockTiming:
    """Lay the block out from ``start_s``; late people join the first drill after they are ready."""
    placed, solved = schedule_drills(block, time_limit_s)
    pieces = _pieces(block, placed)
    entries: list[RunEntry] = []
    notes: list[str] = []
    for (group, drill, first, at), kit in zip(placed, pieces, strict=True):
        begin = start_s + at
        here = tuple(
            place for place, member in enumerate(group.members) if ready_s.get(member, 0) <= begin
        )
        entries += _entries(group, drill, first, begin, kit, here)
        if len(here) == 1 < len(group.members) and drill.style is not DrillStyle.LANE:
            notes.append(
                f"{group.members[here[0]]} has no partner for {drill.name} until the late one "
                f"joins: put the group with the next one, or let the coach partner."
            )
    return BlockTiming(
        name=block.name,
        start_s=start_s,
        duration_s=solved.makespan_s,
        lower_bound_s=solved.lower_bound_s,
        entries=tuple(sorted(entries, key=lambda e: (e.start_s, e.group, e.role, e.athletes))),
        rests=tuple(_rests(block)),
        boundaries_s=tuple(sorted({start_s + at for *_, at in placed})),
        notes=tuple(dict.fromkeys(notes)),
    )


def _tasks(block: DrillBlock, job: int, group: WorkGroup, drill: Drill) -> list[tuple[Task, int]]:
    """One task for a drill, or one for each set where the kit is free between sets."""
    if not drill.frees_kit_between_sets:
        whole = drill_s(drill, len(group.members))
        task = Task(job, drill.name, whole, block.change_s, drill.kit, drill.step)
        return [(task, 0)]
    return [
        (
            Task(
                job,
                drill.name,
                drill.set_s,
                drill.rest_s if number < drill.sets else block.change_s,
                drill.kit,
                drill.step,
                chain=number,
            ),
            number,
        )
        for number in range(1, drill.sets + 1)
    ]


def _pieces(block: DrillBlock, placed: Sequence[Placed]) -> list[tuple[str, ...]]:
    """Name the piece each stretch holds, so that no piece is held twice at once."""
    held: list[list[str]] = [[] for _ in placed]
    for pool in block.pools:
        free_at = [0] * pool.count
        users = [place for place, (_, drill, _, _) in enumerate(placed) if pool.name in drill.kit]
        for place in sorted(users, key=lambda user: placed[user][3]):
            group, drill, first, at = placed[place]
            length = drill.set_s if first else drill_s(drill, len(group.members))
            piece = next(number for number, free in enumerate(free_at) if free <= at)
            free_at[piece] = at + length
            held[place].append(pool.name if pool.count == 1 else f"{pool.name} {piece + 1}")
    return [tuple(names) for names in held]


def _entries(
    group: WorkGroup,
    drill: Drill,
    first: int,
    begin_s: int,
    kit: tuple[str, ...],
    here: tuple[int, ...],
) -> list[RunEntry]:
    """Lines for one stretch, with the roles of everybody who is here."""
    if first:
        turns: tuple[Turn, ...] = (Turn(0, drill.set_s, 0, first),)
    else:
        turns = drill_turns(drill, len(group.members))
    blank = RunEntry(
        begin_s,
        begin_s,
        group=group.name,
        station=kit[0] if kit else group.name,
        exercise=drill.name,
        activity="work",
        kit=kit,
    )
    if not here:
        return []
    if drill.style is DrillStyle.TOGETHER:
        members = tuple(group.members[place] for place in here)
        return [
            replace(
                blank,
                start_s=begin_s + turn.start_s,
                end_s=begin_s + turn.end_s,
                set=turn.set_number,
                athletes=members,
            )
            for turn in turns
            if turn.worker == 0
        ]
    if drill.style is DrillStyle.LANE:
        return [_pass(blank, group, drill, turn) for turn in turns if turn.worker in here]
    return _shared_turns(blank, group, drill, turns, here)


def _pass(blank: RunEntry, group: WorkGroup, drill: Drill, turn: Turn) -> RunEntry:
    """One pass down the lane and back; facing changes every other set where the drill asks."""
    activity = "work" if drill.way is LaneWay.WALK_BACK else f"work, {drill.way.value}"
    role = ""
    if drill.turns_round:
        role = "facing one way" if turn.set_number % 2 else "facing the other way"
    return replace(
        blank,
        start_s=blank.start_s + turn.start_s,
        end_s=blank.start_s + turn.end_s + drill.return_s,
        activity=activity,
        set=turn.set_number,
        role=role,
        athletes=(group.members[turn.worker],),
    )


def _shared_turns(
    blank: RunEntry,
    group: WorkGroup,
    drill: Drill,
    turns: Sequence[Turn],
    here: tuple[int, ...],
) -> list[RunEntry]:
    """Work, feed and watch: everybody here has one role in each turn."""
    entries = []
    people = len(group.members)
    for begin in sorted({turn.start_s for turn in turns}):
        now = {turn.worker: turn for turn in turns if turn.start_s == begin}
        others = sorted(
            (place for place in range(people) if place not in now),
            key=lambda place: (place - min(now)) % people,
        )
        feeds = others[:1] if len(now) == 1 else []
        one = next(iter(now.values()))
        for place in range(people):
            if place not in here:
                continue
            working = place in now
            role = "work" if working else "feed" if place in feeds else "watch"
            entries.append(
                replace(
                    blank,
                    start_s=blank.start_s + one.start_s,
                    end_s=blank.start_s + one.end_s,
                    activity=role,
                    set=now[place].set_number if working else None,
                    role=role,
                    athletes=(group.members[place],),
                )
            )
    return entries


def _rests(block: DrillBlock) -> list[RestOwed]:
    """Shortest rest between two own sets, by group and drill."""
    rests = []
    for group in block.groups:
        for drill in block.drills:
            people = len(group.members)
            rest = (
                lane_rest_s(drill, people)
                if drill.style is DrillStyle.LANE and drill.sets > 1
                else drill_rest_s(drill, people)
            )
            if rest is not None and drill.name not in group.done:
                rests.append(RestOwed(block.name, f"{group.name}, {drill.name}", rest))
    return rests
