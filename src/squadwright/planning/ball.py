"""Which medicine ball for whom: by body mass, youth, the lighter catcher, and the store."""

from collections.abc import Sequence
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
class BallUse:
    """One group in one exercise, with the band of its lightest catcher."""

    group: str
    exercise: Exercise
    band: BallBand


def share_balls(
    uses: Sequence[BallUse], balls: Sequence[Ball], *, in_turn: bool = True
) -> tuple[Ball | None, ...]:
    """A ball for each use, never heavier than its band, the heaviest that is left; else None.

    A group keeps a ball it already has where that suits. Groups with the lightest band choose
    first, so that a light ball is not taken by somebody who could use a heavier one. When all that
    suit are taken and groups may use one ``in_turn``, the one with the fewest groups to a piece is
    shared; the run sheet sees to it that one group at a time has it.
    """
    users: dict[str, set[str]] = {ball.id: set() for ball in balls}
    chosen: list[Ball | None] = [None] * len(uses)
    order = sorted(range(len(uses)), key=lambda i: (uses[i].band.heaviest_kg, uses[i].group, i))
    for place in order:
        use = uses[place]
        fitting = [
            ball
            for ball in balls
            if suits(ball, use.exercise) and ball.mass.kg <= use.band.heaviest_kg + 1e-9
        ]
        own = [ball for ball in fitting if use.group in users[ball.id]]
        free = [ball for ball in fitting if len(users[ball.id]) < ball.count]
        if own or free:
            best = max(own or free, key=lambda ball: (ball.mass.kg, ball.id))
        elif fitting and in_turn:
            best = min(fitting, key=lambda b: (len(users[b.id]) / b.count, -b.mass.kg, b.id))
        else:
            continue
        users[best.id].add(use.group)
        chosen[place] = best
    return tuple(chosen)
