"""A fixture made an event of athletes, in process: picked, refused, moved with the file."""

from datetime import date

from exchange.calendar_text import event, ics
from read_pages import club_of, page_of, words_of
from site_server import MONDAY, Browse
from squadwright.services.calendar_files import take_fixtures

FIXTURES = "/camp/week/fixtures"


def with_cup(browse: Browse, day: str = "20260418", *, sequence: int = 0) -> str:
    data = ics(
        *event("SUMMARY:Harbour cup", f"SEQUENCE:{sequence}", f"DTSTART;VALUE=DATE:{day}", uid="c")
    )
    take_fixtures(browse.keeper, data, today=MONDAY)
    [fixture] = club_of(browse).fixtures
    return f"{FIXTURES}/{fixture.id}/athletes"


def events_of(browse: Browse, athlete: str) -> list[tuple[str, date, str]]:
    found = club_of(browse).athlete(athlete).events
    return [(e.name, e.starts_on, e.priority.value) for e in found if e.name == "Harbour cup"]


def test_the_coach_picks_who_competes_and_what_it_counts(browse: Browse) -> None:
    path = with_cup(browse)
    assert path in browse.get(FIXTURES).text
    answer = browse.post(path, {"day-A08": "A", "day-A02": "B", "day-A03": ""})
    assert answer.url.path == FIXTURES
    words = words_of(page_of(answer))
    assert "Harbour cup is an event of 2 athletes more." in words
    assert "Event of Iskander Yulbarin (B), Sami Darwazin '01 (A)." in words
    assert events_of(browse, "A08") == [("Harbour cup", date(2026, 4, 18), "A")]
    assert events_of(browse, "A03") == []
    assert "Harbour cup" in browse.get("/camp/season").text
    again = page_of(browse.get(path))
    assert "Sami Darwazin '01 has it as A event already." in words_of(again)
    assert again.xpath("//input[@name='day-A08']") == []
    taken_back = browse.post(
        page_of(answer).xpath("//form[contains(@action, '/undo/')]/@action")[0]
    )
    assert taken_back.status_code == 200
    assert events_of(browse, "A08") == []


def test_nothing_picked_or_gone_says_what_to_do(browse: Browse) -> None:
    path = with_cup(browse)
    assert "no date is given" in words_of(page_of(browse.post(path, {}), status=422))
    assert browse.get(f"{FIXTURES}/nothing/athletes").status_code == 404


def test_the_events_go_along_when_the_file_moves_the_fixture(browse: Browse) -> None:
    browse.post(with_cup(browse), {"day-A08": "A"})
    moved = ics(*event("SUMMARY:Harbour cup", "SEQUENCE:1", "DTSTART;VALUE=DATE:20260425", uid="c"))
    shown = browse.post(f"{FIXTURES}/look", files={"calendar": ("cup.ics", moved)})
    assert "The event goes along: Sami Darwazin '01 (A)." in words_of(page_of(shown))
    with_cup(browse, "20260425", sequence=1)
    assert events_of(browse, "A08") == [("Harbour cup", date(2026, 4, 25), "A")]
