"""What a plan reaches: the four goals, read off its loads."""

from fractions import Fraction
from itertools import pairwise
from math import gcd

from squadwright.planning.kit.problem import KitLoad, KitProblem

Loads = tuple[KitLoad, ...]


def largest_shortfall(loads: Loads) -> Fraction:
    """The largest shortfall as a share of the target."""
    return max(load.shortfall_fraction for load in loads)


def total_shortfall_g(loads: Loads) -> int:
    """All shortfalls added up [g]."""
    return sum(load.shortfall_g for load in loads)


def plate_moves(loads: Loads) -> int:
    """Plates of one end put on or taken off from one user of a bar to the next."""
    moves = 0
    ordered = sorted(loads, key=lambda load: (load.bar, load.wave))
    for before, after in pairwise(ordered):
        if before.bar == after.bar:
            first, second = dict(before.per_side), dict(after.per_side)
            moves += sum(
                abs(first.get(mass, 0) - second.get(mass, 0)) for mass in {*first, *second}
            )
    return moves


def plates_handled(loads: Loads) -> int:
    """Pairs each bar needs over all its waves, added up over the bars."""
    most: dict[tuple[str, int], int] = {}
    for load in loads:
        for mass, count in load.per_side:
            most[load.bar, mass] = max(count, most.get((load.bar, mass), 0))
    return sum(most.values())


def shared_unit_g(problem: KitProblem) -> int:
    """The largest mass of which every load is a whole multiple [g]."""
    return gcd(*(bar.mass_g for bar in problem.bars), *(2 * size.mass_g for size in problem.plates))


def percent(share: Fraction, *, digits: int = 1) -> str:
    """A share as a percentage, rounded up so that the figure printed still works."""
    scale = 10**digits
    up = -((-share.numerator * 100 * scale) // share.denominator)
    return f"{up / scale:g} %"


def share_text(fraction: float) -> str:
    """A shortfall in per cent, rounded up so that the figure still works: "8.9 %"."""
    return percent(Fraction(fraction).limit_denominator(10**6))
