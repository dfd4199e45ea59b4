"""Repetitions over a series of sets, with other exercises in between or one after another.

A series is a list of sets in the order done, each with the rest after it. Whole repetitions are
counted, as people do them: a set ends at its target or before the first repetition that fails.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from squadwright.errors import InvalidInput
from squadwright.planning.dose.draws import SEED, FloatArray
from squadwright.planning.dose.fatigue import FatigueModel, People
from squadwright.planning.dose.named_lifts import NamedLift

PEOPLE = 4000


@dataclass(frozen=True)
class Intensity:
    """A load: a share of each person's tested 1RM, or his own load for so many repetitions.

    ``factor`` scales it (0.9 for 10 % less).
    """

    share_of_1rm: float | None = None
    repetition_maximum: int | None = None
    factor: float = 1.0

    def __post_init__(self) -> None:
        if (self.share_of_1rm is None) == (self.repetition_maximum is None):
            raise InvalidInput(
                "intensity",
                "is neither a share of the 1RM nor a repetition maximum",
                "Give one of them, for example 70% or 10RM",
            )


@dataclass(frozen=True)
class PlannedSet:
    """One set: a target of repetitions (``None`` is as many as possible), and the rest after."""

    lift: NamedLift
    intensity: Intensity
    target: int | None
    rest_after_s: float


@dataclass(frozen=True)
class SetRepetitions:
    """Repetitions of one set: mean and SD over people."""

    lift: str
    mean: float
    sd: float


@dataclass(frozen=True)
class SeriesResult:
    """Whole repetitions per person (sets x people), and the lifts of the sets."""

    lifts: tuple[str, ...]
    repetitions: FloatArray

    def per_set(self) -> tuple[SetRepetitions, ...]:
        """Mean and SD of every set."""
        return tuple(
            SetRepetitions(lift, float(row.mean()), float(row.std(ddof=1)))
            for lift, row in zip(self.lifts, self.repetitions, strict=True)
        )

    def totals(self, lift: str | None = None) -> FloatArray:
        """Repetitions in total per person, of one lift or of all."""
        chosen = [lift is None or name == lift for name in self.lifts]
        total: FloatArray = self.repetitions[chosen].sum(axis=0)
        return total


def simulate_series(
    sets: Sequence[PlannedSet],
    *,
    people_count: int = PEOPLE,
    seed: int = SEED,
    model: FatigueModel | None = None,
) -> SeriesResult:
    """Repetitions of each set of a series for people drawn from the population."""
    model = model or FatigueModel()
    people = model.people(people_count, seed)
    pools = model.pools(planned.lift for planned in sets)
    state = model.fresh(people, pools)
    loads: dict[tuple[str, Intensity], FloatArray] = {}
    done = []
    for planned in sets:
        lift = planned.lift.name
        key = (lift, planned.intensity)
        if key not in loads:
            factor = float(pools.repetition_factor[pools.row[lift]])
            loads[key] = _load_fraction(planned.intensity, factor, people, model)
        able = model.repetitions_possible(state, pools, lift, loads[key], people)
        target = np.inf if planned.target is None else planned.target
        repetitions = np.minimum(np.floor(able + 1e-9), target)
        done.append(repetitions)
        state = model.after_repetitions(state, pools, lift, loads[key], repetitions, people)
        state = model.after_rest(state, planned.rest_after_s, pools, people)
    return SeriesResult(tuple(s.lift.name for s in sets), np.array(done))


def _load_fraction(
    intensity: Intensity, repetition_factor: float, people: People, model: FatigueModel
) -> FloatArray:
    """The load as a share of each person's fresh strength of the day."""
    if intensity.share_of_1rm is not None:
        return intensity.share_of_1rm * intensity.factor / people.strength
    assert intensity.repetition_maximum is not None
    return intensity.factor * model.repetition_maximum(
        repetition_factor, intensity.repetition_maximum, people
    )
