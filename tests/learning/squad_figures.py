"""The figures of one invented squad: how near its forecasts and doses came. No real data."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from learning.habit_squad import habit_squad
from learning.invented_squad import InventedSquad, InventedWorld, invented_squad
from learning.known_truth import Scores, score
from squadwright.learning.baselines import BASELINES
from squadwright.learning.calibration import Calibration, Rule, Tally, calibrate
from squadwright.learning.fallback import Choice, chosen_rule
from squadwright.learning.scores import Average, average_of

# Sessions up to which "early" goes, and those whose dose is looked at.
EARLY = 4
DOSES_AT = (4, 8, 12, 20)
# The session by which a dose is to be near.
DOSE_BY = 8


@dataclass(frozen=True)
class Request:
    """A squad to be made; ``world`` None is the one in which only the last load counts."""

    world: InventedWorld | None
    count: int
    sessions: int
    seed: int

    def made(self) -> InventedSquad:
        """The squad."""
        if self.world is None:
            return habit_squad(self.count, self.sessions, seed=self.seed)
        return invented_squad(self.count, self.sessions, world=self.world, seed=self.seed)


@dataclass(frozen=True)
class Gain:
    """How much smaller the fit's Brier score is than a plain rule's, with its 95 % interval."""

    mean: float
    low: float
    high: float


@dataclass(frozen=True)
class Dose:
    """Dose of one session over the oracle's: mean absolute error, and mean error."""

    error: float
    bias: float


@dataclass(frozen=True)
class InForce:
    """Brier score of whatever rule was in force each day, by what earlier days had shown.

    ``fit`` is that of the fit on the same trials. ``since`` is the first session from which a
    plain rule stayed in force to the end, None where the last was the fit's.
    """

    chosen: float
    fit: float
    since: int | None


@dataclass(frozen=True)
class Figures:
    """What came of one squad. Gains are by plain rule."""

    request: Request
    name: str
    coverage: Average
    brier: Mapping[str, float]
    early_gain: Mapping[str, Gain]
    gain: Mapping[str, Gain]
    doses: Mapping[int, Dose]
    choice: Choice
    in_force: InForce


def figures_of(request: Request) -> Figures:
    """Make the squad and score it."""
    squad = request.made()
    has_oracle = not np.isnan(squad.oracle_kg).all()
    scores = score(squad, doses_in=DOSES_AT if has_oracle else ())
    calibration = calibrate(squad.histories)
    return Figures(
        request,
        squad.world.name,
        _coverage(scores),
        {name: float(np.nanmean(each)) for name, each in scores.brier.items()},
        {b.name: Gain(*scores.gain(b.name, 1, EARLY)) for b in BASELINES},
        {b.name: Gain(*scores.gain(b.name, 1, request.sessions)) for b in BASELINES},
        {s: _dose(scores, s) for s in DOSES_AT if has_oracle and s <= request.sessions},
        chosen_rule(calibration, ""),
        in_force(calibration.club),
    )


def _coverage(scores: Scores) -> Average:
    each = scores.is_covered
    people = np.broadcast_to(np.arange(len(each))[:, None], each.shape)
    return average_of(each.ravel(), [str(n) for n in people.ravel()])


def _dose(scores: Scores, session: int) -> Dose:
    return Dose(scores.dose_error_in(session), float(scores.dose_error[:, session - 1].mean()))


def in_force(club: Tally) -> InForce:
    """Each day by the rule that all days before it had chosen for the club."""
    days = sorted({each.held_on for each in club.judged})
    chosen, rules = [], []
    for day in days:
        before = tuple(each for each in club.judged if each.held_on < day)
        known = Calibration(Tally(before, tuple(each.athlete for each in before), 0), {})
        rules.append(chosen_rule(known, "").rule)
        chosen += [e.said[rules[-1]].brier for e in club.judged if e.held_on == day]
    fits = [rule is Rule.MODEL for rule in rules]
    since = None if fits[-1] else len(fits) - fits[::-1].index(True) + 1
    return InForce(float(np.mean(chosen)), club.brier(Rule.MODEL), since)
