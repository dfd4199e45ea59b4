"""What to fetch and where to put it before anyone arrives, in the order of the store walk."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence

from squadwright.model.kit import Kit
from squadwright.model.marks import bar_number
from squadwright.model.plan import BarPlan, Dose, GroupLine, RunLine, SetUpItem
from squadwright.planning.drill_block import ROW_POOL
from squadwright.planning.drill_groups import box_type

NO_GROUP = "the store table"


def set_up_items(
    kit: Kit,
    bars: tuple[BarPlan, ...],
    doses: tuple[Dose, ...],
    groups: tuple[GroupLine, ...],
    run_sheet: tuple[RunLine, ...],
    row_boxes: Mapping[str, int],
) -> tuple[SetUpItem, ...]:
    """Everything the session uses, in store-walk order, each thing with where it goes.

    ``row_boxes`` are the boxes of one row, by block in lanes.
    """
    by_place = {
        "bars": _bars(bars),
        "plates": _heaviest_first(_plates(kit, bars)),
        "collars": _collars(kit, bars),
        "balls": _balls(kit, doses, groups),
        "boxes": (
            *_rows(kit, doses, run_sheet, row_boxes),
            *_boxes(kit, doses, groups, run_sheet, row_boxes),
        ),
    }
    return tuple(item for place in kit.store_walk for item in by_place.get(place, ()))


def _station(index: int) -> str:
    return f"bar {bar_number(index)}"


def _bars(bars: tuple[BarPlan, ...]) -> Iterator[SetUpItem]:
    for index, bar in enumerate(bars):
        item = f"{bar.name} ({bar.bar_kg:g} kg)"
        yield SetUpItem("bars", item, 1, _station(index), (bar.bar,))


def _pairs(bar: BarPlan, wave: int) -> Counter[float]:
    needed: Counter[float] = Counter()
    for user in bar.wave_users:
        if user.wave == wave:
            for plates in user.per_side:
                needed[plates.plate_kg] += plates.count
    return needed


def _heaviest_first(plates: Iterable[tuple[float, SetUpItem]]) -> Iterator[SetUpItem]:
    """Plates as they stand in the store: the heaviest first, each mass in the order of the bars."""
    yield from (item for _, item in sorted(plates, key=lambda plate: -plate[0]))


def _plates(kit: Kit, bars: tuple[BarPlan, ...]) -> Iterator[tuple[float, SetUpItem]]:
    """Plates of the first wave on the bar; those for later waves beside it while stock lasts.

    Each with its mass [kg].
    """
    left: Counter[float] = Counter()
    pieces: dict[float, tuple[str, ...]] = {}
    for plate in kit.plates:
        if plate.in_service:
            mass = round(plate.plate.kg, 3)
            left[mass] += plate.pairs
            pieces[mass] = (*pieces.get(mass, ()), plate.id)
    first = {index: _pairs(bar, _first_wave(bar)) for index, bar in enumerate(bars)}
    for needed in first.values():
        for size, count in needed.items():
            left[round(size, 3)] -= count
    for index, bar in enumerate(bars):
        for size, count in sorted(first[index].items(), reverse=True):
            where = f"on {_station(index)}"
            named = pieces.get(round(size, 3), ())
            yield size, SetUpItem("plates", f"{size:g} kg pair", count, where, named)
        later: Counter[float] = Counter()
        for wave in {u.wave for u in bar.wave_users} - {_first_wave(bar)}:
            later |= _pairs(bar, wave)
        for size, count in sorted((later - first[index]).items(), reverse=True):
            beside = min(count, max(0, left[round(size, 3)]))
            left[round(size, 3)] -= beside
            if beside:
                where = f"beside {_station(index)}"
                named = pieces.get(round(size, 3), ())
                yield size, SetUpItem("plates", f"{size:g} kg pair", beside, where, named)


def _first_wave(bar: BarPlan) -> int:
    return min((u.wave for u in bar.wave_users), default=1)


def _collars(kit: Kit, bars: tuple[BarPlan, ...]) -> Iterator[SetUpItem]:
    good = tuple(each.id for each in kit.collars if each.in_service and each.pairs)
    for index, bar in enumerate(bars):
        if any(user.per_side for user in bar.wave_users):
            yield SetUpItem("collars", "good pair of collars", 1, _station(index), good)


def _balls(kit: Kit, doses: tuple[Dose, ...], groups: tuple[GroupLine, ...]) -> Iterator[SetUpItem]:
    """Each ball once for each group that uses it, however many exercises it is used in."""
    mass_of = {ball.id: ball.mass for ball in kit.balls}
    bounces = {ball.id: ball.bounces for ball in kit.balls}
    users: set[tuple[str, str]] = set()
    for dose in doses:
        for planned in dose.exercises:
            if planned.ball is not None:
                users.add((planned.ball, _group(groups, dose.athlete, planned.block)))
    there = {ball.id: ball.count for ball in kit.balls}
    hands: dict[str, list[str]] = {}
    for ball, group in sorted(users, key=lambda u: (mass_of[u[0]].kg, u[1])):
        hands.setdefault(ball, []).append(group)
    for ball, who in hands.items():
        kind = "bouncing ball" if bounces[ball] else "ball that does not bounce"
        name = f"{mass_of[ball]} {kind}"
        if len(who) > there[ball]:
            in_turn = f"in turn: {', '.join(who)}"
            yield SetUpItem("balls", name, there[ball], in_turn, (ball,))
            continue
        for group in who:
            yield SetUpItem("balls", name, 1, group, (ball,))


def _group(groups: tuple[GroupLine, ...], athlete: str, block: str) -> str:
    named = [g.name for g in groups if athlete in g.athletes and g.block == block]
    return named[-1] if named else NO_GROUP


def _boxes(
    kit: Kit,
    doses: tuple[Dose, ...],
    groups: tuple[GroupLine, ...],
    run_sheet: tuple[RunLine, ...],
    row_boxes: Mapping[str, int],
) -> Iterator[SetUpItem]:
    """Boxes by type, as many as the run sheet holds at once, with their heights and groups."""
    type_of = {box.id: box_type(box) for box in kit.boxes}
    heights: dict[str, set[float]] = {}
    users: dict[str, set[str]] = {}
    for dose in doses:
        for planned in dose.exercises:
            if planned.box is None or planned.box_height_m is None or planned.block in row_boxes:
                continue
            kind = type_of[planned.box]
            heights.setdefault(kind, set()).add(planned.box_height_m)
            in_block = [
                g.name
                for g in groups
                if dose.athlete in g.athletes and planned.block in ("", g.block)
            ]
            users.setdefault(kind, set()).update(in_block)
    for kind, used in sorted(heights.items()):
        settings = ", ".join(f"{height * 100:.0f}" for height in sorted(used))
        yield SetUpItem(
            "boxes",
            f"{kind}, set to {settings} cm",
            max(1, len(_pieces(run_sheet, kind))),
            ", ".join(sorted(users[kind])),
            tuple(box.id for box in kit.boxes if box.in_service and type_of[box.id] == kind),
        )


def _rows(
    kit: Kit,
    doses: tuple[Dose, ...],
    run_sheet: tuple[RunLine, ...],
    row_boxes: Mapping[str, int],
) -> Iterator[SetUpItem]:
    """The rows of each block in lanes, set to the lowest height anybody of it needs."""
    sound = tuple(box.id for box in kit.boxes if box.in_service and box.fit_for_landing)
    for block, boxes in row_boxes.items():
        rows = _pieces([line for line in run_sheet if line.block == block], ROW_POOL)
        heights = [
            planned.box_height_m
            for dose in doses
            for planned in dose.exercises
            if planned.block == block and planned.box_height_m is not None
        ]
        if rows and boxes:
            low = f", set to {min(heights) * 100:.0f} cm" if heights else ""
            name = f"box for a row{low}"
            where = f"{len(rows)} rows of {block}"
            yield SetUpItem("boxes", name, len(rows) * boxes, where, sound)


def _pieces(run_sheet: Sequence[RunLine], pool: str) -> set[str]:
    """The pieces of a pool that the run sheet holds."""
    return {
        name
        for line in run_sheet
        for name in line.kit
        if name == pool or name.removeprefix(f"{pool} ").isdigit()
    }
