"""The watch: what is known stands in a chart and among its numbers, and nothing else does."""

from datetime import UTC, datetime, timedelta

from printing.printed import pypdf_text
from read_pages import page_of, words_of
from site_server import MONDAY, Browse
from squadwright.model.diary import Answer, SessionDone, TestResult, WellnessAnswers
from squadwright.services.diary import Told, write_diary

NOW = datetime(2026, 3, 2, 12, tzinfo=UTC)


def told(browse: Browse, *entries: Told) -> None:
    write_diary(browse.keeper, entries, author="Coach", today=MONDAY, now=NOW)


def test_an_athlete_stands_in_charts_with_their_numbers(browse: Browse) -> None:
    day = MONDAY - timedelta(days=1)
    told(
        browse,
        Told("A13", day, SessionDone("Open mat", "sparring", 90, 8.0)),
        Told("A13", day, WellnessAnswers("five items", (Answer("sleep", 2),), 1, 5, True)),
        Told("A13", day, TestResult("grip", 51.5, "kg", "right hand")),
        Told("A13", day, TestResult("grip", 48.0, "kg", "left hand")),
    )
    page = page_of(browse.get("/squad/athlete/A13/watch"))
    text = words_of(page)
    heads = [words_of(each) for each in page.iter("h2")]
    assert heads[:3] == ["Load by day", "Body mass", "Answers, five items"]
    assert heads.count("Grip") == 2
    for words in ("720 AU", "86.8 kg", "sleep 2", "51.5 kg", "By left hand, measured once"):
        assert words in text
    assert "no day of rest" in text
    pictures = list(page.iter("{http://www.w3.org/2000/svg}svg")) or list(page.iter("svg"))
    assert len(pictures) >= 8
    printed = pypdf_text(browse.get("/squad/athlete/A13/watch.pdf").content)
    assert "Load by day" in printed
    assert "predicts no injury" in printed


def test_a_minor_has_no_limit_drawn(browse: Browse) -> None:
    text = words_of(page_of(browse.get("/squad/athlete/A03/watch")))
    assert "No limit is drawn" in text
    assert "limit 57" not in browse.get("/squad/athlete/A03/watch").text


def test_the_table_has_everybody_once_and_says_what_is_not_known(browse: Browse) -> None:
    told(browse, Told("A13", MONDAY, SessionDone("Open mat", "sparring", 90, 8.0)))
    page = page_of(browse.get("/squad/table"))
    rows = [words_of(row) for row in page.iter("tr")][1:]
    assert len(rows) == 14
    row = next(words for words in rows if "Umelaro" in words)
    assert "720" in row
    assert "in 6 days" in row
    minor = next(words for words in rows if "Quenaya" in words)
    assert "% a week" not in minor


def test_the_table_without_a_club_leads_to_the_first_steps(browse_empty: Browse) -> None:
    answer = browse_empty.get("/squad/table")
    assert answer.status_code == 404
    assert "no club yet" in answer.text
