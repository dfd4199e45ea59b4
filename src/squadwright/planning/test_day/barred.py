"""Who must not do a test on a day, and why: restrictions, medical entries, age.

Below 18 years nobody lifts or pulls his most once. Jumps, throws, grip and runs are tested in
published batteries for the young (Eurofit 1988: standing broad jump, hand grip, 20 m shuttle; from
memory), so they are allowed where the guardian has agreed.

A restriction is obeyed to the letter. Nothing here clears anybody: medical staff, local rules and
licensed practice come first.
"""

from datetime import date

from squadwright.model.athlete import Athlete, Restriction
from squadwright.model.exercise import Demand
from squadwright.model.fitness_test import FitnessTest
from squadwright.planning.gates.bars import in_force
from squadwright.planning.gates.young_lifters import before_a_strength_test
from squadwright.planning.restriction_words import barred_line
from squadwright.planning.substitution.barred import (
    DEMANDS_OF_AREA,
    HIGH_IMPACT_FROM_AGE,
    MAXIMAL_EFFORT_FROM_AGE,
)

SUBMAXIMAL = "from five repetitions"
"""A method that asks for several good repetitions is no all-out effort."""
WITH_CONSENT = (
    f"below {MAXIMAL_EFFORT_FROM_AGE} years with the guardian's consent, as in published batteries "
    "for the young (Eurofit 1988: jump, hand grip, 20 m shuttle; from memory)"
)
NEVER_YOUNG = (
    f"no test of maximal strength below {MAXIMAL_EFFORT_FROM_AGE} years (position on youth "
    "resistance training, from memory); a set of several good repetitions instead"
)


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
    reasons += _by_age(test, athlete, day, all_out=all_out)
    return tuple(reasons)


def words_for_the_young(test: FitnessTest) -> str:
    """Whether a minor may do an all-out test."""
    if not test.is_maximal:
        return "no"
    return f"yes: {NEVER_YOUNG if test.is_maximal_strength else WITH_CONSENT}"


def _by_age(test: FitnessTest, athlete: Athlete, day: date, *, all_out: bool) -> list[str]:
    age = athlete.age_on(day)
    if not all_out and test.is_maximal_strength and age < MAXIMAL_EFFORT_FROM_AGE:
        return [f"{age} years: {words}" for words in _not_ready(athlete, day)]
    if not all_out or age >= MAXIMAL_EFFORT_FROM_AGE:
        return []
    reasons = []
    if test.is_maximal_strength:
        reasons.append(f"{age} years: {NEVER_YOUNG}")
    elif not athlete.has_consent_of_guardian:
        reasons.append(f"{age} years: the guardian has not agreed; {WITH_CONSENT}")
    if Demand.DROP_LANDING in test.demands and age < HIGH_IMPACT_FROM_AGE:
        reasons.append(f"{age} years: hard landings begin at {HIGH_IMPACT_FROM_AGE} (our choice)")
    return reasons


def _not_ready(athlete: Athlete, day: date) -> tuple[str, ...]:
    """What is missing on a day before a set of several good repetitions as a test of the young."""
    seen = athlete.medical.technique
    checked = None if seen is None else seen.growth_checked_on
    return before_a_strength_test(
        has_consent=athlete.has_consent_of_guardian,
        has_technique=seen is not None and seen.seen_on <= day,
        is_growth_checked=checked is not None and checked <= day,
    )


def _bars(restriction: Restriction, asked: set[Demand]) -> bool:
    of_areas = {d for area in restriction.body_areas for d in DEMANDS_OF_AREA.get(area, ())}
    return restriction.all_training or bool(asked & {*restriction.demands, *of_areas})
