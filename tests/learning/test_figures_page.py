"""Worlds that are not as the fit assumes: it gets worse, and a plain rule takes over. No real data.

The squads are small, and seeded; ``make validate`` makes the large ones.
"""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from learning.figures_page import page_of, verdict
from learning.figures_words import degradation, fallback
from learning.invented_squad import InventedWorld
from learning.known_truth import FIT
from learning.squad_figures import Figures, Gain, Request, figures_of, in_force
from learning.tallies import a_tally
from squadwright.learning.calibration import Rule
from squadwright.learning.fallback import FEWEST

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "learning.md"
COUNT, SESSIONS, SEED = 16, 8, 21
MARK = "**Invented athletes, no real data.**"
LAST_LOAD = "last load"


@pytest.fixture(scope="module")
def same() -> Figures:
    return figures_of(Request(InventedWorld(), COUNT, SESSIONS, SEED))


@pytest.fixture(scope="module")
def far_days() -> Figures:
    """One day differs from the next three times as much as the fit assumes."""
    world = InventedWorld("days far apart", day_sd=0.09)
    return figures_of(Request(world, COUNT, SESSIONS, SEED))


@pytest.fixture(scope="module")
def made_for_it() -> Figures:
    return figures_of(Request(None, COUNT, SESSIONS, SEED))


def test_the_fit_is_worse_where_days_are_not_as_assumed(same: Figures, far_days: Figures) -> None:
    assert far_days.brier[FIT] > same.brier[FIT]
    assert far_days.coverage.high < same.coverage.mean
    assert "in place of" in degradation(far_days, same)


def test_where_the_fit_is_nearer_the_dose_goes_by_it(same: Figures) -> None:
    assert same.choice.rule is Rule.MODEL
    assert same.in_force.since is None
    assert same.in_force.chosen == same.in_force.fit


def test_where_only_the_last_load_counts_the_plain_rule_takes_over_and_is_nearer(
    made_for_it: Figures,
) -> None:
    assert made_for_it.choice.rule is made_for_it.choice.nearer is Rule.LAST_LOAD
    assert made_for_it.gain[LAST_LOAD].high < 0
    assert made_for_it.in_force.since is not None
    assert made_for_it.in_force.chosen < made_for_it.in_force.fit
    assert made_for_it.choice.sentence in fallback(made_for_it)
    assert made_for_it.doses == {}


def test_each_day_goes_by_what_earlier_days_have_shown() -> None:
    """One forecast a day: so many by the fit until there are enough, and the plain rule after."""
    club = a_tally(60, done_of_ten=8, LAST_LOAD=0.95)
    found = in_force(club)
    briers = [
        each.said[Rule.MODEL if n < FEWEST.of_club else Rule.LAST_LOAD].brier
        for n, each in enumerate(club.judged)
    ]
    assert found.since == FEWEST.of_club + 1
    assert found.chosen == pytest.approx(np.mean(briers))
    assert found.fit == club.brier(Rule.MODEL)


def test_the_page_says_first_that_its_athletes_are_invented(
    same: Figures, far_days: Figures, made_for_it: Figures
) -> None:
    text = page_of([same], [same, far_days, made_for_it])
    for page in (text, PAGE.read_text(encoding="utf-8")):
        assert page.split("\n\n")[1].startswith(MARK)
    assert far_days.name in text
    assert "not known" in text


def test_misses_are_shown_as_plainly_as_hits(same: Figures) -> None:
    good = replace(
        same,
        coverage=replace(same.coverage, mean=0.80),
        early_gain=dict.fromkeys(same.early_gain, Gain(0.1, 0.05, 0.15)),
        doses={8: replace(same.doses[8], error=0.049)},
    )
    bad = replace(
        good,
        coverage=replace(same.coverage, mean=0.74),
        early_gain=dict.fromkeys(same.early_gain, Gain(0.1, -0.01, 0.15)),
        doses={8: replace(same.doses[8], error=0.051)},
    )
    assert "misses" not in "".join(verdict([good]))
    assert [line.count("**misses**") for line in verdict([good, bad])] == [0, 0, 1, 1, 1, 1, 1]
