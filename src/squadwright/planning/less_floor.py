"""What is run otherwise because the floor takes fewer stations or places than wanted."""

from collections.abc import Sequence
from dataclasses import dataclass

from squadwright.library import exercise as library_exercise
from squadwright.model.routine import RestKind, Style
from squadwright.planning.block_plan import BlockPlan
from squadwright.planning.floor_plan import LaidOut
from squadwright.planning.session_time import complex_cycle_s


@dataclass(frozen=True)
class LessFloor:
    """A block that the floor makes run otherwise.

    ``before`` and ``after`` say how, ``longer_s`` how much longer a round of it takes.
    """

    block: str
    what: str
    wanted: int
    fits: int
    before: str
    after: str
    longer_s: int = 0


def places_that_fit(floor: LaidOut, plans: Sequence[BlockPlan]) -> dict[str, int]:
    """Stations or places by block, where the floor takes fewer than wanted but at least one.

    Only where people take turns in a place: where all of a group work at once, a larger group
    needs a larger place, and nothing is won.
    """
    in_turns = {
        plan.block.name
        for plan in plans
        if plan.block.style is Style.COMPLEX
        or plan.block.lane is not None
        or plan.block.rest.kind is RestKind.PARTNER_WORKS
    }
    return {n.block: n.fits for n in floor.no_room if n.fits and n.block in in_turns}


def is_better(now: LaidOut, before: LaidOut) -> bool:
    """Whether fewer stations are left without a place."""
    return _left_out(now) < _left_out(before)


def _left_out(floor: LaidOut) -> int:
    return sum(trouble.wanted - trouble.fits for trouble in floor.no_room)


def less_floor(
    before: Sequence[BlockPlan], after: Sequence[BlockPlan], floor: LaidOut
) -> tuple[LessFloor, ...]:
    """How each block is run now; ``floor`` is that of the plan ``before``."""
    now = {plan.block.name: plan for plan in after}
    found = []
    for trouble in floor.no_room:
        was = next(plan for plan in before if plan.block.name == trouble.block)
        plan = now.get(trouble.block)
        if plan is None:
            continue
        if was.waves and plan.waves > was.waves:
            cycles = [complex_cycle_s(p.block, p.waves, library_exercise)[1] for p in (was, plan)]
            words = (f"{was.waves} waves", f"{plan.waves} waves")
            longer_s = cycles[1] - cycles[0]
        elif len(plan.groups) < len(was.groups):
            words = (f"{len(was.groups)} groups", f"{len(plan.groups)} groups")
            longer_s = 0
        else:
            continue
        found.append(
            LessFloor(trouble.block, trouble.what, trouble.wanted, trouble.fits, *words, longer_s)
        )
    return tuple(found)
