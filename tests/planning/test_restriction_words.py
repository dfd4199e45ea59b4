"""A restriction and a pain in words."""

from dataclasses import replace
from datetime import date

import pytest

from squadwright.model.athlete import AuthorRole, Restriction
from squadwright.model.exercise import Demand
from squadwright.model.muscles import BodyArea
from squadwright.model.session import Pain
from squadwright.planning.restriction_words import (
    barred_line,
    bars_words,
    coach_line,
    pain_words,
    says_more,
    term_words,
    what_alone,
)


@pytest.mark.parametrize(
    ("role", "until", "words"),
    [
        (AuthorRole.MEDICAL, None, "until cleared in writing"),
        (AuthorRole.COACH, None, "until lifted"),
        (AuthorRole.MEDICAL, date(2026, 3, 20), "until 20 Mar 2026"),
    ],
)
def test_without_an_end_it_says_what_ends_it(
    role: AuthorRole, until: date | None, words: str
) -> None:
    restriction = Restriction("knee", "Somebody", role, date(2026, 3, 2), until, all_training=True)
    assert term_words(restriction) == words


def bars(**more: object) -> Restriction:
    usual = {"author": "Ole Vik", "author_role": AuthorRole.COACH, "starts_on": date(2026, 3, 2)}
    return Restriction("r", **(usual | more))  # type: ignore[arg-type]


OVERHEAD = bars(demands=(Demand.OVERHEAD, Demand.LUNGE), body_areas=(BodyArea.KNEE,))


def test_what_is_barred_is_said_in_full_and_all_training_alone() -> None:
    assert bars_words(OVERHEAD) == "no overhead, no lunge, nothing that loads the knee"
    assert bars_words(replace(OVERHEAD, all_training=True)) == "no training"
    line = barred_line(OVERHEAD)
    assert line == f"{bars_words(OVERHEAD)} (Ole Vik, until lifted)"
    assert what_alone(line) == bars_words(OVERHEAD)
    assert coach_line(OVERHEAD) == line
    assert coach_line(replace(OVERHEAD, reason="Sore")) == f"Sore: {line}"


@pytest.mark.parametrize(
    ("instruction", "says"),
    [
        ("", False),
        ("No overhead.", False),
        ("Nothing overhead, not a lunge", True),
        ("nothing OVERHEAD", False),
        ("No overhead, walk instead", True),
        ("Walk", True),
    ],
)
def test_an_instruction_says_more_where_it_has_a_word_of_its_own(
    instruction: str, says: bool
) -> None:
    assert says_more(replace(OVERHEAD, instruction=instruction)) is says


def test_pain_is_said_with_its_side_where_it_is_known() -> None:
    assert pain_words(Pain(BodyArea.KNEE, 4, "left")) == "left knee pain 4 of 10"
    assert pain_words(Pain(BodyArea.KNEE, 4)) == "knee pain 4 of 10"
