"""Queries of the squad: an athlete with what was planned for him last; nothing is stored."""

from dataclasses import dataclass
from datetime import date
from itertools import islice

from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.services.clubs import load_club
from squadwright.services.planning import last_kept_plan
from squadwright.services.unit_of_work import Keeper

MOST_PLANS = 3
MOST_LOOKED_AT = 8


@dataclass(frozen=True)
class ShownAthlete:
    """One athlete, his club, and his last kept plans, the newest first."""

    club: Club
    athlete: Athlete
    plans: tuple[Plan, ...]


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
    return ShownAthlete(club, athlete, plans)
