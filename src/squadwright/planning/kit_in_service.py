"""What of the store may go on a station, as the plate problem sees it."""

from collections import Counter

from squadwright.model.kit import Bar, Kit
from squadwright.planning.kit.problem import KitBar, PlateSize

GRAMS = 1000


def usable_bars(kit: Kit) -> tuple[Bar, ...]:
    """Bars in service."""
    return tuple(bar for bar in kit.bars if bar.in_service)


def kit_bars(kit: Kit) -> tuple[KitBar, ...]:
    """Bars in service with their masses and what they carry, in grams."""
    return tuple(
        KitBar(
            id=bar.id,
            mass_g=round(bar.mass.kg * GRAMS),
            kind=bar.name,
            maximum_plates_g=None
            if bar.maximum_load is None
            else round(bar.maximum_load.kg * GRAMS),
        )
        for bar in usable_bars(kit)
    )


def plate_sizes(kit: Kit) -> tuple[PlateSize, ...]:
    """The pairs in service by mass; a mass of which none is left stays in the list."""
    sizes: Counter[int] = Counter()
    for plate in kit.plates:
        if plate.in_service:
            sizes[round(plate.plate.kg * GRAMS)] += plate.pairs
    return tuple(PlateSize(mass_g, pairs) for mass_g, pairs in sorted(sizes.items()))
