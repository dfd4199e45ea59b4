"""What is expected of an athlete at a load, before he does it."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import log

import numpy as np

from squadwright.learning.history import Work
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.fatigue import FatigueModel
from squadwright.planning.dose.problem import ComplexDoseProblem, Learned, LiftCapacity
from squadwright.planning.dose.strain import largest_load, parts_of, strain_of
from squadwright.planning.dose.unknowns import drawn

DRAWS = 2048


@dataclass(frozen=True, eq=False)
class Forecast:
    """What is expected of one complex at one load.

    ``chance_of_rounds`` has the chance of exactly 0, 1, ... all rounds with every repetition done.
    ``margins`` are draws, in order, of the log load he bears through the last round less the log
    load on the bar: above zero he does all of it.
    """

    chance_of_rounds: FloatArray
    margins: FloatArray

    @property
    def completes(self) -> float:
        """Chance that every repetition of every round is done."""
        return float(self.chance_of_rounds[-1])

    def margin_interval(self, share: float = 0.8) -> tuple[float, float]:
        """Bounds between which the margin lies with this chance, as much on either side."""
        low, high = np.quantile(self.margins, [(1 - share) / 2, (1 + share) / 2])
        return float(low), float(high)


def forecast(
    learned: Learned,
    work: Work,
    load_kg: float,
    capacities: Mapping[str, LiftCapacity],
    model: FatigueModel | None = None,
) -> Forecast:
    """What is expected at a load. ``capacities`` stands in for lifts he was never seen in."""
    model = model or FatigueModel()
    problem = ComplexDoseProblem(
        work.movements, work.rounds, work.rest_s, capacities, learned=learned
    )
    capacity_kg, people = drawn(problem, model.people(DRAWS))
    parts = parts_of(work.movements, model)
    strain = strain_of(
        parts, capacity_kg, rounds=work.rounds, rest_s=work.rest_s, model=model, people=people
    )
    borne = [
        largest_load(strain.with_reserve(number, 0.0), capacity_kg, parts.factor, model)
        for number in range(work.rounds)
    ]
    done = np.cumprod(np.stack(borne) >= load_kg, axis=0).sum(axis=0)
    share = np.bincount(done, minlength=work.rounds + 1) / DRAWS
    return Forecast(share, np.sort(np.log(borne[-1]) - log(load_kg)))
