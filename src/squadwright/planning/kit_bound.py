"""How well the kit serves a plan: one bound for all of its blocks."""

from collections.abc import Sequence
from dataclasses import replace

from squadwright.model.plan import KitBound


def worst_bound(bounds: Sequence[KitBound]) -> KitBound | None:
    """One bound for the plan: the worst block's shortfall, the rest added up."""
    if not bounds:
        return None
    worst = max(bounds, key=lambda bound: bound.largest_shortfall_fraction)
    return replace(
        worst,
        total_shortfall_kg=sum(bound.total_shortfall_kg for bound in bounds),
        plate_moves=sum(bound.plate_moves for bound in bounds),
        plates_handled=sum(bound.plates_handled for bound in bounds),
        proven=all(bound.proven for bound in bounds),
        advice=tuple(line for bound in bounds for line in bound.advice),
    )
