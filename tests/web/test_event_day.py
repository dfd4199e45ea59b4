"""A day of competition in process: the queue by what is in the address, refusals, the sheet."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from printing.printed import pypdf_text, reader
from read_pages import page_of, words_of
from site_server import MONDAY, Browse
from squadwright.errors import InvalidInput, NotFound
from squadwright.model.athlete import Event
from squadwright.model.event_weigh_in import EventWeighIn
from squadwright.model.record import EventKind, RecordEvent, record_of_day
from squadwright.printing.camp_review_words import camp_review_words
from squadwright.services.camp_review import camp_review
from squadwright.services.club_changes import change_club
from squadwright.services.record import exchange

DAY = date(2026, 3, 8)
PATH = "/camp/event-day/2026-03-08"


@pytest.fixture
def day(browse: Browse) -> Browse:
    """Three more athletes compete on the day of the tournament of A13."""
    event = Event("cup", "Harbour cup", DAY, bouts_expected=3)
    change_club(
        browse.keeper,
        lambda club: replace(
            club,
            athletes=tuple(
                replace(a, events=(*a.events, event)) if a.id in ("A02", "A03", "A08") else a
                for a in club.athletes
            ),
        ),
        today=MONDAY,
    )
    return browse


def queue_of(browse: Browse, query: str) -> list[str]:
    page = page_of(browse.get(f"{PATH}?{query}"))
    return [words_of(line) for line in page.xpath("//ol[@id='queue']/li")]


def test_the_days_ahead_are_listed_with_who_competes(day: Browse) -> None:
    page = page_of(day.get("/camp/event-day"))
    [line] = [
        li for li in page.xpath("//ul[@class='event-days']/li") if "Sunday 8 March" in words_of(li)
    ]
    for name in ("Chidozie", "Iskander", "Marisol", "Haneul", "Sami"):
        assert name in words_of(line)


def test_the_queue_goes_by_the_bouts_ahead_in_the_address(day: Browse) -> None:
    unsaid = queue_of(day, "")
    assert len(unsaid) == 5
    assert all("Bouts ahead not said" in line for line in unsaid)
    said = "ahead-A02.cup=10&ahead-A03.cup=3&ahead-A08.cup=6&over-A08.cup=yes"
    first, second, *_, third, last = queue_of(day, said)
    assert first.startswith("Marisol Quenaya Warm up now about 24 min to the call")
    assert second.startswith("Iskander Yulbarin Warm up in about 48 min")
    assert "not said" in third
    assert last.startswith("Sami Darwazin '01 Finished for the day")
    moved = queue_of(day, f"{said}&bouts_ahead=12&minutes=5")
    assert moved[1].startswith("Iskander Yulbarin Warm up now about 50 min to the call")


def test_on_a_day_of_several_events_the_queue_says_who_is_at_which(
    day: Browse, browse: Browse
) -> None:
    lines = queue_of(day, "")
    assert [line.partition("not said ")[2] for line in lines if line.startswith("Chid")] == [
        "One-day tournament"
    ]
    assert sum(line.endswith("Harbour cup") for line in lines) == 3
    # Where all are at one event, nothing is said twice.
    page = page_of(browse.get("/camp/event-day/2026-03-07"))
    (line,) = page.xpath("//ol[@id='queue']/li")
    assert words_of(line) == "Parwana Sohrabin Bouts ahead not said"


def test_weigh_ins_stand_in_the_order_of_the_clock(day: Browse) -> None:
    page = page_of(day.get(f"{PATH}?weigh-A03.cup=08:15&weigh-A02.cup=07:30"))
    words = words_of(page.get_element_by_id("weigh-ins"))
    assert words == "Weigh-ins: 07:30 Iskander Yulbarin, 08:15 Marisol Quenaya"


@pytest.mark.parametrize(
    ("query", "told"),
    [
        ("bouts_ahead=0", "outside 1 to 12 bouts"),
        ("minutes=soon", "is not a number"),
        ("ahead-A02.cup=11", "is not one of the choices"),
        ("weigh-A02.cup=25:00", "is not a time of day"),
    ],
)
def test_what_cannot_be_used_is_told_and_stays(day: Browse, query: str, told: str) -> None:
    answer = day.get(f"{PATH}?{query}&ahead-A03.cup=3")
    page = page_of(answer, status=422)
    assert told in words_of(page)
    [kept] = page.xpath("//input[@name='ahead-A03.cup'][@checked]/@value")
    assert kept == "3"


@pytest.mark.parametrize("path", ["2026-03-09", "soon", "2026-03-09/sheet.pdf"])
def test_a_day_without_a_competitor_says_what_to_do(day: Browse, path: str) -> None:
    answer = day.get(f"/camp/event-day/{path}")
    assert answer.status_code == 404
    assert "2026-03-0" in answer.text


def test_the_printed_sheet_has_a_line_for_each_bout_and_the_routine(day: Browse) -> None:
    pdf = day.get(f"{PATH}/sheet.pdf").content
    assert len(reader(pdf).pages) <= 2
    text = pypdf_text(pdf)
    for words in ("Chidozie Umelaro", "Marisol Quenaya", "weighed in", "Between two bouts"):
        assert words in text
    assert "only as usual" in " ".join(text.split())
    assert "Caution." in text


def test_the_ways_to_the_sheet(day: Browse) -> None:
    assert f'href="{PATH}"' in day.get("/squad/athlete/A13").text
    # The first day of competition ahead is the one of A05, five days on.
    assert "Parwana Sohrabin competes on Sat 7 Mar" in words_of(page_of(day.get("/today")))


def test_the_hours_of_a_weigh_in_that_are_on_file_stand_there(browse: Browse) -> None:
    known = EventWeighIn(
        zone="Europe/Lisbon",
        opens_at=datetime(2026, 3, 8, 7, 0),
        closes_at=datetime(2026, 3, 8, 7, 30),
        second_at=datetime(2026, 3, 9, 7, 0),
    )
    event = Event("cup", "Harbour cup", DAY, weigh_in=known)
    change_club(
        browse.keeper,
        lambda club: replace(
            club,
            athletes=tuple(
                replace(a, events=(event,)) if a.id == "A08" else a for a in club.athletes
            ),
        ),
        today=MONDAY,
    )
    words = words_of(page_of(browse.get(PATH)))
    assert "Weigh-ins: 07:00 Sami Darwazin '01" in words
    assert "Sun 8 Mar 07:00 to 07:30 (Europe/Lisbon), again Mon 9 Mar 07:00, not " in words


def at_the_mats(name: str, kind: EventKind, minutes_ago: float, **more: Any) -> RecordEvent:
    said = {"athlete": "A03", "words": "cup", "session": record_of_day(DAY), **more}
    at = datetime.now(UTC) - timedelta(minutes=minutes_ago)
    return RecordEvent(id=name, device="phone", number=1, at=at, kind=kind, **said)


def test_the_page_shows_what_devices_have_stored(day: Browse) -> None:
    events = [
        at_the_mats("a", EventKind.BOUT_OVER, 60),
        at_the_mats("b", EventKind.BOUTS_AHEAD, 16, value=8),
        at_the_mats("c", EventKind.BOUT_TAKES, 90, value=10, athlete="", words=""),
        at_the_mats("d", EventKind.WEIGHS_AT, 90, value=495),
        at_the_mats("e", EventKind.DAY_OVER, 5, athlete="A02"),
    ]
    for _ in range(2):
        exchange(day.keeper, record_of_day(DAY), events, after=0)
    first, *_, last = queue_of(day, "")
    # 8 bouts of 10 min, said 16 min ago: 64 to the call, 24 until 4 bouts are left.
    assert first == ("Marisol Quenaya Warm up in about 24 min about 64 min to the call Harbour cup")
    assert last == "Iskander Yulbarin Finished for the day Harbour cup"
    page = page_of(day.get(PATH))
    words = words_of(page)
    assert "Bouts over: 1." in words
    assert "08:15 Marisol Quenaya" in words
    assert page.xpath("//input[@name='ahead-A03.cup'][@checked]/@value") == ["8"]
    found = camp_review(day.keeper, "A03", "cup", today=DAY, now=datetime.now(UTC))
    assert found.figures.bouts == 1
    words = camp_review_words(found)
    assert ("Bouts", "1 fought, about 3 expected", "too few to tell (0 earlier)") in words.figures


def test_what_was_noted_at_the_mats_is_taken_back_by_any_device(day: Browse) -> None:
    bout = at_the_mats("a", EventKind.BOUT_OVER, 5)
    back = replace(
        at_the_mats("b", EventKind.TAKEN_BACK, 4, athlete="", words="", takes_back="a"),
        device="tablet",
    )
    for event in (bout, back):
        exchange(day.keeper, record_of_day(DAY), [event], after=0, today=MONDAY)
    assert "Bouts over" not in words_of(page_of(day.get(PATH)))


def test_records_of_sessions_and_of_days_are_kept_apart(day: Browse) -> None:
    bout = at_the_mats("a", EventKind.BOUT_OVER, 1, session="monday-barbell")
    with pytest.raises(InvalidInput, match="does not happen in 'monday-barbell'"):
        exchange(day.keeper, "monday-barbell", [bout], after=0)
    start = at_the_mats("b", EventKind.STARTED, 1, value=0, athlete="", words="")
    with pytest.raises(InvalidInput, match="does not happen in 'event-day-2026-03-08'"):
        exchange(day.keeper, record_of_day(DAY), [start], after=0)
    with pytest.raises(NotFound, match="Nobody competes on 2026-03-09"):
        exchange(day.keeper, "event-day-2026-03-09", [], after=0)
