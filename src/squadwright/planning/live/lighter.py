"""The next lighter load of a loaded bar, by taking plates off: nothing has to be fetched."""

from itertools import product

from squadwright.model.plan import BarUser

GRAMS = 1000


def lighter_kg(user: BarUser) -> float | None:
    """The heaviest load below the present one, of the plates that are on the bar [kg].

    None where nothing but the bar is left.
    """
    plates = [(round(side.plate_kg * GRAMS), side.count) for side in user.per_side]
    now = sum(mass * count for mass, count in plates)
    sums = {
        sum(mass * left for (mass, _), left in zip(plates, counts, strict=True))
        for counts in product(*(range(count + 1) for _, count in plates))
    }
    below = [total for total in sums if total < now]
    if not below:
        return None
    return (round(user.load_kg * GRAMS) - 2 * (now - max(below))) / GRAMS
