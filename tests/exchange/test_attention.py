"""What a coach is asked to look at in a club that is sound."""

from dataclasses import replace
from datetime import date, timedelta

from squadwright.demo import demo_club
from squadwright.exchange.attention import attention
from squadwright.model.athlete import Athlete, MassReading
from squadwright.model.club import Club
from squadwright.units import Mass, kilograms, pounds

MONDAY = date(2026, 3, 2)


def told(club: Club, *, today: date = MONDAY) -> dict[str, str]:
    return {c.place: c.problem for c in attention(club, today=today)}


def with_athlete(index: int, athlete: Athlete) -> Club:
    club = demo_club(MONDAY)
    people = list(club.athletes)
    people[index] = athlete
    return replace(club, athletes=tuple(people))


def test_an_ended_restriction_is_asked_about_and_never_forgotten() -> None:
    club = demo_club(MONDAY)
    ends = MONDAY + timedelta(days=18)
    place = "athletes[3].restrictions[0].until"
    assert place not in told(club, today=ends - timedelta(days=1))
    assert "ended on 2026-03-20" in told(club, today=ends)[place]


def test_a_restriction_that_was_cleared_is_not_asked_about() -> None:
    assert not [place for place in told(demo_club(MONDAY)) if place.startswith("athletes[13]")]


def test_a_minor_whose_guardian_agreed_to_nothing_is_told() -> None:
    minor = replace(demo_club(MONDAY).athletes[11], consents=())
    assert (
        "Farida Darwazin has agreed to nothing yet"
        in told(with_athlete(11, minor))["athletes[11].consents"]
    )


def test_an_adult_without_a_test_is_told_and_a_minor_is_not() -> None:
    club = with_athlete(0, replace(demo_club(MONDAY).athletes[0], tests=()))
    assert "athletes[0].tests" in told(club)
    assert "athletes[11].tests" not in told(club)


def reading(mass: Mass, days_ago: int) -> MassReading:
    return MassReading(mass, MONDAY - timedelta(days=days_ago))


def test_a_mass_typed_in_the_wrong_unit_stands_out() -> None:
    athlete = demo_club(MONDAY).athletes[5]
    slip = replace(athlete, body_mass=(reading(kilograms("83.6"), 2), reading(kilograms(184), 3)))
    assert (
        "83.6 kg is 55% away from 184 kg 1 day(s) before"
        in told(with_athlete(5, slip))["athletes[5].body_mass[0].reading"]
    )
    same = replace(athlete, body_mass=(reading(pounds(184), 3), reading(kilograms("83.6"), 2)))
    assert not [p for p in told(with_athlete(5, same)) if "body_mass" in p]


def test_a_plate_far_from_its_stamp_is_told() -> None:
    club = demo_club(MONDAY)
    odd = replace(club.kit.plates[0], stamped=kilograms(12))
    kit = replace(club.kit, plates=(odd, *club.kit.plates[1:]))
    assert (
        "measured 10 kg, stamped 12 kg: 17% apart"
        in told(replace(club, kit=kit))["kit.plates[0].plate"]
    )


def test_a_session_without_anybody_is_told() -> None:
    club = demo_club(MONDAY)
    empty = replace(club.sessions[1], athletes=(), check_ins=())
    club = replace(club, sessions=(club.sessions[0], empty))
    assert told(club)["sessions[1].athletes"] == "nobody is expected"


def test_two_sessions_at_once_in_a_room_are_told_once() -> None:
    club = demo_club(MONDAY)
    barbell = club.session("monday-barbell")
    second = replace(barbell, id="second", name="Second")
    elsewhere = replace(second, id="third", room="mat-hall", athletes=("A01",))
    found = told(replace(club, sessions=(*club.sessions, second, elsewhere)))
    assert found["sessions[2].room"].startswith("Weights room has Monday barbell from 18:00 to 19")
    assert found["sessions[3].athletes"].startswith("Ottoline Baptiste-Ferro is expected in")
    assert not [place for place in found if place.startswith(("sessions[0]", "sessions[1]"))]
