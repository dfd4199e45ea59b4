"""What to fetch and where to put it before anyone arrives, in the order of the store walk."""

from collections import Counter
from collections.abc import Iterator

from squadwright.model.kit import Kit
from squadwright.model.marks import bar_number
from squadwright.model.plan import BarPlan, Dose, GroupLine, SetUpItem

NO_GROUP = "the store table"


def set_up_items(
    kit: Kit, bars: tuple[BarPlan, ...], doses: tuple[Dose, ...], groups: tuple[GroupLine, ...]
) -> tuple[SetUpItem, ...]:
    """Everything the session uses, in store-walk order, each thing with where it goes."""
    by_place = {
        "bars": _bars(bars),
        "plates": _plates(kit, bars),
        "collars": _collars(bars),
        "balls": _balls(kit, doses, groups),
        "boxes": _boxes(doses, groups),
    }
    return tuple(item for place in kit.store_walk for item in by_place.get(place, ()))


def _station(index: int) -> str:
    return f"bar {bar_number(index)}"


def _bars(bars: tuple[BarPlan, ...]) -> Iterator[SetUpItem]:
    for index, bar in enumerate(bars):
        yield SetUpItem("bars", f"{bar.name} ({bar.bar_kg:g} kg)", 1, _station(index))


def _pairs(bar: BarPlan, wave: int) -> Counter[float]:
    needed: Counter[float] = Counter()
    for user in bar.wave_users:
        if user.wave == wave:
            for plates in user.per_side:
                needed[plates.plate_kg] += plates.count
    return needed


def _plates(kit: Kit, bars: tuple[BarPlan, ...]) -> Iterator[SetUpItem]:
    """Plates of the first wave on the bar; those for later waves beside it while stock lasts."""
    left: Counter[float] = Counter()
    for plate in kit.plates:
        if plate.in_service:
            left[round(plate.plate.kg, 3)] += plate.pairs
    first = {index: _pairs(bar, _first_wave(bar)) for index, bar in enumerate(bars)}
    for needed in first.values():
        for size, count in needed.items():
            left[round(size, 3)] -= count
    for index, bar in enumerate(bars):
        for size, count in sorted(first[index].items(), reverse=True):
            yield SetUpItem("plates", f"{size:g} kg pair", count, f"on {_station(index)}")
        later: Counter[float] = Counter()
        for wave in {u.wave for u in bar.wave_users} - {_first_wave(bar)}:
            later |= _pairs(bar, wave)
        for size, count in sorted((later - first[index]).items(), reverse=True):
            beside = min(count, max(0, left[round(size, 3)]))
            left[round(size, 3)] -= beside
            if beside:
                yield SetUpItem("plates", f"{size:g} kg pair", beside, f"beside {_station(index)}")


def _first_wave(bar: BarPlan) -> int:
    return min((u.wave for u in bar.wave_users), default=1)


def _collars(bars: tuple[BarPlan, ...]) -> Iterator[SetUpItem]:
    for index, bar in enumerate(bars):
        if any(user.per_side for user in bar.wave_users):
            yield SetUpItem("collars", "good pair of collars", 1, _station(index))


def _balls(kit: Kit, doses: tuple[Dose, ...], groups: tuple[GroupLine, ...]) -> Iterator[SetUpItem]:
    """Each ball once for each group that uses it, however many exercises it is used in."""
    mass_of = {ball.id: ball.mass for ball in kit.balls}
    bounces = {ball.id: ball.bounces for ball in kit.balls}
    users: set[tuple[str, str]] = set()
    for dose in doses:
        for planned in dose.exercises:
            if planned.ball is not None:
                users.add((planned.ball, _group(groups, dose.athlete, planned.block)))
    for ball, group in sorted(users, key=lambda u: (mass_of[u[0]].kg, u[1])):
        kind = "bouncing ball" if bounces[ball] else "ball that does not bounce"
        yield SetUpItem("balls", f"{mass_of[ball]} {kind}", 1, group)


def _group(groups: tuple[GroupLine, ...], athlete: str, block: str) -> str:
    named = [g.name for g in groups if athlete in g.athletes and g.block == block]
    return named[-1] if named else NO_GROUP


def _boxes(doses: tuple[Dose, ...], groups: tuple[GroupLine, ...]) -> Iterator[SetUpItem]:
    """Each box with the heights it is set to and the groups that use it."""
    heights: dict[str, set[float]] = {}
    users: dict[str, set[str]] = {}
    for dose in doses:
        for planned in dose.exercises:
            if planned.box is None or planned.box_height_m is None:
                continue
            heights.setdefault(planned.box, set()).add(planned.box_height_m)
            in_block = [
                g.name
                for g in groups
                if dose.athlete in g.athletes and planned.block in ("", g.block)
            ]
            users.setdefault(planned.box, set()).update(in_block)
    for box, used in sorted(heights.items()):
        settings = ", ".join(f"{height * 100:.0f}" for height in sorted(used))
        yield SetUpItem(
            "boxes", f"box {box}, set to {settings} cm", 1, ", ".join(sorted(users[box]))
        )
