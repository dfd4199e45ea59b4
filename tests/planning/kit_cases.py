"""Plate problems for the tests, and a check of a plan that shares no code with the solver."""

from collections import Counter
from fractions import Fraction
from itertools import pairwise
from random import Random

from squadwright.planning.kit.problem import (
    KitBar,
    KitProblem,
    KitSolution,
    KitUser,
    PlateSize,
)

SIZES_G = (10_000, 5_000, 2_500, 1_250, 500)
FULL = (2, 6, 5, 4, 2)
HALF = (1, 3, 2, 2, 1)
NO_TENS = (0, 3, 3, 2, 1)

# The invented club: pairs of neighbours in target, first and second user of each bar.
DEMO_BARS_KG = (10, 15, 20, 15, 15, 20)
DEMO_TARGETS_KG = (
    (("A12", 10), ("A03", 18)),
    (("A01", 19.5), ("A05", 19.5)),
    (("A07", 22.5), ("A11", 25.5)),
    (("A14", 27), ("A02", 34.5)),
    (("A13", 36), ("A06", 39)),
    (("A04", 42), ("A09", 45)),
)


def plates(pairs: tuple[int, ...], sizes_g: tuple[int, ...] = SIZES_G) -> tuple[PlateSize, ...]:
    """A stock, as pairs of each size."""
    return tuple(PlateSize(m, n) for m, n in zip(sizes_g, pairs, strict=True))


def demo(pairs: tuple[int, ...] = FULL, *, fixed: bool = True, **options: object) -> KitProblem:
    """The dozen of the demo club; ``fixed``: who shares which bar in which wave is given."""
    bars = tuple(KitBar(f"bar{i}", mass * 1000) for i, mass in enumerate(DEMO_BARS_KG))
    users = tuple(
        KitUser(
            name,
            int(target * 1000),
            wave if fixed else None,
            (f"bar{number}",) if fixed else None,
        )
        for number, pair in enumerate(DEMO_TARGETS_KG)
        for wave, (name, target) in enumerate(pair, start=1)
    )
    return KitProblem(bars, plates(pairs), users, **options)  # type: ignore[arg-type]


def scaled(athletes: int, bars: int, plenty: float, *, seed: int = 1) -> KitProblem:
    """Many athletes: bars of three masses, the demo store in proportion, times ``plenty``."""
    random = Random(seed)
    targets = sorted(random.randrange(15_000, 45_000, 500) for _ in range(athletes))
    masses = [20_000] * round(bars * 0.35) + [15_000] * round(bars * 0.45)
    masses += [10_000] * (bars - len(masses))
    pairs = tuple(max(1, round(n * bars / 6 * plenty)) for n in FULL)
    return KitProblem(
        tuple(KitBar(f"bar{i}", mass) for i, mass in enumerate(masses)),
        plates(pairs),
        tuple(KitUser(f"user{i}", target) for i, target in enumerate(targets)),
    )


def small(seed: int) -> KitProblem:
    """A random problem small enough to try every plan."""
    random = Random(seed)
    count = random.choice((2, 3, 3, 4))
    bars = tuple(
        KitBar(
            f"b{i}",
            random.choice((5_000, 10_000, 15_000)),
            maximum_plates_g=random.choice((None, None, None, 8_000)),
        )
        for i in range(2)
    )
    heaviest = max(bar.mass_g for bar in bars)
    users = [
        KitUser(
            f"u{i}",
            heaviest + random.randrange(0, 16_000, 250),
            random.choice((None, None, None, 1 + i % 2)),
            random.choice((None, None, None, (f"b{i % 2}",))),
            bare_bar=random.random() < 0.1,
        )
        for i in range(count)
    ]
    shared: tuple[tuple[str, ...], ...] = ()
    if random.random() < 0.4:
        users = [KitUser(u.id, u.target_g, None, None, u.bare_bar) for u in users]
        pairs = [("u0", "u1")] + ([("u2", "u3")] if count == 4 and random.random() < 0.5 else [])
        shared = tuple(pairs)
    return KitProblem(
        bars,
        plates(tuple(random.randrange(0, 3) for _ in range(3)), (5_000, 2_500, 1_250)),
        tuple(users),
        2,
        shared,
        plates_stay_with_bar=random.random() < 0.3,
    )


