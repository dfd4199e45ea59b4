"""Time drills that groups go through by themselves: together, in turn, thrown, or in a lane."""

from dataclasses import dataclass

from squadwright.planning.run_sheet.blocks import Drill, DrillStyle


@dataclass(frozen=True)
class Turn:
    """One set of somebody within a drill, counted from the drill's start [s]."""

    start_s: int
    end_s: int
    worker: int
    set_number: int


def lane_gap_s(drill: Drill) -> int:
    """Seconds between two starts in a lane [s]: the gap, or longer until the landing is clear."""
    return max(drill.gap_s, drill.clear_s)


def lane_cycle_s(drill: Drill, people: int) -> int:
    """Seconds between two own starts [s]: the whole line has gone, or the own rest is over."""
    return max(people * lane_gap_s(drill), drill.set_s + drill.return_s + drill.rest_s)


def lane_rest_s(drill: Drill, people: int) -> int:
    """Rest in a line [s]: people x gap - pass and way back."""
    return lane_cycle_s(drill, people) - drill.set_s - drill.return_s


def drill_turns(drill: Drill, people: int) -> tuple[Turn, ...]:
    """Every set of every member of a group, in the order in which they start."""
    match drill.style:
        case DrillStyle.TOGETHER:
            step = drill.set_s + drill.rest_s
            return tuple(
                Turn(number * step, number * step + drill.set_s, worker, number + 1)
                for number in range(drill.sets)
                for worker in range(people)
            )
        case DrillStyle.LANE:
            return _lane_turns(drill, people)
        case DrillStyle.IN_TURN:
            return _partner_turns(drill, people)
        case DrillStyle.BOTH_THROW:
            return _throwing_turns(drill, people)


def drill_s(drill: Drill, people: int) -> int:
    """Seconds a group of so many needs for the whole drill [s]."""
    back = drill.return_s if drill.style is DrillStyle.LANE else 0
    return max(turn.end_s for turn in drill_turns(drill, people)) + back


def drill_rest_s(drill: Drill, people: int) -> int | None:
    """Shortest rest between two own sets [s], or None when there is one set only."""
    back = drill.return_s if drill.style is DrillStyle.LANE else 0
    ends: dict[int, int] = {}
    rests = []
    for turn in drill_turns(drill, people):
        if turn.worker in ends:
            rests.append(turn.start_s - ends[turn.worker])
        ends[turn.worker] = turn.end_s + back
    return min(rests, default=None)


def _lane_turns(drill: Drill, people: int) -> tuple[Turn, ...]:
    turns = []
    for number in range(drill.sets):
        for worker in range(people):
            begin = number * lane_cycle_s(drill, people) + worker * lane_gap_s(drill)
            turns.append(Turn(begin, begin + drill.set_s, worker, number + 1))
    return tuple(sorted(turns, key=lambda turn: (turn.start_s, turn.worker)))


def _partner_turns(drill: Drill, people: int) -> tuple[Turn, ...]:
    """Roles move on after every set; the cycle is longer where a rest is owed."""
    step = drill.set_s + drill.change_s
    cycle = max(people * step, drill.set_s + max(drill.rest_s, drill.change_s))
    return tuple(
        Turn(begin, begin + drill.set_s, worker, number + 1)
        for number in range(drill.sets)
        for worker in range(people)
        for begin in [number * cycle + worker * step]
    )


def _throwing_turns(drill: Drill, people: int) -> tuple[Turn, ...]:
    """Two throw at once. A three takes three turns for two sets each, an odd set one more pair."""
    pause = max(drill.change_s, drill.rest_s)
    wanted = dict.fromkeys(range(people), drill.sets)
    free_at = dict.fromkeys(range(people), 0)
    turns: list[Turn] = []
    now = 0
    while any(wanted.values()):
        throwers = sorted(wanted, key=lambda w: (-wanted[w], free_at[w], w))[:2]
        begin = max([now, *(free_at[worker] for worker in throwers if wanted[worker])])
        for worker in throwers:
            if wanted[worker]:
                number = drill.sets - wanted[worker] + 1
                turns.append(Turn(begin, begin + drill.set_s, worker, number))
                wanted[worker] -= 1
                free_at[worker] = begin + drill.set_s + pause
        now = begin + drill.set_s + drill.change_s
    return tuple(turns)
