"""Divide a squad by choosing among all possible groups: set partition solved by HiGHS.

The linear relaxation is solved by pricing (only groups that can improve it are added). Groups whose
reduced cost exceeds the gap between a known division and the relaxation cannot be in a better
division, so the final whole-number search over the rest is exact.
"""

import time
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations
from math import comb
from typing import Any

import numpy as np
from scipy import sparse
from scipy.optimize import Bounds, LinearConstraint, linprog, milp

from squadwright.errors import OutOfTime
from squadwright.planning.groups.problem import MinorRule
from squadwright.planning.groups.rules import (
    Booleans,
    Floats,
    Integers,
    RuleTables,
    priority_weights,
)

MOST_COLUMNS = 60_000
PRICED_ABOVE = 2_000
ADDED_PER_ROUND = 800
MOST_NODES = 2_000
CLOCK_SLACK = 5.0
"""The clock is a backstop: what ends a search should be its nodes, which are the same each time."""
TOLERANCE = 1e-6


@dataclass(frozen=True)
class Columns:
    """All valid groups: people by group, size, and cost on each goal."""

    people: sparse.csc_array
    sizes: Integers
    members: tuple[tuple[int, ...], ...]
    difference: Floats
    priority: Integers


@dataclass(frozen=True)
class Division:
    """A choice of groups with a bound on its total difference; no groups means none exists."""

    groups: tuple[tuple[int, ...], ...]
    bound: float
    is_proven: bool


def column_count(count: int, shape: Mapping[int, int]) -> int:
    """How many groups of these sizes can be formed."""
    return sum(comb(count, size) for size in shape)


def divide_by_columns(
    tables: RuleTables, shape: Mapping[int, int], time_limit_s: float
) -> Division | None:
    """Best division, or None when it is proven that none exists.

    Raises OutOfTime when the time ran out before any division was found.
    """
    deadline = time.monotonic() + CLOCK_SLACK * time_limit_s
    columns = all_columns(tables, shape)
    goals_first = bool(columns.priority.any())
    limit: float | None = None
    proven = True
    if goals_first:
        first = _choose(columns, columns.priority.astype(float), shape, None, deadline)
        if first is None:
            return None
        limit, proven = float(columns.priority[first[0]].sum()), first[2]
    best = _choose(columns, columns.difference, shape, limit, deadline)
    if best is None:
        return None
    chosen, bound, closed = best
    groups = tuple(columns.members[column] for column in chosen)
    return Division(groups, bound if proven else 0.0, proven and closed)


def all_columns(tables: RuleTables, shape: Mapping[int, int]) -> Columns:
    """Every group the rules allow, with its cost."""
    count = len(tables.is_minor)
    member_blocks = [
        np.array(list(combinations(range(count), size)), dtype=np.int64).reshape(-1, size)
        for size in shape
    ]
    kept_blocks = [block[_valid(block, tables)] for block in member_blocks]
    rows = np.concatenate([block.ravel() for block in kept_blocks])
    sizes = np.concatenate([np.full(len(block), block.shape[1]) for block in kept_blocks])
    pointer = np.concatenate([[0], np.cumsum(sizes)])
    people = sparse.csc_array((np.ones(len(rows)), rows, pointer), shape=(count, len(sizes)))
    return Columns(
        people=people,
        sizes=sizes,
        members=tuple(tuple(map(int, row)) for block in kept_blocks for row in block),
        difference=np.concatenate([_pair_sum(b, tables.difference) for b in kept_blocks]),
        priority=np.concatenate([_priority(block, tables) for block in kept_blocks]),
    )


def _valid(block: Integers, tables: RuleTables) -> Booleans:
    valid = np.ones(len(block), dtype=np.bool_)
    for one, other in combinations(range(block.shape[1]), 2):
        valid &= ~tables.banned[block[:, one], block[:, other]]
    for needed in tables.must_sets:
        inside = np.isin(block, list(needed)).sum(axis=1)
        valid &= (inside == 0) | (inside == len(needed))
    if tables.minor_rule is MinorRule.NEVER and block.shape[1] == 2:
        valid &= tables.is_minor[block].sum(axis=1) != 1
    return valid


def _pair_sum(block: Integers, table: Floats) -> Floats:
    total = np.zeros(len(block))
    for one, other in combinations(range(block.shape[1]), 2):
        total += table[block[:, one], block[:, other]]
    return total


def _priority(block: Integers, tables: RuleTables) -> Integers:
    minor_weight, kept_weight, wish_weight = priority_weights(tables)
    cost = -kept_weight * _pair_sum(block, tables.together_before.astype(float))
    cost -= wish_weight * _pair_sum(block, tables.wished.astype(float))
    if tables.minor_rule is MinorRule.AVOID and block.shape[1] == 2:
        cost += minor_weight * (tables.is_minor[block].sum(axis=1) == 1)
    return np.rint(cost).astype(np.int64)


