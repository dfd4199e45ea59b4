"""Everything out and in again, as JSON, as CSV files and as a workbook: nothing is lost."""

import csv
import io
import json
import re
import zipfile
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

import openpyxl
import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from cases import cases
from random_club import random_club
from squadwright.demo import demo_club
from squadwright.errors import InvalidInput
from squadwright.exchange.data_codes import code_rows, words_name
from squadwright.exchange.data_file import DataFile, in_file_order
from squadwright.exchange.data_read import KINDS, read_data, write_as
from squadwright.exchange.data_rows import tables_of
from squadwright.exchange.data_shape import DIARY_KINDS, all_shapes
from squadwright.exchange.data_xlsx import LONGEST_SHEET_NAME, sheet_name
from squadwright.exchange.spreadsheet_cell import FORMULA_STARTS, kept_text, read_text
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.diary import (
    Answer,
    DiaryEntry,
    DiaryKind,
    HeartSeries,
    PainTold,
    RestDay,
    SessionDone,
    TestResult,
    WellnessAnswers,
)
from squadwright.model.muscles import BodyArea
from squadwright.model.record import EventKind, RecordEvent
from whole_data import whole_data

DEMO = demo_club(date(2026, 3, 2))
SMALL = replace(
    DEMO, athletes=DEMO.athletes[:3], sessions=(), routines=(), rooms=(), week=(), travel=()
)
NOW = datetime(2026, 3, 2, 18, 0, 0, 250_000, tzinfo=UTC)
FORMULA = '=HYPERLINK("http://example.org","x")'
SLOW = settings(
    max_examples=cases(6),
    phases=(Phase.explicit, Phase.generate),
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def contents() -> st.SearchStrategy[Any]:
    """Diary entries of every kind; what the types do not say is drawn apart."""
    numbers = st.lists(st.floats(0.001, 1e6), min_size=1, max_size=5).map(tuple)
    hearts = st.builds(
        lambda values, note: HeartSeries("rr_ms", values, values, NOW, "lying", "x.csv", note),
        numbers,
        st.sampled_from(("", FORMULA, "'", " two\nlines ")),
    )
    answers = st.lists(
        st.builds(Answer, st.sampled_from(("sleep", "-mood")), st.integers(1, 5)),
        min_size=1,
        max_size=4,
    )
    told = st.builds(lambda a: WellnessAnswers("+five", tuple(a), 1, 5, is_high_good=True), answers)
    words = st.sampled_from(("", FORMULA, "two\nlines\tand a tab", "' = ", "null", "007", "1e5"))
    names = words.filter(bool)
    effort = st.none() | st.floats(0, 10)
    minutes = st.integers(1, 720)
    done = st.builds(
        SessionDone, names, words, minutes, effort, st.none() | st.just(time(6, 5)), words, words
    )
    tests = st.builds(
        TestResult, names, st.floats(-1e9, 1e9), names, names, numbers | st.just(()), kit=words
    )
    pains = st.builds(PainTold, st.sampled_from(BodyArea), st.integers(0, 10), words, words)
    return st.one_of(hearts, told, done, tests, pains, st.builds(RestDay, words))


def entries() -> st.SearchStrategy[tuple[DiaryEntry, ...]]:
    days = st.dates(date(2024, 1, 1), date(2026, 3, 2))
    whats = st.lists(st.tuples(st.sampled_from(SMALL.athletes), days, contents()), max_size=6)
    return whats.map(
        lambda each: tuple(
            DiaryEntry(f"e{n:02d}", who.id, day, what, "=author", NOW + timedelta(seconds=n))
            for n, (who, day, what) in enumerate(each)
        )
    )


@pytest.mark.parametrize("kind", KINDS)
@SLOW
@given(diary=entries())
def test_every_entry_of_a_diary_comes_back_as_it_went_out(
    kind: str, diary: tuple[DiaryEntry, ...]
) -> None:
    data = in_file_order(SMALL, diary, ())
    assert read_data(write_as(kind, data)) == data


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("club", [DEMO, *(random_club(seed)[0] for seed in range(3))])
def test_a_club_comes_back_to_the_last_digit_typed(kind: str, club: Club) -> None:
    data = DataFile(club)
    again = read_data(write_as(kind, data))
    assert again == data
    assert write_as("json", again) == write_as("json", data)


@pytest.mark.parametrize("kind", KINDS)
def test_what_was_noted_comes_back_with_its_instants(kind: str) -> None:
    events = (
        RecordEvent(
            "e1", "monday-barbell", "phone", 1, NOW, EventKind.EFFORT, "", "A01", value=7.5
        ),
        RecordEvent("e2", "monday", "phone", 2, NOW, EventKind.INCIDENT, words="-cut\n"),
    )
    data = in_file_order(DEMO, (), events)
    assert read_data(write_as(kind, data)) == data


@given(st.text(max_size=20))
def test_a_guarded_text_starts_no_formula_and_reads_back(text: str) -> None:
    assert not kept_text(text).startswith(FORMULA_STARTS)
    assert read_text(kept_text(text)) == text


@pytest.mark.parametrize("kind", KINDS)
def test_every_field_of_every_table_comes_back_as_it_went_out(kind: str) -> None:
    """Every kind of entry, of event and of list, each text a formula; new ones are in by itself."""
    data = whole_data()
    assert read_data(write_as(kind, data)) == data


def test_the_data_that_goes_out_and_in_above_leaves_no_column_of_any_table_empty() -> None:
    held = {table.name: table for table in tables_of(whole_data())}
    for shape in all_shapes():
        assert shape.name in held, f"nothing goes out of the table {shape.name}"
        rows = held[shape.name].rows
        empty = [head for n, head in enumerate(shape.heads) if all(r[n] is None for r in rows)]
        assert empty == [], shape.name


def test_every_kind_of_entry_has_a_table_and_can_stand_in_a_club() -> None:
    assert {kind.kind.value for kind in DIARY_KINDS} == {kind.value for kind in DiaryKind}  # type: ignore[attr-defined]
    assert {entry.content.kind for entry in whole_data().diary} == set(DiaryKind)


def test_every_number_says_its_unit_and_every_word_its_codes() -> None:
    codes = {row[0] for row in code_rows()}
    for shape in all_shapes():
        for column in shape.columns:
            if column.kind == "number":
                assert column.unit, f"{shape.name} {column.name}"
            if column.kind == "word":
                assert words_name(column) in codes, f"{shape.name} {column.name}"


@pytest.mark.parametrize("kind", ["zip", "xlsx"])
def test_no_text_of_any_table_starts_a_formula(kind: str) -> None:
    content = write_as(kind, whole_data())
    cells = [cell for cell in _cells(kind, content) if re.fullmatch(r"-[0-9.]+", cell) is None]
    assert sum("=1+" in cell for cell in cells) > 300
    assert [cell for cell in cells if cell.startswith(FORMULA_STARTS)] == []


def _cells(kind: str, content: bytes) -> Iterator[str]:
    if kind == "xlsx":
        book = openpyxl.load_workbook(io.BytesIO(content))
        for sheet in book.worksheets:
            yield from (str(c.value) for row in sheet.iter_rows() for c in row if c.value)
        return
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        for name in package.namelist():
            text = package.read(name).decode("utf-8-sig")
            yield from (cell for row in csv.reader(io.StringIO(text, newline="")) for cell in row)


def nasty() -> DataFile:
    """A club whose every text would be a formula."""
    starts = ("=1+1", "+1", "-1", "@x", "\t=1", "\r=1", FORMULA)
    people = tuple(
        replace(athlete, name=starts[n % 7] + athlete.name, note=starts[n % 7])
        for n, athlete in enumerate(DEMO.athletes)
    )
    entry = DiaryEntry("e", "A01", NOW.date(), RestDay(FORMULA), "@me", NOW)
    return DataFile(replace(DEMO, name="=1", athletes=people), (entry,))


def test_no_cell_of_a_csv_file_starts_a_formula_and_numbers_stay_numbers() -> None:
    numbers = 0
    with zipfile.ZipFile(io.BytesIO(write_as("zip", nasty()))) as package:
        for name in package.namelist():
            text = package.read(name).decode("utf-8-sig")
            for row in csv.reader(io.StringIO(text, newline="")):
                for cell in row:
                    numbers += cell.replace(".", "", 1).isdigit()
                    assert not cell.startswith(FORMULA_STARTS), (name, cell)
    assert numbers > 200


def test_no_cell_of_a_workbook_is_a_formula_and_numbers_stay_numbers() -> None:
    book = openpyxl.load_workbook(io.BytesIO(write_as("xlsx", nasty())))
    kinds = {"n": 0, "s": 0}
    for sheet in book.worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.value is None:
                    continue
                kinds[cell.data_type] += 1
                assert not str(cell.value).startswith(FORMULA_STARTS)
    assert min(kinds.values()) > 200


def test_every_table_has_a_sheet_of_its_own_and_explains_itself() -> None:
    names = [sheet_name(shape.name) for shape in all_shapes()]
    assert len(set(names)) == len(names)
    assert max(map(len, names)) <= LONGEST_SHEET_NAME
    book = openpyxl.load_workbook(io.BytesIO(write_as("xlsx", DataFile(DEMO))))
    assert book.sheetnames[:4] == ["read_me", "columns", "codes", "incidents"]
    codes = {tuple(row)[:2] for row in book["codes"].values}
    assert ("Level", "novice") in codes
    heads = [cell.value for cell in book["athletes.tests"][1]]
    assert "load [kg or lb, as typed]" in heads


def changed_csv(table: str, old: str, new: str) -> bytes:
    """The demo club's zip with one table changed by hand."""
    out = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(write_as("zip", DataFile(DEMO)))) as package,
        zipfile.ZipFile(out, "w") as written,
    ):
        for name in package.namelist():
            text = package.read(name).decode("utf-8-sig")
            if name == f"{table}.csv":
                assert old in text
                text = text.replace(old, new, 1)
            written.writestr(name, text)
    return out.getvalue()


