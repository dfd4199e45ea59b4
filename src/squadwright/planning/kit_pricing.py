"""Find the cheapest programmes: price columns until none pays, then search those in the gap."""

from dataclasses import dataclass
from math import ceil
from time import perf_counter

import highspy
import numpy as np

from squadwright.planning.kit_budget import Budget
from squadwright.planning.kit_linear import LinearProgram, QuietHighs
from squadwright.planning.kit_programmes import Column, Floats, Programmes

_NEARLY = 1e-6
MOST_COLUMNS = 40_000
MOST_ROUNDS = 400
_NEW_COLUMNS = 150
_PRICED_PER_WORK = 3e7


@dataclass(frozen=True)
class Priced:
    """The best columns found and the proven bound on their cost."""

    columns: list[Column]
    cost: int
    bound: int


def cheapest(made: Programmes, start: list[Column], budget: Budget) -> Priced:
    """Make the cost of the columns as small as can be, from a plan at hand."""
    best = Priced(start, sum(made.cost_of(column) for column in start), 0)
    pool = list(dict.fromkeys(start))
    relaxed = _price_out(made, pool, budget)
    if relaxed is None:
        return best
    objective, prices = relaxed
    bound = ceil(objective - _NEARLY)
    best = _search(made, pool, Priced(best.columns, best.cost, bound), budget)
    if best.cost == bound:
        return best
    gap = best.cost - 1 - objective + _NEARLY
    columns = [column for _, column in _columns_within(made, prices, gap)]
    is_complete = len(columns) <= MOST_COLUMNS
    return _search(made, columns[:MOST_COLUMNS], best, budget, is_complete=is_complete)


def _price_out(made: Programmes, pool: list[Column], budget: Budget) -> tuple[float, Floats] | None:
    master = _Master(made)
    master.add(pool)
    known = set(pool)
    pairs = sum(cost.size for cost in made.costs)
    for _ in range(MOST_ROUNDS):
        if budget.work <= 0 or perf_counter() >= budget.ends_at:
            budget.is_cut_by_clock |= budget.work > 0
            return None
        objective, prices = master.solve()
        budget.work -= pairs / _PRICED_PER_WORK + len(pool) / 1e6
        new = [column for column in _paying_columns(made, prices) if column not in known]
        if not new:
            return objective, prices
        known.update(new)
        pool.extend(new)
        master.add(new)
    return None


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


def _paying_columns(made: Programmes, prices: Floats) -> list[Column]:
    found: list[tuple[float, Column]] = []
    for place, numbers in enumerate(made.members):
        reduced = _reduced(made, prices, place)
        best_second = np.argmin(reduced, axis=1)
        for spot, other in enumerate(best_second):
            if reduced[spot, other] < -_NEARLY:
                column = (place, int(numbers[spot]), int(numbers[other]))
                found.append((float(reduced[spot, other]), column))
        best_first = np.argmin(reduced, axis=0)
        for spot, other in enumerate(best_first):
            if reduced[other, spot] < -_NEARLY:
                column = (place, int(numbers[other]), int(numbers[spot]))
                found.append((float(reduced[other, spot]), column))
    found.sort()
    return list(dict.fromkeys(column for _, column in found[:_NEW_COLUMNS]))


def _columns_within(made: Programmes, prices: Floats, gap: float) -> list[tuple[float, Column]]:
    found: list[tuple[float, Column]] = []
    for place, numbers in enumerate(made.members):
        reduced = _reduced(made, prices, place)
        firsts, seconds = np.nonzero(reduced <= gap)
        if len(firsts) > 4 * MOST_COLUMNS:
            order = np.argsort(reduced[firsts, seconds], kind="stable")[: 4 * MOST_COLUMNS]
            firsts, seconds = firsts[order], seconds[order]
        found.extend(
            (float(reduced[a, b]), (place, int(numbers[a]), int(numbers[b])))
            for a, b in zip(firsts, seconds, strict=True)
        )
    return sorted(found)


def _search(
    made: Programmes,
    columns: list[Column],
    best: Priced,
    budget: Budget,
    *,
    is_complete: bool = False,
) -> Priced:
    """Search the columns in whole numbers; ``is_complete``: no other column can help."""
    program = LinearProgram()
    rows: list[list[int]] = [[] for _ in made.rows.lows]
    coefficients: list[list[int]] = [[] for _ in made.rows.lows]
    for column in columns:
        most = len(made.families[column[0]].bars)
        variable = program.variable(most, made.cost_of(column))
        adds = made.rows_of(column)
        for row in np.nonzero(adds)[0]:
            rows[row].append(variable)
            coefficients[row].append(int(adds[row]))
    for row, (low, high) in enumerate(zip(made.rows.lows, made.rows.highs, strict=True)):
        program.row(rows[row], coefficients[row], float(low), float(high))
    found = program.search(budget, 0.7)
    if is_complete and (found.is_impossible or found.bound is not None):
        proven = best.cost if found.bound is None else min(best.cost, found.bound)
        best = Priced(best.columns, best.cost, max(best.bound, proven))
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
