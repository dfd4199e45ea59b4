"""The battery of tests that comes with the program; its protocols are ours to start from."""

from difflib import get_close_matches
from functools import cache

from squadwright.errors import NotFound
from squadwright.library import values_of
from squadwright.model.fitness_test import FitnessTest


@cache
def fitness_tests() -> tuple[FitnessTest, ...]:
    """Every test, in the order of its files."""
    return values_of(FitnessTest, "data/fitness_tests", "test")


def fitness_test(test_id: str) -> FitnessTest:
    """The test with an id; raises NotFound with the nearest ids."""
    known = {test.id: test for test in fitness_tests()}
    if test_id not in known:
        near = get_close_matches(test_id, known, n=3, cutoff=0.4) or list(known)
        raise NotFound(f"no test of fitness has the id {test_id!r}. Nearest: {', '.join(near)}.")
    return known[test_id]
