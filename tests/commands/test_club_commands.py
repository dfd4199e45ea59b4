"""The commands on a club: init, import, export, check, backup, restore, schema."""

import json
import sys
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from squadwright.bootstrap import open_demo
from squadwright.cli import main
from squadwright.demo import demo_club
from squadwright.exchange.club_file import read_club, write_club
from squadwright.model.calendar import monday_of
from squadwright.services.clubs import load_club


@dataclass(frozen=True)
class Ran:
    """What a command said, and its exit code."""

    code: int
    out: str
    err: str


Run = Callable[..., Ran]


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str], tmp_path: Path) -> Run:
    """Run a command in this process, its data folder in a folder of this test."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.delenv("SQUADWRIGHT_DATABASE", raising=False)

    def ran(*words: str | Path) -> Ran:
        monkeypatch.setattr(sys, "argv", ["squadwright", *map(str, words)])
        with pytest.raises(SystemExit) as stopped:
            main()
        said = capfd.readouterr()
        code = stopped.value.code
        return Ran(code if isinstance(code, int) else 0, said.out, said.err)

    return ran


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A sound club file."""
    path = tmp_path / "quay.json"
    path.write_text(write_club(demo_club(monday_of(date.today()))), encoding="utf-8")
    return path


def test_a_club_goes_in_and_comes_out_as_it_was(run: Run, file: Path, tmp_path: Path) -> None:
    text = file.read_text(encoding="utf-8")
    assert run("init").out.endswith(": ready\n")
    assert run("init").out.endswith(": ready before, nothing to do\n")
    said = run("import", file).out
    assert said.startswith(
        "Ferrow Quay Combat Club: 14 athletes, 2 rooms, 2 routines, 2 sessions\n"
    )
    assert "Sami Darwazin '12" in said
    assert run("export").out == text
    assert run("export", tmp_path / "out.json").code == 0
    assert (tmp_path / "out.json").read_text(encoding="utf-8") == text
    assert "in place of the one stored" in run("import", file).out


def test_nothing_is_exported_before_an_import(run: Run) -> None:
    ran = run("export")
    assert (ran.code, ran.out) == (4, "")
    assert "holds no club yet. Run `squadwright import FILE`, or use --demo" in ran.err


def test_the_demo_club_is_exported_from_a_database_of_its_own(
    run: Run, file: Path, tmp_path: Path
) -> None:
    assert run("export", "--demo").out == file.read_text(encoding="utf-8")
    assert [p.name for p in (tmp_path / "data" / "squadwright").iterdir()] == ["demo.sqlite3"]
    assert run("export", "--demo").out == file.read_text(encoding="utf-8")
    ran = run("export", "--demo", "--database", tmp_path / "mine.sqlite3")
    assert ran.code == 2
    assert not (tmp_path / "mine.sqlite3").exists()


def test_the_user_s_own_club_is_untouched_by_the_demo(run: Run, tmp_path: Path) -> None:
    mine = tmp_path / "mine.json"
    mine.write_text('{"name": "Mine"}', encoding="utf-8")
    assert run("import", mine).code == 0
    assert run("export", "--demo").code == 0
    assert json.loads(run("export").out)["name"] == "Mine"


