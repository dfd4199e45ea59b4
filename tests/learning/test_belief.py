"""What sessions say of an athlete: no word beyond what the intervals hold."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from learning.histories import BOTH, day, history, retest, trial
from squadwright.learning.belief import SHARE, Change, Leaning, Span, belief_of, change_between
from squadwright.learning.belief_words import (
    TOO_FEW,
    belief_words,
    change_in_short,
    change_words,
    signed,
)
from squadwright.learning.fit import fit


def change(low: float, middle: float, high: float) -> Change:
    return Change(date(2026, 3, 2), date(2026, 4, 9), Span(middle, low, high))


@pytest.mark.parametrize(
    ("found", "said"),
    [
        (
            change(-0.01, 0.03, 0.07),
            "changed by +3 % from 2 Mar to 9 Apr, between -1 % and +7 %: within what it cannot "
            "tell apart",
        ),
        (
            change(0.02, 0.06, 0.10),
            "changed by +6 % from 2 Mar to 9 Apr, between +2 % and +10 %: more than before",
        ),
        (
            change(-0.10, -0.06, -0.02),
            "changed by -6 % from 2 Mar to 9 Apr, between -10 % and -2 %: less than before",
        ),
        # Above nothing by less than is shown: no claim.
        (
            change(0.004, 0.03, 0.06),
            "changed by +3 % from 2 Mar to 9 Apr, between 0 % and +6 %: within what it cannot "
            "tell apart",
        ),
        (
            change(-0.06, -0.03, -0.004),
            "changed by -3 % from 2 Mar to 9 Apr, between -6 % and 0 %: within what it cannot "
            "tell apart",
        ),
    ],
)
def test_a_change_is_called_one_only_where_its_bounds_say_so(found: Change, said: str) -> None:
    assert change_words(found) == said


def test_two_sessions_are_too_few_for_a_word_of_him() -> None:
    twice = tuple(trial(7 * n, 38.0, clean=1, lost=3) for n in (1, 2))
    assert all(TOO_FEW in words for words in belief_words(belief_of(fit(history(*twice)), day(15))))
    found = change(0.02, 0.06, 0.10)
    assert change_in_short(found) == TOO_FEW
    assert change_in_short(replace(found, seen=3)) == "+6 %, +2 % to +10 %: more than before"


def test_a_share_has_its_sign() -> None:
    assert [signed(share) for share in (0.034, -0.012, 0.004, 0.0)] == [
        "+3 %",
        "-1 %",
        "0 %",
        "0 %",
    ]


@pytest.mark.parametrize(
    ("span", "leaning"),
    [
        (Span(0.3, 0.1, 0.5), Leaning.ABOVE),
        (Span(-0.3, -0.5, -0.1), Leaning.BELOW),
        (Span(0.3, -0.1, 0.7), Leaning.OPEN),
        (Span(0.0, 0.0, 0.0), Leaning.OPEN),
    ],
)
def test_a_side_is_named_only_where_the_whole_interval_lies_on_it(
    span: Span, leaning: Leaning
) -> None:
    assert span.leaning is leaning


def test_one_session_tells_next_to_nothing() -> None:
    belief = belief_of(fit(history(trial(7, 40.0))), day(8))
    assert belief.sessions == 1
    assert belief.change is None
    assert change_in_short(belief.change) == TOO_FEW
    words = belief_words(belief)
    assert [TOO_FEW in sentence for sentence in words] == [True, True, True]


def test_somebody_who_fades_in_every_session_is_said_to_fade() -> None:
    """Tests keep his maximum at 60 kg; at 38 kg he loses repetitions from round two each time."""
    tested = tuple(retest(7 * n + 1, "strict press", 60.0) for n in range(1, 11))
    faded = [trial(7 * n, 38.0, clean=1, lost=3) for n in range(1, 11)]
    belief = belief_of(fit(history(*faded, retests=tested)), day(80))
    assert belief.endurance.leaning is Leaning.BELOW
    assert "Loses repetitions sooner than most." in belief_words(belief)
    # At 56 kg, with three left each time, he is the other way.
    lasted = [trial(7 * n, 56.0, reserve=3.0) for n in range(1, 11)]
    belief = belief_of(fit(history(*lasted, retests=tested)), day(80))
    assert belief.endurance.leaning is Leaning.ABOVE
    assert "Loses repetitions later than most." in belief_words(belief)


def test_the_bounds_are_those_of_the_posterior_nine_times_in_ten() -> None:
    """Drawn from the posterior by hand: as many below the low bound as above the high one."""
    fitted = fit(history(trial(7, 40.0), trial(14, 42.5, clean=3, lost=1), trial(21, 40.0)))
    found = change_between(fitted, day(0), day(30))
    assert found is not None
    assert (found.since, found.until) == (day(7), day(21))
    rng = np.random.default_rng(5)
    draws = rng.multivariate_normal(fitted.mean, fitted.covariance, size=200_000)
    first = len(fitted.names)
    walked = np.exp(draws[:, first + 2] - draws[:, first]) - 1
    inside = np.mean((walked > found.fraction.low) & (walked < found.fraction.high))
    assert inside == pytest.approx(SHARE, abs=0.005)
    assert np.mean(walked < found.fraction.low) == pytest.approx((1 - SHARE) / 2, abs=0.004)


def test_a_change_needs_two_days_within_the_span() -> None:
    fitted = fit(history(trial(7, 40.0), trial(14, 40.0)))
    assert change_between(fitted, day(8), day(30)) is None
    assert change_between(fitted, day(15), day(30)) is None
    assert change_between(fitted, day(7), day(14)) is not None


def test_each_lift_stands_beside_what_its_test_said() -> None:
    belief = belief_of(fit(history(trial(7, 40.0, work=BOTH), trial(14, 40.0, work=BOTH))), day(15))
    lifts = {each.lift: each for each in belief.lifts}
    assert set(lifts) == {"strict press", "back squat"}
    for each in lifts.values():
        assert each.now_kg.low < each.now_kg.middle < each.now_kg.high
    assert lifts["strict press"].by_tests.mean_kg == 60.0
