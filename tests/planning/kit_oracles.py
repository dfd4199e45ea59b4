"""Two other ways to the optimum: trying every plan, and a plain model for HiGHS through SciPy."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise, permutations, product

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

from squadwright.planning.kit.problem import KitBar, KitProblem, KitUser

Goals = tuple[Fraction, int, int, int]


def best_by_trying_all(problem: KitProblem) -> Goals | None:
    """The four goals of the best plan, by trying every plan; None when there is none."""
    return min(every_plan(problem), default=None)


def every_plan(problem: KitProblem) -> Iterator[Goals]:
    """The four goals of each plan there is."""
    places = [(bar, wave) for bar in problem.bars for wave in range(1, problem.waves + 1)]
    for seats in permutations(places, len(problem.users)):
        if not _seats_are_allowed(problem, seats):
            continue
        options = [
            list(_fillings(problem, user, bar))
            for user, (bar, _) in zip(problem.users, seats, strict=True)
        ]
        for fillings in product(*options):
            if _stock_holds(problem, seats, fillings):
                yield _goals(problem, seats, fillings)


Seats = tuple[tuple[KitBar, int], ...]
Fillings = tuple[tuple[int, ...], ...]


def _seats_are_allowed(problem: KitProblem, seats: Seats) -> bool:
    bar_of = {}
    for user, (bar, wave) in zip(problem.users, seats, strict=True):
        if user.wave not in (None, wave) or bar.mass_g > user.target_g:
            return False
        if user.bars is not None and bar.id not in user.bars:
            return False
        bar_of[user.id] = bar.id
    for group in problem.shared:
        mine = {bar_of[name] for name in group}
        if len(mine) > 1 or any(b in mine for n, b in bar_of.items() if n not in group):
            return False
    return True


def _fillings(problem: KitProblem, user: KitUser, bar: KitBar) -> Iterator[tuple[int, ...]]:
    for counts in product(*(range(size.pairs + 1) for size in problem.plates)):
        hung = 2 * sum(n * size.mass_g for n, size in zip(counts, problem.plates, strict=True))
        most = 0 if user.bare_bar else bar.maximum_plates_g
        if bar.mass_g + hung <= user.target_g and (most is None or hung <= most):
            yield counts


def _stock_holds(problem: KitProblem, seats: Seats, fillings: Fillings) -> bool:
    for number, size in enumerate(problem.plates):
        if problem.plates_stay_with_bar:
            most = {
                bar.id: max(
                    f[number] for f, (b, _) in zip(fillings, seats, strict=True) if b is bar
                )
                for bar, _ in seats
            }
            if sum(most.values()) > size.pairs:
                return False
        for wave in range(1, problem.waves + 1):
            used = sum(f[number] for f, (_, w) in zip(fillings, seats, strict=True) if w == wave)
            if used > size.pairs:
                return False
    return True


def _goals(problem: KitProblem, seats: Seats, fillings: Fillings) -> Goals:
    short = []
    by_bar: dict[str, list[tuple[int, tuple[int, ...]]]] = {}
    for user, (bar, wave), counts in zip(problem.users, seats, fillings, strict=True):
        hung = 2 * sum(n * size.mass_g for n, size in zip(counts, problem.plates, strict=True))
        short.append((user.target_g - bar.mass_g - hung, user.target_g))
        by_bar.setdefault(bar.id, []).append((wave, counts))
    moves = handled = 0
    for uses in by_bar.values():
        ordered = [counts for _, counts in sorted(uses)]
        for before, after in pairwise(ordered):
            moves += sum(abs(a - b) for a, b in zip(before, after, strict=True))
        handled += sum(max(column) for column in zip(*ordered, strict=True))
    largest = max(Fraction(gap, target) for gap, target in short)
    return largest, sum(gap for gap, _ in short), moves, handled


class PlainModel:
    """Counts of plates for each bar, wave and size; who stands where; one goal after another.

    Two waves at most. Solved by HiGHS as SciPy ships it, from a model written apart from ours.
    """

    def __init__(self, problem: KitProblem) -> None:
        self.problem = problem
        self.tops: list[float] = []
        self.whole: list[int] = []
        self.rows: list[tuple[dict[int, float], float, float]] = []
        self.waves = range(1, problem.waves + 1)
        self.stands = {
            (user.id, bar.id, wave): self._variable(1)
            for user in problem.users
            for bar in problem.bars
            for wave in self.waves
            if (user.bars is None or bar.id in user.bars)
            and user.wave in (None, wave)
            and bar.mass_g <= user.target_g
        }
        self.counts = {
            (bar.id, wave, size.mass_g): self._variable(size.pairs)
            for bar in problem.bars
            for wave in self.waves
            for size in problem.plates
        }
        self.largest = self._variable(1, whole=False)
        self.total = self._variable(1e7, whole=False)
        self.moves = {key: self._variable(99) for key in self.counts if key[1] == 1}
        self.beside = {key: self._variable(99) for key in self.counts if key[1] == 1}
        self._people()
        self._plates()
        self._shortfalls()
        self._moves()

    def _variable(self, top: float, *, whole: bool = True) -> int:
        self.tops.append(top)
        self.whole.append(int(whole))
        return len(self.tops) - 1

    def _row(self, terms: dict[int, float], low: float, high: float) -> None:
        self.rows.append((terms, low, high))

    def _people(self) -> None:
        for user in self.problem.users:
            self._row({v: 1 for (n, _, _), v in self.stands.items() if n == user.id}, 1, 1)
        for bar in self.problem.bars:
            for wave in self.waves:
                here = [v for (_, b, w), v in self.stands.items() if (b, w) == (bar.id, wave)]
                self._row(dict.fromkeys(here, 1.0), 0, 1)
            for group in self.problem.shared:
                on = {
                    n: [v for (m, b, _), v in self.stands.items() if m == n and b == bar.id]
                    for n in (user.id for user in self.problem.users)
                }
                for name, mine in on.items():
                    terms = dict.fromkeys(mine, 1.0)
                    sign = -1.0 if name in group else 1.0
                    for v in on[group[0]]:
                        terms[v] = terms.get(v, 0) + sign
                    if name in group:
                        self._row(terms, 0, 0)
                    else:
                        self._row(terms, -np.inf, 1)

    def _plates(self) -> None:
        for size in self.problem.plates:
            for wave in self.waves:
                used = [v for (_, w, m), v in self.counts.items() if (w, m) == (wave, size.mass_g)]
                self._row(dict.fromkeys(used, 1.0), 0, size.pairs)
            if self.problem.plates_stay_with_bar:
                kept = [v for (_, _, m), v in self.beside.items() if m == size.mass_g]
                self._row(dict.fromkeys(kept, 1.0), 0, size.pairs)

    def _shortfalls(self) -> None:
        """Load at most the target of whoever stands there, and nobody short by too much."""
        big = 1e6
        everything: dict[int, float] = {self.total: 1.0}
        for bar in self.problem.bars:
            for wave in self.waves:
                hung = {
                    self.counts[bar.id, wave, size.mass_g]: 2.0 * size.mass_g
                    for size in self.problem.plates
                }
                here = {
                    user: self.stands[user.id, bar.id, wave]
                    for user in self.problem.users
                    if (user.id, bar.id, wave) in self.stands
                }
                tops = {}
                for user, v in here.items():
                    most = user.target_g - bar.mass_g
                    if bar.maximum_plates_g is not None:
                        most = min(most, bar.maximum_plates_g)
                    tops[v] = -float(0 if user.bare_bar else most)
                    short = {**hung, v: -big, self.largest: float(user.target_g)}
                    self._row(short, user.target_g - bar.mass_g - big, np.inf)
                    everything[v] = float(bar.mass_g)
                self._row({**hung, **tops}, -np.inf, 0)
                everything |= hung
        targets = sum(user.target_g for user in self.problem.users)
        self._row(everything, targets, targets)

    def _moves(self) -> None:
        for (bar, _, mass), moved in self.moves.items():
            first = self.counts[bar, 1, mass]
            self._row({self.beside[bar, 1, mass]: 1, first: -1}, 0, np.inf)
            if len(self.waves) == 1:
                continue
            second = self.counts[bar, 2, mass]
            self._row({self.beside[bar, 1, mass]: 1, second: -1}, 0, np.inf)
            used = [v for (_, b, _), v in self.stands.items() if b == bar]
            for sign in (1.0, -1.0):
                terms = {moved: 1.0, first: -sign, second: sign}
                for v in used:
                    terms[v] = terms.get(v, 0) - 99.0
                self._row(terms, -2 * 99.0, np.inf)

    def _least(self, goal: dict[int, float]) -> float:
        cost = np.zeros(len(self.tops))
        for variable, weight in goal.items():
            cost[variable] = weight
        matrix = np.zeros((len(self.rows), len(self.tops)))
        for number, (terms, _, _) in enumerate(self.rows):
            for variable, weight in terms.items():
                matrix[number, variable] = weight
        found = milp(
            cost,
            integrality=np.array(self.whole),
            bounds=Bounds(np.zeros(len(self.tops)), np.array(self.tops)),
            constraints=LinearConstraint(
                matrix, np.array([r[1] for r in self.rows]), np.array([r[2] for r in self.rows])
            ),
            options={"mip_rel_gap": 0.0},
        )
        assert found.status == 0, found.message
        return float(found.fun)

    def goals(self) -> tuple[float, float, float, float]:
        """The four goals one after another, each held while the next is made small."""
        goals = (
            {self.largest: 1.0},
            {self.total: 1.0},
            dict.fromkeys(self.moves.values(), 1.0),
            dict.fromkeys(self.beside.values(), 1.0),
        )
        values = []
        for goal, slack in zip(goals, (1e-6, 1e-2, 1e-4, 1e-4), strict=True):
            values.append(self._least(goal))
            self._row(goal, -np.inf, values[-1] + slack)
        return (values[0], values[1], values[2], values[3])
