"""``squadwright camp``: text, JSON, whose bar says what is done, and what is refused."""

import json
from datetime import date
from pathlib import Path

import pytest
from typer import Typer
from typer.testing import CliRunner

from camp.large_camp import large_club
from squadwright.bootstrap import open_keeper
from squadwright.commands.camp import camp
from squadwright.errors import InvalidInput, SquadwrightError
from squadwright.exchange.club_file import write_club
from squadwright.services.camp import STEPS, plan_club
from squadwright.services.clubs import import_club, initialise

app = Typer()
app.command()(camp)
FROM = ("--from", "2026-03-04", "--weeks", "5")


@pytest.fixture
def database(tmp_path: Path) -> str:
    """Thirty people with events all year."""
    source, url = tmp_path / "club.json", f"sqlite:///{tmp_path / 'camp.sqlite3'}"
    source.write_text(write_club(large_club(30, 20)), encoding="utf-8")
    keeper = open_keeper(url)
    initialise(keeper)
    import_club(keeper, source, today=date(2026, 3, 2))
    return url


def run(*words: str):
    return CliRunner().invoke(app, words)


def test_json_has_each_round_its_reasons_and_the_gap(database: str) -> None:
    result = run("--json", "--database", database, *FROM)
    assert result.exit_code == 0, result.output
    found = json.loads(result.stdout)
    assert (found["first_day"], found["weeks"], found["draws"]) == ("2026-03-02", 5, 200)
    assert found["gap_fraction"] <= 0.001
    assert len(found["athletes"]) == 30
    known = {session["id"] for session in found["sessions"]}
    assert all(set(athlete["rounds"]) <= known for athlete in found["athletes"])
    assert "30 athletes, 5 weeks" in result.stderr
    assert "4 of 4: beside the usual plans" in result.stderr


def test_progress_goes_through_every_step_and_never_back() -> None:
    told: list[tuple[str, float | None]] = []
    plan_club(large_club(5, 6), date(2026, 3, 2), weeks=6, at=lambda *each: told.append(each))
    assert [step for step, share in told if share is None] == list(STEPS)
    looked = [share for step, share in told if step == STEPS[2] and share is not None]
    assert looked == pytest.approx([0.2, 0.4, 0.6, 0.8, 1.0])
    compared = [share for step, share in told if step == STEPS[3] and share is not None]
    assert compared == sorted(compared)
    assert len(compared) == 5


def test_text_says_rounds_week_by_week_and_that_it_is_no_truth(database: str) -> None:
    result = run("--database", database, *FROM)
    assert "Camp, Mon 2 March to Sun 5 April 2026, 5 weeks." in result.stdout
    assert "Proven" in result.stdout
    assert "never the truth" in result.stdout
    assert "Person 0: " in result.stdout


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--weeks", "0"), "--weeks: is 0; the limits are 1 and 53"),
        (("--weeks", "54"), "--weeks: is 54"),
        (("--from", "soon"), "--from: 'soon' is not a date"),
        (("--seconds", "0"), "--seconds: is 0"),
    ],
)
def test_what_cannot_be_planned_is_refused_in_one_line(words: tuple[str, ...], told: str) -> None:
    error = run("--demo", *words).exception
    assert isinstance(error, InvalidInput)
    assert isinstance(error, SquadwrightError)
    assert told in str(error)
