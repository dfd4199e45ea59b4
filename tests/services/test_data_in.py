"""A data file: looked at first, taken in whole, taken back in one step; no erased one comes in."""

from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from squadwright.demo import demo_club
from squadwright.errors import InvalidInput, NotFound
from squadwright.exchange.club_file import write_club
from squadwright.exchange.data_file import DataFile, write_data
from squadwright.model.club import Club
from squadwright.model.diary import RestDay
from squadwright.model.record import EventKind, RecordEvent
from squadwright.services.backups import backup, restore
from squadwright.services.clubs import import_club, load_club
from squadwright.services.data_in import look_at, take_import_back, take_in
from squadwright.services.data_out import everything
from squadwright.services.diary import Told, write_diary
from squadwright.services.erasing import erase_athlete
from squadwright.services.record import exchange
from squadwright.storage.database import Database
from squadwright.storage.keeper import SqlKeeper

TODAY = date(2026, 3, 2)
NOW = datetime(2026, 3, 2, 18, 0, tzinfo=UTC)
SESSION = "monday-barbell"
GONE = "A03"


def keeper_at(path: Path) -> SqlKeeper:
    keeper = SqlKeeper(Database(f"sqlite:///{path}"))
    keeper.initialise()
    return keeper


@pytest.fixture
def full(tmp_path: Path) -> SqlKeeper:
    """The demo club with a day of rest and two events of its Monday."""
    keeper = keeper_at(tmp_path / "full.sqlite3")
    with keeper.writing() as store:
        store.save_club(demo_club(TODAY))
    rests = [Told(who, TODAY, RestDay("ill")) for who in ("A01", GONE)]
    write_diary(keeper, rests, author="Coach", today=TODAY, now=NOW)
    events = [
        RecordEvent(f"e{n}", SESSION, "phone", n, NOW, EventKind.EFFORT, athlete=who, value=7)
        for n, who in enumerate(("A01", GONE))
    ]
    exchange(keeper, SESSION, events, after=0)
    return keeper


@pytest.fixture
def bare(tmp_path: Path) -> SqlKeeper:
    """A database without a club."""
    return keeper_at(tmp_path / "bare.sqlite3")


def test_everything_goes_into_a_bare_database_and_is_the_same(
    full: SqlKeeper, bare: SqlKeeper
) -> None:
    data = everything(full)
    found = look_at(bare, data, today=TODAY)
    assert found.wrong == ""
    assert "2 entries of the diary" in found.new
    with pytest.raises(NotFound):
        load_club(bare)
    take_in(bare, data, today=TODAY, now=NOW)
    assert everything(bare) == data
    again = look_at(bare, data, today=TODAY)
    assert again.is_nothing
    assert (again.doubtful, again.same) == ((), 4)


def test_an_import_is_taken_back_in_one_step(full: SqlKeeper, bare: SqlKeeper) -> None:
    data = everything(full)
    _, mark = take_in(bare, data, today=TODAY, now=NOW)
    take_import_back(bare, mark, today=TODAY)
    left = everything(bare)
    assert left == DataFile(Club(data.club.name))
    with pytest.raises(NotFound, match="taken back already"):
        take_import_back(bare, mark, today=TODAY)


def test_what_is_changed_and_what_is_doubtful_is_said_before(full: SqlKeeper) -> None:
    data = everything(full)
    first, *others = data.club.athletes
    entry = data.diary[0]
    file = DataFile(
        replace(data.club, name="Another club", athletes=(replace(first, note="new"), *others)),
        (
            replace(entry, content=RestDay("well")),
            replace(entry, id="x1", athlete="nobody"),
            replace(entry, id="x2", day=date(2026, 3, 9)),
            replace(entry, id="x3"),
        ),
        (replace(data.events[0], words="other"),),
    )
    found = look_at(full, file, today=TODAY)
    assert len(found.changed) == 1
    assert found.new == ("1 entry of the diary",)
    told = " ".join(found.doubtful)
    for words in ("the club stays", "something else", "of nobody", "has not come yet"):
        assert words in told
    assert everything(full) == data


def test_a_file_that_brings_a_mistake_brings_nothing(full: SqlKeeper) -> None:
    data = everything(full)
    athlete = replace(data.club.athletes[0], birth_date=date(2027, 1, 1))
    file = replace(data, club=replace(data.club, athletes=(athlete, *data.club.athletes[1:])))
    assert "birth_date" in look_at(full, file, today=TODAY).wrong
    with pytest.raises(InvalidInput, match="Mend the file"):
        take_in(full, file, today=TODAY, now=NOW)
    assert everything(full) == data


def assert_absent(keeper: SqlKeeper, name: str) -> None:
    text = write_data(everything(keeper))
    assert name not in text
    assert f'"{GONE}"' not in text


def test_who_is_erased_is_gone_from_every_table_and_file(full: SqlKeeper, tmp_path: Path) -> None:
    name = load_club(full).athlete(GONE).name
    with pytest.raises(InvalidInput, match="Type the name"):
        erase_athlete(full, GONE, typed_name="yes", today=TODAY)
    erase_athlete(full, GONE, typed_name=name, today=TODAY)
    assert_absent(full, name)
    assert len(everything(full).diary) == len(everything(full).events) == 1
    kept = tmp_path / "after.sqlite3"
    backup(full, kept)
    assert name.encode() not in kept.read_bytes()


def test_an_old_backup_does_not_bring_an_erased_athlete_back(
    full: SqlKeeper, tmp_path: Path
) -> None:
    """Erase an athlete, then restore an old backup: he is absent after replay (a listed case)."""
    name = load_club(full).athlete(GONE).name
    old = tmp_path / "old.sqlite3"
    backup(full, old)
    erase_athlete(full, GONE, typed_name=name, today=TODAY)
    restore(full, old)
    assert_absent(full, name)
    restore(full, old)
    assert_absent(full, name)


def test_neither_a_club_file_nor_a_data_file_brings_him_back(
    full: SqlKeeper, tmp_path: Path
) -> None:
    data = everything(full)
    name = data.club.athlete(GONE).name
    file = tmp_path / "club.json"
    file.write_text(write_club(data.club), encoding="utf-8")
    erase_athlete(full, GONE, typed_name=name, today=TODAY)
    done = import_club(full, file, today=TODAY)
    assert "was erased for good" in str(done.attention[0])
    assert_absent(full, name)
    found, _ = take_in(full, data, today=TODAY, now=NOW)
    assert any("was erased for good" in words for words in found.doubtful)
    assert_absent(full, name)
