"""What an earlier plan of the same session settled, so that a late change leaves the rest alone."""

from squadwright.model.plan import Plan
from squadwright.planning.groups import Group
from squadwright.planning.kit.former import FormerLoad
from squadwright.planning.kit_in_service import GRAMS


def groups_before(plan: Plan | None, block: str) -> tuple[Group, ...]:
    """The groups of a block as they were, with bar and wave of each member where bars are used."""
    if plan is None:
        return ()
    seat = {
        user.athlete: (number, user.wave)
        for number, bar in enumerate((b for b in plan.bars if b.block == block), start=1)
        for user in bar.wave_users
    }
    found = []
    for number, line in enumerate((g for g in plan.groups if g.block == block), start=1):
        members = tuple(a for a in line.athletes if not seat or a in seat)
        if members:
            found.append(
                Group(
                    members=members,
                    kind=line.kind,
                    number=number,
                    bars=tuple(seat[a][0] for a in members) if seat else (),
                    waves=tuple(seat[a][1] for a in members) if seat else (),
                )
            )
    return tuple(found)


def bars_before(plan: Plan | None, block: str) -> dict[str, str]:
    """The bar each lifter of a block had."""
    if plan is None:
        return {}
    return {
        user.athlete: bar.bar for bar in plan.bars if bar.block == block for user in bar.wave_users
    }


def loads_before(plan: Plan | None, block: str) -> dict[str, FormerLoad]:
    """Bar, wave and plates each lifter of a block had."""
    if plan is None:
        return {}
    return {
        user.athlete: FormerLoad(
            bar.bar,
            user.wave,
            tuple((round(each.plate_kg * GRAMS), each.count) for each in user.per_side),
        )
        for bar in plan.bars
        if bar.block == block
        for user in bar.wave_users
    }
