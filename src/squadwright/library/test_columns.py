"""What is written down at each test, in which units, and how its number follows from that.

Most tests have attempts of one quantity. Some have readings of several: throws and two heart rates
make one index.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from squadwright.formulas.judo_fitness import special_judo_fitness_index
from squadwright.formulas.one_rep_max import one_rep_max_epley
from squadwright.formulas.step_test import step_index_harvard
from squadwright.model.exercise import ReferenceLift
from squadwright.model.fitness_test import Family, FitnessTest, Score
from squadwright.units import KILOGRAMS_PER_POUND, METRES_PER_INCH, STANDARD_GRAVITY_M_S2

ONE_REPETITION_MAXIMUM = "one_repetition_maximum"
FIVE = 5
POUND_KG = float(KILOGRAMS_PER_POUND)
INCH_M = float(METRES_PER_INCH)
UNITS: Mapping[str, Mapping[str, float]] = {
    "m": {"m": 1.0, "cm": 0.01, "in": INCH_M, "ft": 12 * INCH_M},
    "cm": {"cm": 1.0, "m": 100.0, "in": 100 * INCH_M},
    "kg": {"kg": 1.0, "lb": POUND_KG},
    "kgf": {"kgf": 1.0, "N": 1 / STANDARD_GRAVITY_M_S2, "lbf": POUND_KG},
    "s": {"s": 1.0, "min": 60.0},
    "W": {"W": 1.0, "kW": 1000.0},
    "km/h": {"km/h": 1.0},
}
"""What one of each unit is in the unit of the test."""


@dataclass(frozen=True)
class Column:
    """One thing that is written down: its unit, and what is taken without a question."""

    key: str
    label: str
    unit: str
    usual: tuple[float, float]
    is_whole: bool = False

    @property
    def units(self) -> Mapping[str, float]:
        """Units it may be typed in, and what one of each is in its own."""
        return UNITS.get(self.unit, {self.unit: 1.0})


@dataclass(frozen=True)
class Written:
    """What is written down at a test; ``are_attempts`` if one of them is enough."""

    columns: tuple[Column, ...]
    are_attempts: bool
    number: Callable[[Sequence[float], str], float]


def methods_of(test: FitnessTest) -> tuple[str, ...]:
    """Its methods; those of a maximum name the lift as well, so that no two lifts mix."""
    if test.id != ONE_REPETITION_MAXIMUM:
        return test.methods
    return tuple(f"{lift.value}, {method}" for lift in ReferenceLift for method in test.methods)


def shown_unit(test: FitnessTest) -> str:
    """The unit its results are shown in: jump heights in centimetres."""
    return "cm" if test.unit == "m" and test.family is Family.JUMP else test.unit


def in_unit(test: FitnessTest, value: float, unit: str, wanted: str) -> float:
    """A result of a test in another of its units; as it is where either is not known."""
    factors = UNITS.get(test.unit, {})
    if unit == wanted or unit not in factors or wanted not in factors:
        return value
    return value * factors[unit] / factors[wanted]


def written(test: FitnessTest) -> Written:
    """What is written down at a test."""
    if test.id in _READINGS:
        columns, number = _READINGS[test.id]
        return Written(columns, False, number)
    attempts = tuple(
        Column(f"{n}", f"Attempt {n}" if test.attempts > 1 else "Result", test.unit, test.usual)
        for n in range(1, test.attempts + 1)
    )
    return Written(attempts, True, _SCORES.get(test.id, _plain_score(test)))


def _plain_score(test: FitnessTest) -> Callable[[Sequence[float], str], float]:
    def number(values: Sequence[float], method: str) -> float:
        if test.score is Score.MEAN:
            return sum(values) / len(values)
        return max(values) if test.better.value == "higher" else min(values)

    return number


def _of_maximum(values: Sequence[float], method: str) -> float:
    """The heaviest good lift, or what the heaviest five say of it by Epley's line."""
    heaviest = max(values)
    return one_rep_max_epley(heaviest, FIVE) if "five repetitions" in method else heaviest


def _of_judo(values: Sequence[float], method: str) -> float:
    throws, end, later = values
    return special_judo_fitness_index(end, later, throws)


def _of_harvard(values: Sequence[float], method: str) -> float:
    return step_index_harvard(values[0], values[1:])


def _of_dummy(values: Sequence[float], method: str) -> float:
    throws, mass_kg = values
    return throws / mass_kg


_PULSE = ("beats/min", (90.0, 215.0))
_COUNT = ("beats", (30.0, 105.0))
_READINGS: Mapping[str, tuple[tuple[Column, ...], Callable[[Sequence[float], str], float]]] = {
    "special_judo_fitness_test": (
        (
            Column("throws", "Throws", "throws", (12.0, 36.0), is_whole=True),
            Column("end", "Heart rate at the end", *_PULSE),
            Column("later", "Heart rate 1 min later", *_PULSE),
        ),
        _of_judo,
    ),
    "harvard_step": (
        (
            Column("stepping", "Time stepped", "s", (30.0, 300.0)),
            Column("first", "Count 1 to 1.5 min", *_COUNT),
            Column("second", "Count 2 to 2.5 min", *_COUNT),
            Column("third", "Count 3 to 3.5 min", *_COUNT),
        ),
        _of_harvard,
    ),
    "dummy_throw_test": (
        (
            Column("throws", "Throws", "throws", (10.0, 60.0), is_whole=True),
            Column("mass", "Body mass", "kg", (30.0, 180.0)),
        ),
        _of_dummy,
    ),
}
_SCORES: Mapping[str, Callable[[Sequence[float], str], float]] = {
    ONE_REPETITION_MAXIMUM: _of_maximum
}
