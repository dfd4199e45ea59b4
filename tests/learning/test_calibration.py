"""Each forecast against what came: made from earlier days only, and what counts as one."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest

from learning.training_squad import COMPLEX, history_of, squad, trial
from squadwright.learning.calibration import (
    MOST_OF_AN_ATHLETE,
    PLAIN_RULES,
    Asked,
    Calibration,
    Rule,
    calibrate,
    foretold,
)
from squadwright.learning.fit import fit
from squadwright.learning.forecast import forecast
from squadwright.learning.history import History
from squadwright.learning.scores import brier_score, crps_of_counts
from squadwright.planning.dose.draws import FloatArray

EVEN = np.full(COMPLEX.rounds + 1, 1 / (COMPLEX.rounds + 1))


def even(asked: Sequence[Asked]) -> list[FloatArray]:
    """A forecaster that knows nothing: each number of rounds is as likely."""
    return [EVEN for _ in asked]


@pytest.fixture(scope="module")
def histories() -> tuple[History, ...]:
    return squad(people=8, sessions=10)


@pytest.fixture(scope="module")
def found(histories: tuple[History, ...]) -> Calibration:
    return calibrate(histories)


def test_each_forecast_is_the_one_of_that_morning(
    found: Calibration, histories: tuple[History, ...]
) -> None:
    """Fitted and forecast one by one, from nothing but the days before."""
    for history in histories[:2]:
        for judged, done in zip(
            found.athletes[history.athlete].judged, history.trials, strict=True
        ):
            learned = fit(history.before(done.held_on)).on(done.held_on)
            said = forecast(learned, done.work, done.load_kg, history.capacities)
            assert judged.session == done.session
            assert judged.chance == pytest.approx(said.completes, abs=2e-3)
            own = judged.said[Rule.MODEL]
            assert own.brier == brier_score(judged.chance, done.is_whole)
            expected = crps_of_counts(said.chance_of_rounds, done.clean_rounds)
            assert own.crps == pytest.approx(expected, abs=5e-3)


def test_what_comes_later_changes_no_earlier_forecast(
    found: Calibration, histories: tuple[History, ...]
) -> None:
    cut = [replace(history, trials=history.trials[:5]) for history in histories]
    early = calibrate(cut).club.judged
    assert len(early) == 5 * len(histories)
    for before, now in zip(early, found.club.judged, strict=False):
        assert (before.athlete, before.session) == (now.athlete, now.session)
        for rule in Rule:
            assert before.said[rule].chance == pytest.approx(now.said[rule].chance, abs=2e-3)


def test_the_sums_are_those_of_the_single_forecasts(found: Calibration) -> None:
    club = found.club
    assert club.count == sum(own.count for own in found.athletes.values())
    assert club.count == sum(band.count for band in club.bands)
    assert club.done == sum(band.done for band in club.bands)
    assert club.expected == pytest.approx(sum(band.expected for band in club.bands))
    for rule in PLAIN_RULES:
        difference = club.brier(Rule.MODEL) - club.brier(rule)
        assert club.against[rule].mean == pytest.approx(difference)
    days = [each.held_on for each in club.judged]
    assert days == sorted(days)


def test_no_rule_rules_out_what_may_come(found: Calibration) -> None:
    for each in found.club.judged:
        assert 0 < each.said[Rule.LAST_LOAD].chance < 1
        assert all(said.crps < each.rounds for said in each.said.values())


def test_who_was_stopped_by_something_else_is_left_out_whatever_he_did() -> None:
    trials = (
        trial(0, 40.0, 4),
        trial(1, 40.0, 2),
        trial(2, 40.0, 4, spared="came late"),
        trial(3, 40.0, 2, spared="had pain"),
        trial(4, 40.0, 2, 1),
        trial(5, 36.0, 4, wanted_kg=40.0),
    )
    own = calibrate([history_of("A", trials)], foretell=even).athletes["A"]
    assert [each.session for each in own.judged] == ["s0", "s4", "s5"]
    assert [each.was_done for each in own.judged] == [True, False, True]
    assert own.left_out == 3


def test_only_the_last_forecasts_of_an_athlete_are_looked_at() -> None:
    trials = tuple(trial(n, 40.0, 4) for n in range(MOST_OF_AN_ATHLETE + 7))
    own = calibrate([history_of("A", trials)], foretell=even).athletes["A"]
    assert own.count == MOST_OF_AN_ATHLETE
    assert own.judged[-1].session == trials[-1].session


def test_of_nobody_and_of_nothing_there_is_nothing() -> None:
    assert calibrate([]).club.count == 0
    empty = calibrate([history_of("A", ())])
    assert empty.athletes["A"].count == 0
    assert empty.club.excess is None
    assert not empty.club.against
    assert [band.interval for band in empty.club.bands] == [(0.0, 1.0)] * 5


def test_a_chance_of_one_stands_in_the_last_band_and_a_bound_in_the_upper_one() -> None:
    chances = iter((1.0, 0.9, 0.8, 0.0))

    def told(asked: Sequence[Asked]) -> list[FloatArray]:
        return [np.array([1 - c, 0, 0, 0, c]) for c, _ in zip(chances, asked, strict=True)]

    own = calibrate([history_of("A", tuple(trial(n, 40.0, 4) for n in range(4)))], foretell=told)
    assert [band.count for band in own.club.bands] == [1, 0, 0, 1, 2]


def test_two_with_the_same_movements_are_asked_together_and_answered_in_order() -> None:
    people = squad(people=3, sessions=2, seed=5)
    asked = [Asked(h.before(t.held_on), t) for h in people for t in reversed(h.trials)]
    together = foretold(asked)
    for one, answer in zip(asked, together, strict=True):
        np.testing.assert_allclose(answer, foretold([one])[0], atol=2e-3)


def test_a_forecast_that_knows_nothing_falls_back_to_a_plain_rule() -> None:
    """And the fit, on people as it takes them to be, is not beaten by saying the same of all."""
    people = squad(people=20, sessions=8, seed=2)
    blind = calibrate(people, foretell=even).club
    assert blind.against[Rule.SAME_AS_EVERYONE].is_above_zero
    seeing = calibrate(people).club
    assert seeing.brier(Rule.MODEL) < seeing.brier(Rule.SAME_AS_EVERYONE)
