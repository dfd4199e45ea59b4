"""Query: what a result of a test says beyond its number: worked out from it, and beside others.

Published bands are of the people named. They say where a result lies among those, and nothing of
what this athlete should reach.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import timedelta

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.registry import find_formula
from squadwright.library.test_columns import in_unit
from squadwright.model.athlete import Athlete, Sex
from squadwright.model.fitness_test import BandTable, FitnessTest
from squadwright.services.test_results import Result

MASS_DAYS = 28
"""A body mass so many days old at most goes with a result: our default."""
GROWN_FROM = 18
PER_MASS, TIMES_MASS = " / body mass", " x body mass"
READINGS = {"throws": 0, "heart rate at the end": 1, "heart rate after one minute": 2}
"""Where what was written down at the judo test stands among its readings."""


@dataclass(frozen=True)
class WorkedOut:
    """One number worked out from a result by a published formula; or why it is not given.

    ``error`` is the standard error of one estimate, None where the source gives none.
    """

    words: str
    value: float | None
    unit: str
    error: float | None
    sources: tuple[str, ...]
    why_not: str = ""


@dataclass(frozen=True)
class BesideOthers:
    """Where a result lies among the people of a table; ``band`` is None between two bands."""

    table: BandTable
    value: float
    band: str | None


def body_mass_then(athlete: Athlete, result: Result) -> float | None:
    """The body mass that goes with a result [kg], None where none is recent enough."""
    reading = athlete.latest_body_mass(result.day)
    if reading is None or reading.taken_on < result.day - timedelta(days=MASS_DAYS):
        return None
    return reading.reading.kg


def worked_out(test: FitnessTest, athlete: Athlete, result: Result) -> tuple[WorkedOut, ...]:
    """Everything that is worked out from a result."""
    asked = _ASKED.get(test.id)
    return () if asked is None else tuple(asked(test, athlete, result))


def beside_others(test: FitnessTest, athlete: Athlete, result: Result) -> tuple[BesideOthers, ...]:
    """Every table of the people he is one of, and where his result lies in it."""
    age, found = athlete.age_on(result.day), []
    for table in test.bands:
        if not table.is_of(athlete.sex, age, result.measured.method):
            continue
        value = _value_in(table, test, athlete, result)
        if value is not None:
            found.append(BesideOthers(table, value, table.band_of(value)))
    return tuple(found)


def _value_in(
    table: BandTable, test: FitnessTest, athlete: Athlete, result: Result
) -> float | None:
    """A result as a table measures it; None where what it takes is not known."""
    if table.measure in READINGS and table.measure != test.quantity:
        content, place = result.content, READINGS[table.measure]
        held = content.attempts if content is not None else ()
        return held[place] if place < len(held) else None
    if table.measure == test.quantity:
        return _in(test, result, table.unit)
    mass_kg = body_mass_then(athlete, result)
    if mass_kg is None:
        return None
    if table.measure.endswith(PER_MASS):
        return _in(test, result, test.unit) / mass_kg
    if table.measure.endswith(TIMES_MASS):
        return _in(test, result, "cm" if table.unit.startswith("cm") else test.unit) * mass_kg
    return None


def _in(test: FitnessTest, result: Result, unit: str) -> float:
    return in_unit(test, result.measured.value, result.measured.unit, unit)


def _by(words: str, formula: str, **values: float) -> WorkedOut:
    """One number by a formula of the list."""
    known = find_formula(formula)
    sources = tuple(f"{each.label}, {each.provenance.value}" for each in known.sources)
    try:
        value = known.call(**values)
    except (InvalidInput, OutsidePublishedRange) as error:
        return WorkedOut(words, None, known.unit, None, sources, str(error))
    return WorkedOut(words, value, known.unit, known.standard_error, sources)


def _by_mass(
    words: str, formula: str, athlete: Athlete, result: Result, name: str, **values: float
) -> WorkedOut:
    mass_kg = body_mass_then(athlete, result)
    if mass_kg is None:
        why = f"no body mass within {MASS_DAYS} days before it"
        return WorkedOut(words, None, "", None, (), why)
    return _by(words, formula, **values, **{name: mass_kg})


OXYGEN = "greatest oxygen uptake"
_Asked = Callable[[FitnessTest, Athlete, Result], Iterator[WorkedOut]]


def _of_shuttle(test: FitnessTest, athlete: Athlete, result: Result) -> Iterator[WorkedOut]:
    speed, age = _in(test, result, "km/h"), athlete.age_on(result.day)
    if age < GROWN_FROM:
        yield _by(OXYGEN, "aerobic_capacity_shuttle_all_ages", speed_km_h=speed, age_years=age)
    else:
        yield _by(OXYGEN, "aerobic_capacity_shuttle_adults", speed_km_h=speed)


def _of_step(test: FitnessTest, athlete: Athlete, result: Result) -> Iterator[WorkedOut]:
    sex = "men" if athlete.sex is Sex.MALE else "women"
    rate = result.measured.value
    yield _by(OXYGEN, f"aerobic_capacity_queens_step_{sex}", heart_rate_bpm=rate)


def _of_grip(test: FitnessTest, athlete: Athlete, result: Result) -> Iterator[WorkedOut]:
    force = _in(test, result, "kgf")
    for words, power in (("scaled by body mass to the power 0.68", 0.68), ("for each kg", 1.0)):
        yield _by_mass(
            words, "grip_scaled", athlete, result, "body_mass_kg", grip_kgf=force, exponent=power
        )


def _of_judo(test: FitnessTest, athlete: Athlete, result: Result) -> Iterator[WorkedOut]:
    formula, index = "special_judo_fitness_relative_index", result.measured.value
    yield _by_mass("index for each kg", formula, athlete, result, "body_mass_kg", index=index)


def _of_power(test: FitnessTest, athlete: Athlete, result: Result) -> Iterator[WorkedOut]:
    watts, words = _in(test, result, "W"), "mean power for each kg"
    yield _by_mass(words, "power_per_body_mass", athlete, result, "body_mass_kg", power_w=watts)


def _of_jump(formula: str) -> _Asked:
    def asked(test: FitnessTest, athlete: Athlete, result: Result) -> Iterator[WorkedOut]:
        height = _in(test, result, "m")
        yield _by_mass("peak power", formula, athlete, result, "mass_kg", height_m=height)

    return asked


_ASKED: dict[str, _Asked] = {
    "shuttle_20_m": _of_shuttle,
    "queens_step": _of_step,
    "grip_strength": _of_grip,
    "special_judo_fitness_test": _of_judo,
    "thirty_seconds_cranking": _of_power,
    "countermovement_jump": _of_jump("jump_peak_power_sayers_countermovement_jump"),
    "squat_jump": _of_jump("jump_peak_power_sayers_squat_jump"),
}
