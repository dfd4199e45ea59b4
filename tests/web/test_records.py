"""Records: everything goes out as a file, and everything of one athlete without anybody else."""

import io
import json
import zipfile
from datetime import UTC, date, datetime

import pytest

from hostile_files import hostile
from read_pages import club_of, page_of, words_of
from site_server import Browse
from squadwright.exchange.data_read import KINDS, read_data, write_as
from squadwright.model.diary import PainTold, RestDay
from squadwright.model.muscles import BodyArea
from squadwright.services.data_out import everything
from squadwright.services.diary import Told, read_diary, take_back, write_diary
from squadwright.services.erasing import erase_athlete
from squadwright.services.health_log import health_log

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
    answer = told.post(f"/records/everything.{kind}", {})
    assert f'filename="everything.{kind}"' in answer.headers["content-disposition"]
    assert answer.headers["cache-control"] == "no-store"
    data = read_data(answer.content)
    assert data == everything(told.keeper)
    assert len(data.diary) == 2


@pytest.mark.parametrize("kind", KINDS)
def test_the_record_of_one_athlete_names_nobody_else(told: Browse, kind: str) -> None:
    """Own data complete, no other athlete's identifier or name (a rule of data protection)."""
    club = club_of(told)
    content = told.post(f"/records/athlete/A01/record.{kind}", {}).content
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
    link = page.xpath("//a[text()='All that is held']/@href")[0]
    shown = words_of(page_of(browse.get(link)))
    assert "agreed to keeping training and health data on" in shown
    assert page_of(browse.post("/records/everything.exe", {}), 404) is not None
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
    assert "Type the name to erase for good" in words_of(page)
    assert page.xpath("//input[@name='typed_name']/@value") == ["Nobody"]
    assert f"{name} is erased for good." in words_of(page_of(told.post(path, {"typed_name": name})))
    assert name not in write_as("json", everything(told.keeper)).decode()
    assert page_of(told.get("/squad/athlete/A01"), 404) is not None


def test_the_log_says_who_touched_which_health_field_of_whom_and_never_what_it_holds(
    browse: Browse,
) -> None:
    """A log of who changed health fields, without the value: common practice, no source."""
    typed = {"plan": "Meals by the sports dietitian, 71 kg by May"}
    assert browse.post("/squad/athlete/A06/mass/plan", typed).status_code == 200
    path = "/records/athlete/A06/record.zip"
    assert browse.get(path).status_code == 405
    content = browse.post(path, {}).content
    with zipfile.ZipFile(io.BytesIO(content)) as found:
        log = found.read("health_log.csv").decode("utf-8-sig")
    assert '"coach, on the club computer",A06,weight plans,changed' in log
    assert read_data(content).club.athlete("A06").weight_plans[-1].kept_text == typed["plan"]
    shown = words_of(page_of(browse.get("/records/health-log?athlete=A06")))
    assert "coach, on the club computer" in shown
    assert "weight plans changed" in shown
    assert "everything held of him given out as a file" in shown
    assert "71 kg" not in shown
    others = browse.get("/records/health-log?athlete=A01")
    assert "Nothing was touched yet" in words_of(page_of(others))
    name = club_of(browse).athlete("A06").name
    erase_athlete(browse.keeper, "A06", typed_name=name, today=TODAY)
    left = health_log(browse.keeper)
    assert {line.field for line in left.lines} >= {"weight plans"}
    assert all(line.athlete.startswith("erased-") for line in left.lines)
    assert "no more in the squad" in words_of(page_of(browse.get("/records/health-log")))


def test_what_the_door_and_the_diary_tell_of_health_is_in_the_log(browse: Browse) -> None:
    check = {"area": "knee", "side": "left", "score": "4"}
    assert browse.post("/today/monday-barbell/check-in/A05/pain", check).status_code == 200
    told = [Told("A02", TODAY, PainTold(BodyArea.KNEE, 3)), Told("A01", TODAY, RestDay("off"))]
    mark = write_diary(browse.keeper, told, author="Coach", today=TODAY, now=NOW)
    take_back(browse.keeper, mark)
    lines = [(each.athlete, each.field) for each in health_log(browse.keeper).lines]
    assert ("A05", "pain at the door") in lines
    # Written, and taken back: two lines; a day of rest is no health field.
    assert lines.count(("A02", "diary: pain")) == 2
    assert "A01" not in {who for who, _ in lines}
