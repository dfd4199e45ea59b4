"""Query: the camp of the club from the Monday of this week, worked out from it; nothing is kept."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from types import MappingProxyType

from squadwright.camp.compare import (
    EventGain,
    SquadGain,
    event_gains,
    squad_gain,
    without_extra,
)
from squadwright.camp.of_club import WEEKS, CampInputs, camp_of_club
from squadwright.camp.problem import CampAthlete, CampProblem, CampSolution, RoundsBefore
from squadwright.camp.recheck import breaches
from squadwright.camp.response import DRAWS
from squadwright.camp.season import Season, season_of
from squadwright.camp.solve import solve_camp
from squadwright.camp.usual_plans import UsualPlan, usual_plans
from squadwright.errors import NoSolution, NotFound, OutOfTime
from squadwright.model.calendar import monday_of
from squadwright.model.club import Club
from squadwright.planning.dose.draws import SEED
from squadwright.services.camp_learning import Evidence, evidence_of, responses_from
from squadwright.services.camp_record import rounds_before
from squadwright.services.clubs import load_club
from squadwright.services.in_mind import InMind
from squadwright.services.unit_of_work import Keeper

FRESH_SEED, FRESH_DRAWS = 20260303, 400
"""Draws that were not used in planning: another seed."""

TIME_LIMIT_S = 20.0
STEPS = (
    "dates, sessions and draws",
    "rounds, and the proof",
    "a second look at every rule",
    "beside the usual plans",
)


@dataclass(frozen=True)
class SquadBeside:
    """The squad's gain over one usual plan: all of it, and what the tapers alone are worth."""

    whole: SquadGain
    tapers_alone: SquadGain


@dataclass(frozen=True)
class CampView:
    """A camp as planned, beside the usual plans; without a plan, ``trouble`` says why."""

    club: Club
    problem: CampProblem
    season: Season
    solution: CampSolution | None = None
    plans: tuple[UsualPlan, ...] = ()
    beside: tuple[SquadBeside, ...] = ()
    gains: tuple[EventGain, ...] = ()
    trouble: str = ""

    def athlete(self, athlete_id: str) -> tuple[int, CampAthlete]:
        """Place and athlete by id; raises NotFound."""
        for number, athlete in enumerate(self.problem.athletes):
            if athlete.id == athlete_id:
                return number, athlete
        raise NotFound(f"no athlete of the camp has the id {athlete_id!r}; see the plan")


Before = Mapping[str, RoundsBefore]
Told = Callable[[str, float | None], None]
"""Told a step, and what share of it is done; None where it has just begun."""

_in_mind: InMind[tuple[str, str], tuple[Club, tuple[Evidence, ...], Before], CampView] = InMind(
    most_keys=8, most_of_a_key=3
)


def camp_view(keeper: Keeper, *, today: date) -> CampView:
    """The camp of the next twelve weeks; what is in mind is not planned again."""
    club, monday = load_club(keeper), monday_of(today)
    key = (keeper.shown, monday.isoformat())
    evidence = evidence_of(keeper, club, today=today)
    before = rounds_before(keeper, club, monday, today=today)
    known = _in_mind.find(key, (club, evidence, before))
    if known is None:
        known = plan_club(club, monday, evidence=evidence, before=before)
        _in_mind.keep(key, (club, evidence, before), known)
    return known


def season_view(keeper: Keeper, *, today: date) -> tuple[CampProblem, Season]:
    """The season alone, which needs no solver."""
    problem = camp_of_club(load_club(keeper), monday_of(today))
    return problem, season_of(problem)


def plan_club(
    club: Club,
    first_day: date,
    *,
    weeks: int = WEEKS,
    evidence: tuple[Evidence, ...] = (),
    before: Before = MappingProxyType({}),
    time_limit_s: float = TIME_LIMIT_S,
    at: Told = lambda _step, _share: None,
) -> CampView:
    """Plan a club's camp, look at it again, and hold it beside the usual plans on fresh draws.

    ``evidence`` is what responses are learned from, ``before`` the rounds done in the week before
    by athlete; ``at`` is told each of ``STEPS`` as it begins, and what share of it is done where
    that is known.
    """

    def with_draws(draws: int, seed: int) -> CampProblem:
        inputs = CampInputs(
            responses=responses_from(evidence, draws, seed), before=before, draws=draws, seed=seed
        )
        made = camp_of_club(club, first_day, weeks=weeks, inputs=inputs)
        return replace(made, time_limit_s=time_limit_s)

    making, solving, looking, comparing = STEPS
    at(making, None)
    problem = with_draws(DRAWS, SEED)
    season = season_of(problem)
    at(solving, None)
    try:
        solution = solve_camp(problem)
    except (NoSolution, OutOfTime) as error:
        return CampView(club, problem, season, trouble=str(error))
    at(looking, None)
    broken = breaches(problem, solution, lambda share: at(looking, share))
    if broken:
        return CampView(club, problem, season, trouble=f"The plan broke a rule: {broken[0]}.")
    at(comparing, None)
    plans = usual_plans(problem)
    fresh = with_draws(FRESH_DRAWS, FRESH_SEED)
    return CampView(
        club=club,
        problem=problem,
        season=season,
        solution=solution,
        plans=plans,
        beside=_beside(fresh, solution, plans),
        gains=event_gains(fresh, solution.rounds, plans, lambda share: at(comparing, share)),
    )


def _beside(
    fresh: CampProblem, solution: CampSolution, plans: tuple[UsualPlan, ...]
) -> tuple[SquadBeside, ...]:
    found = []
    alone = without_extra(fresh, solution.rounds)
    for plan in plans:
        whole, tapers = squad_gain(fresh, solution.rounds, plan), squad_gain(fresh, alone, plan)
        if whole is not None and tapers is not None:
            found.append(SquadBeside(whole, tapers))
    return tuple(found)
