"""Efforts from a file: heads, doubts that wait for an answer, and files that are no files."""

import io
from datetime import date, timedelta

import openpyxl
import pytest
from lxml import html

from read_pages import changed, page_of, words_of
from site_server import MONDAY, Browse
from squadwright.demo import demo_club
from squadwright.errors import InvalidInput
from squadwright.exchange.efforts import Column, cells_of, read_lines
from squadwright.exchange.roster_file import Table
from squadwright.model.diary import DiaryKind, SessionDone
from squadwright.services.diary import read_diary

FILE = "/load/file"
FRIDAY = MONDAY - timedelta(days=3)
HEAD = "Athlete,Date,Duration (min),RPE,Session\n"


def sent_form(page: html.HtmlElement) -> dict[str, object]:
    """What the preview would send as it stands."""
    form = page.xpath("//form[contains(@action, '/load/file/preview')]")[0]
    sent: dict[str, object] = {}
    for each in form.xpath(".//input[@name]"):
        name, kind = each.get("name"), each.get("type")
        if kind == "checkbox":
            if each.get("checked") is not None:
                sent.setdefault(name, [])
                sent[name].append(each.get("value"))  # type: ignore[attr-defined]
        elif name != "_token":
            sent[name] = each.get("value")
    return sent


def upload(browse: Browse, data: bytes | str, name: str = "week.csv") -> html.HtmlElement:
    raw = data.encode() if isinstance(data, str) else data
    return page_of(browse.post(FILE, files={"efforts": (name, raw)}))


def told(browse: Browse) -> list[tuple[str, date, SessionDone]]:
    found = read_diary(browse.keeper, kinds=[DiaryKind.SESSION])
    return [(e.athlete, e.day, e.content) for e in found if isinstance(e.content, SessionDone)]


@pytest.mark.parametrize(
    ("cell", "text", "said"),
    [
        (Column.ATHLETE, "Sami Darwazin", "may be Sami Darwazin '01 or Sami Darwazin '12"),
        (Column.ATHLETE, "Iskandar Yulbarin", "may be Iskander Yulbarin"),
        (Column.ATHLETE, "Nobody At All", "is nobody of the squad"),
        (Column.ATHLETE, "", "nobody is named"),
        (Column.DAY, "01/02/2026", "may be"),
        (Column.DAY, "2026-02-30", "is no day"),
        (Column.DAY, "2026-03-03", "not within the last ten years"),
        (Column.MINUTES, "1e3", "is not a number"),
        (Column.MINUTES, "0", "is not a whole number 1 to 720"),
        (Column.MINUTES, "90.5", "is not a whole number 1 to 720"),
        (Column.EFFORT, "11", "is not 0 to 10"),
        (Column.EFFORT, "", "is empty"),
        (Column.EFFORT, "=1+1", "is not a number"),
    ],
)
def test_a_cell_that_is_not_clear_is_a_doubt_of_its_own(cell: Column, text: str, said: str) -> None:
    cells = {Column.ATHLETE: "A02", Column.DAY: f"{FRIDAY}", Column.MINUTES: "90",
             Column.EFFORT: "7,5", Column.SESSION: ""}  # fmt: skip
    people = demo_club(MONDAY).athletes
    (sound,) = read_lines([cells], people, today=MONDAY)
    assert (sound.athlete, sound.day, sound.minutes, sound.effort) == ("A02", FRIDAY, 90, 7.5)
    (line,) = read_lines([cells | {cell: text}], people, today=MONDAY)
    assert set(line.doubts) == {cell}
    assert said in line.doubts[cell]


def test_heads_that_lack_are_named() -> None:
    with pytest.raises(InvalidInput, match="no column day and no column effort"):
        cells_of(Table(("Name", "Minutes"), (("A02", "90"),)))


def test_a_file_is_looked_at_mended_taken_in_and_undone(browse: Browse) -> None:
    rows = (
        f"Iskander Yulbarin,{FRIDAY},85,8,wrestling live\n"
        f"Sami Darwazin,27.2.2026,35,5,Short\n"
        f"Kwabena Fosuhene-Lund,{FRIDAY},30,4,Swim\n"
        f"Birk Aldervoll,{FRIDAY},90,12,Wrestling live\n"
    )
    page = upload(browse, HEAD + rows)
    assert words_of(page.find_class("page-line")[0]).startswith("4 lines. 2 cells wait")
    assert "as Wrestling live" in words_of(page)
    assert "Swim, 30 minutes, 4 of 10 (beside the week)" in words_of(page)
    sent = sent_form(page)
    refused = page_of(browse.post(f"{FILE}/take", sent), 422)
    assert "2 cells are in doubt still" in words_of(refused)
    assert told(browse) == []
    mended = sent_form(refused) | {"cell-2-ATHLETE": "A08", "out": ["4"]}
    page = page_of(browse.post(f"{FILE}/preview", mended))
    assert "Nothing waits" in words_of(page)
    page = page_of(browse.post(f"{FILE}/take", mended))
    assert changed(page) == "3 efforts are in the diary."
    kept = {(who, done.name, done.minutes, done.slot) for who, _, done in told(browse)}
    assert kept == {
        ("A02", "Wrestling live", 85, "fri-wrestling"),
        ("A08", "Short", 35, "fri-short"),
        ("A09", "Swim", 30, ""),
    }
    again = upload(browse, HEAD + rows.splitlines()[0] + "\n")
    assert "told already" in words_of(again)
    assert "no line is new" in words_of(page_of(browse.post(f"{FILE}/take", sent_form(again)), 422))
    undo = page.xpath("//form[starts-with(@action, '/undo/diary/')]/@action")[0]
    page_of(browse.post(undo, {"back": "/load"}))
    assert told(browse) == []


def test_a_spreadsheet_gives_the_same_and_twice_the_same_line_is_refused(browse: Browse) -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["Name", "Day", "Minutes", "Effort"])
    for _ in range(2):
        sheet.append(["A09", date(2026, 2, 27), 90, 8.5])
    file = io.BytesIO()
    book.save(file)
    page = upload(browse, file.getvalue(), "week.xlsx")
    sent = sent_form(page)
    # On Friday two things were on: without a name none of them is meant.
    assert "beside the week" in words_of(page)
    page_of(browse.post(f"{FILE}/take", sent))
    assert [(done.effort, done.slot) for _, _, done in told(browse)] == [(8.5, ""), (8.5, "")]
    line = f"A09,{FRIDAY},90,8,Wrestling live\n"
    twice = sent_form(upload(browse, HEAD + line + line))
    page = page_of(browse.post(f"{FILE}/take", twice), 422)
    assert "lines 1 and 2 are of one person and one session" in words_of(page)


@pytest.mark.parametrize("data", [b"", b"PK\x03\x04no zip", b"\x00\x01\x02", b"Name;Day\nA02;x\n"])
def test_what_is_no_such_file_is_refused_in_a_line(browse: Browse, data: bytes) -> None:
    answer = browse.post(FILE, files={"efforts": ("x.csv", data)})
    assert len(page_of(answer, 422).find_class("field-error")) == 1


@pytest.mark.parametrize(
    "lines", ["", "[]", "[[1]]", '[{"athlete": "A02"}]', "[" * 5000, '{"a":1}']
)
def test_a_preview_that_comes_back_broken_asks_for_the_file_again(
    browse: Browse, lines: str
) -> None:
    for where in ("preview", "take"):
        page = page_of(browse.post(f"{FILE}/{where}", {"lines": lines}), 422)
        assert "did not come back whole" in words_of(page)
