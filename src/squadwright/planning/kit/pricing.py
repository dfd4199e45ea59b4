"""Find the cheapest programmes: price columns until none pays, then search those in the gap."""

from dataclasses import dataclass
from math import ceil, floor
from time import perf_counter

import highspy
import numpy as np

from squadwright.planning.kit.budget import Budget
from squadwright.planning.kit.linear import LinearProgram, QuietHighs
from squadwright.planning.kit.programmes import Column, Floats, Programmes

_NEARLY = 1e-6
MOST_COLUMNS = 20_000
MOST_ROUNDS = 400
_NEW_COLUMNS = 150
_PAIRS_PER_WORK = 8e7
_COLUMNS_PER_WORK = 3e5
_SEARCHED_PER_WORK = 2500
_MOST_NEAR = 800


@dataclass(frozen=True)
class Priced:
    """The best columns found and the proven bound on their cost."""

    columns: list[Column]
    cost: int
    bound: int


@dataclass(frozen=True)
class Relaxation:
    """Row prices, a proven bound, and whether no column outside the pool can pay."""

    bound: float
    prices: Floats
    is_closed: bool


def cheapest(made: Programmes, start: list[Column], budget: Budget) -> Priced:
    """Make the cost of the columns as small as can be, from a plan at hand."""
    cost = sum(made.cost_of(column) for column in start)
    pool = list(dict.fromkeys(start))
    relaxed = _price_out(made, pool, budget)
    if relaxed is None:
        return Priced(start, cost, 0)
    bound = min(cost, max(0, ceil(relaxed.bound - _NEARLY)))
    best = Priced(start, cost, bound)
    if relaxed.is_closed:
        near = relaxed.bound + made.weight / 2
        spare = int(budget.work * _SEARCHED_PER_WORK) - len(pool)
        best = _search_within(made, relaxed, near, best, budget, most=min(spare, _MOST_NEAR))
    if best.cost > best.bound:
        best = _search(made, pool, best, budget, share=0.5)
    if best.cost > best.bound and relaxed.is_closed:
        best = _search_within(made, relaxed, best.cost - 1, best, budget)
    return best


def _search_within(
    made: Programmes,
    relaxed: Relaxation,
    limit: float,
    best: Priced,
    budget: Budget,
    *,
    most: int | None = None,
) -> Priced:
    """Search every column a plan of cost up to the limit can use; not at all above ``most``."""
    columns = _columns_within(made, relaxed.prices, limit - relaxed.bound + _NEARLY)
    if most is not None and len(columns) > most:
        return best
    most = min(MOST_COLUMNS, int(budget.work * _SEARCHED_PER_WORK))
    if most <= 0:
        return best
    proven = min(best.cost, floor(limit + _NEARLY) + 1) if len(columns) <= most else None
    return _search(made, columns[:most], best, budget, proven=proven)


def _price_out(made: Programmes, pool: list[Column], budget: Budget) -> Relaxation | None:
    """Add columns that pay until none does or half the work is spent."""
    master = _Master(made)
    master.add(pool)
    known = set(pool)
    pairs = sum(cost.size for cost in made.costs)
    spare, best = budget.work / 2, None
    for _ in range(MOST_ROUNDS):
        if perf_counter() >= budget.ends_at:
            budget.is_cut_by_clock = True
            return best
        if budget.work <= spare:
            return best
        objective, prices = master.solve()
        budget.work -= pairs / _PAIRS_PER_WORK + len(pool) / _COLUMNS_PER_WORK
        paying, slack = _paying_columns(made, prices)
        if best is None or objective + slack > best.bound:
            best = Relaxation(objective + slack, prices, False)
        new = [column for column in paying if column not in known]
        if not new:
            return Relaxation(objective, prices, True)
        known.update(new)
        pool.extend(new)
        master.add(new)
    return best


