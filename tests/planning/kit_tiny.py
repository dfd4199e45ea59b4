"""Plate problems of two bars so small that every plan is written out in a moment."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import permutations, product
from random import Random

from planning.kit_oracles import Goals, every_plan
from squadwright.planning.kit.problem import (
    KitBar,
    KitGoal,
    KitGoalName,
    KitProblem,
    KitUser,
    PlateSize,
)


def tiny(seed: int) -> KitProblem:
    """Two or three users, one to three waves, and wishes of every kind."""
    dice = Random(seed)
    waves = dice.randint(1, 3)
    count = min(dice.randint(2, 3), 2 * waves)
    bars = tuple(
        KitBar(
            f"b{place}",
            dice.choice((5_000, 5_000, 10_000)),
            maximum_plates_g=dice.choice((None, None, 6_000)),
        )
        for place in range(2)
    )
    heaviest = max(bar.mass_g for bar in bars)
    users = [
        KitUser(
            f"u{place}",
            heaviest + dice.randrange(0, 14_000, 500),
            dice.choice((None, None, dice.randint(1, waves))),
            dice.choice((None, None, None, ("b0",), ("b1", "b0"))),
            bare_bar=dice.random() < 0.1,
        )
        for place in range(count)
    ]
    shared: tuple[tuple[str, ...], ...] = ()
    if dice.random() < 0.4:
        users = [replace(user, wave=None, bars=None) for user in users]
        together = min(waves, dice.randint(1, count))
        shared = (tuple(user.id for user in users[:together]),)
        if together < count and dice.random() < 0.5:
            shared = (*shared, tuple(user.id for user in users[together:][:waves]))
        if dice.random() < 0.3:
            first = {name: wave for group in shared for wave, name in enumerate(group[:1], start=1)}
            users = [replace(user, wave=first.get(user.id)) for user in users]
    plates = (PlateSize(2_500, dice.randint(0, 2)), PlateSize(1_000, dice.randint(0, 2)))
    return KitProblem(
        bars,
        plates if dice.random() < 0.7 else (*plates[:1], PlateSize(1_250, dice.randint(0, 2))),
        tuple(users),
        waves,
        shared,
        plates_stay_with_bar=dice.random() < 0.3,
    )


def solvable(seeds: range) -> list[KitProblem]:
    """Tiny problems that have a plan."""
    return [problem for seed in seeds if can_be_seated(problem := tiny(seed))]


def seatings(problem: KitProblem) -> Iterator[dict[str, tuple[str, int]]]:
    """Every way to give each user a bar and a wave, plates aside."""
    places = list(product((bar.id for bar in problem.bars), range(1, problem.waves + 1)))
    mass = {bar.id: bar.mass_g for bar in problem.bars}
    for chosen in permutations(places, len(problem.users)):
        seats = {user.id: spot for user, spot in zip(problem.users, chosen, strict=True)}
        if all(
            mass[seats[user.id][0]] <= user.target_g
            and user.wave in (None, seats[user.id][1])
            and (user.bars is None or seats[user.id][0] in user.bars)
            for user in problem.users
        ) and _shares_as_told(problem, seats):
            yield seats


def _shares_as_told(problem: KitProblem, seats: dict[str, tuple[str, int]]) -> bool:
    for group in problem.shared:
        mine = {seats[name][0] for name in group}
        others = {bar for name, (bar, _) in seats.items() if name not in group}
        if len(mine) > 1 or mine & others:
            return False
    return True


def can_be_seated(problem: KitProblem) -> bool:
    """Whether there is any plan: plates may be left off."""
    return next(seatings(problem), None) is not None


def goals_of_every_plan(problem: KitProblem) -> list[Goals]:
    """The goals of every plan, the best first."""
    return sorted(set(every_plan(problem)))


def bounds_hold(every: list[Goals], goals: tuple[KitGoal, ...]) -> list[str]:
    """Goals whose bound lies above what some plan reaches that keeps the goals before."""
    left, broken = every, []
    for place, (name, goal) in enumerate(zip(KitGoalName, goals, strict=True)):
        assert goal.name is name
        least = min((Fraction(each[place]) for each in left), default=None)
        if least is not None and goal.bound > least:
            broken.append(f"{name}: bound {goal.bound}, and {least} can be had")
        left = [each for each in left if each[place] <= goal.value]
    return broken
