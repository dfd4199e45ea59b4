"""The plate problem of a planned complex again: same people, same partners, any bar and plates."""

from dataclasses import dataclass, replace

from squadwright.model.kit import Kit
from squadwright.model.plan import BarPlan, Basis, Plan
from squadwright.model.session import Session
from squadwright.planning.kit.measures import total_shortfall_g
from squadwright.planning.kit.problem import (
    KitLoad,
    KitProblem,
    KitSolution,
    KitUser,
)
from squadwright.planning.kit.remembered import remembered_plan
from squadwright.planning.kit_in_service import GRAMS, kit_bars, plate_sizes, usable_bars
from squadwright.planning.kit_there import kit_there


@dataclass(frozen=True)
class OneLoadPerBar:
    """Everybody on a bar lifts the same, so no plate is moved in a change-over.

    ``two_loads`` names bars that keep two loads: the bare technique bar, where plates go on for
    the other user.
    """

    loads: tuple[KitLoad, ...]
    two_loads: tuple[str, ...]

    @property
    def largest_shortfall_fraction(self) -> float:
        """The largest shortfall of anybody from his own target."""
        return float(max(load.shortfall_fraction for load in self.loads))

    @property
    def total_shortfall_kg(self) -> float:
        """All shortfalls added up [kg]."""
        return total_shortfall_g(self.loads) / GRAMS


def blocks_with_bars(plan: Plan) -> tuple[str, ...]:
    """The complexes of a plan that somebody lifts in."""
    return tuple(dict.fromkeys(bar.block for bar in plan.bars))


def kit_problem_of(plan: Plan, kit: Kit, session: Session, block: str) -> KitProblem:
    """Who shares a bar stays as planned; which bar it is and what lies on it is open."""
    kit = kit_there(kit, session.missing)
    lines = [bar for bar in plan.bars if bar.block == block]
    learners = _learners(plan, block)
    named = {o.athlete: o.bar for o in session.overrides if o.bar and o.block in ("", block)}
    technique = tuple(bar.id for bar in usable_bars(kit) if bar.is_technique_bar)
    users = []
    for line in lines:
        for user in line.wave_users:
            allowed = technique if user.athlete in learners else None
            if allowed is None and user.athlete in named:
                allowed = (named[user.athlete],)
            users.append(
                KitUser(
                    id=user.athlete,
                    target_g=int(user.target_kg * GRAMS + 1e-6),
                    wave=user.wave,
                    bars=allowed,
                    bare_bar=user.athlete in learners,
                )
            )
    return KitProblem(
        bars=kit_bars(kit),
        plates=plate_sizes(kit),
        users=tuple(users),
        waves=max(user.wave for line in lines for user in line.wave_users),
        shared=tuple(tuple(u.athlete for u in line.wave_users) for line in lines),
    )


def one_load_per_bar(plan: Plan, kit: Kit, session: Session, block: str) -> OneLoadPerBar:
    """The heaviest loads with which nobody has to change a plate between the waves."""
    problem = kit_problem_of(plan, kit, session, block)
    learners = _learners(plan, block)
    by_id = problem.user_by_id
    lines = [bar for bar in plan.bars if bar.block == block]
    alike = {line.bar: [by_id[u.athlete] for u in line.wave_users] for line in lines}
    together = {b: u for b, u in alike.items() if not any(each.id in learners for each in u)}
    stations = [_station(bar, users) for bar, users in together.items()]
    apart = [users for bar, users in alike.items() if bar not in together]
    found = remembered_plan(
        replace(
            problem,
            users=(*stations, *(user for users in apart for user in users)),
            shared=(
                *((station.id,) for station in stations),
                *(tuple(user.id for user in users) for users in apart),
            ),
            plates_stay_with_bar=True,
        )
    )
    return OneLoadPerBar(_own_loads(found, together), _changing(found, apart, lines))


def _learners(plan: Plan, block: str) -> frozenset[str]:
    return frozenset(
        d.athlete for d in plan.doses if d.block == block and d.basis is Basis.TECHNIQUE_BAR
    )


def _station(bar: str, users: list[KitUser]) -> KitUser:
    """All users of a bar as one, with the lightest target of them."""
    named = next((user.bars for user in users if user.bars is not None), None)
    return KitUser(f"all of {bar}", min(u.target_g for u in users), 1, named)


def _own_loads(found: KitSolution, together: dict[str, list[KitUser]]) -> tuple[KitLoad, ...]:
    loads = {load.user: load for load in found.loads}
    own = [load for load in found.loads if not load.user.startswith("all of ")]
    for bar, users in together.items():
        station = loads[f"all of {bar}"]
        own += [
            replace(station, user=user.id, wave=user.wave or 1, target_g=user.target_g)
            for user in users
        ]
    return tuple(sorted(own, key=lambda load: (load.bar, load.wave)))


def _changing(
    found: KitSolution, apart: list[list[KitUser]], lines: list[BarPlan]
) -> tuple[str, ...]:
    loads = {load.user: load for load in found.loads}
    names = {line.bar: line.name for line in lines}
    return tuple(
        names.get(loads[users[0].id].bar, loads[users[0].id].bar)
        for users in apart
        if len({loads[user.id].per_side for user in users}) > 1
    )