def faults(problem: KitProblem, solution: KitSolution) -> list[str]:
    """Everything wrong with a plan, worked out from the problem alone."""
    bars = {bar.id: bar for bar in problem.bars}
    users = {user.id: user for user in problem.users}
    found = []
    if sorted(load.user for load in solution.loads) != sorted(users):
        found.append("not everybody has exactly one load")
    places = Counter((load.bar, load.wave) for load in solution.loads)
    found += [f"two users at {place}" for place, count in places.items() if count > 1]
    for load in solution.loads:
        user, bar = users[load.user], bars[load.bar]
        hung = 2 * sum(mass * count for mass, count in load.per_side)
        if load.load_g != bar.mass_g + hung:
            found.append(f"{load.user}: the plates do not add up")
        if load.load_g > user.target_g:
            found.append(f"{load.user}: above target")
        if user.bare_bar and hung:
            found.append(f"{load.user}: plates on a bare bar")
        if bar.maximum_plates_g is not None and hung > bar.maximum_plates_g:
            found.append(f"{load.user}: too much on {bar.id}")
        if user.bars is not None and load.bar not in user.bars:
            found.append(f"{load.user}: a bar he may not use")
        if user.wave not in (None, load.wave) or not 1 <= load.wave <= problem.waves:
            found.append(f"{load.user}: wrong wave")
    return found + _stock_faults(problem, solution) + _shared_faults(problem, solution)


def _stock_faults(problem: KitProblem, solution: KitSolution) -> list[str]:
    stock = {size.mass_g: size.pairs for size in problem.plates}
    found = []
    beside: Counter[tuple[str, int]] = Counter()
    for wave in range(1, problem.waves + 1):
        used: Counter[int] = Counter()
        for load in solution.loads:
            for mass, count in load.per_side:
                used[mass] += count if load.wave == wave else 0
                beside[load.bar, mass] = max(beside[load.bar, mass], count)
        found += [f"wave {wave}: {m} g" for m, n in used.items() if n > stock.get(m, 0)]
    if problem.plates_stay_with_bar:
        kept: Counter[int] = Counter()
        for (_, mass), count in beside.items():
            kept[mass] += count
        found += [f"beside the bars: {m} g" for m, n in kept.items() if n > stock.get(m, 0)]
    return found


def _shared_faults(problem: KitProblem, solution: KitSolution) -> list[str]:
    bar_of = {load.user: load.bar for load in solution.loads}
    found = []
    for group in problem.shared:
        mine = {bar_of[name] for name in group}
        others = {bar for name, bar in bar_of.items() if name not in group}
        if len(mine) != 1 or mine & others:
            found.append(f"{group} do not have one bar to themselves")
    return found


def goals_of(solution: KitSolution) -> tuple[Fraction, int, int, int]:
    """The four goals, worked out from the loads alone."""
    by_bar: dict[str, list[tuple[int, Counter[int]]]] = {}
    for load in solution.loads:
        by_bar.setdefault(load.bar, []).append((load.wave, Counter(dict(load.per_side))))
    moves = handled = 0
    for uses in by_bar.values():
        ordered = [counts for _, counts in sorted(uses, key=lambda use: use[0])]
        for before, after in pairwise(ordered):
            moves += sum(((before - after) + (after - before)).values())
        most: Counter[int] = Counter()
        for counts in ordered:
            most |= counts
        handled += sum(most.values())
    return (
        max(Fraction(load.target_g - load.load_g, load.target_g) for load in solution.loads),
        sum(load.target_g - load.load_g for load in solution.loads),
        moves,
        handled,
    )
