"""How long a restriction holds, in words."""

from datetime import date

import pytest

from squadwright.model.athlete import AuthorRole, Restriction
from squadwright.planning.restriction_words import term_words


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
