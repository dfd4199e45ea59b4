"""Work that is there to lose mass by a prohibited means: refused, kept, and told as a plan is."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, time

from squadwright.errors import InvalidInput
from squadwright.formulas.sources import find_source
from squadwright.model.athlete import WeightPlan
from squadwright.model.club import Club
from squadwright.model.session import HeatReading
from squadwright.planning.gates.gate import settings_of
from squadwright.planning.gates.heat import heat_row
from squadwright.planning.gates.means import judge_plan, means_of_work, source_of
from squadwright.planning.gates.subject import Subject
from squadwright.planning.gates.warmth import wet_bulb_globe_c
from squadwright.services.club_changes import change_club
from squadwright.services.clubs import load_club
from squadwright.services.squad import with_athlete
from squadwright.services.unit_of_work import Keeper
from squadwright.services.weight_plans import MOST_PLANS

ADVICE = (
    "Nothing is stored but this refusal, for medical staff: tell the medical contact, and the "
    "guardian of a minor. Write a plan with a sports dietitian, or choose a heavier class"
)


def refuse_purpose(
    keeper: Keeper,
    field: str,
    text: str,
    athletes: Sequence[str],
    *,
    today: date,
    heat: HeatReading | None = None,
) -> None:
    """Raise InvalidInput where work is there to lose mass by a means that is not allowed.

    The refusal is kept with each athlete it was for, as that of a plan is.
    """
    club = load_club(keeper)
    kinds = means_of_work(text, is_hot=_is_hot(club, heat))
    if not kinds:
        return
    change_club(keeper, lambda club: _kept(club, text, athletes, kinds, today), today=today)
    sources = "; ".join(dict.fromkeys(find_source(source_of(kind)).citation for kind in kinds))
    raise InvalidInput(
        field,
        f"names work to lose mass by a means that is not allowed ({', '.join(kinds)}; {sources})",
        ADVICE,
    )


def _is_hot(club: Club, heat: HeatReading | None) -> bool:
    if heat is None:
        return False
    return heat_row(wet_bulb_globe_c(heat), settings=settings_of(club.gate_limits)) > 1


def _kept(
    club: Club, text: str, athletes: Sequence[str], kinds: Sequence[str], today: date
) -> Club:
    """The club with the refusal in the log of each athlete; typed again, it stands there once."""
    names = club.shown_names()
    for athlete_id in athletes:
        athlete = club.athlete(athlete_id)
        who = Subject(athlete.id, names[athlete.id], athlete.age_on(today))
        answer = judge_plan(who, text, at=datetime.combine(today, time(), UTC))
        refused = tuple(item.sentence for item in answer.findings) or tuple(
            f"{who.shown_name}: work to lose mass is refused ({kind})" for kind in kinds
        )
        told = tuple(notice.to for notice in answer.notices) or ("medical contact",)
        plan = WeightPlan(today, text, refused, told)
        if plan in athlete.weight_plans:
            continue
        plans = (*athlete.weight_plans, plan)[-MOST_PLANS:]
        club = with_athlete(club, replace(athlete, weight_plans=plans))
    return club
