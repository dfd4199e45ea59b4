"""Rules about bars and plates: what is used is in the store, once at a time, and added up right."""

import math
from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import pairwise

from squadwright.model.kit import Bar
from squadwright.model.plan import BarPlan, BarUser, Basis, KitBound
from squadwright.planning.verify.day import Day, Fault, grams

BOUND_SLACK = 1e-6


def each_bar_stands_once(day: Day) -> Iterator[Fault]:
    """A bar has one line in a block."""
    lines = Counter((bar.bar, bar.block) for bar in day.plan.bars)
    for (bar, block), count in lines.items():
        if count > 1:
            yield Fault("bars", f"{bar} has {count} lines in {block or 'the plan'}")


def bars_are_in_service(day: Day) -> Iterator[Fault]:
    """A bar is in the store, in service, and has the mass the plan says."""
    store = _store(day)
    for index, line in enumerate(day.plan.bars):
        bar = store.get(line.bar)
        if bar is None or not bar.in_service:
            yield Fault(f"bars[{index}]", f"{line.bar} is not a bar in service")
        elif grams(line.bar_kg) != grams(bar.mass.kg):
            yield Fault(
                f"bars[{index}]", f"{line.bar} weighs {bar.mass.kg:g} kg, not {line.bar_kg:g} kg"
            )


def one_user_for_a_bar_and_wave(day: Day) -> Iterator[Fault]:
    """In a wave a bar has one user; in a block an athlete has one bar."""
    for index, line in enumerate(day.plan.bars):
        for wave, users in Counter(user.wave for user in line.wave_users).items():
            if users > 1:
                yield Fault(f"bars[{index}]", f"{line.bar} has {users} users in wave {wave}")
    places = Counter((u.athlete, line.block) for line in day.plan.bars for u in line.wave_users)
    for (athlete, _), count in places.items():
        if count > 1:
            yield Fault("bars", f"{day.named(athlete)} has {count} places on bars")


def plates_are_in_the_store(day: Day) -> Iterator[Fault]:
    """In a wave no more pairs of a measured mass are on the bars than are in service."""
    stock: Counter[int] = Counter()
    for plate in day.club.kit.plates:
        if plate.in_service:
            stock[grams(plate.plate.kg)] += plate.pairs
    used: dict[tuple[str, int], Counter[int]] = {}
    for line in day.plan.bars:
        for user in line.wave_users:
            used.setdefault((line.block, user.wave), Counter()).update(_side(user))
    for (block, wave), pairs in used.items():
        for mass, count in pairs.items():
            if count > stock[mass]:
                yield Fault(
                    f"bars, {block} wave {wave}",
                    f"{count} pairs of {mass / 1000:g} kg; the store has {stock[mass]}",
                )


def nothing_heavier_than_a_bar_bears(day: Day) -> Iterator[Fault]:
    """What hangs on a bar is at most its maximum load, the technique bar's included."""
    store = _store(day)
    for place, bar_id, user in day.bar_users():
        bar = store.get(bar_id)
        hung = 2 * sum(mass * count for mass, count in _side(user).items())
        if bar is not None and bar.maximum_load is not None:
            most = grams(bar.maximum_load.kg)
            if hung > most:
                yield Fault(
                    place, f"{hung / 1000:g} kg hang on {bar_id}; it bears {most / 1000:g} kg"
                )


def technique_users_have_a_technique_bar(day: Day) -> Iterator[Fault]:
    """A load that rests on the technique bar lies on a bar marked as one."""
    store = _store(day)
    bars = {user.athlete: bar for _, bar, user in day.bar_users()}
    for place, dose in day.doses():
        bar = store.get(bars.get(dose.athlete, ""))
        if dose.load_kg is None or dose.basis is not Basis.TECHNIQUE_BAR or bar is None:
            continue
        if not bar.is_technique_bar:
            yield Fault(place, f"{bar.id} is not a technique bar")


def shortfalls_are_added_up_right(day: Day) -> Iterator[Fault]:
    """Largest and total shortfall are those of the loads on the bars, in whole grams."""
    bound = day.plan.kit_bound
    users = [user for _, _, user in day.bar_users()]
    if bound is None:
        if users:
            yield Fault("kit_bound", f"{len(users)} people have a bar, and nothing is said of it")
        return
    largest, total = 0.0, 0
    for user in users:
        target = math.floor(user.target_kg * 1000 + 1e-6)
        short = target - grams(user.load_kg)
        largest = max(largest, short / target if target else 0.0)
        total += short
    if abs(bound.largest_shortfall_fraction - largest) > BOUND_SLACK:
        yield Fault("kit_bound", _differs("largest shortfall", bound.largest_shortfall_fraction,
                                          largest, "of the target"))  # fmt: skip
    if grams(bound.total_shortfall_kg) != total:
        yield Fault(
            "kit_bound", _differs("total shortfall", bound.total_shortfall_kg, total / 1000, "kg")
        )


def plates_are_counted_right(day: Day) -> Iterator[Fault]:
    """Plate moves are plates of one end put on or taken off between the users of a bar; plates
    handled are the pairs a bar needs over all its waves.
    """
    bound = day.plan.kit_bound
    if bound is None:
        return
    moves = sum(_moves(line) for line in day.plan.bars)
    handled = sum(_handled(line) for line in day.plan.bars)
    if bound.plate_moves != moves:
        yield Fault("kit_bound", _differs("plate moves", bound.plate_moves, moves, "plates"))
    if bound.plates_handled != handled:
        yield Fault("kit_bound", _differs("plates handled", bound.plates_handled, handled, "pairs"))


def bound_is_a_bound(day: Day) -> Iterator[Fault]:
    """No plan can be better than its bound, and a proven one has reached it."""
    bound: KitBound | None = day.plan.kit_bound
    if bound is None:
        return
    value, least = bound.largest_shortfall_fraction, bound.largest_shortfall_bound
    if least > value + BOUND_SLACK:
        yield Fault("kit_bound", f"a shortfall of {value:g} is below its bound of {least:g}")
    elif bound.proven and value > least + BOUND_SLACK:
        yield Fault("kit_bound", f"proven at {value:g}, and its bound is {least:g}")


def _store(day: Day) -> Mapping[str, Bar]:
    return {bar.id: bar for bar in day.club.kit.bars}


def _side(user: BarUser) -> Counter[int]:
    side: Counter[int] = Counter()
    for plates in user.per_side:
        side[grams(plates.plate_kg)] += plates.count
    return side


def _moves(line: BarPlan) -> int:
    sides = [_side(user) for user in sorted(line.wave_users, key=lambda user: user.wave)]
    return sum(((after - before) + (before - after)).total() for before, after in pairwise(sides))


def _handled(line: BarPlan) -> int:
    most: Counter[int] = Counter()
    for user in line.wave_users:
        most |= _side(user)
    return most.total()


def _differs(what: str, said: float, counted: float, unit: str) -> str:
    return f"{what} {said:g} {unit}; counted again: {counted:g} {unit}"


RULES = (
    each_bar_stands_once,
    bars_are_in_service,
    one_user_for_a_bar_and_wave,
    plates_are_in_the_store,
    nothing_heavier_than_a_bar_bears,
    technique_users_have_a_technique_bar,
    shortfalls_are_added_up_right,
    plates_are_counted_right,
    bound_is_a_bound,
)
