"""Use case of a thin store: what else would work, and what one pair is worth."""

from dataclasses import dataclass

from squadwright.errors import NoSolution, OutOfTime
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import Session
from squadwright.planning.alternatives import Alternative, Effect, alternatives, effect_of
from squadwright.planning.bars_of_plan import blocks_with_bars, kit_problem_of
from squadwright.planning.kit.prices import price_of_missing_pair, value_of_one_more_pair
from squadwright.planning.needed import needed
from squadwright.services.in_mind import InMind
from squadwright.services.planning import ShownSession
from squadwright.services.unit_of_work import Keeper
from squadwright.words import capital


@dataclass(frozen=True)
class WaysOut:
    """The plan as it is, the other ways, and what one pair less or more of each mass does."""

    now: Effect
    ways: tuple[Alternative, ...]
    worth: tuple[str, ...]


_MadeFrom = tuple[Session, Plan, Club]
_in_mind: InMind[tuple[str, str], _MadeFrom, WaysOut] = InMind(most_keys=16, most_of_a_key=2)


def ways_in_mind(keeper: Keeper, shown: ShownSession) -> WaysOut | None:
    """The ways out, where they were worked out for the session and its plan as they are."""
    if shown.plan is None:
        return None
    return _in_mind.find(_key(keeper, shown), _made_from(shown, shown.plan))


def work_out_ways(keeper: Keeper, shown: ShownSession) -> WaysOut | None:
    """Plan every other way; None where nobody has a bar."""
    plan = shown.plan
    if plan is None or not plan.bars:
        return None
    known = ways_in_mind(keeper, shown)
    if known is not None:
        return known
    found = WaysOut(
        effect_of(plan),
        alternatives(shown.club, shown.session, plan),
        _worth(shown.club, shown.session, plan),
    )
    _in_mind.keep(_key(keeper, shown), _made_from(shown, plan), found)
    return found


def _key(keeper: Keeper, shown: ShownSession) -> tuple[str, str]:
    return keeper.shown, shown.session.id


def _made_from(shown: ShownSession, plan: Plan) -> _MadeFrom:
    return shown.session, plan, needed(shown.club, shown.session)


def _worth(club: Club, session: Session, plan: Plan) -> tuple[str, ...]:
    """What one pair less costs and one more brings, where it changes anything."""
    said: list[str] = []
    for block in blocks_with_bars(plan):
        problem = kit_problem_of(plan, club.kit, session, block)
        try:
            prices = (*value_of_one_more_pair(problem), *price_of_missing_pair(problem))
        except (NoSolution, OutOfTime) as error:
            said.append(str(error))
            continue
        said += [f"{capital(p.sentence)}." for p in prices if p.changes_anything]
    return tuple(said)