def test_the_database_is_the_option_then_the_variable_then_the_folder(
    run: Run, file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SQUADWRIGHT_DATABASE", f"sqlite:///{tmp_path / 'variable.sqlite3'}")
    assert run("import", file, "--database", tmp_path / "option.sqlite3").code == 0
    assert (tmp_path / "option.sqlite3").exists()
    assert not (tmp_path / "variable.sqlite3").exists()
    assert run("import", file).code == 0
    assert (tmp_path / "variable.sqlite3").exists()
    assert not (tmp_path / "data").exists()


def test_another_club_needs_a_word(run: Run, file: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.json"
    other.write_text('{"name": "Other"}', encoding="utf-8")
    assert run("import", file).code == 0
    ran = run("import", other)
    assert ran.code == 5
    assert "add --replace to give up the stored club" in ran.err
    assert run("import", other, "--replace").code == 0


def test_a_changed_routine_of_the_same_version_is_refused_whole(
    run: Run, file: Path, tmp_path: Path
) -> None:
    assert run("import", file).code == 0
    document = json.loads(file.read_text(encoding="utf-8"))
    document["routines"][0]["aim"] = "something else"
    document["note"] = "this must not be stored"
    changed = tmp_path / "changed.json"
    changed.write_text(json.dumps(document), encoding="utf-8")
    ran = run("import", changed)
    assert ran.code == 5
    assert "Give the changed routine version 2" in ran.err
    assert run("export").out == file.read_text(encoding="utf-8")


def test_import_and_check_speak_json(run: Run, file: Path) -> None:
    told = json.loads(run("import", file, "--json").out)
    assert (told["club"], told["athletes"], told["sessions"]) == ("Ferrow Quay Combat Club", 14, 2)
    report = json.loads(run("check", file, "--json").out)
    assert report["sound"]
    assert {c["place"] for c in report["attention"]} == {"athletes[7].name", "athletes[11].name"}
    assert json.loads(run("init", "--json").out)["changed"] is False


def test_check_looks_through_the_database(run: Run, file: Path, tmp_path: Path) -> None:
    assert run("check").code == 4
    run("import", file)
    ran = run("check")
    assert ran.code == 0
    assert ran.out.splitlines()[-1].endswith("nothing is wrong, 2 to look at")
    path = tmp_path / "data" / "squadwright" / "squadwright.sqlite3"
    data = bytearray(path.read_bytes())
    data[20_000:60_000] = b"\xaa" * 40_000
    path.write_bytes(bytes(data))
    ran = run("check")
    assert ran.code == 2
    assert "\n" not in ran.err.rstrip("\n")


def test_a_backup_brings_back_what_was_lost(run: Run, file: Path, tmp_path: Path) -> None:
    run("import", file)
    ran = run("backup", tmp_path / "monday.sqlite3")
    assert "health data" in ran.out
    document = json.loads(file.read_text(encoding="utf-8"))
    document["athletes"], document["sessions"], document["travel"] = [], [], []
    file.write_text(json.dumps(document), encoding="utf-8")
    before = run("export").out
    assert run("import", file).code == 0
    ran = run("restore", tmp_path / "monday.sqlite3")
    assert ran.code == 0
    assert "kept in" in ran.out
    assert run("export").out == before
    assert run("backup", tmp_path / "monday.sqlite3").code == 5


@pytest.mark.parametrize("document", ["club", "plan"])
def test_a_schema_is_printed(run: Run, document: str) -> None:
    Draft202012Validator.check_schema(json.loads(run("schema", document).out))


def test_a_schema_nobody_knows_is_refused(run: Run) -> None:
    ran = run("schema", "recipe")
    assert ran.code == 2
    assert "'club', 'plan'" in ran.err


def test_a_club_passes_the_schema_it_was_exported_under(run: Run) -> None:
    schema = json.loads(run("schema", "club").out)
    club = json.loads(run("export", "--demo").out)
    assert Draft202012Validator(schema).is_valid(club)


def test_the_demo_is_made_anew_each_week(tmp_path: Path) -> None:
    address = f"sqlite:///{tmp_path / 'demo.sqlite3'}"
    this_week = date(2026, 3, 4)
    next_week = this_week + timedelta(days=7)
    assert load_club(open_demo(address, today=this_week)).sessions[0].held_on == date(2026, 3, 2)
    assert load_club(open_demo(address, today=next_week)).sessions[0].held_on == date(2026, 3, 9)
    (tmp_path / "demo.sqlite3").write_text("spoilt", encoding="utf-8")
    club = load_club(open_demo(address, today=next_week))
    assert read_club(write_club(club), today=next_week) == club
    assert [p.name for p in tmp_path.iterdir()] == ["demo.sqlite3"]


@pytest.mark.parametrize("kind", ["json", "xlsx", "zip"])
def test_everything_goes_out_and_in_again_looked_at_first(
    run: Run, tmp_path: Path, kind: str
) -> None:
    file, other = tmp_path / f"all.{kind}", tmp_path / "other.sqlite3"
    assert run("export", "--all", "--demo", file).code == 0
    looked = run("import", file, "--database", other)
    assert looked.code == 0
    assert "new: " in looked.out
    assert "nothing stored: add --accept" in looked.out
    assert run("export", "--database", other).code == 4
    taken = json.loads(run("import", file, "--database", other, "--accept", "--json").out)
    assert taken["state"] == "taken in"
    again = run("export", "--all", "--database", other, tmp_path / f"again.{kind}")
    assert again.code == 0
    same = json.loads(run("import", file, "--database", other, "--json").out)
    assert (same["new"], same["changed"], same["doubtful"]) == ([], [], [])


def test_everything_needs_a_kind_of_file_that_is_known(run: Run, tmp_path: Path) -> None:
    refused = run("export", "--all", "--demo", tmp_path / "all.docx")
    assert refused.code == 2
    assert ".json, .xlsx, .zip" in refused.err
