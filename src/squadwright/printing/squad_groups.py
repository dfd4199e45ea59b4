"""Groups as they are named on paper: one name where an athlete stays with the same people."""

from dataclasses import dataclass

from squadwright.model.plan import GroupLine, Plan
from squadwright.printing.wording import with_wave_letters


@dataclass(frozen=True)
class GroupRow:
    """Who works together, and in which blocks; ``block`` is empty where it is in all of them."""

    block: str
    name: str
    athletes: tuple[str, ...]

    @property
    def full_name(self) -> str:
        """The name, with the blocks where the group is not the same throughout."""
        return f"{self.name} ({self.block})" if self.block else self.name


def group_rows(plan: Plan) -> tuple[GroupRow, ...]:
    """Groups, less those that only repeat who shares a bar."""
    on_one_bar = {frozenset(u.athlete for u in bar.wave_users) for bar in plan.bars}
    lines = [g for g in plan.groups if frozenset(g.athletes) not in on_one_bar]
    blocks_of: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for line in lines:
        blocks_of.setdefault((_own_name(line), line.athletes), []).append(line.block)
    every_block = {line.block for line in lines}
    return tuple(
        GroupRow(
            "" if set(blocks) == every_block else ", ".join(blocks),
            name,
            tuple(plan.shown_name(athlete) for athlete in athletes),
        )
        for (name, athletes), blocks in blocks_of.items()
    )


def groups_of(plan: Plan) -> dict[str, tuple[str, ...]]:
    """Names of the groups of each athlete who has no bar, by shown name."""
    found: dict[str, dict[str, list[str]]] = {}
    for line in plan.groups:
        if line.bar is not None or line.wave is not None:
            continue
        for athlete in line.athletes:
            own = found.setdefault(plan.shown_name(athlete), {})
            own.setdefault(_own_name(line), []).append(line.block)
    return {
        name: tuple(
            group if len(own) == 1 else f"{group} ({', '.join(dict.fromkeys(blocks))})"
            for group, blocks in own.items()
        )
        for name, own in found.items()
    }


def _own_name(line: GroupLine) -> str:
    """The name without the name of its block ("A group 1" in block A is group 1)."""
    prefix = f"{line.block} "
    name = line.name[len(prefix) :] if line.name.startswith(prefix) else line.name
    return with_wave_letters(name)
