"""A camp beside the usual plans, on draws that were not used to make it.

Differences are in percent of performance on the day of an event. The spread is that of what
nobody knows of an athlete's response; it holds only as far as the model does.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from squadwright.camp.effect import Rounds, effect_on
from squadwright.camp.problem import CampAthlete, CampEvent, CampProblem
from squadwright.camp.usual_plans import UsualPlan
from squadwright.formulas.detectable_change import Z_95
from squadwright.planning.dose.draws import FloatArray

LOW, HIGH = 0.05, 0.95


@dataclass(frozen=True)
class Gain:
    """What one plan has over another [percent]: mean, the range of nine draws in ten, how often
    it is the better one.
    """

    mean: float
    low: float
    high: float
    better_fraction: float


@dataclass(frozen=True)
class EventGain:
    """The gain of one athlete on one event over each usual plan, by its name."""

    athlete: str
    event: CampEvent
    over: dict[str, Gain]


@dataclass(frozen=True)
class SquadGain:
    """Mean gain over all events by weight against a usual plan, with the 95 % interval of that
    mean over the draws, and how many draws it rests on.
    """

    plan: str
    mean: float
    low: float
    high: float
    draws: int


def gain_of(difference: FloatArray) -> Gain:
    """A difference in draws as a gain."""
    low, high = np.quantile(difference, (LOW, HIGH))
    return Gain(float(difference.mean()), float(low), float(high), float((difference > 0).mean()))


def event_gains(
    fresh: CampProblem,
    rounds: Sequence[Rounds],
    plans: Sequence[UsualPlan],
    at: Callable[[float], None] = lambda _share: None,
) -> tuple[EventGain, ...]:
    """Each athlete on each of his events within the camp; ``fresh`` holds the other draws, and
    ``at`` is told what share of the athletes is done.
    """
    found = []
    for number, athlete in enumerate(fresh.athletes):
        at(number / len(fresh.athletes))
        for event in athlete.events:
            if event.day <= fresh.days:
                own = effect_on(fresh, athlete, rounds[number], event.day)
                over = {
                    plan.name: gain_of(
                        own - effect_on(fresh, athlete, plan.rounds[number], event.day)
                    )
                    for plan in plans
                }
                found.append(EventGain(athlete.id, event, over))
    return tuple(found)


def squad_gain(fresh: CampProblem, rounds: Sequence[Rounds], plan: UsualPlan) -> SquadGain | None:
    """The squad as a whole; None where nobody has an event."""
    weight = sum(e.weight for athlete in fresh.athletes for e in athlete.events)
    if weight == 0:
        return None
    total: FloatArray | float = 0.0
    for number, athlete in enumerate(fresh.athletes):
        total = total + _over(fresh, athlete, rounds[number], plan.rounds[number])
    difference = np.asarray(total) / weight
    error = Z_95 * float(difference.std(ddof=1)) / sqrt(len(difference))
    mean = float(difference.mean())
    return SquadGain(plan.name, mean, mean - error, mean + error, len(difference))


def _over(problem: CampProblem, athlete: CampAthlete, one: Rounds, other: Rounds) -> FloatArray:
    total = np.zeros(athlete.response.count)
    for event in athlete.events:
        mine = effect_on(problem, athlete, one, event.day)
        total += event.weight * (mine - effect_on(problem, athlete, other, event.day))
    return total


def without_extra(
    problem: CampProblem, rounds: Sequence[Rounds]
) -> tuple[tuple[int | None, ...], ...]:
    """The same camp without the rounds besides the squad's: what the tapers alone are worth."""
    return tuple(
        tuple(
            each if each is None or session.is_shared else 0
            for each, session in zip(line, problem.sessions, strict=True)
        )
        for line in rounds
    )
