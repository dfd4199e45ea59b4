"""Invented athletes whose true strength is known, and what a coach has them do. No real data.

Everything a fit may see is in ``histories``; the truth is kept apart and given to scores alone.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta

import numpy as np

from learning.invented_work import (
    GROUPS,
    Bodies,
    Nature,
    Outcome,
    critical_load_kg,
    invented_works,
    work_through,
)
from squadwright.learning.baselines import ShareOfWeakestLift
from squadwright.learning.history import History, Trial, Work
from squadwright.learning.world import World
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.problem import CapacityBasis, LiftCapacity
from squadwright.planning.dose.unknowns import (
    ENDURANCE,
    RECOVERY,
    SLOW_RECOVERY,
    ratio_name,
    strength_name,
)

FIRST_TEST = date(2026, 1, 5)
# Middle of an invented squad [kg], and the SD of its test: tested, or guessed from another lift.
MIDDLES = {
    "deadlift": (150.0, 0.12, CapacityBasis.GUESSED),
    "back squat": (130.0, 0.065, CapacityBasis.TESTED),
    "front squat": (103.0, 0.08, CapacityBasis.GUESSED),
    "power clean": (85.0, 0.065, CapacityBasis.TESTED),
    "strict press": (60.0, 0.065, CapacityBasis.TESTED),
    "bent-over row": (85.0, 0.12, CapacityBasis.GUESSED),
    "bench press": (95.0, 0.065, CapacityBasis.TESTED),
}
STEP_KG = 2.5
BLOCK = 10
# What the coach has found each complex to be worth, over his plain rule.
COACHS_EYE = (1.16, 1.30, 1.08, 1.30)


@dataclass(frozen=True)
class InventedWorld:
    """How the invented world goes. As it stands it is the world that the fit assumes.

    ``day_tail`` is the degrees of freedom of a Student's t of the same SD, 0 for a normal.
    ``involvement_sd`` is how far the part of each muscle group in all lifts differs between
    people (log SD). ``trend_per_week`` is a change of strength that nobody told the fit.
    ``in_turn`` is how many complexes the coach keeps in turn for a block of ten sessions.
    """

    name: str = "as the fit assumes"
    recovery: str = "two phases"
    slower: float = 1.0
    involvement_sd: float = 0.0
    assumed: World = field(default_factory=World)
    call_bias: float = 0.95
    call_sd: float = 1.0
    day_sd: float = 0.03
    day_tail: float = 0.0
    trend_per_week: float = 0.0
    calling: float = 0.8
    late: float = 0.05
    ill: float = 0.04
    short_of_plates: float = 0.06
    faults: float = 0.3
    in_turn: int = 2


MANY_COMPLEXES = InventedWorld("four complexes in turn: each comes back late", in_turn=4)
WRONG_WORLDS = (
    InventedWorld("recovery in one phase, half as fast", recovery="one phase", slower=2.0),
    InventedWorld("recovery by a power law", recovery="power law"),
    InventedWorld("other muscles tire", involvement_sd=0.7),
    InventedWorld("reserve under-called by two and a half", call_bias=2.5, call_sd=1.5),
    InventedWorld("days of heavy tails", day_sd=0.05, day_tail=3.0),
    InventedWorld("strength grows 1 % a week, unknown", trend_per_week=0.01),
)


@dataclass(frozen=True)
class Truth:
    """What is true of each athlete: unknowns by name, strength at each session, the day."""

    unknowns: Mapping[str, FloatArray]
    walk: FloatArray
    day: FloatArray
    involvement: FloatArray | None

    def bodies(self, work: Work) -> Bodies:
        """Everybody as he was at the first test."""
        parts = [
            self.unknowns[strength_name(part.reference_lift)]
            + self.unknowns[ratio_name(movement.name, number)]
            for movement in work.movements
            for number, part in enumerate(movement.parts)
        ]
        rest = (self.unknowns[name] for name in (ENDURANCE, RECOVERY, SLOW_RECOVERY))
        return Bodies(np.exp(np.stack(parts, axis=1)), *(np.exp(each) for each in rest))


@dataclass(frozen=True)
class InventedSquad:
    """Histories, and apart from them the truth: log of the load each bore in each session.

    ``margin_kg_log`` is of that day; ``oracle_kg`` is the dose of somebody who knows all but the
    day, for the target chance with the wanted reserve. Both are people x sessions.
    """

    world: InventedWorld
    histories: tuple[History, ...]
    works: tuple[Work, ...]
    days: tuple[date, ...]
    truth: Truth
    log_critical: FloatArray
    oracle_kg: FloatArray


def invented_squad(
    count: int = 200, sessions: int = 20, *, world: InventedWorld | None = None, seed: int = 1
) -> InventedSquad:
    """A squad that did some sessions; the same for the same seed."""
    world = world or InventedWorld()
    rng = np.random.default_rng(seed)
    works = invented_works()
    chosen = tuple(works[_turn(number, world.in_turn) % len(works)] for number in range(sessions))
    days = _days(sessions)
    starts = [_first_tests(rng) for _ in range(count)]
    truth = _truth(rng, starts, days, world)
    nature = Nature(world.recovery, world.slower, truth.involvement)
    coach = _Coach(rng, starts, works)
    trials: list[list[Trial]] = [[] for _ in range(count)]
    for number, work in enumerate(chosen):
        scale = np.exp(truth.walk[:, number] + truth.day[:, number])
        load_kg = coach.loads(work)
        session = _Session(rng, world, work, days[number], number)
        seen, outcome, said = session.held(truth.bodies(work).scaled(scale), nature, load_kg)
        coach.learn(work, outcome, said)
        for row, trial in zip(trials, seen, strict=True):
            row.append(trial)
    log_critical, oracle_kg = _known_loads(chosen, truth, nature, world)
    return InventedSquad(
        world,
        tuple(
            History(f"invented {n + 1}", FIRST_TEST, tests, tuple(row))
            for n, (tests, row) in enumerate(zip(starts, trials, strict=True))
        ),
        chosen,
        days,
        truth,
        log_critical,
        oracle_kg,
    )


def _turn(number: int, in_turn: int) -> int:
    """Which work a session has: some in turn for a block of ten sessions, then the next ones."""
    return number % in_turn + in_turn * (number // BLOCK)


def _days(sessions: int) -> tuple[date, ...]:
    """Two sessions a week, with three weeks off after every twelfth."""
    gaps = [21 if number and number % 12 == 0 else 3 + number % 2 for number in range(sessions)]
    return tuple(FIRST_TEST + timedelta(days=int(d)) for d in np.cumsum(gaps))


def _first_tests(rng: np.random.Generator) -> dict[str, LiftCapacity]:
    size = np.exp(rng.normal(0, 0.18))
    return {
        lift: LiftCapacity(middle * size * np.exp(rng.normal(0, 0.08)), sd, basis)
        for lift, (middle, sd, basis) in MIDDLES.items()
    }


def _truth(
    rng: np.random.Generator,
    starts: list[dict[str, LiftCapacity]],
    days: tuple[date, ...],
    world: InventedWorld,
) -> Truth:
    count, assumed = len(starts), world.assumed
    unknowns = {
        strength_name(lift): _log_draws(
            rng, np.array([s[lift].mean_kg for s in starts]), np.full(count, sd)
        )
        for lift, (_, sd, _) in MIDDLES.items()
    }
    for work in invented_works():
        for movement in work.movements:
            for number, part in enumerate(movement.parts):
                unknowns.setdefault(
                    ratio_name(movement.name, number),
                    _log_draws(
                        rng, np.full(count, part.ratio), np.full(count, part.ratio_sd_fraction)
                    ),
                )
    unknowns[ENDURANCE] = rng.normal(0, assumed.endurance_sd, count)
    joined = assumed.recovery_correlation
    shape = assumed.recovery_sd**2 * np.array([[1, joined], [joined, 1]])
    fast, slow = rng.multivariate_normal(np.zeros(2), shape, count).T
    unknowns[RECOVERY], unknowns[SLOW_RECOVERY] = fast, slow
    gaps = np.diff(np.array([FIRST_TEST, *days])).astype("timedelta64[D]").astype(int)
    steps = np.array([assumed.drift_mean(int(g)) + world.trend_per_week * g / 7 for g in gaps])
    spread = np.sqrt([assumed.drift_variance(int(g)) for g in gaps])
    walk = np.cumsum(steps + spread * rng.standard_normal((count, len(days))), axis=1)
    if world.day_tail:
        even = np.sqrt((world.day_tail - 2) / world.day_tail)
        day = world.day_sd * even * rng.standard_t(world.day_tail, (count, len(days)))
    else:
        day = world.day_sd * rng.standard_normal((count, len(days)))
    involvement = None
    if world.involvement_sd:
        involvement = np.exp(world.involvement_sd * rng.standard_normal((count, len(GROUPS))))
    return Truth(unknowns, walk, day, involvement)


def _log_draws(rng: np.random.Generator, mean: FloatArray, sd_fraction: FloatArray) -> FloatArray:
    variance = np.log1p(sd_fraction**2)
    return np.log(mean) - variance / 2 + np.sqrt(variance) * rng.standard_normal(len(mean))


class _Coach:
    """Sets loads by eye: the plain rule at first, then by what was done, now and then too much."""

    def __init__(
        self,
        rng: np.random.Generator,
        starts: list[dict[str, LiftCapacity]],
        works: tuple[Work, ...],
    ) -> None:
        self.rng = rng
        rule = ShareOfWeakestLift()
        blank = [History("", FIRST_TEST, tests, ()) for tests in starts]
        self.rule = {
            _names(work): np.array([rule.rule_kg(each, work) for each in blank])
            for work in works[:4]
        }
        self.step = {
            moves: worth * np.exp(rng.normal(0, 0.07, len(starts)))
            for moves, worth in zip(self.rule, COACHS_EYE, strict=True)
        }
        self.push = 0.12

    def loads(self, work: Work) -> FloatArray:
        """A load for each that plates can build [kg]."""
        count = len(self.step[_names(work)])
        pushed = 1 + self.push * (self.rng.random(count) < 0.15)
        by_eye = np.exp(self.rng.normal(0, 0.03, count))
        rounds = 1.05 - 0.02 * (work.rounds - 3)
        kg = self.rule[_names(work)] * self.step[_names(work)] * pushed * by_eye * rounds
        return np.maximum(STEP_KG * np.round(kg / STEP_KG), 2 * STEP_KG)

    def learn(self, work: Work, outcome: Outcome, said: FloatArray) -> None:
        """Up where much was left, back where repetitions were lost; less so in other complexes."""
        whole = outcome.clean_rounds == work.rounds
        change = np.where(whole, np.select([said >= 4, said >= 2], [1.06, 1.03], 1.0), 0.92)
        for moves in self.step:
            self.step[moves] *= change if moves == _names(work) else change**0.3


def _names(work: Work) -> tuple[str, ...]:
    return tuple(movement.name for movement in work.movements)


@dataclass(frozen=True)
class _Session:
    """One session of the whole squad."""

    rng: np.random.Generator
    world: InventedWorld
    work: Work
    day: date
    number: int

    def held(
        self, bodies: Bodies, nature: Nature, load_kg: FloatArray
    ) -> tuple[list[Trial], Outcome, FloatArray]:
        """What the coach's record says, what happened, and the reserve each called (-1: none)."""
        rng, world, rounds = self.rng, self.world, self.work.rounds
        count = len(load_kg)
        kind = rng.random(count)
        late = kind < world.late
        ill = (kind >= world.late) & (kind < world.late + world.ill)
        short = (kind >= 0.5) & (kind < 0.5 + world.short_of_plates)
        wanted_kg = load_kg
        load_kg = np.where(short, STEP_KG * np.floor(load_kg * 0.85 / STEP_KG), load_kg)
        weak = np.where(ill, np.exp(-np.abs(rng.normal(0.10, 0.05, count))), 1.0)
        outcome = work_through(self.work, bodies.scaled(weak), nature, load_kg)
        joined = np.where(late, rng.integers(1, rounds, count), rounds)
        clean = np.minimum(outcome.clean_rounds, joined)
        lost = np.where(ill | (outcome.clean_rounds >= joined), 0, outcome.lost)
        whole = (clean == rounds) & ~ill
        said = self._calls(outcome, whole)
        strained = self._strained(outcome, clean)
        trials = [
            Trial(
                session=f"session {self.number + 1}",
                held_on=self.day,
                work=self.work,
                load_kg=float(load_kg[n]),
                clean_rounds=int(clean[n]),
                lost_repetitions=int(lost[n]),
                called_reserve=float(said[n]) if said[n] >= 0 else None,
                strained_round=int(strained[n]),
                wanted_kg=float(wanted_kg[n]) if short[n] else None,
                spared="late" if late[n] else "ill" if ill[n] else "",
            )
            for n in range(count)
        ]
        told = replace(outcome, clean_rounds=np.where(late | ill, rounds, outcome.clean_rounds))
        return trials, told, said

    def _calls(self, outcome: Outcome, whole: FloatArray) -> FloatArray:
        """Whole repetitions called by those who did all, some of whom were not asked."""
        rng, world, count = self.rng, self.world, len(whole)
        spread = world.call_sd * (1 + 0.2 * outcome.left)
        felt = outcome.left - world.call_bias + spread * rng.standard_normal(count)
        asked = whole & (rng.random(count) < world.calling)
        return np.where(asked, np.maximum(np.round(felt), 0), -1.0)

    def _strained(self, outcome: Outcome, clean: FloatArray) -> FloatArray:
        """The first round after the first in which form gave way, 0 for none."""
        rounds = self.work.rounds
        tight = outcome.least <= 2
        tight[:, 0] = False
        tight &= np.arange(rounds)[None, :] < np.maximum(clean, 1)[:, None]
        seen = tight.any(axis=1) & (self.rng.random(len(clean)) < self.world.faults)
        return np.where(seen, tight.argmax(axis=1) + 1, 0)


def _known_loads(
    chosen: tuple[Work, ...], truth: Truth, nature: Nature, world: InventedWorld
) -> tuple[FloatArray, FloatArray]:
    """Log of the load each bore in each session, and the oracle's dose [kg]."""
    fresh: dict[int, tuple[FloatArray, FloatArray]] = {}
    critical, oracle = np.zeros_like(truth.walk), np.zeros_like(truth.walk)
    low_day = float(np.quantile(truth.day, 0.10))
    for number, work in enumerate(chosen):
        if id(work) not in fresh:
            bodies = truth.bodies(work)
            wanted = [movement.wanted_reserve for movement in work.movements]
            fresh[id(work)] = (
                np.log(critical_load_kg(work, bodies, nature)),
                np.log(critical_load_kg(work, bodies, nature, wanted)),
            )
        plain, reserved = fresh[id(work)]
        critical[:, number] = plain + truth.walk[:, number] + truth.day[:, number]
        oracle[:, number] = np.exp(reserved + truth.walk[:, number] + low_day)
    return critical, oracle
