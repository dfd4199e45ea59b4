"""Two competitions in eight days: the day's part of the session, rule by rule (a bad day)."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from squadwright.demo import demo_club
from squadwright.model.athlete import Event, Priority
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.planning.plan import make_plan
from squadwright.planning.verify import verify_plan
from squadwright.units import Mass

MONDAY = date(2026, 3, 2)
WHO = "A03"
BARS, JUMPS = "monday-barbell", "wednesday-plyometric"


def club_with(*events: tuple[int, Priority]) -> Club:
    """The demo club, the athlete competing so many days after Monday."""
    club = demo_club(MONDAY)
    own = tuple(
        Event(
            f"e{n}",
            f"Cup {n}",
            MONDAY + timedelta(days=days),
            priority,
            Mass.parse("70 kg"),
            "on the morning",
        )
        for n, (days, priority) in enumerate(events, start=1)
    )
    return replace(
        club,
        athletes=tuple(replace(a, events=own) if a.id == WHO else a for a in club.athletes),
    )


def planned(club: Club, session: str) -> Plan:
    plan = make_plan(club, club.session(session))
    assert verify_plan(club, club.session(session), plan) == ()
    return plan


def told(plan: Plan, rule: str) -> list[str]:
    return [f"{f.sentence} {f.advice}" for f in plan.audit if f.athlete == WHO and f.rule == rule]


@pytest.mark.parametrize("days", [(3, 10), (-1, 6), (-4, 3), (5, 13)])
def test_the_complex_goes_from_four_rounds_to_two_at_the_same_load(days: tuple[int, int]) -> None:
    usual = planned(club_with(), BARS).dose_of(WHO)
    close = planned(club_with(*((d, Priority.B) for d in days)), BARS).dose_of(WHO)
    assert usual is not None
    assert close is not None
    assert (usual.rounds, close.rounds) == (4, 2)
    assert close.target_kg is not None
    assert usual.target_kg is not None
    assert close.target_kg >= usual.target_kg - 1e-9


def test_contacts_of_a_jump_session_are_half_at_the_most() -> None:
    usual = planned(club_with(), JUMPS).dose_of(WHO)
    close = planned(club_with((-1, Priority.B), (6, Priority.B)), JUMPS).dose_of(WHO)
    assert usual is not None
    assert close is not None
    assert 0 < close.contacts <= usual.contacts / 2


@pytest.mark.parametrize(
    ("events", "expected"),
    [
        # Far apart, or one of them far ahead: B events change nothing.
        (((3, Priority.B), (12, Priority.B)), 4),
        (((20, Priority.B), (27, Priority.B)), 4),
        (((3, Priority.B),), 4),
        # One A event alone tapers as before.
        (((6, Priority.A),), 2),
    ],
)
def test_other_dates_are_as_before(events: tuple[tuple[int, Priority], ...], expected: int) -> None:
    plan = planned(club_with(*events), BARS)
    dose = plan.dose_of(WHO)
    assert dose is not None
    assert dose.rounds == expected
    assert told(plan, "two events close together") == []


@pytest.mark.parametrize(
    ("days", "words"),
    [
        ((2, 9), "2 days to the first"),
        ((-1, 6), "Day 1 after the first: recover"),
        ((-3, 5), "Day 3 after the first: one short touch of power and strength"),
        ((-4, 4), "Day 4 after the first: easy"),
        ((-5, 2), "2 days to the second: taper, travel and weigh-in"),
    ],
)
def test_the_day_says_what_it_is_for_and_shows_the_second_weigh_in(
    days: tuple[int, int], words: str
) -> None:
    (sentence,) = told(
        planned(club_with(*((d, Priority.A) for d in days)), BARS), "two events close together"
    )
    assert words in sentence
    assert "Say which of the two is the one to peak for" in sentence
    assert "The second weigh-in: 70 kg, on the morning" in sentence


def test_an_exercise_he_has_never_done_is_told_once_there_are_sessions_to_tell_from() -> None:
    club = club_with((-1, Priority.B), (6, Priority.B))
    jumps = club.session(JUMPS)
    earlier = tuple(
        replace(jumps, id=f"before-{n}", held_on=MONDAY - timedelta(days=7 * n), check_ins=())
        for n in (1, 2, 3)
    )
    rule = "nothing new between two events"
    assert told(planned(club, BARS), rule) == []
    known = replace(club, sessions=(*club.sessions, *earlier))
    (sentence,) = told(make_plan(known, known.session(BARS)), rule)
    assert "in 3 sessions before this one" in sentence
    assert told(make_plan(known, known.session(JUMPS)), rule) == []
