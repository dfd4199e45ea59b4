"""How alike two exercises are in the muscle groups they use."""

from math import sqrt

from squadwright.model.exercise import Exercise
from squadwright.model.muscles import MuscleGroup


def groups_used(exercise: Exercise) -> dict[MuscleGroup, float]:
    """Share of each muscle group, the greatest of its parts."""
    shares: dict[MuscleGroup, float] = {}
    for part in exercise.parts:
        for group, share in part.groups.items():
            shares[group] = max(share, shares.get(group, 0.0))
    return shares


def likeness(first: Exercise, second: Exercise) -> float:
    """Cosine of the angle between their shares: 0 nothing in common, 1 the same mix."""
    a, b = groups_used(first), groups_used(second)
    length = sqrt(sum(x * x for x in a.values())) * sqrt(sum(x * x for x in b.values()))
    if length == 0:
        return 0.0
    return min(1.0, sum(share * b.get(group, 0.0) for group, share in a.items()) / length)
