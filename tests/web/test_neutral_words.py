"""The pages of a day call nobody he: an athlete may be a woman, and the page may not know."""

import re

import pytest

from read_pages import page_of, words_of
from site_server import Browse

BARBELL = "monday-barbell"
HE = re.compile(r"[^.]{0,60}\b(?:he|his|him|himself)\b[^.]{0,40}", re.IGNORECASE)


@pytest.mark.parametrize(
    "path",
    [
        f"/today/{BARBELL}",
        "/today/wednesday-plyometric",
        f"/today/{BARBELL}/check-in",
        f"/today/{BARBELL}/check-in/A01",
        f"/today/{BARBELL}/late",
        f"/today/{BARBELL}/change/A03?block=Ropewalk",
        f"/missing/{BARBELL}",
        f"/live/{BARBELL}",
        f"/done/{BARBELL}",
        f"/done/{BARBELL}/effort",
        f"/paper/{BARBELL}",
        f"/sessions/{BARBELL}/sheets",
        "/squad/athlete/A11/swaps",
        "/squad/athlete/A11/restrictions",
        "/wellness",
        "/wellness/A11",
        "/notice",
    ],
)
def test_no_page_of_the_day_calls_an_athlete_he(browse: Browse, path: str) -> None:
    page = page_of(browse.get(path))
    assert HE.findall(words_of(page.find("body"))) == []
