"""Time a complex on shared bars: waves take turns, everyone rests while the others work."""

from squadwright.planning.run_sheet.blocks import BarUser, ComplexBlock
from squadwright.planning.run_sheet.problem import (
    BlockTiming,
    ExerciseStep,
    RestOwed,
    RunEntry,
)


def cycle_s(block: ComplexBlock) -> int:
    """Seconds from the start of one round to the start of the next [s].

    All waves with their change-overs, or longer where the least rest asks for it.
    """
    turns = block.wave_count * (block.work_s + block.change_s)
    return max(turns, block.work_s + block.minimum_rest_s)


def rest_s(block: ComplexBlock) -> int:
    """Rest of every wave between two of its rounds [s]."""
    return cycle_s(block) - block.work_s


def duration_s(block: ComplexBlock) -> int:
    """Seconds of the whole block, with the last change-over [s]."""
    last = block.wave_count * (block.work_s + block.change_s)
    return (block.rounds - 1) * cycle_s(block) + last


def lower_bound_s(block: ComplexBlock) -> int:
    """Least seconds for any order of turns [s]: the busiest bar, or the person who starts last."""
    turn = block.work_s + block.change_s
    users: dict[str, set[int]] = {}
    for user in block.users:
        users.setdefault(user.bar, set()).add(user.wave)
    busiest = max(map(len, users.values()))
    one_bar = busiest * block.rounds * turn
    own_rests = (block.rounds - 1) * (block.work_s + max(block.minimum_rest_s, block.change_s))
    return max(one_bar, (busiest - 1) * turn + own_rests + turn)


def time_complex(block: ComplexBlock, start_s: int, joins_at: dict[str, int | None]) -> BlockTiming:
    """Lay the block out from ``start_s``; ``joins_at`` gives late athletes' first round."""
    cycle = cycle_s(block)
    end_s = start_s + duration_s(block)
    entries: list[RunEntry] = []
    for user in block.users:
        first = joins_at.get(user.athlete, user.first_round)
        if first is not None:
            first = max(first, user.first_round)
        entries += _entries_of(block, user, start_s, end_s, first)
        if user.first_round > 1 and user.athlete not in joins_at:
            entries.append(_waiting(block, user, start_s))
    if block.change_s:
        entries += [
            _change_over(block, number, wave, start_s)
            for number in range(1, block.rounds + 1)
            for wave in range(1, block.wave_count + 1)
        ]
    rests = tuple(
        RestOwed(block.name, f"wave {wave}", rest_s(block))
        for wave in range(1, block.wave_count + 1)
    )
    return BlockTiming(
        name=block.name,
        start_s=start_s,
        duration_s=duration_s(block),
        lower_bound_s=lower_bound_s(block),
        entries=tuple(sorted(entries, key=lambda entry: (entry.start_s, entry.station))),
        rests=rests if block.rounds > 1 else (),
        steps=exercise_steps(block),
        boundaries_s=tuple(start_s + number * cycle for number in range(block.rounds)),
    )


def exercise_steps(block: ComplexBlock) -> tuple[ExerciseStep, ...]:
    """Where each exercise lies within one pass."""
    steps, at = [], 0
    for exercise in block.exercises:
        steps.append(ExerciseStep(exercise.name, at, at + exercise.work_s))
        at += exercise.work_s
    return tuple(steps)


def _entries_of(
    block: ComplexBlock, user: BarUser, start_s: int, end_s: int, first: int | None
) -> list[RunEntry]:
    """Work of one athlete, and helping once his rounds are done."""
    turn = block.work_s + block.change_s
    own = block.rounds if user.rounds is None else user.rounds
    rounds = range(0) if first is None else range(first, min(first + own - 1, block.rounds) + 1)
    entries = []
    for number in rounds:
        begin = start_s + (number - 1) * cycle_s(block) + (user.wave - 1) * turn
        entries.append(
            RunEntry(
                begin,
                begin + block.work_s,
                group=user.group,
                station=user.bar,
                exercise=block.name,
                activity="work",
                round=number,
                role=f"wave {user.wave}",
                athletes=(user.athlete,),
                kit=(user.bar,),
            )
        )
    if first is not None and (not rounds or rounds[-1] < block.rounds):
        free_from = entries[-1].end_s if entries else start_s + (first - 1) * cycle_s(block)
        entries.append(
            RunEntry(
                free_from,
                end_s,
                group=user.group,
                station="",
                exercise=block.name,
                activity="help and watch",
                athletes=(user.athlete,),
            )
        )
    return entries


def _waiting(block: ComplexBlock, user: BarUser, start_s: int) -> RunEntry:
    """Whoever takes a place later on helps and watches until then."""
    turn = block.work_s + block.change_s
    return RunEntry(
        start_s,
        start_s + (user.first_round - 1) * cycle_s(block) + (user.wave - 1) * turn,
        group=user.group,
        station="",
        exercise=block.name,
        activity="help and watch",
        athletes=(user.athlete,),
    )


def _change_over(block: ComplexBlock, number: int, wave: int, start_s: int) -> RunEntry:
    turn = block.work_s + block.change_s
    begin = start_s + (number - 1) * cycle_s(block) + (wave - 1) * turn + block.work_s
    following = wave % block.wave_count + 1
    return RunEntry(
        begin,
        begin + block.change_s,
        group="all",
        station="",
        exercise=block.name,
        activity="change-over",
        round=number,
        role=f"wave {wave} to wave {following}" if block.wave_count > 1 else "",
    )
