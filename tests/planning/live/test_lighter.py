"""A lighter load is made by taking plates off the bar: nothing has to be fetched."""

import pytest

from squadwright.model.plan import BarUser, PlatesOnSide
from squadwright.planning.live.lighter import lighter_kg


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
    assert lighter_kg(user) == expected
