"""Complexes worked through repetition by repetition by invented people. No real data.

This shares no code with the closed form of ``planning.dose.strain``: every repetition is tried in
turn, done where strength at that moment bears the bar, and paid for. In the world as it is taken
to be it uses the same constants; other worlds bend the shape of recovery or what tires what.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from squadwright.learning.history import Work
from squadwright.library import exercise
from squadwright.model.muscles import MuscleGroup
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.fatigue import FatigueConstants
from squadwright.planning.dose.problem import ComplexMovement, MovementPart

GROUPS = tuple(MuscleGroup)
HALVINGS = 26
MOST_FURTHER = 12
COMPLEXES: tuple[tuple[tuple[str, int, int], ...], ...] = (
    # exercise of the library, repetitions, wanted reserve
    (("romanian-deadlift", 5, 2), ("bent-over-row", 5, 1), ("hang-power-clean", 3, 1),
     ("half-front-squat", 5, 1), ("push-press", 4, 1)),
    (("hang-clean-into-front-squat", 4, 1), ("strict-press", 4, 1), ("back-squat", 4, 1)),
    (("squat-to-press", 5, 1), ("row-with-shrug", 6, 1), ("romanian-deadlift", 6, 2)),
    (("muscle-clean", 3, 1), ("front-squat", 5, 1), ("push-press", 5, 1), ("bent-over-row", 6, 1)),
)  # fmt: skip
ROUNDS_AND_RESTS = ((4, 90.0), (3, 60.0), (5, 120.0))


@dataclass(frozen=True)
class Nature:
    """How fatigue goes in a world, where it is not as the model has it.

    ``recovery``: ``two phases`` as the model; ``one phase``, all of the lasting loss at the fast
    pace; ``power law``, quick at first and with a long tail. ``slower`` multiplies its times.
    ``involvement`` (people x muscle groups) multiplies the part of each group in every lift.
    """

    recovery: str = "two phases"
    slower: float = 1.0
    involvement: FloatArray | None = None


@dataclass(frozen=True)
class Bodies:
    """Some people on a day: strength of each part of a work [kg], endurance, recovery times.

    The latter three multiply what the population has in the middle.
    """

    capacity_kg: FloatArray
    endurance: FloatArray
    fast: FloatArray
    slow: FloatArray

    def scaled(self, by: FloatArray) -> "Bodies":
        """The same people with all their strength multiplied."""
        return replace(self, capacity_kg=self.capacity_kg * by[:, None])


@dataclass(frozen=True)
class Outcome:
    """What came of a work, one entry for each person.

    ``lost`` counts the lost repetitions of the first round that was not clean. ``left`` is how
    many whole repetitions he had in his weakest movement of his last round, ``least`` (people x
    rounds) the same for each round; both are of use only where the rounds were clean.
    """

    clean_rounds: FloatArray
    lost: FloatArray
    least: FloatArray

    @property
    def left(self) -> FloatArray:
        """Repetitions left after the last round."""
        return self.least[:, -1]


def invented_works() -> tuple[Work, ...]:
    """A dozen works: real exercises of the library, other rounds and rests."""
    return tuple(
        Work(tuple(_movement(*step) for step in steps), rounds, rest_s)
        for rounds, rest_s in ROUNDS_AND_RESTS
        for steps in COMPLEXES
    )


def _movement(exercise_id: str, repetitions: int, reserve: int) -> ComplexMovement:
    chosen = exercise(exercise_id)
    efforts = [part.effort for part in chosen.parts if part.effort is not None]
    parts = tuple(
        MovementPart(e.involvement, e.reference_lift.value, e.ratio, e.ratio_sd_fraction)
        for e in efforts
    )
    return ComplexMovement(chosen.name, parts, repetitions, reserve, chosen.seconds_per_repetition)


class Bout:
    """One work and the people who do it, with what they have lost so far."""

    def __init__(self, work: Work, bodies: Bodies, nature: Nature, load_kg: FloatArray) -> None:
        self.work, self.bodies, self.nature, self.load_kg = work, bodies, nature, load_kg
        self.constants = FatigueConstants()
        parts = [part for movement in work.movements for part in movement.parts]
        self.place = _places(work)
        count = len(load_kg)
        plain = np.array([[part.involvement.get(g, 0.0) for g in GROUPS] for part in parts])
        bent = nature.involvement if nature.involvement is not None else np.ones((count, 1))
        part = np.minimum(plain[None] * bent[:, None, :], 1.0)
        self.weight = part / part.sum(axis=2, keepdims=True)
        touched = np.maximum(part, self.constants.whole_body_share * part.max(2, keepdims=True))
        scale = part.sum(axis=2) / (part * touched).sum(axis=2)
        self.touch = touched * scale[:, :, None]
        weight = plain / plain.sum(axis=1, keepdims=True)
        c = self.constants
        self.factor = weight @ np.array([c.repetition_factor[g] for g in GROUPS])
        fast, slow = (np.array([by[g] for g in GROUPS]) for by in (c.fast_s, c.slow_s))
        self.fast_s = fast, np.exp(weight @ np.log(fast))
        self.slow_s = slow, np.exp(weight @ np.log(slow))
        share = load_kg[:, None] / bodies.capacity_kg
        self.price = share**c.load_exponent / (self.factor * bodies.endurance[:, None])
        # kinds of loss (immediate, fast, slow) x people x groups, and x parts
        self.groups = np.zeros((3, count, len(GROUPS)))
        self.own = np.zeros((3, count, len(parts)))

    def can(self, movement: int) -> FloatArray:
        """Who has the strength for one more repetition of a movement now (true or false)."""
        ok = np.ones(len(self.load_kg), dtype=bool)
        for p in self.place[movement]:
            ok &= self._strength_kg(p) >= self.load_kg
        return ok

    def _strength_kg(self, p: int) -> FloatArray:
        c = self.constants
        in_groups = (self.groups * self.weight[None, :, p, :]).sum(axis=2)
        now, fast, slow = (
            c.shared_fraction * in_groups + (1 - c.shared_fraction) * self.own[:, :, p]
        )
        lasting = (1 - c.immediate_fraction) * self.factor[p] / 5.0
        lost = c.immediate_fraction * now
        lost = lost + lasting * (c.fast_fraction * fast**2 + (1 - c.fast_fraction) * slow**2)
        kg: FloatArray = self.bodies.capacity_kg[:, p] * (1 - lost)
        return kg

    def pay(self, movement: int, who: FloatArray) -> None:
        """One repetition is done by these."""
        for p in self.place[movement]:
            price = self.price[:, p] * who
            self.groups += price[None, :, None] * self.touch[None, :, p, :]
            self.own[:, :, p] += price[None]

    def further(self, movement: int, most: int) -> FloatArray:
        """How many whole repetitions of a movement each could still do, up to so many."""
        groups, own = self.groups.copy(), self.own.copy()
        going, count = np.ones(len(self.load_kg), dtype=bool), np.zeros(len(self.load_kg))
        for _ in range(most):
            going = going & self.can(movement)
            if not going.any():
                break
            count += going
            self.pay(movement, going)
        self.groups, self.own = groups, own
        return count

    def rest(self) -> None:
        """The rest between two rounds."""
        for losses, which in ((self.groups, 0), (self.own, 1)):
            losses *= np.stack(self._kept(self.fast_s[which], self.slow_s[which]))

    def _kept(self, fast_s: FloatArray, slow_s: FloatArray) -> list[FloatArray]:
        nature, body = self.nature, self.bodies
        fast = self.work.rest_s / (nature.slower * body.fast[:, None] * fast_s)
        slow = self.work.rest_s / (nature.slower * body.slow[:, None] * slow_s)
        # The third kind counts its loss in strength by the square, as the second.
        now = np.exp(-self.work.rest_s / (body.fast[:, None] * self.constants.immediate_s))
        now = np.broadcast_to(now, fast.shape)
        if nature.recovery == "one phase":
            return [now, np.exp(-fast), np.exp(-fast)]
        if nature.recovery == "power law":
            return [now, 1 / (1 + fast), 1 / (1 + slow)]
        return [now, np.exp(-fast), np.exp(-slow)]


def work_through(
    work: Work, bodies: Bodies, nature: Nature, load_kg: FloatArray, *, ask_reserve: bool = True
) -> Outcome:
    """Every repetition of every round in turn; who loses one is through after that round."""
    bout = Bout(work, bodies, nature, load_kg)
    count = len(load_kg)
    going, clean, lost = np.ones(count, dtype=bool), np.zeros(count), np.zeros(count)
    least = np.full((count, work.rounds), float(MOST_FURTHER))
    for number in range(work.rounds):
        if number:
            bout.rest()
        missed = np.zeros(count)
        for place, movement in enumerate(work.movements):
            up = going.copy()
            for _ in range(movement.repetitions):
                up &= bout.can(place)
                bout.pay(place, up)
                missed += going & ~up
            if ask_reserve:
                most = MOST_FURTHER if number == work.rounds - 1 else 4
                least[:, number] = np.minimum(least[:, number], bout.further(place, most))
        lost += missed
        going &= missed == 0
        clean += going
        if not going.any():
            break
    return Outcome(clean, lost, least)


def bears(
    work: Work, bodies: Bodies, nature: Nature, load_kg: FloatArray, reserve: Sequence[int]
) -> FloatArray:
    """Who does every repetition, with so many further ones of each movement in the last round."""
    bout = Bout(work, bodies, nature, load_kg)
    ok = np.ones(len(load_kg), dtype=bool)
    for number in range(work.rounds):
        if number:
            bout.rest()
        for place, movement in enumerate(work.movements):
            for _ in range(movement.repetitions):
                ok &= bout.can(place)
                bout.pay(place, np.ones(len(ok)))
            if number == work.rounds - 1 and reserve[place]:
                ok &= bout.further(place, reserve[place]) >= reserve[place]
    return ok


def critical_load_kg(
    work: Work, bodies: Bodies, nature: Nature, reserve: Sequence[int] | None = None
) -> FloatArray:
    """The heaviest load each bears through the last round [kg], by halving."""
    wanted = reserve or [0] * len(work.movements)
    low, high = np.zeros(len(bodies.endurance)), bodies.capacity_kg.min(axis=1)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        ok = bears(work, bodies, nature, middle, wanted)
        low, high = np.where(ok, middle, low), np.where(ok, high, middle)
    return low


def _places(work: Work) -> list[list[int]]:
    """The places of the parts of each movement among the parts of all."""
    places, start = [], 0
    for movement in work.movements:
        places.append(list(range(start, start + len(movement.parts))))
        start += len(movement.parts)
    return places
