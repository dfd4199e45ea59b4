"""Strength in the reference lifts: from tests where there are any, else guessed from other lifts.

A tested lift carries an SD of 6.5 % (a set at 85 % predicted the bench press maximum to 5.7 to
7.1 %, Hutchins & Gearhart 2010), a measured single 3 % and a set of more than 12 repetitions 10 %
(our estimates). A guess adds the spread of each ratio on the way, so it comes out at 10 to 20 %.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import exp, hypot, log1p, sqrt
from statistics import NormalDist

from squadwright.errors import InvalidInput
from squadwright.formulas.one_rep_max import one_rep_max_brzycki, one_rep_max_epley
from squadwright.model.athlete import StrengthTest
from squadwright.planning.dose.problem import CapacityBasis, LiftCapacity

SINGLE_SD_FRACTION = 0.03
SET_SD_FRACTION = 0.065
LONG_SET_SD_FRACTION = 0.10
LONG_SET_REPETITIONS = 12


@dataclass(frozen=True)
class TestedSet:
    """A set lifted to its last good repetition."""

    __test__ = False  # not a test case

    lift: str
    load_kg: float
    repetitions: int


@dataclass(frozen=True)
class LiftLink:
    """1RM of ``lift`` over 1RM of ``reference``, and the spread of that ratio between people."""

    lift: str
    reference: str
    ratio: float
    sd_fraction: float
    basis: str


@dataclass(frozen=True)
class CapacityWay:
    """How the capacity in a lift is known: by a test of its own, or from a lift by a ratio."""

    capacity: LiftCapacity
    test: TestedSet | None = None
    from_lift: str = ""
    link: LiftLink | None = None


_COMMON_LINKS = (
    LiftLink("front squat", "back squat", 0.79, 0.08, "Gullett 2009; spread our estimate"),
    LiftLink("power clean", "back squat", 0.66, 0.10, "coaching norm; spread our estimate"),
    LiftLink("strict press", "bench press", 0.65, 0.08, "coaching rule 0.60 to 0.70"),
    LiftLink(
        "strict press",
        "power clean",
        0.70,
        0.12,
        "our estimate, between press over jerk 0.63 (Soriano 2022) and coaching norms",
    ),
    LiftLink("bent-over row", "bench press", 0.825, 0.10, "coaching rule 0.70 to 0.95"),
    LiftLink("pull-up", "bench press", 1 / 0.977, 0.09, "Baker & Newton 2004, body and load"),
    LiftLink("leg press", "back squat", 2.0, 0.20, "our estimate; machines differ"),
)
_BY_SEX = {
    "male": (
        LiftLink("deadlift", "back squat", 3.25 / 2.83, 0.10, "van den Hoek 2024; spread ours"),
        LiftLink("bench press", "back squat", 1.95 / 2.83, 0.10, "van den Hoek 2024; spread ours"),
    ),
    "female": (
        LiftLink("deadlift", "back squat", 2.66 / 2.26, 0.10, "van den Hoek 2024; spread ours"),
        LiftLink("bench press", "back squat", 1.35 / 2.26, 0.10, "van den Hoek 2024; spread ours"),
    ),
}


def tested_sets(tests: Iterable[StrengthTest]) -> list[TestedSet]:
    """The strength tests of an athlete as sets, in the order of their days."""
    in_order = sorted(tests, key=lambda test: test.taken_on)
    return [TestedSet(t.lift.value, t.load.kg, t.repetitions) for t in in_order]


def capacity_from_set(test: TestedSet) -> LiftCapacity:
    """1RM from one set: half-way between Epley's and Brzycki's lines; a single is a measured 1RM.

    The two lines give 87.3 % for five repetitions, where the handbook chart has 87 %.
    """
    if test.repetitions == 1:
        return LiftCapacity(test.load_kg, SINGLE_SD_FRACTION, CapacityBasis.TESTED)
    mean_kg = (
        one_rep_max_epley(test.load_kg, test.repetitions)
        + one_rep_max_brzycki(test.load_kg, test.repetitions)
    ) / 2
    long = test.repetitions > LONG_SET_REPETITIONS
    spread = LONG_SET_SD_FRACTION if long else SET_SD_FRACTION
    return LiftCapacity(mean_kg, spread, CapacityBasis.TESTED)


def capacities_from_tests(
    tests: Sequence[TestedSet], lifts: Sequence[str], *, sex: str | None = None
) -> Mapping[str, LiftCapacity]:
    """Capacity in each wanted lift. Of several tests of one lift the last counts.

    A lift with no test is guessed by the chain of ratios with the least spread. ``sex`` is
    "male", "female" or None, which takes the middle of both.
    """
    known = capacity_ways(tests, sex=sex)
    missing = [lift for lift in lifts if lift not in known]
    if missing:
        tested = ", ".join(dict.fromkeys(test.lift for test in tests))
        raise InvalidInput(
            "lifts",
            f"{', '.join(missing)} cannot be guessed from {tested}",
            "Test it, or scale the movement from another lift",
        )
    return {lift: known[lift].capacity for lift in lifts}


def capacity_ways(
    tests: Sequence[TestedSet], *, sex: str | None = None
) -> Mapping[str, CapacityWay]:
    """Capacity in every lift that a test or a chain of ratios reaches, each with its way."""
    known = {test.lift: CapacityWay(capacity_from_set(test), test) for test in tests}
    if not known:
        raise InvalidInput(
            "tests", "holds no strength test", "Test one lift, or set the load by hand"
        )
    links = lift_links(sex)
    waiting = True
    while waiting:
        waiting = False
        for link in links:
            for name, guess in _guesses(link, known):
                best = known.get(name)
                if best is None or (
                    best.test is None
                    and guess.capacity.sd_fraction < best.capacity.sd_fraction - 1e-9
                ):
                    known[name] = guess
                    waiting = True
    return known


def capacity_range_kg(capacity: LiftCapacity, share: float = 0.9) -> tuple[float, float]:
    """Bounds between which the maximum lies with a chance of ``share`` [kg].

    The maximum is log-normal with this mean and spread, as in the draws behind each dose.
    """
    sd_log = sqrt(log1p(capacity.sd_fraction**2))
    away = NormalDist().inv_cdf((1 + share) / 2) * sd_log
    middle_kg = capacity.mean_kg * exp(-(sd_log**2) / 2)
    return middle_kg * exp(-away), middle_kg * exp(away)


def lift_links(sex: str | None) -> tuple[LiftLink, ...]:
    """Ratios between the reference lifts."""
    if sex is None:
        middle = tuple(
            LiftLink(m.lift, m.reference, (m.ratio + f.ratio) / 2, 0.12, m.basis)
            for m, f in zip(_BY_SEX["male"], _BY_SEX["female"], strict=True)
        )
        return _COMMON_LINKS + middle
    if sex not in _BY_SEX:
        raise InvalidInput("sex", f"is {sex!r}", "Give male or female, or leave it out")
    return _COMMON_LINKS + _BY_SEX[sex]


def _guesses(link: LiftLink, known: Mapping[str, CapacityWay]) -> list[tuple[str, CapacityWay]]:
    guesses = []
    for name, other, ratio in (
        (link.lift, link.reference, link.ratio),
        (link.reference, link.lift, 1 / link.ratio),
    ):
        if other in known:
            start = known[other].capacity
            spread = hypot(start.sd_fraction, link.sd_fraction)
            guess = LiftCapacity(start.mean_kg * ratio, spread, CapacityBasis.GUESSED)
            guesses.append((name, CapacityWay(guess, from_lift=other, link=link)))
    return guesses
