"""What was worked out is found again while what it was made from stays the same."""

import pytest

from squadwright.services.in_mind import InMind

KEY = ("a database", "a session")


@pytest.fixture
def in_mind() -> InMind[tuple[str, str], list[int], str]:
    return InMind(most_keys=2, most_of_a_key=2)


def test_a_value_is_found_for_what_is_equal_and_for_nothing_else(
    in_mind: InMind[tuple[str, str], list[int], str],
) -> None:
    # A list has no hash: it can only be compared.
    in_mind.keep(KEY, [1, 2], "made from 1 and 2")
    assert in_mind.find(KEY, [1, 2]) == "made from 1 and 2"
    assert in_mind.find(KEY, [1, 3]) is None
    assert in_mind.find(("another", "a session"), [1, 2]) is None


def test_a_value_made_again_takes_the_place_of_the_former_one(
    in_mind: InMind[tuple[str, str], list[int], str],
) -> None:
    for made_from, value in (([1], "old"), ([2], "other"), ([1], "new")):
        in_mind.keep(KEY, made_from, value)
    assert in_mind.find(KEY, [1]) == "new"
    assert in_mind.find(KEY, [2]) == "other"
    in_mind.keep(KEY, [3], "third")
    assert in_mind.find(KEY, [2]) is None
    assert in_mind.find(KEY, [1]) == "new"


def test_the_key_that_was_not_asked_for_the_longest_goes_first(
    in_mind: InMind[tuple[str, str], list[int], str],
) -> None:
    for name in ("first", "second"):
        in_mind.keep((name, ""), [1], name)
    assert in_mind.find(("first", ""), [1]) == "first"
    in_mind.keep(("third", ""), [1], "third")
    assert in_mind.find(("second", ""), [1]) is None
    assert in_mind.find(("first", ""), [1]) == "first"
