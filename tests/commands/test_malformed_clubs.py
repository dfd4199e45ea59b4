"""A malformed club file gives one clear line and an exit code, and stores nothing."""

import subprocess
import sys
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

import pytest

from cases import cases
from commands.malformed import BREAKERS, malformed_clubs
from squadwright.bootstrap import open_keeper
from squadwright.cli import main
from squadwright.demo import demo_club
from squadwright.exchange.club_file import write_club
from squadwright.model.calendar import monday_of
from squadwright.services.clubs import export_club

CASES = cases(300)
SUBPROCESSES = 4
LONGEST_LINE = 600


def sound_text() -> str:
    return write_club(demo_club(monday_of(date.today()) - timedelta(days=7)))


@dataclass(frozen=True)
class Ran:
    """What a command said, and its exit code."""

    code: int
    out: str
    err: str


def run(monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str], *words: str) -> Ran:
    monkeypatch.setattr(sys, "argv", ["squadwright", *words])
    with pytest.raises(SystemExit) as stopped:
        main()
    said = capfd.readouterr()
    code = stopped.value.code
    return Ran(code if isinstance(code, int) else 0, said.out, said.err)


def complaint(name: str, ran: Ran, place: str | None) -> str:
    """What is wrong with how a malformed file was refused; empty if nothing is."""
    line = ran.err.removesuffix("\n")
    if ran.code not in (2, 4, 5):
        return f"{name}: exit code {ran.code}"
    if ran.out:
        return f"{name}: said on standard output: {ran.out[:200]}"
    if "\n" in line or not line.startswith("squadwright: ") or len(line) > LONGEST_LINE:
        return f"{name}: not one clear line: {line[:900]}"
    if any(not c.isprintable() for c in line):
        return f"{name}: holds characters that are no text: {line!r}"
    if any(word in line for word in ("Traceback", "pydantic", "Error:", "object at 0x")):
        return f"{name}: speaks of the program, not of the file: {line}"
    if place is not None and f"squadwright: {place}: " not in line:
        return f"{name}: does not name {place}: {line}"
    if ". " not in line:
        return f"{name}: does not say what to do: {line}"
    return ""


@pytest.mark.random_cases
def test_malformed_files_give_one_clear_line_and_store_nothing(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capfd: pytest.CaptureFixture[str],
) -> None:
    file, database = tmp_path / "club.json", tmp_path / "data" / "club.sqlite3"
    bad: list[str] = []
    for case in malformed_clubs(sound_text(), CASES):
        file.write_bytes(case.data)
        ran = run(monkeypatch, capfd, "import", str(file), "--database", str(database))
        bad.append(complaint(case.name, ran, case.place))
        assert not database.parent.exists(), case.name
    assert [told for told in bad if told] == []


def test_a_stored_club_survives_every_kind_of_malformed_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    file, database = tmp_path / "club.json", str(tmp_path / "club.sqlite3")
    text = sound_text()
    file.write_text(text, encoding="utf-8")
    assert run(monkeypatch, capfd, "import", str(file), "--database", database).code == 0
    for case in malformed_clubs(text, len(BREAKERS)):
        file.write_bytes(case.data)
        ran = run(monkeypatch, capfd, "import", str(file), "--database", database)
        assert ran.code != 0, case.name
    assert export_club(open_keeper(database)) == text


def test_the_installed_command_refuses_them_too(tmp_path: Path) -> None:
    program = Path(sys.executable).with_name("squadwright")
    file, database = tmp_path / "club.json", tmp_path / "club.sqlite3"
    for case in malformed_clubs(sound_text(), SUBPROCESSES):
        file.write_bytes(case.data)
        done = subprocess.run(
            [program, "import", file, "--database", database],
            capture_output=True,
            encoding="utf-8",
            check=False,
        )
        ran = Ran(done.returncode, done.stdout, done.stderr)
        assert complaint(case.name, ran, case.place) == ""
        assert not database.exists(), case.name


def test_check_lists_what_import_counts(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "club.json"
    broken = sound_text().replace('"32.5 kg"', '"x kg"').replace('"A06-1"', '""')
    file.write_text(broken, encoding="utf-8")
    taken_in = run(monkeypatch, capfd, "import", str(file), "--database", str(tmp_path / "d"))
    assert taken_in.err.startswith("squadwright: athletes[0].tests[0].load: 'x kg' is not a mass.")
    assert f"(and 2 more; run `squadwright check {file}` to see all)" in taken_in.err
    checked = run(monkeypatch, capfd, "check", str(file))
    wrong = [line for line in checked.out.splitlines() if line.startswith("wrong: ")]
    assert checked.code == 2
    assert [line.split(": ")[1] for line in wrong] == [
        "athletes[0].tests[0].load",
        "athletes[4].tests[0].load",
        "athletes[5].events[0].id",
    ]
