"""``squadwright record``: text, JSON and CSV of what was done."""

import csv
import io
import json
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
import typer
from typer.testing import CliRunner

from recording import START
from site_server import keeper_on_copy, make_demo_file
from squadwright.commands.plan import print_
from squadwright.commands.record import record
from squadwright.config import sqlite_url
from squadwright.errors import InvalidInput, NoSolution, NotFound
from squadwright.model.record import EventKind, RecordEvent
from squadwright.services.after import note_at_door
from squadwright.services.record import exchange

SESSION = "monday-barbell"


@pytest.fixture
def database(tmp_path: Path) -> str:
    keeper = keeper_on_copy(make_demo_file(tmp_path / "demo.sqlite3"), tmp_path)
    ended = START + timedelta(hours=1)
    events = [
        RecordEvent("p1", SESSION, "phone", 1, START, EventKind.STARTED, value=0.0),
        RecordEvent("p2", SESSION, "phone", 2, ended, EventKind.ENDED),
    ]
    exchange(keeper, SESSION, events, after=0)
    note_at_door(keeper, SESSION, "A04", EventKind.EFFORT, 7, now=ended)
    return sqlite_url(tmp_path / "club.sqlite3")


def run(*arguments: str) -> Any:
    app = typer.Typer()
    app.command()(record)
    return CliRunner().invoke(app, [*arguments])


def test_the_text_says_the_review_and_a_line_for_each_athlete(database: str) -> None:
    result = run(SESSION, "--database", database)
    assert result.exit_code == 0
    assert "45 of 45 rounds done, 12 of 12 athletes did all of theirs." in result.output
    assert "Worked out, not accepted yet." in result.output
    (birk,) = [line for line in result.output.splitlines() if line.startswith("Birk")]
    assert birk.endswith("4 of 4 rounds; 37.5 kg; effort 7, very hard")
    (missing,) = [x for x in result.output.splitlines() if x.startswith("Effort not asked yet")]
    assert "Birk" not in missing


def test_json_and_csv_can_be_read_by_programs(database: str) -> None:
    document = json.loads(run(SESSION, "--database", database, "--json").output)
    assert [each["kind"] for each in document["events"]] == ["started", "ended", "session effort"]
    assert len(document["done"]) == 12
    for option, count in (("--csv", 3), ("--done-csv", 12)):
        text = run(SESSION, "--database", database, option).stdout_bytes.decode("utf-8-sig")
        assert len(list(csv.DictReader(io.StringIO(text, newline="")))) == count


def test_a_session_of_which_nothing_is_noted_says_so(database: str) -> None:
    result = run("wednesday-plyometric", "--database", database)
    assert result.exit_code == 0
    assert "Nothing is noted of this session yet." in result.output


def test_two_forms_at_once_and_an_unknown_session_are_refused(database: str) -> None:
    both = run(SESSION, "--database", database, "--json", "--csv")
    assert isinstance(both.exception, InvalidInput)
    assert "only one can be printed at a time" in str(both.exception)
    unknown = run("no-such", "--database", database)
    assert isinstance(unknown.exception, NotFound)


def print_sheets(*arguments: str) -> Any:
    app = typer.Typer()
    app.command()(print_)
    return CliRunner().invoke(app, [*arguments])


def test_the_sheet_of_what_was_done_is_printed_where_a_record_exists(
    database: str, tmp_path: Path
) -> None:
    out = tmp_path / "sheets"
    only = print_sheets(SESSION, "--database", database, "--sheet", "done", "--out", str(out))
    assert only.exit_code == 0
    assert [path.name for path in out.iterdir()] == [f"2026-03-02-{SESSION}-done.pdf"]
    lacking = ["wednesday-plyometric", "--database", database, "--out", str(out)]
    refused = print_sheets(*lacking, "--sheet", "done")
    assert isinstance(refused.exception, NoSolution)
    assert print_sheets(*lacking).exit_code == 0
    names = {path.name.rpartition("-")[2] for path in out.glob("*plyometric*")}
    assert names == {"session.pdf", "up.pdf", "cards.pdf", "wall.pdf"}
