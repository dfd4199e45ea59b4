"""Use case of what-if: a dose as it stands in the plan, to try on. Nothing is stored."""

from dataclasses import dataclass

from squadwright.errors import NotFound
from squadwright.model.club import Club
from squadwright.model.plan import Dose
from squadwright.model.session import Session
from squadwright.planning.attendance import PersonToday, people_today
from squadwright.planning.what_if import PlannedDose
from squadwright.services.clubs import load_club
from squadwright.services.coach_override import Place
from squadwright.services.planning import last_kept_plan
from squadwright.services.plans_in_mind import in_whole
from squadwright.services.unit_of_work import Keeper


@dataclass(frozen=True)
class DoseInPlan:
    """The dose of one athlete in one block of a session, with everything it stands in."""

    club: Club
    session: Session
    person: PersonToday
    dose: Dose
    planned: PlannedDose


def dose_in_plan(keeper: Keeper, place: Place) -> DoseInPlan:
    """A dose that the model worked out; raises NotFound where there is none."""
    club = load_club(keeper)
    session = club.session(place.session)
    with keeper.reading() as store:
        kept = last_kept_plan(store, session.id)
    made = in_whole(keeper, club, session, previous=kept)
    if made.plan is None:
        raise NotFound(f"There is no plan to try anything on: {made.trouble}")
    of = (place.athlete, place.block)
    dose = next((d for d in made.plan.doses if (d.athlete, d.block) == of), None)
    person = next((p for p in people_today(club, session) if p.id == place.athlete), None)
    if dose is None or person is None:
        raise NotFound(f"{place.athlete!r} does nothing in {place.block or session.name}")
    problem = made.doses.get(of)
    if problem is None or dose.load_kg is None or dose.completion_probability is None:
        raise NotFound(
            f"No load is worked out for {person.shown_name} in {place.block or session.name}, so "
            "there is no chance to look at. The dose on the plan says why"
        )
    return DoseInPlan(
        club, session, person, dose, PlannedDose(problem, dose.load_kg, dose.first_round)
    )
