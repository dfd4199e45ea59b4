"""Lifts by the names people use: the part of each muscle group, and repetitions at a given share.

The parts are our estimates. ``repetition_factor`` is fitted for bench press, back squat and leg
press; where it is ``None`` it follows from the muscle groups.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from squadwright.errors import NotFound
from squadwright.model.muscles import MuscleGroup as G


@dataclass(frozen=True)
class NamedLift:
    """A lift with its other names."""

    name: str
    involvement: Mapping[G, float]
    repetition_factor: float | None = None
    other_names: tuple[str, ...] = ()


NAMED_LIFTS = (
    NamedLift(
        "bench press",
        {G.CHEST: 1.0, G.SHOULDERS: 0.6, G.ELBOW_EXTENSORS: 0.6},
        other_names=(
            "barbell bench press",
            "flat bench press",
            "machine bench press",
            "dumbbell bench press",
            "chest press",
            "bench",
        ),
    ),
    NamedLift(
        "incline bench press",
        {G.CHEST: 0.9, G.SHOULDERS: 0.8, G.ELBOW_EXTENSORS: 0.6},
        other_names=("incline press",),
    ),
    NamedLift("close-grip bench press", {G.CHEST: 0.8, G.SHOULDERS: 0.6, G.ELBOW_EXTENSORS: 0.9}),
    NamedLift(
        "pec deck",
        {G.CHEST: 1.0, G.SHOULDERS: 0.4},
        other_names=(
            "peck deck",
            "pec deck fly",
            "pec fly",
            "chest fly",
            "machine fly",
            "machine chest fly",
            "dumbbell fly",
            "pectoral fly",
        ),
    ),
    NamedLift(
        "overhead press",
        {G.SHOULDERS: 1.0, G.ELBOW_EXTENSORS: 0.7, G.CHEST: 0.2},
        other_names=("strict press", "shoulder press", "military press", "press"),
    ),
    NamedLift(
        "triceps extension",
        {G.ELBOW_EXTENSORS: 1.0},
        other_names=(
            "triceps",
            "triceps pushdown",
            "triceps push-down",
            "triceps pulley",
            "triceps press",
            "lying triceps extension",
            "elbow extension",
        ),
    ),
    NamedLift("lateral raise", {G.SHOULDERS: 1.0}, other_names=("shoulder raise",)),
    NamedLift(
        "biceps curl",
        {G.ELBOW_FLEXORS: 1.0, G.GRIP: 0.3},
        other_names=("arm curl", "curl", "barbell curl", "bicep curl", "biceps", "elbow flexion"),
    ),
    NamedLift(
        "bent-over row",
        {G.UPPER_BACK: 1.0, G.ELBOW_FLEXORS: 0.6, G.GRIP: 0.5, G.TRUNK_EXTENSORS: 0.4},
        other_names=("row", "barbell row", "bent row"),
    ),
    NamedLift(
        "seated row",
        {G.UPPER_BACK: 1.0, G.ELBOW_FLEXORS: 0.6, G.GRIP: 0.4},
        other_names=("machine row", "seated machine row", "cable row", "bench pull"),
    ),
    NamedLift(
        "lat pulldown",
        {G.UPPER_BACK: 1.0, G.ELBOW_FLEXORS: 0.6, G.GRIP: 0.4},
        other_names=(
            "pulldown",
            "lat pull-down",
            "lateral pulldown",
            "wide-grip lat pulldown",
            "front pulldown",
        ),
    ),
    NamedLift(
        "pull-up", {G.UPPER_BACK: 1.0, G.ELBOW_FLEXORS: 0.6, G.GRIP: 0.5}, other_names=("chin-up",)
    ),
    NamedLift(
        "back squat",
        {G.KNEE_EXTENSORS: 1.0, G.HIP_EXTENSORS: 0.9, G.TRUNK_EXTENSORS: 0.9},
        other_names=("squat", "barbell squat", "barbell back squat", "half squat"),
    ),
    NamedLift("front squat", {G.KNEE_EXTENSORS: 1.0, G.HIP_EXTENSORS: 0.8, G.TRUNK_EXTENSORS: 0.9}),
    NamedLift(
        "leg press",
        {G.KNEE_EXTENSORS: 1.0, G.HIP_EXTENSORS: 0.7},
        repetition_factor=50.0,
        other_names=("machine leg press", "45 leg press", "inclined leg press"),
    ),
    NamedLift(
        "leg extension",
        {G.KNEE_EXTENSORS: 1.0},
        other_names=("knee extension", "machine leg extension"),
    ),
    NamedLift(
        "leg curl",
        {G.HIP_EXTENSORS: 1.0},
        other_names=("knee flexion", "hamstring curl", "lying leg curl", "seated leg curl"),
    ),
    NamedLift("calf raise", {G.CALVES: 1.0}),
    NamedLift(
        "deadlift",
        {
            G.HIP_EXTENSORS: 1.0,
            G.TRUNK_EXTENSORS: 0.9,
            G.KNEE_EXTENSORS: 0.6,
            G.GRIP: 0.8,
            G.UPPER_BACK: 0.5,
        },
        repetition_factor=31.5,
    ),
    NamedLift(
        "Romanian deadlift",
        {G.HIP_EXTENSORS: 1.0, G.TRUNK_EXTENSORS: 0.8, G.GRIP: 0.7, G.UPPER_BACK: 0.4},
        other_names=("stiff-leg deadlift",),
    ),
    NamedLift(
        "lunge",
        {G.KNEE_EXTENSORS: 1.0, G.HIP_EXTENSORS: 0.9, G.TRUNK_EXTENSORS: 0.3},
        other_names=("reverse lunge", "split squat"),
    ),
)


def _plain(name: str) -> str:
    return re.sub(r"[\s_-]+", " ", name).strip().casefold()


_BY_NAME = {_plain(name): lift for lift in NAMED_LIFTS for name in (lift.name, *lift.other_names)}


def named_lift(name: str) -> NamedLift:
    """The lift of this name; case, hyphens and underscores do not matter."""
    found = _BY_NAME.get(_plain(name))
    if found is None:
        known = ", ".join(lift.name for lift in NAMED_LIFTS)
        raise NotFound(f"There is no exercise named {name!r} here. Known are: {known}.")
    return found
