"""What is missing for a session, in the club file: a piece of the store, kept whole."""

from dataclasses import replace
from datetime import date
from pathlib import Path

from squadwright.demo import demo_club
from squadwright.exchange.club_file import mistakes, read_club_file, write_club
from squadwright.model.club import Club
from squadwright.model.session import MissingKit

MONDAY = date(2026, 3, 2)


def with_missing(*missing: MissingKit) -> Club:
    club = demo_club(MONDAY)
    first, *others = club.sessions
    return replace(club, sessions=(replace(first, missing=missing), *others))


def test_what_is_missing_goes_through_a_club_file_and_back(tmp_path: Path) -> None:
    club = with_missing(MissingKit("plates-10", 2), MissingKit("ball-4"))
    file = tmp_path / "club.json"
    file.write_text(write_club(club), encoding="utf-8")
    assert read_club_file(file, today=MONDAY) == club


def test_a_piece_that_is_not_in_the_store_cannot_be_missing() -> None:
    club = with_missing(MissingKit("plates-10"), MissingKit("plates-1o"))
    (wrong,) = mistakes(club, today=MONDAY)
    assert wrong.place == "sessions[0].missing[1].piece"
    assert wrong.problem == "'plates-1o' is not a piece of the store"
    assert wrong.advice.startswith("Did you mean 'plates-1")
