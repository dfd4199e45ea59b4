"""Which medicine ball for whom: by body mass, youth, the lighter catcher, and the store."""

from collections import Counter
from dataclasses import dataclass

from squadwright.model.exercise import Exercise
from squadwright.model.kit import Ball

BALL_BASIS = (
    "our estimate: by body mass, one step lighter for the young; when in doubt lighter "
    "(Hansen and Kennelly, Plyometric Anatomy)"
)


@dataclass(frozen=True)
class BallBand:
    """Balls for athletes up to a body mass: ``lightest_kg`` to ``heaviest_kg``."""

    body_mass_below_kg: float
    lightest_kg: float
    heaviest_kg: float


BALL_BANDS = (
    BallBand(55.0, 2.0, 3.0),
    BallBand(75.0, 3.0, 4.0),
    BallBand(95.0, 4.0, 6.0),
    BallBand(float("inf"), 6.0, 6.0),
)
YOUNG_BELOW_AGE = 16


def ball_band(body_mass_kg: float | None, age: int) -> BallBand:
    """The band of ball masses for one athlete; unknown body mass counts as the lightest band."""
    index = 0
    if body_mass_kg is not None:
        index = next(i for i, b in enumerate(BALL_BANDS) if body_mass_kg < b.body_mass_below_kg)
    if age < YOUNG_BELOW_AGE:
        if index == 0:
            lightest = BALL_BANDS[0].lightest_kg
            return BallBand(BALL_BANDS[0].body_mass_below_kg, 0.0, lightest)
        index -= 1
    return BALL_BANDS[index]


def suits(ball: Ball, exercise: Exercise) -> bool:
    """Whether a ball may be used for an exercise (bounce, walls, in service)."""
    needs = exercise.needs
    if not ball.in_service:
        return False
    if needs.ball_must_bounce and not ball.bounces:
        return False
    if needs.ball_must_not_bounce and ball.bounces:
        return False
    return not (needs.throw_wall and not ball.fit_for_walls)


@dataclass(frozen=True)
class BallProblem:
    """One exercise; per group the band of its lightest catcher; the balls of the store."""

    exercise: Exercise
    bands: dict[str, BallBand]
    balls: tuple[Ball, ...]


@dataclass(frozen=True)
class BallSolution:
    """A ball for each group, and the groups for which the store has none that is light enough."""

    ball_of: dict[str, Ball]
    without: tuple[str, ...]


def share_balls(problem: BallProblem) -> BallSolution:
    """Give each group one ball, never heavier than its band, the heaviest that is left.

    Groups with the lightest band choose first, so that a light ball is not taken by somebody who
    could use a heavier one; every ball is used by one group at a time.
    """
    left: Counter[str] = Counter()
    suitable = [b for b in problem.balls if suits(b, problem.exercise)]
    for ball in suitable:
        left[ball.id] += ball.count
    chosen: dict[str, Ball] = {}
    without: list[str] = []
    order = sorted(problem.bands, key=lambda g: (problem.bands[g].heaviest_kg, g))
    for group in order:
        limit = problem.bands[group].heaviest_kg
        fitting = [b for b in suitable if left[b.id] > 0 and b.mass.kg <= limit + 1e-9]
        if not fitting:
            without.append(group)
            continue
        best = max(fitting, key=lambda b: (b.mass.kg, b.id))
        left[best.id] -= 1
        chosen[group] = best
    return BallSolution(ball_of=chosen, without=tuple(without))
