"""Which kit would shorten a session, and by how many seconds."""

from dataclasses import replace

from squadwright.planning.run_sheet import circuit_timing, complex_timing
from squadwright.planning.run_sheet.blocks import (
    CircuitBlock,
    ComplexBlock,
    DrillBlock,
    DrillStyle,
    WorkGroup,
)
from squadwright.planning.run_sheet.drill_sheet import schedule_drills
from squadwright.planning.run_sheet.problem import KitGain, RunSheetProblem


def kit_gains(problem: RunSheetProblem) -> tuple[KitGain, ...]:
    """Kit worth finding, most seconds for a piece first."""
    gains: list[KitGain] = []
    for block in problem.blocks:
        match block:
            case ComplexBlock():
                gains += more_bars(block)
            case CircuitBlock():
                gains += more_station_kit(block)
            case DrillBlock():
                gains += more_pieces(block, problem.time_limit_s)
                gains += one_more_lane(block, problem.time_limit_s)
    return tuple(sorted(gains, key=lambda gain: (-gain.gained_s / gain.more, gain.kit)))


def more_bars(block: ComplexBlock) -> list[KitGain]:
    """Bars that make fewer waves, with the rest that is left."""
    bars = {user.bar for user in block.users}
    gains = []
    for waves in range(block.wave_count - 1, 0, -1):
        more = -(-len(block.users) // waves) - len(bars)
        users = tuple(
            replace(user, bar=f"bar {place // waves}", wave=place % waves + 1, first_round=1)
            for place, user in enumerate(block.users)
        )
        changed = replace(block, users=users)
        gained = complex_timing.duration_s(block) - complex_timing.duration_s(changed)
        if gained > 0 and more > 0:
            gains.append(KitGain("bar", more, gained, complex_timing.rest_s(changed)))
    return gains


def more_station_kit(block: CircuitBlock) -> list[KitGain]:
    """Room or kit for one more group at every station that makes groups wait."""
    largest = max(len(group.members) for group in block.groups)
    tight = circuit_timing.groups_at_once(block)
    stations = tuple(
        replace(station, capacity=station.capacity + largest)
        if station.capacity // largest == tight
        else station
        for station in block.stations
    )
    changed = replace(block, stations=stations)
    gained = circuit_timing.duration_s(block) - circuit_timing.duration_s(changed)
    names = [old.name for old, new in zip(block.stations, stations, strict=True) if old != new]
    return [KitGain(f"place at {', '.join(names)}", 1, gained)] if gained > 0 else []


def more_pieces(block: DrillBlock, time_limit_s: float) -> list[KitGain]:
    """One or two more of each pool of kit."""
    now = schedule_drills(block, time_limit_s)[1].makespan_s
    gains = []
    for pool in block.pools:
        for more in (1, 2):
            pools = tuple(
                replace(other, count=other.count + more) if other is pool else other
                for other in block.pools
            )
            changed = replace(block, pools=pools)
            gained = now - schedule_drills(changed, time_limit_s)[1].makespan_s
            if gained > 0:
                gains.append(KitGain(pool.name, more, gained))
                break
    return gains


def one_more_lane(block: DrillBlock, time_limit_s: float) -> list[KitGain]:
    """One more lane, with the people spread evenly again."""
    if any(drill.style is not DrillStyle.LANE for drill in block.drills):
        return []
    people = [member for group in block.groups for member in group.members]
    lanes = len(block.groups) + 1
    if lanes * 2 > len(people) or any(group.done for group in block.groups):
        return []
    groups = tuple(
        WorkGroup(f"lane {lane + 1}", tuple(people[lane::lanes])) for lane in range(lanes)
    )
    now = schedule_drills(block, time_limit_s)[1].makespan_s
    changed = replace(block, groups=groups)
    gained = now - schedule_drills(changed, time_limit_s)[1].makespan_s
    return [KitGain("lane", 1, gained)] if gained > 0 else []
