"""A lighter load is made by taking plates off the bar: nothing has to be fetched."""

import pytest

from squadwright.model.plan import BarUser, PlatesOnSide
from squadwright.planning.live.lighter import LighterLoad, lighter


def loaded(load_kg: float, *sides: tuple[float, int]) -> BarUser:
    return BarUser("A01", 1, load_kg, load_kg, tuple(PlatesOnSide(kg, n) for kg, n in sides))


# Worked by hand: a bar of 15 kg, the same plates on both sides.
@pytest.mark.parametrize(
    ("user", "expected"),
    [
        (loaded(27.5, (5, 1), (1.25, 1)), 25.0),
        (loaded(25.0, (5, 1)), 15.0),
        (loaded(30.0, (2.5, 3)), 25.0),
        (loaded(16.0, (0.5, 1)), 15.0),
        (loaded(15.0), None),
    ],
)
def test_the_next_lighter_load_is_that_of_the_plates_left(
    user: BarUser, expected: float | None
) -> None:
    found = lighter(user)
    assert (None if found is None else found.load_kg) == expected


# Worked by hand on a bar of 15 kg; a step above a fifth takes what lies free, as few as can be.
@pytest.mark.parametrize(
    ("user", "free", "load_kg", "fetched"),
    [
        (loaded(35.0, (10, 1)), (5.0, 2.5, 0.5), 30.0, (5.0, 2.5)),
        (loaded(35.0, (10, 1)), (10.0,), 15.0, ()),
        (loaded(27.5, (5, 1), (1.25, 1)), (0.5,), 25.0, ()),
    ],
)
def test_a_step_too_large_is_made_smaller_by_plates_that_lie_free(
    user: BarUser, free: tuple[float, ...], load_kg: float, fetched: tuple[float, ...]
) -> None:
    assert lighter(user, free) == LighterLoad(load_kg, fetched)
