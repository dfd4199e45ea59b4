"""What rounds do to performance on the days of the events: linear, one number a round and draw."""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from squadwright.camp.problem import MOST_DAYS_BEYOND, CampAthlete, CampProblem
from squadwright.camp.response import ResponseDraws
from squadwright.planning.dose.draws import FloatArray

Rounds = Sequence[int | None]


def mean_worth(problem: CampProblem, athlete: CampAthlete) -> FloatArray:
    """What a round of each session of the camp is worth to him: events by weight, mean of draws."""
    worth = np.zeros(len(problem.sessions))
    if not athlete.aims:
        return worth
    # The mean over draws by days before the event, worked out once for all events.
    furthest = max(event.day for event in athlete.aims)
    by_days = athlete.response.influence(np.arange(furthest + 1)).mean(axis=0)
    for number, session in problem.sessions_of(athlete):
        worth[number] = session.load_per_round * sum(
            event.weight * by_days[event.day - session.day]
            for event in athlete.aims
            if event.day > session.day
        )
    return worth


def effect_on(problem: CampProblem, athlete: CampAthlete, rounds: Rounds, day: int) -> FloatArray:
    """What the rounds of a plan add to performance on a day [percent], draw by draw.

    Mat work is the same in every plan and left out.
    """
    days = max(day, 0) + 1
    doses = np.zeros(days)
    for number, session in problem.sessions_of(athlete):
        if session.day < day:
            doses[day - session.day] += session.load_per_round * (rounds[number] or 0)
    table = influence_by_days(athlete.response, max(days, problem.days + MOST_DAYS_BEYOND))
    effect: FloatArray = table[:, :days] @ doses
    return effect


@lru_cache(maxsize=8)
def influence_by_days(response: ResponseDraws, days: int) -> FloatArray:
    """What a unit of load gives, one row a draw and one column a day before; kept for a while,
    since every plan of an athlete asks for it on each of his events.
    """
    return response.influence(np.arange(days))


def weighted_effect(problem: CampProblem, athlete: CampAthlete, rounds: Rounds) -> FloatArray:
    """The effects on all days that count by their weights [percent], draw by draw."""
    total = np.zeros(athlete.response.count)
    for event in athlete.aims:
        total += event.weight * effect_on(problem, athlete, rounds, event.day)
    return total
