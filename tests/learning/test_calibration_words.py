"""The exact claims that are allowed, for few and many, better, worse and undecided."""

import re

import pytest

from learning.tallies import a_tally, calibration, judged, tally
from squadwright.learning.calibration import Band, Rule, Tally
from squadwright.learning.calibration_words import (
    FEWEST_IN_BAND,
    against_words,
    band_words,
    overall_words,
    side_words,
)
from squadwright.learning.fallback import FEWEST, chosen_rule

NONE = tally([])
# What no count of forecasts can show.
TOO_MUCH = re.compile(
    r"accura|proven|prove|reliab|correct|certain|guarantee|always|never|well.calibrated|trust",
    re.IGNORECASE,
)


@pytest.mark.parametrize(
    ("found", "words"),
    [
        (NONE, "Nothing to tell yet: no forecast has been tried."),
        (
            a_tally(3, done_of_ten=0),
            "In 0 of 3 the whole was done; too few to tell: 3 forecasts.",
        ),
        (
            a_tally(1, done_of_ten=10),
            "In 1 of 1 the whole was done; too few to tell: 1 forecast.",
        ),
        (
            a_tally(12, done_of_ten=0),
            "In 0 of 12 the whole was done; too few to tell: 12 forecasts.",
        ),
        (
            a_tally(60, done_of_ten=8),
            "In 48 of 60 forecasts the whole was done; by the chances, 48 were to be expected. "
            "Whether the chances are too high or too low cannot be told.",
        ),
        (
            a_tally(60, done_of_ten=5),
            "In 30 of 60 forecasts the whole was done; by the chances, 48 were to be expected. "
            "The chances were too high: in 100, the whole is done {} to {} times less than they "
            "say.",
        ),
        (
            a_tally(60, done_of_ten=9, chance=0.5),
            "In 54 of 60 forecasts the whole was done; by the chances, 30 were to be expected. "
            "The chances were too low: in 100, the whole is done {} to {} times more than they "
            "say.",
        ),
    ],
)
def test_what_is_said_of_the_chances(found: Tally, words: str) -> None:
    said = overall_words(found, FEWEST.of_club)
    pattern = re.escape(words).replace(re.escape("{}"), r"(\d+)")
    match = re.fullmatch(pattern, said)
    assert match, said
    if match.groups():
        near, far = map(int, match.groups())
        off = abs(100 * (found.done - found.expected) / found.count)
        assert 0 < near <= off <= far


@pytest.mark.parametrize(
    ("found", "words"),
    [
        (NONE, "too few to tell: 0 forecasts"),
        (a_tally(12, done_of_ten=0), "too few to tell: 12 forecasts"),
        (a_tally(60, done_of_ten=8), "whether the chances are too high or too low cannot be told"),
        (a_tally(60, done_of_ten=5), "the chances were too high"),
        (a_tally(60, done_of_ten=9, chance=0.5), "the chances were too low"),
    ],
)
def test_what_is_said_in_few_words(found: Tally, words: str) -> None:
    assert side_words(found, FEWEST.of_club) == words


def test_for_one_athlete_twelve_are_enough() -> None:
    own = a_tally(12, done_of_ten=10, chance=0.3, is_own=True)
    assert "too low" in overall_words(own, FEWEST.of_athlete)


@pytest.mark.parametrize(
    ("band", "words"),
    [
        (Band(0.8, 0.9, 0, 0.0, 0), "none yet"),
        (Band(0.8, 0.9, 1, 0.85, 0), "too few to tell: 1 forecast"),
        (Band(0.8, 0.9, FEWEST_IN_BAND - 1, 3.4, 0), "too few to tell: 4 forecasts"),
        (Band(0.8, 0.9, FEWEST_IN_BAND, 4.25, 0), "done less often than said"),
        # 9 of 12: 47 to 91 % (Wilson), and 85 % lies in it.
        (Band(0.8, 0.9, 12, 10.2, 9), "nothing against it"),
        (Band(0.8, 0.9, 60, 51.0, 36), "done less often than said"),
        (Band(0.5, 0.7, 60, 36.0, 55), "done more often than said"),
        (Band(0.5, 0.7, 60, 36.0, 36), "nothing against it"),
    ],
)
def test_what_is_said_of_a_band(band: Band, words: str) -> None:
    assert band_words(band) == words


@pytest.mark.parametrize(
    ("count", "last_load", "words"),
    [
        (0, 0.9, "too few to tell: 0 forecasts"),
        (3, 0.95, "too few to tell: 3 forecasts"),
        (12, 0.95, "too few to tell: 12 forecasts"),
        (60, 0.95, "the last load was nearer"),
        (60, 0.2, "the forecast was nearer"),
    ],
)
def test_which_rule_is_said_to_be_nearer(count: int, last_load: float, words: str) -> None:
    found = a_tally(count, done_of_ten=8, LAST_LOAD=last_load)
    assert against_words(found, Rule.LAST_LOAD, FEWEST.of_club) == words


def undecided(count: int, *, is_own: bool = False) -> Tally:
    """The last load is nearer for half of the athletes, and as much farther for the others."""
    equal = dict.fromkeys((Rule.LAST_LOAD, Rule.WEAKEST_LIFT, Rule.SAME_AS_EVERYONE), 0.7)
    each = [
        judged(n, 0.7, True, {**equal, Rule.LAST_LOAD: 0.9 if n % 6 < 3 else 0.588})
        for n in range(count)
    ]
    return tally(each, is_own=is_own)


def test_where_zero_lies_between_the_bounds_neither_is_said_to_be_nearer() -> None:
    found = undecided(60)
    assert found.against[Rule.LAST_LOAD].low <= 0 <= found.against[Rule.LAST_LOAD].high
    words = against_words(found, Rule.LAST_LOAD, FEWEST.of_club)
    assert words == "which is nearer cannot be told"


@pytest.mark.parametrize("count", [0, 3, 12, 60])
@pytest.mark.parametrize("done_of_ten", [0, 5, 8, 10])
@pytest.mark.parametrize("last_load", [0.2, 0.8, 0.99])
def test_no_sentence_claims_more_than_numbers_can_show(
    count: int, done_of_ten: int, last_load: float
) -> None:
    found = a_tally(count, done_of_ten=done_of_ten, LAST_LOAD=last_load)
    said = [
        overall_words(found, FEWEST.of_club),
        chosen_rule(calibration(found, found), "A1").sentence,
        *(band_words(band) for band in found.bands),
        *(against_words(found, rule, FEWEST.of_club) for rule in found.against),
    ]
    assert not [words for words in said if TOO_MUCH.search(words)]
    if count < FEWEST.of_club:
        assert "nearer" not in " ".join(s for s in said if "this athlete's" not in s)