def out_of_time() -> OutOfTime:
    """The refusal when no division was found in time."""
    return OutOfTime(
        "time_limit_s: no division was found within the time limit. "
        "Give more time, or lift some bans and musts."
    )


def _choose(
    columns: Columns,
    cost: Floats,
    shape: Mapping[int, int],
    priority_limit: float | None,
    deadline: float,
) -> tuple[list[int], float, bool] | None:
    """Columns chosen, bound on their cost, and whether the bound is reached."""
    matrix, target = _equations(columns, shape, priority_limit)
    everything = np.arange(len(cost))
    if len(cost) <= PRICED_ABOVE:
        return _whole_numbers(matrix, target, cost, everything, deadline)
    priced = _price(matrix, target, cost, deadline)
    if priced is None:
        return _whole_numbers(matrix, target, cost, everything, deadline)
    pool, reduced, relaxation = priced
    try:
        known = _whole_numbers(matrix, target, cost, pool, deadline)
    except OutOfTime:
        known = None
    if known is None:
        return _whole_numbers(matrix, target, cost, everything, deadline)
    value = float(cost[known[0]].sum())
    gap = value - relaxation
    smallest_step = 1.0 if np.array_equal(cost, np.rint(cost)) else 0.0
    if gap < max(smallest_step - TOLERANCE, TOLERANCE):
        return known[0], value, True
    useful = np.flatnonzero(reduced <= gap + TOLERANCE)
    if np.isin(useful, pool).all() and known[2]:
        return known
    try:
        final = _whole_numbers(matrix, target, cost, np.union1d(useful, pool), deadline)
    except OutOfTime:
        final = None
    return final if final is not None else (known[0], relaxation, False)


def _equations(
    columns: Columns, shape: Mapping[int, int], priority_limit: float | None
) -> tuple[sparse.csc_array, Floats]:
    """Everyone is in one group; sizes occur as often as the shape says; goals stay reached."""
    rows = [columns.people]
    target = [1.0] * columns.people.shape[0]
    for size, times in shape.items():
        rows.append(sparse.csc_array((columns.sizes == size).astype(float)[None, :]))
        target.append(float(times))
    if priority_limit is not None:
        rows.append(sparse.csc_array(columns.priority.astype(float)[None, :]))
        target.append(priority_limit)
    return sparse.csc_array(sparse.vstack(rows)), np.array(target)


def _price(
    matrix: sparse.csc_array, target: Floats, cost: Floats, deadline: float
) -> tuple[Integers, Floats, float] | None:
    """Solve the relaxation: columns used, reduced cost of every column, and its value."""
    penalty = 10 * float(np.abs(cost).max() + 1) * len(target)
    slack = sparse.csc_array(
        sparse.hstack([sparse.identity(len(target)), -sparse.identity(len(target))])
    )
    pool = np.argsort(cost, kind="stable")[:ADDED_PER_ROUND]
    while time.monotonic() < deadline:
        part: Any = sparse.csc_array(sparse.hstack([matrix[:, pool], slack]))
        prices = np.concatenate([cost[pool], np.full(slack.shape[1], penalty)])
        result = linprog(prices, A_eq=part, b_eq=target, method="highs")
        if result.status != 0 or result.x is None or result.fun is None:
            return None
        dual = np.asarray(result.eqlin.marginals)
        reduced = cost - dual @ matrix
        order = np.argsort(reduced, kind="stable")[:ADDED_PER_ROUND]
        better = order[reduced[order] < -TOLERANCE]
        if not len(better):
            slack_used = float(np.abs(result.x[len(pool) :]).sum())
            return None if slack_used > TOLERANCE else (pool, reduced, float(result.fun))
        pool = np.union1d(pool, better)
    return None


def _whole_numbers(
    matrix: sparse.csc_array, target: Floats, cost: Floats, pool: Integers, deadline: float
) -> tuple[list[int], float, bool] | None:
    if not len(pool):
        return None
    result = milp(
        cost[pool],
        constraints=LinearConstraint(matrix[:, pool], target, target),
        integrality=np.ones(len(pool), dtype=np.int64),
        bounds=Bounds(0, 1),
        options={
            "time_limit": max(0.05, deadline - time.monotonic()),
            "node_limit": MOST_NODES,
            "mip_rel_gap": 0.0,
        },
    )
    if result.status == 2:
        return None
    if result.x is None:
        raise out_of_time()
    chosen = [int(pool[place]) for place in np.flatnonzero(result.x > 0.5)]
    value = float(cost[chosen].sum())
    closed = bool(result.status == 0)
    return chosen, value if closed else float(result.mip_dual_bound), closed
