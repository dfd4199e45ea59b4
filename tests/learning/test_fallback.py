"""The rule a dose goes by: the forecast, until a plain rule is nearer beyond chance."""

import pytest

from learning.tallies import a_tally, calibration, tally
from learning.test_calibration_words import undecided
from squadwright.learning.calibration import Calibration, Rule
from squadwright.learning.fallback import FEWEST, Fewest, chosen_rule

NEARER, FARTHER = 0.95, 0.2
BEATEN = {"LAST_LOAD": FARTHER, "WEAKEST_LIFT": FARTHER, "SAME_AS_EVERYONE": FARTHER}


def club(count: int, **plain: float) -> Calibration:
    return calibration(a_tally(count, done_of_ten=8, **plain))


@pytest.mark.parametrize(
    ("found", "rule", "sentence"),
    [
        (
            club(0),
            Rule.MODEL,
            "Too few to compare with a plain rule: 0 forecasts. The dose uses the forecast.",
        ),
        (
            club(3, LAST_LOAD=NEARER),
            Rule.MODEL,
            "Too few to compare with a plain rule: 3 forecasts. The dose uses the forecast.",
        ),
        (
            club(FEWEST.of_club - 1, LAST_LOAD=NEARER),
            Rule.MODEL,
            "Too few to compare with a plain rule: 19 forecasts. The dose uses the forecast.",
        ),
        (
            club(FEWEST.of_club, LAST_LOAD=NEARER),
            Rule.LAST_LOAD,
            "On this club's last 20 forecasts the plain rule (last load) was nearer: the dose "
            "uses it.",
        ),
        (
            club(60, WEAKEST_LIFT=NEARER),
            Rule.WEAKEST_LIFT,
            "On this club's last 60 forecasts the plain rule (share of the weakest lift) was "
            "nearer: the dose uses it.",
        ),
        (
            club(60, **BEATEN),
            Rule.MODEL,
            "On this club's last 60 forecasts the forecast was nearer than each plain rule: the "
            "dose uses it.",
        ),
        (
            calibration(undecided(60)),
            Rule.MODEL,
            "On this club's last 60 forecasts no rule was nearer beyond chance: the dose uses the "
            "forecast.",
        ),
        (
            club(60, SAME_AS_EVERYONE=NEARER),
            Rule.LAST_LOAD,
            "On this club's last 60 forecasts the same chance for everyone was nearer; it gives "
            "no load, so the dose uses the last load.",
        ),
        (
            club(60, SAME_AS_EVERYONE=NEARER, LAST_LOAD=FARTHER),
            Rule.MODEL,
            "On this club's last 60 forecasts the same chance for everyone was nearer; it gives "
            "no load, so the dose uses the forecast, which beat the last load.",
        ),
    ],
)
def test_the_rule_of_a_club(found: Calibration, rule: Rule, sentence: str) -> None:
    choice = chosen_rule(found, "A1")
    assert (choice.rule, choice.sentence) == (rule, sentence)
    assert choice.count == found.club.count
    assert not choice.is_own


def test_of_two_plain_rules_that_are_nearer_the_nearest_is_taken() -> None:
    assert chosen_rule(club(60, LAST_LOAD=0.9, WEAKEST_LIFT=0.95), "A1").rule is Rule.WEAKEST_LIFT
    assert chosen_rule(club(60, LAST_LOAD=0.95, WEAKEST_LIFT=0.9), "A1").rule is Rule.LAST_LOAD


def test_his_own_forecasts_count_more_than_the_club_s_where_they_decide() -> None:
    other = a_tally(60, done_of_ten=8, LAST_LOAD=NEARER)
    own = a_tally(12, done_of_ten=8, is_own=True, **BEATEN)
    choice = chosen_rule(calibration(other, own), "A1")
    assert (choice.rule, choice.is_own, choice.count) == (Rule.MODEL, True, 12)
    assert choice.sentence == (
        "On this athlete's last 12 forecasts the forecast was nearer than each plain rule: the "
        "dose uses it."
    )
    assert chosen_rule(calibration(other, own), "A2").rule is Rule.LAST_LOAD


@pytest.mark.parametrize(
    "own", [a_tally(11, done_of_ten=8, is_own=True, **BEATEN), undecided(30, is_own=True)]
)
def test_where_his_own_are_few_or_undecided_the_club_s_decide(own: object) -> None:
    other = a_tally(60, done_of_ten=8, LAST_LOAD=NEARER)
    choice = chosen_rule(calibration(other, own), "A1")  # type: ignore[arg-type]
    assert (choice.rule, choice.is_own) == (Rule.LAST_LOAD, False)


def test_a_rule_that_was_nearer_for_a_few_athletes_only_decides_nothing() -> None:
    """Four athletes: the club's bounds are endless, however many forecasts there are."""
    each = a_tally(80, done_of_ten=8, LAST_LOAD=NEARER).judged
    few = tally([j for j in each if j.athlete in ("A0", "A1", "A2", "A3")])
    assert few.count > FEWEST.of_club
    assert chosen_rule(Calibration(few, {}), "A1").rule is Rule.MODEL


def test_how_many_it_takes_is_a_setting() -> None:
    found = club(12, LAST_LOAD=NEARER)
    assert chosen_rule(found, "A1", Fewest(of_club=12)).rule is Rule.LAST_LOAD
