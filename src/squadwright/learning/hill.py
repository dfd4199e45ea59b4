"""The log posterior of each person at a state, with its gradient and its bend.

A state is the unknowns (logs, in the order of the prior's names), then the walk: how far log
strength stands above the first tests at each thing seen.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from squadwright.learning.likelihood import below, between, near
from squadwright.learning.together import IntArray, Together
from squadwright.learning.world import World
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.fatigue import FatigueModel

BoolArray = npt.NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Hill:
    """The log posterior of each person, its gradient and its bend (the negative Hessian)."""

    value: FloatArray
    gradient: FloatArray
    bend: FloatArray

    def add(
        self,
        value: FloatArray,
        rows: Sequence[FloatArray],
        slopes: Sequence[FloatArray],
        bends: Sequence[Sequence[FloatArray]],
    ) -> None:
        """Add what was seen (people x seen) by quantities with these slopes by the unknowns.

        Each quantity rises by one with the walk on its own day, and with no other day's: so most
        of the bend by the walk is nothing, and is not worked out. ``bends`` is square: one row
        and column for each quantity.
        """
        self.value[:] += value.sum(axis=1)
        for a, row in enumerate(rows):
            size, seen = row.shape[2], np.arange(row.shape[1])
            self.gradient[:, :size] += (slopes[a][:, None, :] @ row)[:, 0]
            self.gradient[:, size:] += slopes[a]
            for b, other in enumerate(rows):
                bent = np.swapaxes(row * bends[a][b][..., None], 1, 2)
                self.bend[:, :size, :size] += bent @ other
                self.bend[:, :size, size:] += bent
                self.bend[:, size:, :size] += other * bends[a][b][..., None]
                self.bend[:, size + seen, size + seen] += bends[a][b]


@dataclass(frozen=True, eq=False)
class _Margins:
    """How far what people bear at the points lies above the bars, and how that changes."""

    squad: Together
    walk: FloatArray
    loads: FloatArray
    slopes: FloatArray | None

    def of(self, role: str) -> tuple[FloatArray, BoolArray]:
        """Margins of a role (people x seen), and where there is one."""
        place = self.squad.point[role]
        margin = self._at(self.loads, place) + self.walk - self.squad.log_load
        return margin, place >= 0

    def rows(self, role: str) -> list[FloatArray]:
        """Slopes of a role's margins by the unknowns; none where no slopes are wanted."""
        if self.slopes is None:
            return []
        place = self.squad.point[role]
        if not self.slopes.shape[1]:
            return [np.zeros((*place.shape, self.slopes.shape[2]))]
        return [np.take_along_axis(self.slopes, np.maximum(place, 0)[..., None], axis=1)]

    def gap(self) -> FloatArray:
        """Log load of one repetition, where a reserve was called."""
        point = self.squad.point
        return self._at(self.loads, point["call"]) - self._at(self.loads, point["beyond"])

    @staticmethod
    def _at(loads: FloatArray, place: IntArray) -> FloatArray:
        if not loads.shape[1]:
            return np.zeros(place.shape)
        return np.take_along_axis(loads, np.maximum(place, 0), axis=1)


def hill_at(
    squad: Together,
    state: FloatArray,
    model: FatigueModel,
    world: World,
    *,
    is_value_only: bool = False,
) -> Hill:
    """The log posterior at a state (people x unknowns and walk)."""
    size = len(squad.names)
    unknowns, walk = state[:, :size], state[:, size:]
    hill = prior_hill(squad, state)
    loads, slopes = _loads(squad, unknowns, model, is_value_only=is_value_only)
    margins = _Margins(squad, walk, loads, slopes)
    _add_bands(hill, margins, world)
    _add_calls(hill, margins, world)
    _add_strains(hill, margins, world)
    _add_tests(hill, margins, unknowns)
    return hill


def prior_hill(squad: Together, state: FloatArray) -> Hill:
    """The log prior alone."""
    size = len(squad.names)
    hill = Hill(
        np.zeros(len(state)), np.zeros_like(state), np.zeros((*state.shape, state.shape[1]))
    )
    _add_prior(hill, squad, state[:, :size])
    _add_walk(hill, squad, state[:, size:])
    return hill


def _loads(
    squad: Together, unknowns: FloatArray, model: FatigueModel, *, is_value_only: bool
) -> tuple[FloatArray, FloatArray | None]:
    """Log loads of all points of all works, and their slopes."""
    count, size = unknowns.shape
    if not squad.demands:
        return np.zeros((count, 0)), None if is_value_only else np.zeros((count, 0, size))
    if is_value_only:
        each = [demand.log_loads(unknowns, asked, model) for demand, asked in squad.demands]
        return np.concatenate(each, axis=1), None
    both = [demand.slopes(unknowns, asked, model) for demand, asked in squad.demands]
    return np.concatenate([b[0] for b in both], axis=1), np.concatenate([b[1] for b in both], 1)


