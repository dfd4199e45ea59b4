"""Divide a sorted squad by one measure: exact, by sweeping over the gaps between neighbours.

The difference of a group is a sum over gaps: a gap is counted once for every two members on either
side of it. So a sweep needs to remember only how many groups of each size are partly filled, not
who is in them. The cheapest way through is found best-first, with the least that each later gap
must cost as the estimate, which never exceeds the truth.
"""

from collections.abc import Iterator, Mapping
from heapq import heappop, heappush
from itertools import pairwise

from squadwright.planning.groups.rules import Floats

MOST_STATES = 150_000

# One (size, members already placed) entry for every group that is partly filled, sorted.
OpenGroups = tuple[tuple[int, int], ...]
State = tuple[OpenGroups, tuple[int, ...]]
Path = list[tuple[int, int]]


def sweep(values: Floats, shape: Mapping[int, int]) -> tuple[tuple[int, ...], ...] | None:
    """Groups of least total difference, or None when the search grew too large to finish."""
    order = [int(place) for place in values.argsort(kind="stable")]
    if len(shape) == 1:
        size = next(iter(shape))
        return tuple(tuple(order[at : at + size]) for at in range(0, len(order), size))
    path = _cheapest_path([float(values[place]) for place in order], shape)
    return None if path is None else _fill(order, path)


def _crossings(open_groups: OpenGroups) -> int:
    return sum(taken * (size - taken) for size, taken in open_groups)


def _least_crossings(placed: int, shape: Mapping[int, int]) -> float:
    """Fewest crossings of a gap after so many people: full groups, and at most one partly filled.

    Crossings are a concave function of how a gap splits the groups, so a corner is cheapest.
    """
    best = float("inf")
    for partial in shape:
        others = {size: times - (size == partial) for size, times in shape.items()}
        full = _sums(others)
        for taken in range(partial):
            if placed - taken in full:
                best = min(best, taken * (partial - taken))
    return best


def _sums(counts: Mapping[int, int]) -> set[int]:
    reached = {0}
    for size, times in counts.items():
        reached = {total + size * used for total in reached for used in range(times + 1)}
    return reached


def _cheapest_path(values: list[float], shape: Mapping[int, int]) -> Path | None:
    """For each person in order, the (size, members before) of the group that takes him."""
    gaps = [after - before for before, after in pairwise(values)]
    estimate = _remaining_estimate(gaps, shape)
    start: State = ((), tuple(0 for _ in shape))
    cost: dict[State, float] = {start: 0.0}
    came_from: dict[State, tuple[State, tuple[int, int]]] = {}
    queue: list[tuple[float, int, State]] = [(estimate[0], 0, start)]
    while queue and len(cost) < MOST_STATES:
        _, minus_placed, state = heappop(queue)
        placed = -minus_placed
        if placed == len(values):
            return _walk_back(state, came_from)
        for step, following in _steps(state, shape):
            gap = gaps[placed] if placed < len(gaps) else 0.0
            price = cost[state] + gap * _crossings(following[0])
            if price < cost.get(following, float("inf")) - 1e-12:
                cost[following] = price
                came_from[following] = (state, step)
                heappush(queue, (price + estimate[placed + 1], minus_placed - 1, following))
    return None


def _remaining_estimate(gaps: list[float], shape: Mapping[int, int]) -> list[float]:
    """Least cost of all gaps still to be crossed once so many people are placed."""
    estimate = [0.0] * (len(gaps) + 2)
    for placed in range(len(gaps) - 1, -1, -1):
        least = _least_crossings(placed + 1, shape)
        estimate[placed] = estimate[placed + 1] + gaps[placed] * least
    return estimate


def _steps(state: State, shape: Mapping[int, int]) -> Iterator[tuple[tuple[int, int], State]]:
    """Ways to place the next person: into a new group of some size, or one partly filled."""
    open_groups, started = state
    for which, (size, times) in enumerate(shape.items()):
        if started[which] < times:
            more = (*started[:which], started[which] + 1, *started[which + 1 :])
            opened = (*open_groups, (size, 1)) if size > 1 else open_groups
            yield (size, 0), (tuple(sorted(opened)), more)
    for size, taken in set(open_groups):
        rest = list(open_groups)
        rest.remove((size, taken))
        if taken + 1 < size:
            rest.append((size, taken + 1))
        yield (size, taken), (tuple(sorted(rest)), started)


def _walk_back(state: State, came_from: Mapping[State, tuple[State, tuple[int, int]]]) -> Path:
    path: Path = []
    while state in came_from:
        state, step = came_from[state]
        path.append(step)
    return path[::-1]


def _fill(order: list[int], path: Path) -> tuple[tuple[int, ...], ...]:
    """Give each person to a group of the size and filling the path names."""
    partly: dict[tuple[int, int], list[list[int]]] = {}
    groups: list[list[int]] = []
    for person, (size, taken) in zip(order, path, strict=True):
        group = partly[size, taken].pop() if taken else []
        if not taken:
            groups.append(group)
        group.append(person)
        if taken + 1 < size:
            partly.setdefault((size, taken + 1), []).append(group)
    return tuple(tuple(group) for group in groups)
