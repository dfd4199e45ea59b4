"""The ways to make up the mass on one end of a bar, seen as walks through the sizes.

A walk goes through the sizes from the biggest plate to the smallest and takes some of each.
Walks that have gathered the same mass meet in one knot, so that thousands of ways need only a
few hundred steps. Whole walks that share a stock are whole bars loaded from that stock.
"""

from collections.abc import Collection
from dataclasses import dataclass

Knot = tuple[int, int]
"""How many sizes are behind, and the mass gathered so far [g]."""


@dataclass(frozen=True)
class Step:
    """Take ``count`` plates of one size on each end, going from one knot to the next."""

    start: Knot
    end: Knot
    mass_g: int
    count: int


def side_steps(sizes: tuple[tuple[int, int], ...], wanted_g: Collection[int]) -> tuple[Step, ...]:
    """Every step that lies on a walk from nothing to one of the wanted masses.

    Parameters
    ----------
    sizes : (mass of one plate [g], pairs in the stock), biggest first.
    wanted_g : masses wanted on one end [g].
    """
    most = max(wanted_g, default=0)
    layers = [{0}]
    for mass_g, pairs in sizes:
        layers.append(
            {
                gathered + count * mass_g
                for gathered in layers[-1]
                for count in range(min(pairs, (most - gathered) // mass_g) + 1)
            }
        )
    steps: list[Step] = []
    alive = set(wanted_g) & layers[-1]
    for number in range(len(sizes) - 1, -1, -1):
        mass_g, pairs = sizes[number]
        before: set[int] = set()
        for end in sorted(alive):
            for count in range(min(pairs, end // mass_g) + 1):
                gathered = end - count * mass_g
                if gathered in layers[number]:
                    before.add(gathered)
                    steps.append(Step((number, gathered), (number + 1, end), mass_g, count))
        alive = before
    return tuple(reversed(steps))