def _add_prior(hill: Hill, squad: Together, unknowns: FloatArray) -> None:
    size = unknowns.shape[1]
    away = unknowns - squad.means
    pulled = np.einsum("nij,nj->ni", squad.precisions, away)
    hill.value[:] -= 0.5 * np.einsum("ni,ni->n", away, pulled)
    hill.gradient[:, :size] -= pulled
    hill.bend[:, :size, :size] += squad.precisions


def _add_walk(hill: Hill, squad: Together, walk: FloatArray) -> None:
    """Each step of the walk is a normal one from where it stood before, at first from zero."""
    size = hill.gradient.shape[1] - walk.shape[1]
    steps = np.diff(walk, axis=1, prepend=0.0) - squad.drift
    pulled = squad.pace * steps
    hill.value[:] -= 0.5 * (pulled * steps).sum(axis=1)
    after = np.append(pulled[:, 1:], np.zeros((len(walk), 1)), axis=1)
    hill.gradient[:, size:] -= pulled - after if walk.shape[1] else pulled
    here = size + np.arange(walk.shape[1])
    hill.bend[:, here, here] += squad.pace
    hill.bend[:, here[:-1], here[:-1]] += squad.pace[:, 1:]
    hill.bend[:, here[:-1], here[1:]] -= squad.pace[:, 1:]
    hill.bend[:, here[1:], here[:-1]] -= squad.pace[:, 1:]


def _add_bands(hill: Hill, margins: _Margins, world: World) -> None:
    """What was done and what was not."""
    (up, has_up), (down, has_down) = margins.of("floor"), margins.of("ceiling")
    told = has_up | has_down
    seen = between(
        np.where(has_up, up / world.day_sd, np.inf),
        np.where(has_down, down / world.day_sd, -np.inf),
        world.lapse,
    )
    hill.add(
        np.where(told, seen.value, 0.0),
        [*margins.rows("floor"), *margins.rows("ceiling")],
        [
            np.where(has_up, seen.upper_slope, 0.0) / world.day_sd,
            np.where(has_down, seen.lower_slope, 0.0) / world.day_sd,
        ],
        [
            [
                np.where(has_up, seen.upper_bend, 0.0) / world.day_sd**2,
                np.where(has_up & has_down, seen.cross_bend, 0.0) / world.day_sd**2,
            ],
            [
                np.where(has_up & has_down, seen.cross_bend, 0.0) / world.day_sd**2,
                np.where(has_down, seen.lower_bend, 0.0) / world.day_sd**2,
            ],
        ],
    )


def _add_calls(hill: Hill, margins: _Margins, world: World) -> None:
    """What he said he had left, in log load: an error of a repetition is as much as it weighs."""
    margin, told = margins.of("call")
    if not told.any():
        return
    side = margins.squad.call_side
    sd = np.where(told, np.hypot(world.day_sd, margins.squad.call_sd * margins.gap()), 1.0)
    seen, bound = near(margin, sd), below(-side * margin / sd)
    _add_told(
        hill,
        margins.rows("call"),
        told,
        np.where(side, bound.value, seen.value),
        np.where(side, -side * bound.slope / sd, seen.slope),
        np.where(side, bound.bend / sd**2, seen.bend),
    )


def _add_strains(hill: Hill, margins: _Margins, world: World) -> None:
    """Form that gave way late."""
    margin, told = margins.of("strain")
    if not told.any():
        return
    seen = below(margin / world.strain_sd)
    weight = world.strain_weight
    _add_told(
        hill,
        margins.rows("strain"),
        told,
        weight * seen.value,
        weight * seen.slope / world.strain_sd,
        weight * seen.bend / world.strain_sd**2,
    )


def _add_tests(hill: Hill, margins: _Margins, unknowns: FloatArray) -> None:
    """Later strength tests."""
    squad = margins.squad
    told = squad.lift >= 0
    if not told.any():
        return
    place = np.maximum(squad.lift, 0)
    strength = np.take_along_axis(unknowns, place, axis=1) + margins.walk
    away = strength - squad.log_load
    own = np.eye(unknowns.shape[1])[place]
    rows = [] if margins.slopes is None else [own]
    precision = 1 / squad.test_variance
    _add_told(hill, rows, told, -0.5 * precision * away**2, -precision * away, precision)


def _add_told(
    hill: Hill,
    rows: Sequence[FloatArray],
    told: BoolArray,
    value: FloatArray,
    slope: FloatArray,
    bend: FloatArray,
) -> None:
    hill.add(
        np.where(told, value, 0.0),
        rows,
        [np.where(told, slope, 0.0)],
        [[np.where(told, bend, 0.0)]],
    )
