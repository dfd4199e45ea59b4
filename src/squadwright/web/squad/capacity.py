"""Strength in the reference lifts with its uncertainty: the same numbers each dose rests on."""

from collections.abc import Mapping

from squadwright.errors import SquadwrightError
from squadwright.formulas.one_rep_max import one_rep_max_brzycki, one_rep_max_epley
from squadwright.formulas.sources import find_source
from squadwright.model.athlete import Athlete, StrengthTest
from squadwright.model.exercise import ReferenceLift
from squadwright.planning.dose.capacity import (
    CapacityWay,
    capacity_range_kg,
    capacity_ways,
    tested_sets,
)
from squadwright.planning.restriction_words import day_words
from squadwright.web.drawing.interval import Interval, draw_intervals
from squadwright.web.squad.contexts import CapacityView, CapacityWhy
from squadwright.web.wording import capital, number_text

SHARE = 0.9
# Machines differ so much that a guess says nothing.
NEVER_GUESSED = frozenset({ReferenceLift.LEG_PRESS.value})
TIMES = "\N{MULTIPLICATION SIGN}"
SOURCES_OF_SET = ("epley_1985", "brzycki_1993", "hutchins_2010")


def capacity_view(athlete: Athlete) -> CapacityView:
    """What he can lift once in each reference lift, tested lifts first, then the surest guesses."""
    if not athlete.tests:
        return CapacityView(None, ())
    in_order = sorted(athlete.tests, key=lambda test: test.taken_on)
    last = {test.lift.value: test for test in in_order}
    try:
        ways = capacity_ways(tested_sets(athlete.tests), sex=athlete.sex.value)
    except SquadwrightError as error:
        return CapacityView(None, (), str(error))
    lifts = sorted(
        (lift for lift in ways if ways[lift].test is not None or lift not in NEVER_GUESSED),
        key=lambda lift: (ways[lift].test is None, ways[lift].capacity.sd_fraction, lift),
    )
    picture = draw_intervals(_interval(lift, ways[lift]) for lift in lifts)
    return CapacityView(picture, tuple(_why(lift, ways, last.get(lift)) for lift in lifts))


def _interval(lift: str, way: CapacityWay) -> Interval:
    low, high = capacity_range_kg(way.capacity, SHARE)
    is_tested = way.test is not None
    return Interval(capital(lift), way.capacity.mean_kg, low, high, is_tested)


def _why(lift: str, ways: Mapping[str, CapacityWay], test: StrengthTest | None) -> CapacityWhy:
    way = ways[lift]
    summary = f"{capital(lift)}, {way.capacity.mean_kg:.0f} kg"
    spread = f"{way.capacity.sd_fraction:.1%}".replace("%", " %")
    if test is not None:
        return CapacityWhy(summary, _of_test(test, way, spread), _sources(test))
    assert way.link is not None
    start = ways[way.from_lift]
    ratio = way.link.ratio if way.link.lift == lift else 1 / way.link.ratio
    known = "tested" if start.test is not None else "itself a guess"
    return CapacityWhy(
        summary,
        (
            f"Guessed from the {way.from_lift}, {known}: {number_text(start.capacity.mean_kg)} kg "
            f"{TIMES} {number_text(ratio, 3)} = {number_text(way.capacity.mean_kg)} kg.",
            f"Spread {spread}: that of the {way.from_lift} and of the ratio between people "
            f"({way.link.sd_fraction:.0%}".replace("%", " %")
            + "), as the root of their squares.",
            "Test the lift, and the guess is gone.",
        ),
        (capital(way.link.basis),),
    )


def _of_test(test: StrengthTest, way: CapacityWay, spread: str) -> tuple[str, ...]:
    kg, repetitions = test.load.kg, test.repetitions
    typed = f"{test.load} for {repetitions} on {day_words(test.taken_on)}, {test.method}."
    if repetitions == 1:
        return (typed, f"A single is the maximum itself. Spread {spread}: our estimate.")
    epley = number_text(one_rep_max_epley(kg, repetitions))
    brzycki = number_text(one_rep_max_brzycki(kg, repetitions))
    load = number_text(kg, 2)
    return (
        typed,
        f"Epley: {load} {TIMES} (1 + {repetitions} / 30) = {epley} kg. "
        f"Brzycki: {load} {TIMES} 36 / (37 - {repetitions}) = {brzycki} kg. "
        f"Half-way: {number_text(way.capacity.mean_kg)} kg.",
        f"Spread {spread}: the error found when a maximum was predicted from one set.",
    )


def _sources(test: StrengthTest) -> tuple[str, ...]:
    if test.repetitions == 1:
        return ("Our estimate, no source",)
    return tuple(find_source(key).citation for key in SOURCES_OF_SET)
