"""Where everybody may stand, and a first plan made by hand: heavy first.

The first plan is what a careful coach does alone: put neighbours in the order of targets on one
bar, then load the heaviest bars first with the biggest plates left. It gives the solver a start
and a limit, and it tells whether any plan exists: plates may be left off, bars may not.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from squadwright.errors import NoSolution, SquadwrightError
from squadwright.planning.kit.loads import Place, ceiling_g, may_use
from squadwright.planning.kit.problem import KitBar, KitLoad, KitProblem, KitUser


class NoPlaceOnABar(NoSolution):
    """Some athlete cannot be given any bar, whatever the plates."""


class TimeRanOut(SquadwrightError):
    """No plan was found and none was ruled out."""

    exit_code = 8


def open_places(problem: KitProblem) -> dict[str, tuple[Place, ...]]:
    """Bars and waves each user may take; raise NoPlaceOnABar when somebody has none."""
    places: dict[str, tuple[Place, ...]] = {}
    for user in problem.users:
        bars = [bar for bar in problem.bars if may_use(user, bar)]
        if not bars:
            raise NoPlaceOnABar(_no_bar_message(problem, user))
        waves = range(1, problem.waves + 1) if user.wave is None else (user.wave,)
        places[user.id] = tuple((user.id, bar.id, wave) for bar in bars for wave in waves)
    return places


def _no_bar_message(problem: KitProblem, user: KitUser) -> str:
    named = [bar for bar in problem.bars if user.bars is None or bar.id in user.bars]
    lightest = min(named, key=lambda bar: (bar.mass_g, bar.id))
    allowed = "of the bars named for this athlete" if user.bars else "in the store"
    return (
        f"{user.id}: the target {user.target_g / 1000:g} kg is below the bare bar {lightest.id} "
        f"({lightest.mass_g / 1000:g} kg), the lightest {allowed}. "
        f"Bring a bar of {user.target_g / 1000:g} kg or less, "
        f"or choose an exercise without a bar for this athlete"
    )


@dataclass
class _Seating:
    """Augmenting paths: groups take whole bars, the others take single places."""

    problem: KitProblem
    places: Mapping[str, tuple[Place, ...]]
    taken: dict[tuple[str, int], str] = field(default_factory=dict)

    def seat(self, user: str, closed: set[str], tried: set[tuple[str, int]]) -> bool:
        """Seat one user, moving others if needed."""
        for _, bar, wave in self.places[user]:
            spot = (bar, wave)
            if bar in closed or spot in tried:
                continue
            tried.add(spot)
            holder = self.taken.get(spot)
            if holder is None or self.seat(holder, closed, tried):
                self.taken[spot] = user
                return True
        return False


def group_bars(
    problem: KitProblem, places: Mapping[str, tuple[Place, ...]]
) -> dict[int, list[KitBar]]:
    """Bars each shared group may take, heaviest first."""
    result: dict[int, list[KitBar]] = {}
    for index, group in enumerate(problem.shared):
        sets = [{bar for _, bar, _ in places[user]} for user in group]
        common = set.intersection(*sets)
        bars = [bar for bar in problem.bars if bar.id in common]
        if not bars:
            raise NoPlaceOnABar(
                f"shared[{index}] ({', '.join(group)}): no bar suits all of them, the bare bar is "
                f"too heavy for the lightest or they are tied to different bars. "
                f"Change who shares this bar, or bring a lighter bar"
            )
        result[index] = sorted(bars, key=lambda bar: (-bar.mass_g, problem.bars.index(bar)))
    return result


def seats_by_hand(
    problem: KitProblem, places: Mapping[str, tuple[Place, ...]]
) -> dict[str, tuple[str, int]]:
    """A bar and a wave for everybody, neighbours in target on one bar; {} when not found.

    Exact when nobody or everybody is in a shared group; with both it may miss a plan.
    """
    targets = {user.id: user.target_g for user in problem.users}
    bars_of_group = group_bars(problem, places)
    holder: dict[str, int] = {}

    def take(index: int, tried: set[str]) -> bool:
        for bar in bars_of_group[index]:
            if bar.id in tried:
                continue
            tried.add(bar.id)
            if bar.id not in holder or take(holder[bar.id], tried):
                holder[bar.id] = index
                return True
        return False

    heavy_first = sorted(
        bars_of_group, key=lambda index: -max(targets[name] for name in problem.shared[index])
    )
    if not all(take(index, set()) for index in heavy_first):
        return {}
    seats = {
        user: (bar, wave)
        for bar, index in holder.items()
        for user, wave in _waves_of_group(problem, problem.shared[index]).items()
    }
    return _seat_the_others(problem, places, seats, set(holder))


def _seat_the_others(
    problem: KitProblem,
    places: Mapping[str, tuple[Place, ...]],
    seats: dict[str, tuple[str, int]],
    closed: set[str],
) -> dict[str, tuple[str, int]]:
    mass = {bar.id: bar.mass_g for bar in problem.bars}
    order = {bar.id: number for number, bar in enumerate(problem.bars)}
    sorted_places = {
        user: tuple(sorted(spots, key=lambda spot: (-mass[spot[1]], order[spot[1]], spot[2])))
        for user, spots in places.items()
    }
    seating = _Seating(problem, sorted_places)
    free = [user for user in problem.users if user.id not in seats]
    for user in sorted(free, key=lambda user: (-user.target_g, user.id)):
        if not seating.seat(user.id, closed, set()):
            return {}
    return seats | {user: spot for spot, user in seating.taken.items()}


def _waves_of_group(problem: KitProblem, group: tuple[str, ...]) -> dict[str, int]:
    users = problem.user_by_id
    waves = {name: wave for name in group if (wave := users[name].wave) is not None}
    spare = [wave for wave in range(1, problem.waves + 1) if wave not in waves.values()]
    loose = sorted((name for name in group if name not in waves), key=lambda n: users[n].target_g)
    return waves | dict(zip(loose, spare, strict=False))


def load_heavy_first(
    problem: KitProblem, seats: Mapping[str, tuple[str, int]]
) -> tuple[KitLoad, ...]:
    """Load the seats, in each wave the highest target first, biggest plates first."""
    bars = problem.bar_by_id
    sizes = sorted(problem.plates, key=lambda size: -size.mass_g)
    left = {
        (wave, size.mass_g): size.pairs for wave in range(1, problem.waves + 1) for size in sizes
    }
    beside: dict[tuple[str, int], int] = {}
    loads = []
    for user in sorted(problem.users, key=lambda user: (-user.target_g, user.id)):
        bar_id, wave = seats[user.id]
        bar = bars[bar_id]
        room = (ceiling_g(user, bar) - bar.mass_g) // 2
        per_side = []
        for size in sizes:
            stock = left[wave, size.mass_g] + beside.get((bar_id, size.mass_g), 0)
            count = min(stock, room // size.mass_g)
            if count:
                room -= count * size.mass_g
                per_side.append((size.mass_g, count))
                _take(problem, left, beside, bar_id, wave, size.mass_g, count)
        mass_g = bar.mass_g + 2 * sum(mass * count for mass, count in per_side)
        loads.append(KitLoad(user.id, bar_id, wave, user.target_g, mass_g, tuple(per_side)))
    order = {bar.id: index for index, bar in enumerate(problem.bars)}
    return tuple(sorted(loads, key=lambda load: (order[load.bar], load.wave)))


def _take(
    problem: KitProblem,
    left: dict[tuple[int, int], int],
    beside: dict[tuple[str, int], int],
    bar_id: str,
    wave: int,
    mass_g: int,
    count: int,
) -> None:
    """Book plates: for the wave, or, when they stay with the bar, for every wave."""
    if not problem.plates_stay_with_bar:
        left[wave, mass_g] -= count
        return
    fetched = max(0, count - beside.get((bar_id, mass_g), 0))
    if fetched:
        beside[bar_id, mass_g] = beside.get((bar_id, mass_g), 0) + fetched
        for each in range(1, problem.waves + 1):
            left[each, mass_g] -= fetched
