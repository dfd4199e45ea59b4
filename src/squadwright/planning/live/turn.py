"""A turn on a bar: which plates can be put on for it in time, and how many are moved."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from squadwright.model.kit import Bar
from squadwright.model.plan import BarUser
from squadwright.planning.kit_in_service import GRAMS

PLATE_S = 5
"""Time to take a plate off both ends of a bar or put it on [s]; common practice, no source."""

Side = Mapping[int, int]
"""Plates of one end of a bar: how many of each mass [g]."""


@dataclass(frozen=True)
class Turn:
    """A place in the order of a bar that has its users already.

    ``pool`` is what may be put on for it, ``change_s`` the time from one user to the next [s],
    ``most_g`` what the load may be at most, with the bar [g].
    """

    bar: Bar
    wave: int
    users: Sequence[BarUser]
    pool: Side
    change_s: int
    most_g: int


@dataclass(frozen=True)
class Filling:
    """Plates of one end, what bar and plates come to [g], and the plates moved before and after."""

    side: Side
    load_g: int
    moves: int


def fillings(turn: Turn) -> Iterator[Filling]:
    """Everything a bar may carry in a turn.

    It is loaded within the change-over, or with no more moves than there are between the two whose
    turns are before and after.
    """
    bar_g = round(turn.bar.mass.kg * GRAMS)
    room_g = turn.most_g - bar_g
    if turn.bar.maximum_load is not None:
        room_g = min(room_g, round(turn.bar.maximum_load.kg * GRAMS))
    former, following = _beside(turn.users, turn.wave)
    near = [side for side in (former, following) if side is not None]
    fits = turn.change_s // PLATE_S
    if former is not None and following is not None:
        fits = max(fits, _moves(former, following))
    masses = sorted(turn.pool)
    for chosen in product(*(range(turn.pool[mass] + 1) for mass in masses)):
        side = {mass: count for mass, count in zip(masses, chosen, strict=True) if count}
        hung_g = 2 * sum(mass * count for mass, count in side.items())
        moves = [_moves(other, side) for other in near]
        if hung_g <= room_g and max(moves, default=0) <= fits:
            yield Filling(side, bar_g + hung_g, sum(moves))


def side_of(user: BarUser) -> Counter[int]:
    """The plates of one end that a user has on."""
    return Counter({round(each.plate_kg * GRAMS): each.count for each in user.per_side})


def lying_beside(users: Sequence[BarUser]) -> Counter[int]:
    """The plates of one end that a bar needs for all of its users."""
    found: Counter[int] = Counter()
    for user in users:
        found |= side_of(user)
    return found


def _beside(users: Sequence[BarUser], wave: int) -> tuple[Side | None, Side | None]:
    """The plates of those before and after a turn; after the last turn comes the first again."""
    if not users:
        return None, None
    ordered = sorted(users, key=lambda user: user.wave)
    before = [user for user in ordered if user.wave < wave]
    after = [user for user in ordered if user.wave > wave]
    return side_of((before or ordered)[-1]), side_of((after or ordered)[0])


def _moves(one: Side, other: Side) -> int:
    return sum(abs(one.get(mass, 0) - other.get(mass, 0)) for mass in {*one, *other})
