"""Fit the constants of the fatigue model to published sets to failure; print them.

Run ``python benchmarks/fatigue_calibration.py``. It takes some minutes, draws the same people each
time and prints the constants, which stand rounded in ``FatigueConstants``, and each target.

Bench press first (all constants but those of legs and trunk), then the squat with the rest held.
Where an abstract gives a range of falls and not the repetitions of each set (Ratamess 2007), the
target is our reading of it. The curves of a fresh set are our middle between what was measured,
which differs (Cooke 2019, Wolfe 2024), the load chart of the NSCA and the printed 1RM equations.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import differential_evolution

from squadwright.model.muscles import MuscleGroup
from squadwright.planning.dose.fatigue import FatigueConstants, FatigueModel
from squadwright.planning.dose.named_lifts import NamedLift, named_lift
from squadwright.planning.dose.set_series import (
    Intensity,
    PlannedSet,
    SeriesResult,
    simulate_series,
)

PEOPLE = 600
BENCH_ROUNDS, LEG_ROUNDS = 50, 12
BENCH = named_lift("bench press")
SQUAT = named_lift("back squat")
TRUNK = (MuscleGroup.TRUNK_EXTENSORS, MuscleGroup.TRUNK_FLEXORS)
LEGS = (MuscleGroup.KNEE_EXTENSORS, MuscleGroup.HIP_EXTENSORS, MuscleGroup.CALVES)


@dataclass(frozen=True)
class Target:
    """A number to come near: the value, and the error that counts as one."""

    name: str
    value: float
    error: float


def percent(*shares: float) -> list[Intensity]:
    """Shares of the 1RM."""
    return [Intensity(share_of_1rm=share / 100) for share in shares]


def rm(repetitions: int, sets: int) -> list[Intensity]:
    """The same repetition maximum in every set."""
    return [Intensity(repetition_maximum=repetitions)] * sets


def run(
    model: FatigueModel,
    lift: NamedLift,
    loads: list[Intensity],
    rest_s: float,
    target: int | None = None,
) -> SeriesResult:
    """Sets of one lift."""
    sets = [PlannedSet(lift, load, target, rest_s) for load in loads]
    return simulate_series(sets, people_count=PEOPLE, model=model)


BENCH_CURVE = {
    95: (2.4, 0.6),
    90: (4.2, 0.7),
    85: (6.6, 0.6),
    80: (8.5, 0.6),
    75: (10.8, 0.8),
    70: (13.2, 0.8),
    65: (16.3, 1.2),
    60: (19.0, 1.5),
    50: (25.0, 1.5),
}
SQUAT_CURVE = {85: (8.0, 1.0), 75: (12.5, 1.5), 70: (14.6, 0.8), 65: (18.5, 2.0)}
HELD_SETS = {
    60: (8.5, 6.5, 5.3, 4.8),
    120: (9.8, 9.2, 8.0, 7.1),
    180: (9.9, 9.5, 8.0, 7.8),
    300: (10.0, 10.0, 9.7, 8.8),
}


def bench_rows(model: FatigueModel) -> list[tuple[Target, float]]:
    """Bench press: target and fit."""
    rows: list[tuple[Target, float]] = []
    total = {r: run(model, BENCH, rm(8, 4), r).totals().mean() for r in (60, 120, 300)}
    rows += [
        (
            Target("Willardson & Burkett 2005, bench, 2 min over 1 min", 1.26, 0.025),
            total[120] / total[60],
        ),
        (
            Target("Willardson & Burkett 2005, bench, 5 min over 1 min", 1.50, 0.025),
            total[300] / total[60],
        ),
    ]
    for rest_s, value in ((60, 26.67), (120, 33.16)):
        result = run(model, BENCH, percent(70, 75, 75, 80, 85), rest_s)
        rows.append(
            (Target(f"Speretta 2012, total, {rest_s} s", value, 1.2), float(result.totals().mean()))
        )
    for rest_s, value in ((20, 0.889), (40, 0.87), (60, 0.889)):
        result = run(model, BENCH, rm(1, 2), rest_s, 1)
        rows.append(
            (
                Target(f"Scudese 2016, second single, {rest_s} s", value, 0.015),
                result.per_set()[1].mean,
            )
        )
    for rest_s, values in HELD_SETS.items():
        sets = run(model, BENCH, percent(*[75] * 5), rest_s, 10).repetitions
        error = 0.9 if rest_s == 60 else 0.45
        held = sets[:, sets[0] >= 10].mean(axis=1)
        rows += [
            (Target(f"Ratamess 2007, set {k + 2}, {rest_s} s", value, error), float(held[k + 1]))
            for k, value in enumerate(values)
        ]
    for share, (value, error) in BENCH_CURVE.items():
        first = run(model, BENCH, percent(share), 0).per_set()[0].mean
        rows.append((Target(f"bench repetitions at {share} %", value, error), first))
    return rows


def leg_rows(model: FatigueModel) -> list[tuple[Target, float]]:
    """Squat and leg press: target and fit."""
    total = {r: run(model, SQUAT, rm(8, 4), r).totals().mean() for r in (60, 120, 300)}
    rows = [
        (
            Target("Willardson & Burkett 2005, squat, 2 min over 1 min", 1.14, 0.02),
            total[120] / total[60],
        ),
        (
            Target("Willardson & Burkett 2005, squat, 5 min over 1 min", 1.28, 0.02),
            total[300] / total[60],
        ),
    ]
    for share, (value, error) in SQUAT_CURVE.items():
        first = run(model, SQUAT, percent(share), 0).per_set()[0].mean
        rows.append((Target(f"squat repetitions at {share} %", value, error), first))
    return rows


def loss(rows: list[tuple[Target, float]]) -> float:
    """Sum of squared errors, each in its own unit."""
    return float(sum(((fit - target.value) / target.error) ** 2 for target, fit in rows))


UPPER = tuple(g for g in MuscleGroup if g not in (*LEGS, *TRUNK))
BENCH_BOUNDS = [
    (0.9, 1.9),
    (0.3, 0.8),
    (4.0, 15.0),
    (0.75, 0.99),
    (60.0, 220.0),
    (800.0, 1500.0),
    (22.0, 40.0),
    (0.02, 0.035),
]
# Judgement: the legs recover a little faster than the upper body.
LEGS_OVER_UPPER = 0.9
LEG_BOUNDS = [(15.0, 200.0), (25.0, 60.0)]


def with_bench(values: np.ndarray, start: FatigueConstants) -> FatigueConstants:
    """Constants with those of the bench press set."""
    exponent, straight, immediate_s, fast, fast_s, slow_s, factor, step = map(float, values)
    return replace(
        start,
        load_exponent=exponent,
        immediate_fraction=straight,
        immediate_s=immediate_s,
        fast_fraction=fast,
        test_step_fraction=step,
        fast_s={**start.fast_s, **dict.fromkeys((*UPPER, *LEGS), fast_s)},
        slow_s=dict.fromkeys(MuscleGroup, slow_s),
        repetition_factor={**start.repetition_factor, **dict.fromkeys(UPPER, factor)},
    )


def with_legs(values: np.ndarray, start: FatigueConstants) -> FatigueConstants:
    """Constants with those of legs and trunk set."""
    trunk_s, factor = map(float, values)
    legs_s = LEGS_OVER_UPPER * start.fast_s[MuscleGroup.CHEST]
    return replace(
        start,
        fast_s={**start.fast_s, **dict.fromkeys(LEGS, legs_s), **dict.fromkeys(TRUNK, trunk_s)},
        repetition_factor={**start.repetition_factor, **dict.fromkeys((*LEGS, *TRUNK), factor)},
    )


def fit(
    put: Callable[[np.ndarray, FatigueConstants], FatigueConstants],
    rows: Callable[[FatigueModel], list[tuple[Target, float]]],
    bounds: list[tuple[float, float]],
    start: FatigueConstants,
    rounds: int,
) -> FatigueConstants:
    """The constants with the least loss."""
    found = differential_evolution(
        lambda values: loss(rows(FatigueModel(put(values, start)))),
        bounds,
        maxiter=rounds,
        popsize=10,
        seed=1,
        tol=1e-4,
        polish=False,
    )
    return put(found.x, start)


def main() -> None:
    """Fit, and print constants and targets."""
    start = FatigueConstants()
    bench = fit(with_bench, bench_rows, BENCH_BOUNDS, start, BENCH_ROUNDS)
    legs = fit(with_legs, leg_rows, LEG_BOUNDS, bench, LEG_ROUNDS)
    print(legs)
    model = FatigueModel(legs)
    for target, value in bench_rows(model) + leg_rows(model):
        print(f"{target.name}: wanted {target.value:g}, fitted {value:.3f}")


if __name__ == "__main__":
    main()