class _Master:
    """The relaxation over the columns so far, solved again from where it stood."""

    def __init__(self, made: Programmes) -> None:
        self.made = made
        self.solver = QuietHighs()
        self.solver.setOptionValue("parallel", "off")
        self.solver.setOptionValue("random_seed", 1)
        nothing = np.array([], dtype=np.int32)
        for low, high in zip(made.rows.lows, made.rows.highs, strict=True):
            self.solver.addRow(low, high, 0, nothing, nothing.astype(float))

    def add(self, columns: list[Column]) -> None:
        for column in columns:
            adds = self.made.rows_of(column)
            where = np.nonzero(adds)[0].astype(np.int32)
            self.solver.addCol(
                float(self.made.cost_of(column)),
                0.0,
                highspy.kHighsInf,
                len(where),
                where,
                adds[where].astype(float),
            )

    def solve(self) -> tuple[float, Floats]:
        self.solver.run()
        prices = np.array(self.solver.getSolution().row_dual)
        return self.solver.getInfo().objective_function_value, prices


def _reduced(made: Programmes, prices: Floats, place: int) -> Floats:
    numbers = made.members[place]
    first = made.rows.adds[0][numbers] @ prices
    second = made.rows.adds[1][numbers] @ prices
    price = prices[made.rows.family_rows[place]]
    return np.asarray(made.costs[place] - first[:, None] - second[None, :] - price)


def _paying_columns(made: Programmes, prices: Floats) -> tuple[list[Column], float]:
    """Columns below their price, the best first; and how far the true bound may lie below.

    A family has so many bars, so no more columns than that can be below their price.
    """
    found: list[tuple[float, Column]] = []
    slack = 0.0
    for place, numbers in enumerate(made.members):
        reduced = _reduced(made, prices, place)
        slack += len(made.families[place].bars) * min(0.0, float(reduced.min()))
        spots = np.arange(len(numbers))
        seconds, firsts = np.argmin(reduced, axis=1), np.argmin(reduced, axis=0)
        for first, second in [
            *zip(spots, seconds, strict=True),
            *zip(firsts, spots, strict=True),
        ]:
            if reduced[first, second] < -_NEARLY:
                column = (place, int(numbers[first]), int(numbers[second]))
                found.append((float(reduced[first, second]), column))
    found.sort()
    return list(dict.fromkeys(column for _, column in found))[:_NEW_COLUMNS], slack


def _columns_within(made: Programmes, prices: Floats, gap: float) -> list[Column]:
    """Columns that a plan within the gap can use, the cheapest first; at most one too many."""
    found: list[tuple[float, Column]] = []
    for place, numbers in enumerate(made.members):
        reduced = _reduced(made, prices, place)
        firsts, seconds = np.nonzero(reduced <= gap)
        order = np.argsort(reduced[firsts, seconds], kind="stable")[: MOST_COLUMNS + 1]
        found.extend(
            (float(reduced[a, b]), (place, int(numbers[a]), int(numbers[b])))
            for a, b in zip(firsts[order], seconds[order], strict=True)
        )
    return [column for _, column in sorted(found)[: MOST_COLUMNS + 1]]


def _search(
    made: Programmes,
    columns: list[Column],
    best: Priced,
    budget: Budget,
    *,
    share: float = 1.0,
    proven: int | None = None,
) -> Priced:
    """Search the columns in whole numbers; below ``proven`` no other column can help."""
    program = LinearProgram()
    rows: list[list[int]] = [[] for _ in made.rows.lows]
    coefficients: list[list[int]] = [[] for _ in made.rows.lows]
    for column in columns:
        most = len(made.families[column[0]].bars)
        variable = program.variable(most, made.cost_of(column))
        adds = made.rows_of(column)
        for row in np.nonzero(adds)[0].tolist():
            rows[row].append(variable)
            coefficients[row].append(int(adds[row]))
    for row, (low, high) in enumerate(zip(made.rows.lows, made.rows.highs, strict=True)):
        program.row(rows[row], coefficients[row], float(low), float(high))
    found = program.search(budget, share)
    budget.work -= len(columns) / _SEARCHED_PER_WORK
    if proven is not None and (found.is_impossible or found.bound is not None):
        bound = proven if found.bound is None else min(proven, found.bound)
        best = Priced(best.columns, best.cost, max(best.bound, bound))
    if found.values is not None:
        chosen = [
            column
            for column, count in zip(columns, found.values, strict=True)
            for _ in range(count)
        ]
        cost = sum(made.cost_of(column) for column in chosen)
        if cost < best.cost:
            best = Priced(chosen, cost, min(best.bound, cost))
    return best
