"""The use cases of the club as a whole, on a database in memory."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from services.fakes import FakeKeeper, FakeStore
from squadwright.demo import demo_club
from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.exchange.club_file import write_club
from squadwright.model.club import Club
from squadwright.services.checks import check_database, check_file
from squadwright.services.clubs import export_club, import_club, initialise, load_club

MONDAY = date(2026, 3, 2)


def file_of(tmp_path: Path, club: Club) -> Path:
    path = tmp_path / "club.json"
    path.write_text(write_club(club), encoding="utf-8")
    return path


def test_a_database_is_made_once(tmp_path: Path) -> None:
    keeper = FakeKeeper()
    assert initialise(keeper)
    assert not initialise(keeper)


def test_a_club_taken_in_comes_out_as_it_was(tmp_path: Path) -> None:
    keeper, club = FakeKeeper(), demo_club(MONDAY)
    done = import_club(keeper, file_of(tmp_path, club), today=MONDAY)
    assert (done.club, done.took_the_place_of_another) == (club, False)
    assert load_club(keeper) == club
    assert export_club(keeper) == write_club(club)


def test_a_newer_file_of_the_same_club_takes_its_place(tmp_path: Path) -> None:
    keeper, club = FakeKeeper(), demo_club(MONDAY)
    import_club(keeper, file_of(tmp_path, club), today=MONDAY)
    newer = replace(club, note="newer")
    assert import_club(keeper, file_of(tmp_path, newer), today=MONDAY).took_the_place_of_another
    assert load_club(keeper) == newer


def test_another_club_is_never_overwritten_without_a_word(tmp_path: Path) -> None:
    keeper, club = FakeKeeper(), demo_club(MONDAY)
    import_club(keeper, file_of(tmp_path, club), today=MONDAY)
    other = file_of(tmp_path, replace(club, name="Another Club"))
    with pytest.raises(Conflict, match=r"'Ferrow Quay Combat Club', not 'Another Club'.*--replace"):
        import_club(keeper, other, today=MONDAY)
    assert load_club(keeper) == club
    import_club(keeper, other, today=MONDAY, replace_other_club=True)
    assert load_club(keeper).name == "Another Club"


def test_a_file_with_a_mistake_never_reaches_the_database(tmp_path: Path) -> None:
    keeper = FakeKeeper()
    path = tmp_path / "club.json"
    path.write_text('{"name": ""}', encoding="utf-8")
    with pytest.raises(InvalidInput, match="name: '' has 0 characters"):
        import_club(keeper, path, today=MONDAY)
    assert not keeper.is_ready


def test_an_import_that_fails_leaves_the_club_before(tmp_path: Path) -> None:
    club = demo_club(MONDAY)
    keeper = FakeKeeper(FakeStore(club, fails=True))
    newer = file_of(tmp_path, replace(club, note="newer"))
    with pytest.raises(RuntimeError, match="lights"):
        import_club(keeper, newer, today=MONDAY)
    assert keeper.store.club == club


def test_there_is_nothing_to_export_before_an_import() -> None:
    with pytest.raises(NotFound, match="holds no club yet"):
        export_club(FakeKeeper())
    with pytest.raises(NotFound, match=r"holds no club yet\. Run `squadwright import FILE`"):
        export_club(FakeKeeper(is_ready=True))


def test_a_sound_file_is_sound_and_still_worth_a_look(tmp_path: Path) -> None:
    report = check_file(file_of(tmp_path, demo_club(MONDAY)), today=MONDAY)
    assert report.is_sound
    assert [c.place for c in report.attention] == ["athletes[7].name", "athletes[11].name"]
    assert "Sami Darwazin '01" in report.attention[0].problem


def test_every_mistake_of_a_file_is_reported(tmp_path: Path) -> None:
    path = tmp_path / "club.json"
    text = write_club(demo_club(MONDAY)).replace('"32.5 kg"', '"x kg"')
    path.write_text(text, encoding="utf-8")
    report = check_file(path, today=MONDAY)
    assert [c.place for c in report.wrong] == [
        "athletes[0].tests[0].load",
        "athletes[4].tests[0].load",
    ]


def test_a_file_that_is_no_json_is_a_report_and_not_a_crash(tmp_path: Path) -> None:
    path = tmp_path / "club.json"
    path.write_text("{", encoding="utf-8")
    report = check_file(path, today=MONDAY)
    assert not report.is_sound
    assert report.wrong[0].place == str(path)


def test_a_database_with_faults_is_not_read_further() -> None:
    keeper = FakeKeeper(is_ready=True, told_faults=["row 3 missing from index"])
    report = check_database(keeper, today=MONDAY)
    assert [c.problem for c in report.wrong] == ["row 3 missing from index"]
    assert "restore" in report.wrong[0].advice


def test_a_database_is_checked_like_a_file() -> None:
    club = demo_club(MONDAY)
    minor = replace(club.athletes[2], guardian=None)
    keeper = FakeKeeper(
        FakeStore(replace(club, athletes=(*club.athletes[:2], minor, *club.athletes[3:]))),
        is_ready=True,
    )
    report = check_database(keeper, today=MONDAY)
    assert report.is_sound
    told = {c.place: c.problem for c in report.attention}
    assert told["athletes[2].guardian"] == "Marisol Quenaya is 17 and has no guardian"
    # A test dated after today is a slip of the pen, whatever the file said when it was taken in.
    early = check_database(keeper, today=date(2026, 1, 1))
    assert "athletes[0].tests[0].taken_on" in {c.place for c in early.wrong}


def test_an_empty_database_is_sound_and_says_what_to_do() -> None:
    report = check_database(FakeKeeper(is_ready=True), today=MONDAY)
    assert report.is_sound
    assert "squadwright import" in report.attention[0].advice
