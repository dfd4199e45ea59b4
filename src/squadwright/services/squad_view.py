"""Queries of the squad: an athlete with what was planned for him last; nothing is stored."""

from dataclasses import dataclass
from datetime import date, timedelta
from itertools import islice

from squadwright.learning.fit import Fitted
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.services.clubs import load_club
from squadwright.services.learning import fit_of, histories
from squadwright.services.planning import last_kept_plan
from squadwright.services.unit_of_work import Keeper

MOST_PLANS = 3
MOST_LOOKED_AT = 8


@dataclass(frozen=True)
class ShownAthlete:
    """One athlete, his club, and his last kept plans, the newest first.

    ``fitted`` is what his recorded sessions say; None where there is none with a load.
    """

    club: Club
    athlete: Athlete
    plans: tuple[Plan, ...]
    fitted: Fitted | None = None


def show_athlete(keeper: Keeper, athlete_id: str, *, today: date) -> ShownAthlete:
    """One athlete with the plans that were kept for his last sessions."""
    club = load_club(keeper)
    athlete = club.athlete(athlete_id)
    past = sorted(
        (s for s in club.sessions if athlete_id in s.athletes and s.held_on <= today),
        key=lambda s: (s.held_on, s.starts_at),
        reverse=True,
    )
    with keeper.reading() as store:
        kept = (last_kept_plan(store, session.id) for session in past[:MOST_LOOKED_AT])
        plans = tuple(islice((plan for plan in kept if plan is not None), MOST_PLANS))
    known = histories(keeper, club, before=today + timedelta(days=1)).get(athlete_id)
    return ShownAthlete(club, athlete, plans, None if known is None else fit_of(keeper, known))
