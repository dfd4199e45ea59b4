"""A plan to reach a class, written down: judged, kept as a log, and told to whoever must know."""

from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time

from squadwright.errors import InvalidInput
from squadwright.model.athlete import Athlete, WeightPlan
from squadwright.model.club import Club
from squadwright.planning.gates.means import PlanAnswer, judge_plan
from squadwright.planning.gates.private_limit import no_plan_to_lose_mass
from squadwright.planning.gates.subject import Subject
from squadwright.services.club_changes import Changed, change_club
from squadwright.services.squad import with_athlete
from squadwright.services.unit_of_work import Keeper

LONGEST_PLAN = 1000
MOST_PLANS = 200


@dataclass(frozen=True)
class Written:
    """What was kept, and what became of it."""

    changed: Changed
    plan: WeightPlan
    answer: PlanAnswer


def write_weight_plan(keeper: Keeper, athlete_id: str, text: str, *, today: date) -> Written:
    """Keep a plan with what was found against it; a refused one is kept as well.

    The log is not taken back: what was typed stays for medical staff.
    """
    typed = text.strip()
    if not typed:
        raise InvalidInput("plan", "is empty", "Write what is planned, by whom and until when")
    if len(typed) > LONGEST_PLAN:
        raise InvalidInput(
            "plan", f"has {len(typed)} characters, at most {LONGEST_PLAN} fit", "Shorten it"
        )
    kept: list[tuple[WeightPlan, PlanAnswer]] = []

    def change(club: Club) -> Club:
        athlete = club.athlete(athlete_id)
        answer = _judged(club, athlete, typed, today)
        plan = WeightPlan(
            written_on=today,
            kept_text=typed,
            refused=tuple(item.sentence for item in answer.findings),
            told=tuple(notice.to for notice in answer.notices),
        )
        kept.append((plan, answer))
        plans = (*athlete.weight_plans, plan)[-MOST_PLANS:]
        return with_athlete(club, replace(athlete, weight_plans=plans))

    changed = change_club(keeper, change, today=today)
    plan, answer = kept[-1]
    return Written(changed, plan, answer)


def _judged(club: Club, athlete: Athlete, typed: str, today: date) -> PlanAnswer:
    who = Subject(athlete.id, club.shown_names()[athlete.id], athlete.age_on(today))
    return judge_plan(
        who,
        typed,
        at=datetime.combine(today, time(), UTC),
        against=(no_plan_to_lose_mass(who),) if athlete.medical.private_on(today) else (),
    )
