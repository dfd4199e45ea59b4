"""Time a circuit: groups rotate through stations on one clock, and rounds start together."""

from squadwright.planning.run_sheet.blocks import CircuitBlock, CircuitStation, WorkGroup
from squadwright.planning.run_sheet.problem import BlockTiming, RestOwed, RunEntry


def groups_at_once(block: CircuitBlock) -> int:
    """Groups that may share a station: the tightest station decides."""
    largest = max(len(group.members) for group in block.groups)
    return min(station.capacity for station in block.stations) // largest


def turns(block: CircuitBlock) -> int:
    """Turns in a round: one for each station, or more where groups have to wait."""
    return max(len(block.stations), -(-len(block.groups) // groups_at_once(block)))


def duration_s(block: CircuitBlock) -> int:
    """Seconds of the block with the last move [s]."""
    one_round = turns(block) * (block.work_s + block.move_s)
    return block.rounds * one_round + (block.rounds - 1) * block.round_rest_s


def lower_bound_s(block: CircuitBlock) -> int:
    """Least seconds when rounds start together [s].

    In a round a group needs a turn at each station, and a station a turn for every so many groups.
    """
    largest = max(len(group.members) for group in block.groups)
    own_path = len(block.stations)
    busiest = max(
        -(-len(block.groups) // (station.capacity // largest)) for station in block.stations
    )
    one_round = max(own_path, busiest) * (block.work_s + block.move_s)
    return block.rounds * one_round + (block.rounds - 1) * block.round_rest_s


def time_circuit(block: CircuitBlock, start_s: int, joins_at: dict[str, int | None]) -> BlockTiming:
    """Lay the circuit out; a group's turn moves on by one station each time."""
    turn_s = block.work_s + block.move_s
    round_s = turns(block) * turn_s + block.round_rest_s
    entries = [
        entry
        for number in range(1, block.rounds + 1)
        for turn in range(turns(block))
        for position, group in enumerate(block.groups)
        for entry in _turn(
            block,
            group,
            (position // groups_at_once(block) + turn) % turns(block),
            number,
            start_s + (number - 1) * round_s + turn * turn_s,
            joins_at,
        )
    ]
    waits = (turns(block) - len(block.stations)) * turn_s
    rests = [RestOwed(block.name, "between stations", block.move_s)]
    if block.rounds > 1 and block.round_rest_s:
        rests.append(RestOwed(block.name, "between rounds", block.move_s + block.round_rest_s))
    if waits:
        rests.append(RestOwed(block.name, "waiting once a round", waits + block.move_s))
    return BlockTiming(
        name=block.name,
        start_s=start_s,
        duration_s=duration_s(block),
        lower_bound_s=lower_bound_s(block),
        entries=tuple(entries),
        rests=tuple(rests),
        boundaries_s=tuple(start_s + number * round_s for number in range(block.rounds)),
    )


def _turn(
    block: CircuitBlock,
    group: WorkGroup,
    place: int,
    number: int,
    begin_s: int,
    joins_at: dict[str, int | None],
) -> list[RunEntry]:
    """Work and move of one group in one turn; nothing for people who are not here yet."""
    here = tuple(member for member in group.members if _is_here(joins_at.get(member, 1), number))
    if not here:
        return []
    station: CircuitStation | None = block.stations[place] if place < len(block.stations) else None
    end_s = begin_s + block.work_s
    work = RunEntry(
        begin_s,
        end_s,
        group=group.name,
        station=station.name if station else "",
        exercise=station.exercise if station else block.name,
        activity="work" if station else "rest",
        round=number,
        athletes=here,
        kit=_pieces(block, station, group) if station else (),
    )
    if not block.move_s:
        return [work]
    move = RunEntry(
        end_s,
        end_s + block.move_s,
        group=group.name,
        station="",
        exercise=block.name,
        activity="move on",
        round=number,
        athletes=here,
    )
    return [work, move]


def _pieces(block: CircuitBlock, station: CircuitStation, group: WorkGroup) -> tuple[str, ...]:
    """Names of the pieces in use; groups that share a station have a set each."""
    share = groups_at_once(block)
    if share == 1:
        return station.kit
    place = block.groups.index(group) % share + 1
    return tuple(f"{piece} ({place})" for piece in station.kit)


def _is_here(first_round: int | None, number: int) -> bool:
    return first_round is not None and number >= first_round
