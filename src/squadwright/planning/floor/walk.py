"""Walking order: a short way from the door past all stations."""

import math
from collections.abc import Sequence
from functools import cache
from itertools import pairwise

from squadwright.planning.floor.problem import Point

MOST_EXACT = 9


def walking_order(start: Point, stops: Sequence[Point]) -> tuple[tuple[int, ...], float, bool]:
    """Order of the stops from a start, its length [m], and whether it is proven shortest.

    Up to nine stops the shortest way is found exactly; beyond, the nearest next is taken and
    stretches are turned round while that saves way. Straight lines are measured.
    """
    if len(stops) <= MOST_EXACT:
        return (*_shortest(start, stops), True)
    order = _nearest_next(start, stops)
    order = _turned_round(start, stops, order)
    return tuple(order), length_m(start, stops, order), False


def length_m(start: Point, stops: Sequence[Point], order: Sequence[int]) -> float:
    """Length of a way [m]."""
    points = [start, *(stops[index] for index in order)]
    return sum(math.dist(a, b) for a, b in pairwise(points))


def _shortest(start: Point, stops: Sequence[Point]) -> tuple[tuple[int, ...], float]:
    everything = (1 << len(stops)) - 1

    @cache
    def way(last: int, done: int) -> tuple[float, tuple[int, ...]]:
        """Shortest way past what is not done, from a stop."""
        here = start if last < 0 else stops[last]
        ways = []
        for index in range(len(stops)):
            if not done >> index & 1:
                rest, order = way(index, done | 1 << index)
                ways.append((round(math.dist(here, stops[index]) + rest, 6), (index, *order)))
        return min(ways) if done != everything else (0.0, ())

    total, order = way(-1, 0)
    return order, total


def _nearest_next(start: Point, stops: Sequence[Point]) -> list[int]:
    left = set(range(len(stops)))
    order: list[int] = []
    here = start
    while left:
        nearest = min(left, key=lambda index: (round(math.dist(here, stops[index]), 6), index))
        left.remove(nearest)
        order.append(nearest)
        here = stops[nearest]
    return order


def _turned_round(start: Point, stops: Sequence[Point], order: list[int]) -> list[int]:
    best, is_better = length_m(start, stops, order), True
    while is_better:
        is_better = False
        for first in range(len(order) - 1):
            for last in range(first + 1, len(order)):
                tried = [
                    *order[:first], *reversed(order[first : last + 1]), *order[last + 1 :],
                ]  # fmt: skip
                length = length_m(start, stops, tried)
                if length < best - 1e-6:
                    order, best, is_better = tried, length, True
    return order
