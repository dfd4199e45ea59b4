"""Records: everything goes out as a file, and everything of one athlete without anybody else."""

import json
from datetime import UTC, date, datetime

import pytest

from hostile_files import hostile
from read_pages import club_of, page_of, words_of
from site_server import Browse
from squadwright.exchange.data_read import KINDS, read_data, write_as
from squadwright.model.diary import RestDay
from squadwright.services.data_out import everything
from squadwright.services.diary import Told, read_diary, write_diary

TODAY = date(2026, 3, 2)
NOW = datetime(2026, 3, 2, 17, 0, tzinfo=UTC)


@pytest.fixture
def told(browse: Browse) -> Browse:
    """The site with a day of rest of two athletes in the diary."""
    rests = [Told(who, TODAY, RestDay(f"rest of {who}")) for who in ("A01", "A02")]
    write_diary(browse.keeper, rests, author="Coach", today=TODAY, now=NOW)
    return browse


@pytest.mark.parametrize("kind", KINDS)
def test_everything_goes_out_whole(told: Browse, kind: str) -> None:
    answer = told.get(f"/records/everything.{kind}")
    assert f'filename="everything.{kind}"' in answer.headers["content-disposition"]
    assert answer.headers["cache-control"] == "no-store"
    data = read_data(answer.content)
    assert data == everything(told.keeper)
    assert len(data.diary) == 2


@pytest.mark.parametrize("kind", KINDS)
def test_the_record_of_one_athlete_names_nobody_else(told: Browse, kind: str) -> None:
    """Own data complete, no other athlete's identifier or name (a rule of data protection)."""
    club = club_of(told)
    content = told.get(f"/records/athlete/A01/record.{kind}").content
    data = read_data(content)
    assert data.club.athletes == (club.athlete("A01"),)
    assert [entry.athlete for entry in data.diary] == ["A01"]
    text = write_as("json", data).decode()
    for other in club.athletes[1:]:
        assert other.name not in text
        assert f'"{other.id}"' not in text
    assert len(json.loads(text)["club"]["sessions"]) == sum(
        "A01" in session.athletes for session in club.sessions
    )


def test_the_page_of_an_athlete_leads_to_all_that_is_held_of_him(browse: Browse) -> None:
    page = page_of(browse.get("/squad/athlete/A03"))
    link = page.xpath("//a[text()='All that is held of him']/@href")[0]
    shown = words_of(page_of(browse.get(link)))
    assert "agreed to keeping training and health data on" in shown
    assert page_of(browse.get("/records/everything.exe"), 404) is not None
    assert page_of(browse.get("/records/athlete/nobody"), 404) is not None


def test_a_hostile_recording_is_refused_in_one_line_and_nothing_is_stored(browse: Browse) -> None:
    for seed in range(11):
        _, data = hostile(seed)
        answer = browse.post("/records/heart", {}, files={"recording": ("x", data)})
        assert answer.status_code in (200, 413, 422)
        if answer.status_code == 422:
            assert page_of(answer, 422).find_class("field-error")
    assert read_diary(browse.keeper) == ()


@pytest.mark.parametrize("kind", KINDS)
def test_a_data_file_is_looked_at_taken_in_and_taken_back(
    told: Browse, browse_empty: Browse, kind: str
) -> None:
    data = everything(told.keeper)
    page = page_of(browse_empty.post("/records/in", files={"data": ("x", write_as(kind, data))}))
    assert "2 entries of the diary" in words_of(page) or "more" in words_of(page)
    assert "There is no club yet" in words_of(page_of(browse_empty.get("/records")))
    sent = {name: page.xpath(f"//input[@name='{name}']/@value")[0] for name in ("packed",)}
    page = page_of(browse_empty.post("/records/in/take", sent))
    assert everything(browse_empty.keeper) == data
    undo = page.xpath("//form[contains(@action, '/back')]/@action")[0]
    page_of(browse_empty.post(undo, {"back": "/records"}))
    assert everything(browse_empty.keeper).club.athletes == ()


def test_a_file_that_is_none_is_refused_in_one_line(browse: Browse) -> None:
    before = everything(browse.keeper)
    for data in (b"", b"{", b"PK\x03\x04", hostile(7)[1]):
        answer = browse.post("/records/in", files={"data": ("x", data)})
        assert page_of(answer, 422).find_class("field-error")
    assert page_of(browse.post("/records/in/take", {"packed": "x"}), 422) is not None
    assert everything(browse.keeper) == before


def test_an_athlete_is_erased_only_where_his_name_was_typed(told: Browse) -> None:
    name = club_of(told).athlete("A01").name
    path = "/records/athlete/A01/erase"
    page = page_of(told.post(path, {"typed_name": "Nobody"}), 422)
    assert "Type his name to erase him" in words_of(page)
    assert page.xpath("//input[@name='typed_name']/@value") == ["Nobody"]
    assert f"{name} is erased for good." in words_of(page_of(told.post(path, {"typed_name": name})))
    assert name not in write_as("json", everything(told.keeper)).decode()
    assert page_of(told.get("/squad/athlete/A01"), 404) is not None
