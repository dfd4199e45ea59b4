"""What is not known of an athlete, by name, and draws of it.

The names are the keys of the draws as well, so an unknown has the same shuffled quantiles whether
it comes from a test and the population or from what earlier sessions taught.
"""

from dataclasses import replace

import numpy as np

from squadwright.planning.dose.draws import FloatArray, normal_draws, positive_draws
from squadwright.planning.dose.fatigue import People
from squadwright.planning.dose.problem import ComplexDoseProblem, Learned
from squadwright.planning.dose.strain import part_name

ENDURANCE = "endurance"
RECOVERY = "recovery"
SLOW_RECOVERY = "slow recovery"
DAY = "strength of the day"


def strength_name(lift: str) -> str:
    """The maximum in a reference lift [kg]."""
    return f"1RM of {lift}"


def ratio_name(movement: str, part: int) -> str:
    """Strength in one part of a movement over the maximum of its reference lift."""
    return f"ratio of {part_name(movement, part)}"


def drawn(problem: ComplexDoseProblem, people: People) -> tuple[FloatArray, People]:
    """Fresh strength in each part of each movement [kg], draws x parts; and the draws' people."""
    learned = {} if problem.learned is None else learned_draws(problem.learned, people.count)
    strength = {
        lift: learned.get(
            strength_name(lift),
            positive_draws(
                strength_name(lift),
                people.count,
                mean=problem.capacities[lift].mean_kg,
                sd_fraction=problem.capacities[lift].sd_fraction,
            ),
        )
        for lift in problem.reference_lifts
    }
    columns = []
    for movement in problem.movements:
        for number, part in enumerate(movement.parts):
            name = ratio_name(movement.name, number)
            ratio = learned.get(
                name,
                positive_draws(
                    name, people.count, mean=part.ratio, sd_fraction=part.ratio_sd_fraction
                ),
            )
            columns.append(strength[part.reference_lift] * ratio)
    capacity_kg = np.stack(columns, axis=1)
    if problem.learned is None:
        return capacity_kg, people
    day = np.exp(problem.learned.day_sd * normal_draws(DAY, people.count))
    own = replace(
        people,
        endurance=learned.get(ENDURANCE, people.endurance),
        recovery=learned.get(RECOVERY, people.recovery),
        slow_recovery=learned.get(SLOW_RECOVERY),
    )
    return capacity_kg * day[:, None], own


def learned_draws(learned: Learned, count: int) -> dict[str, FloatArray]:
    """Draws of everything a posterior names."""
    normal = np.stack([normal_draws(name, count) for name in learned.names], axis=1)
    root = np.linalg.cholesky(np.array(learned.covariance))
    values = np.exp(np.array(learned.mean) + normal @ root.T)
    return dict(zip(learned.names, values.T, strict=True))
