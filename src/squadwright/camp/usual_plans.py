"""Plans a coach would write without a solver, for the same sessions and days off."""

from collections.abc import Callable
from dataclasses import dataclass

from squadwright.camp.limits import Window, days_off, tapers
from squadwright.camp.problem import CampAthlete, CampProblem
from squadwright.formulas.taper import taper_fold_time, taper_share_exponential
from squadwright.model.camp_rules import CampRules

STEP_SHARE, PROGRESSIVE_CUT = 0.5, 0.5

Share = Callable[[Window, int], float]


@dataclass(frozen=True)
class UsualPlan:
    """A plan by a plain rule: one row of rounds an athlete, None where he is not expected."""

    name: str
    words: str
    rounds: tuple[tuple[int | None, ...], ...]


def usual_plans(problem: CampProblem) -> tuple[UsualPlan, ...]:
    """The coach's own rule, a progressive taper and a step."""
    rules = problem.rules
    return (
        UsualPlan(
            "coach's plan",
            f"usual rounds, and {100 * rules.coach_share:.0f} % of them in the last "
            f"{rules.coach_taper_d} days before an A event",
            _by(problem, _coach(rules)),
        ),
        UsualPlan(
            "progressive taper",
            "usual rounds, then fewer each day along a curve, half of them in all",
            _by(problem, _progressive),
        ),
        UsualPlan(
            "step taper",
            "usual rounds, then half of them at once",
            _by(problem, _step),
        ),
    )


def _coach(rules: CampRules) -> Share:
    def share(window: Window, day: int) -> float:
        is_last_days = window.event.is_main and window.event.day - day <= rules.coach_taper_d
        return rules.coach_share if is_last_days else 1.0

    return share


def _step(window: Window, day: int) -> float:
    return STEP_SHARE


def _progressive(window: Window, day: int) -> float:
    length = window.event.day - window.first_day
    fold = taper_fold_time(length, PROGRESSIVE_CUT)
    return taper_share_exponential(day - window.first_day + 1, fold)


def _by(problem: CampProblem, share: Share) -> tuple[tuple[int | None, ...], ...]:
    return tuple(_line(problem, athlete, share) for athlete in problem.athletes)


def _line(problem: CampProblem, athlete: CampAthlete, share: Share) -> tuple[int | None, ...]:
    off, windows = days_off(problem, athlete), tapers(problem, athlete)
    rounds: list[int | None] = [None] * len(problem.sessions)
    for number, session in problem.sessions_of(athlete):
        if session.day in off or not session.is_shared:
            rounds[number] = 0
            continue
        left = next((share(w, session.day) for w in windows if w.holds(session.day)), 1.0)
        usual = session.usual_rounds
        if athlete.most_rounds is not None:
            usual = min(usual, athlete.most_rounds)
        rounds[number] = max(1, int(usual * left + 0.5))
    return tuple(rounds)
