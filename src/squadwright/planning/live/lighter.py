"""The next lighter load of a loaded bar: plates come off; a step too large takes from the store."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import combinations, product

from squadwright.model.kit import Kit
from squadwright.model.plan import BarPlan, BarUser

GRAMS = 1000
LARGEST_STEP = 0.2
"""Share of a load that may come off at once while smaller plates lie free, a default of ours."""
MOST_FETCHED = 2


@dataclass(frozen=True)
class LighterLoad:
    """A lighter load [kg]; ``fetched_kg`` are plates of one end that come from the store [kg]."""

    load_kg: float
    fetched_kg: tuple[float, ...] = ()


def lighter(user: BarUser, free: Iterable[float] = ()) -> LighterLoad | None:
    """The heaviest load below the present one, of the plates that are on the bar.

    Where that takes off more than ``LARGEST_STEP``, plates that lie ``free`` [kg] (a pair of each)
    come in for those that go. None where nothing but the bar is left.
    """
    now = sum(round(side.plate_kg * GRAMS) * side.count for side in user.per_side)
    below = [total for total in _sums(user) if total < now]
    if not below:
        return None
    load_g = round(user.load_kg * GRAMS)
    best = max(below)
    fetched: tuple[int, ...] = ()
    if 2 * (now - best) > LARGEST_STEP * load_g:
        best, fetched = _with_free(below, now, sorted({round(kg * GRAMS) for kg in free}))
    return LighterLoad(
        (load_g - 2 * (now - best)) / GRAMS, tuple(mass / GRAMS for mass in reversed(fetched))
    )


def free_plates(kit: Kit, bars: Iterable[BarPlan]) -> tuple[float, ...]:
    """Masses of which a pair is on no bar and beside none, in any wave [kg]."""
    left: Counter[float] = Counter()
    for plate in kit.plates:
        if plate.in_service:
            left[round(plate.plate.kg, 3)] += plate.pairs
    for bar in bars:
        for mass, count in _handled(bar).items():
            left[mass] -= count
    return tuple(mass for mass, count in left.items() if count > 0)


def _handled(bar: BarPlan) -> Mapping[float, int]:
    most: Counter[float] = Counter()
    for user in bar.wave_users:
        most |= Counter({round(side.plate_kg, 3): side.count for side in user.per_side})
    return most


def _sums(user: BarUser) -> set[int]:
    """What can be left on one end by taking plates off [g]."""
    plates = [(round(side.plate_kg * GRAMS), side.count) for side in user.per_side]
    return {
        sum(mass * left for (mass, _), left in zip(plates, counts, strict=True))
        for counts in product(*(range(count + 1) for _, count in plates))
    }


def _with_free(below: list[int], now: int, free: list[int]) -> tuple[int, tuple[int, ...]]:
    """The heaviest end below the present one [g], and the plates fetched for it, as few as can."""
    ways = [
        (left + sum(fetched), -len(fetched), fetched)
        for left in below
        for count in range(MOST_FETCHED + 1)
        for fetched in combinations(free, count)
        if left + sum(fetched) < now
    ]
    total, _, fetched = max(ways)
    return total, fetched