@pytest.mark.parametrize(
    ("table", "old", "new", "words"),
    [
        ("athletes", "novice", "brave", "athletes.csv, line"),
        ("athletes", "name", "nom", "table athletes: has a column 'nom', which is none of ours"),
        ("athletes.tests", "strict press", "strikt press", "athletes.tests.csv, line"),
        ("athletes.tests", "A01,", "A99,", "belongs to 'A99', and no row of that name is there"),
    ],
)
def test_a_mistake_made_by_hand_is_told_by_table_line_and_column(
    table: str, old: str, new: str, words: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        read_data(changed_csv(table, old, new))
    assert words in str(refused.value)


def test_a_club_file_is_a_data_file_without_a_diary() -> None:
    held = json.loads(write_as("json", DataFile(DEMO)))
    assert read_data(json.dumps(held["club"]).encode()) == DataFile(DEMO)


def test_a_new_field_of_an_athlete_is_a_column_without_any_further_word() -> None:
    columns = {c.name for shape in all_shapes() if shape.name == "athletes" for c in shape.columns}
    lists = {shape.name for shape in all_shapes()}
    for field in Athlete.__dataclass_fields__:
        is_there = any(c == field or c.startswith(f"{field}.") for c in columns)
        has_lists = any(name.startswith(f"athletes.{field}.") for name in lists)
        assert is_there or has_lists or f"athletes.{field}" in lists
