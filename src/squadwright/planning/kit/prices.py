"""What one missing pair costs, what one more brings, and the fewest to fetch for a tolerance."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from time import perf_counter

from squadwright.errors import InvalidInput, NoSolution
from squadwright.planning.kit.budget import Budget
from squadwright.planning.kit.load_model import load_model
from squadwright.planning.kit.loads import reach_of
from squadwright.planning.kit.measures import percent, shared_unit_g
from squadwright.planning.kit.problem import KitGoal, KitProblem, PlateSize
from squadwright.planning.kit.solve import least_shortfalls, usual_effort
from squadwright.planning.kit.start import TimeRanOut


@dataclass(frozen=True)
class PairPrice:
    """The two shortfall goals with one pair of a size less or more, next to those without.

    Parameters
    ----------
    mass_g : mass of one plate of the pair [g].
    pairs : -1 for a missing pair, 1 for one more.
    largest, total : goals with the change.
    largest_before, total_before : goals of the stock as it is.
    """

    mass_g: int
    pairs: int
    largest: KitGoal
    total: KitGoal
    largest_before: KitGoal
    total_before: KitGoal

    @property
    def changes_anything(self) -> bool:
        """Whether either goal moves."""
        return (self.largest.value, self.total.value) != (
            self.largest_before.value,
            self.total_before.value,
        )

    @property
    def sentence(self) -> str:
        """The change in words."""
        size = f"{self.mass_g / 1000:g} kg"
        what = f"one more pair of {size}" if self.pairs > 0 else f"without one pair of {size}"
        if not self.changes_anything:
            return f"{what}: no change"
        gained_g = int(self.total_before.value - self.total.value)
        if self.largest.value == self.largest_before.value:
            more = "more" if gained_g > 0 else "less"
            return f"{what}: {abs(gained_g) / 1000:g} kg {more} on the bars, all together"
        verb = "brings everyone within" if self.pairs > 0 else "puts the tightest tolerance at"
        return f"{what} {verb} {percent(self.largest.value)}"


def price_of_missing_pair(problem: KitProblem) -> tuple[PairPrice, ...]:
    """What the loss of one pair would cost, for each size in the stock, biggest first."""
    sizes = [size.mass_g for size in problem.plates if size.pairs > 0]
    return _prices(problem, sizes, -1)


def value_of_one_more_pair(
    problem: KitProblem, *, sizes_g: Iterable[int] | None = None
) -> tuple[PairPrice, ...]:
    """What one more pair would bring, for each size of the stock or those named, biggest first."""
    known = [size.mass_g for size in problem.plates]
    return _prices(problem, known if sizes_g is None else sizes_g, 1)


def _prices(problem: KitProblem, sizes_g: Iterable[int], pairs: int) -> tuple[PairPrice, ...]:
    before = _goals(problem)
    return tuple(
        PairPrice(mass_g, pairs, *_goals(_with_pairs(problem, {mass_g: pairs})), *before)
        for mass_g in sorted(set(sizes_g), reverse=True)
    )


def _goals(problem: KitProblem) -> tuple[KitGoal, KitGoal]:
    effort = usual_effort(problem)
    budget = Budget(effort.shortfall_work, perf_counter() + effort.clock_s)
    _, largest, total = least_shortfalls(problem, reach_of(problem), budget)
    return largest, total


def _with_pairs(problem: KitProblem, more: dict[int, int]) -> KitProblem:
    stock = {size.mass_g: size.pairs for size in problem.plates}
    for mass_g, pairs in more.items():
        stock[mass_g] = stock.get(mass_g, 0) + pairs
    plates = tuple(PlateSize(mass_g, pairs) for mass_g, pairs in stock.items())
    return replace(problem, plates=plates)


def fewest_more_pairs(
    problem: KitProblem, tolerance: Fraction, *, most_of_a_size: int = 4
) -> tuple[tuple[int, int], ...]:
    """The fewest pairs to fetch so that everybody is within the tolerance: (mass [g], pairs).

    Looks at the sizes of the stock, also those of which none is left. Raises NoSolution when
    ``most_of_a_size`` more of every size do not do it.
    """
    if problem.plates_stay_with_bar:
        raise InvalidInput(
            "plates_stay_with_bar",
            "pairs to fetch are only worked out for plates that may change bars",
            "Leave it out",
        )
    rich = _with_pairs(problem, {size.mass_g: most_of_a_size for size in problem.plates})
    reach = reach_of(rich)
    made = load_model(rich, reach, tolerance, unit_g=shared_unit_g(problem))
    nothing = NoSolution(
        f"tolerance: {most_of_a_size} more pairs of every size do not bring everybody within "
        f"{percent(tolerance)}. Use smaller plates, another bar, or a wider tolerance"
    )
    if made is None:
        raise nothing
    made.program.costs = [0] * len(made.program.costs)
    more = {size.mass_g: made.program.variable(most_of_a_size, 1) for size in problem.plates}
    stock = {size.mass_g: size.pairs for size in problem.plates}
    for (_, mass_g), uses in made.drawn.items():
        columns = [variable for variable, _ in uses] + [more[mass_g]]
        counts = [count for _, count in uses] + [-1]
        made.program.row(columns, counts, float("-inf"), stock[mass_g])
    effort = usual_effort(problem)
    found = made.program.search(Budget(effort.shortfall_work, perf_counter() + effort.clock_s))
    if found.is_impossible:
        raise nothing
    if found.values is None:
        raise TimeRanOut("tolerance: the pairs to fetch were not found in time. Ask for one size")
    return tuple(
        (mass_g, found.values[variable])
        for mass_g, variable in sorted(more.items(), reverse=True)
        if found.values[variable]
    )
