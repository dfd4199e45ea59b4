"""Who must not do a test on a day, and why: restrictions, medical entries, all-out below 18 years.

A restriction is obeyed to the letter. Nothing here clears anybody: medical staff, local rules and
licensed practice come first.
"""

from datetime import date

from squadwright.model.athlete import Athlete, Restriction
from squadwright.model.exercise import Demand
from squadwright.model.fitness_test import FitnessTest
from squadwright.planning.gates.bars import in_force
from squadwright.planning.restriction_words import barred_line
from squadwright.planning.substitution.barred import DEMANDS_OF_AREA, MAXIMAL_EFFORT_FROM_AGE

SUBMAXIMAL = "from five repetitions"
"""A method that asks for several good repetitions is no all-out effort."""


def is_all_out(test: FitnessTest, method: str = "") -> bool:
    """Whether a test is an all-out effort by a method; by any of its methods if none is named."""
    return test.is_maximal and SUBMAXIMAL not in method


def barred_from(
    test: FitnessTest, athlete: Athlete, day: date, *, method: str = ""
) -> tuple[str, ...]:
    """Why he must not do it, one reason each; empty where he may."""
    all_out = is_all_out(test, method)
    asked = {*test.demands, *((Demand.MAXIMAL_EFFORT,) if all_out else ())}
    reasons = [barred_line(r) for r in in_force(athlete, day) if _bars(r, asked)]
    age = athlete.age_on(day)
    if all_out and age < MAXIMAL_EFFORT_FROM_AGE:
        reasons.append(
            f"{age} years: all-out efforts begin at {MAXIMAL_EFFORT_FROM_AGE} "
            "(common practice, no source)"
        )
    return tuple(reasons)


def _bars(restriction: Restriction, asked: set[Demand]) -> bool:
    of_areas = {d for area in restriction.body_areas for d in DEMANDS_OF_AREA.get(area, ())}
    return restriction.all_training or bool(asked & {*restriction.demands, *of_areas})
