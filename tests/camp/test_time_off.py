"""Days off and the day back after a gap, against a plain walk through the days."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from squadwright.camp.time_off import BARRED, Gap, rest_days, time_off
from squadwright.demo import demo_club
from squadwright.model.athlete import Athlete, AuthorRole, Event, Restriction
from squadwright.model.calendar import Travel
from squadwright.model.camp_rules import CampRules

MONDAY = date(2026, 3, 2)
CLUB = replace(demo_club(MONDAY), travel=())
WHO = replace(CLUB.athlete("A08"), events=())


def day(number: int) -> date:
    return MONDAY + timedelta(days=number)


def ill(first: int, last: int, *, needs_return: bool = True, who: str = "A08") -> Gap:
    return Gap(who, day(first), day(last), "ill", needs_return)


def off_of(
    who: Athlete = WHO, *gaps: Gap, rules: CampRules | None = None
) -> tuple[dict[int, str], int | None]:
    club = replace(CLUB, camp_rules=rules or CampRules())
    found, back = time_off(club, who, MONDAY, 28, gaps)
    return {each.day: each.reason for each in found}, back


@pytest.mark.parametrize(
    ("first", "last", "back"),
    [
        (5, 7, None),  # three days: no gap to come back from
        (5, 8, 9),
        (-4, -1, 0),
        (-20, -14, -13),
        (-20, -15, None),  # two weeks of return are over on the first day
        (20, 26, 27),
        (20, 27, None),  # back on day 28, when the camp is over
    ],
)
def test_from_four_days_in_a_row_on_he_comes_back_by_steps(
    first: int, last: int, back: int | None
) -> None:
    days, found = off_of(WHO, ill(first, last))
    assert found == back
    assert days == dict.fromkeys(range(max(0, first), min(27, last) + 1), "ill")


def test_two_gaps_that_touch_are_one_and_a_day_between_parts_them() -> None:
    assert off_of(WHO, ill(3, 4), ill(5, 6))[1] == 7
    assert off_of(WHO, ill(3, 4), ill(6, 7))[1] is None
    assert off_of(WHO, ill(1, 4), ill(10, 13))[1] == 14


def test_days_that_need_no_return_and_gaps_of_others_are_no_gap() -> None:
    assert off_of(WHO, ill(3, 9, needs_return=False)) == (dict.fromkeys(range(3, 10), "ill"), None)
    assert off_of(WHO, ill(3, 9, who="A07")) == ({}, None)


def test_barred_from_all_training_is_a_gap_and_goes_before_another_reason() -> None:
    bar = Restriction(
        "r", "Dr Ilse", AuthorRole.MEDICAL, day(2), until=day(8), all_training=True, reason="rest"
    )
    days, back = off_of(replace(WHO, restrictions=(bar,)), ill(7, 9, needs_return=False))
    assert days == {**dict.fromkeys(range(2, 8), BARRED), 8: "ill", 9: "ill"}
    assert back == 8


def test_days_away_are_those_of_the_trip_within_the_camp() -> None:
    club = replace(
        CLUB,
        travel=(
            Travel("t", "cup", "A08", day(-2), day(1)),
            Travel("u", "league", "A08", day(26), day(30)),
            Travel("v", "other", "A07", day(10), day(11)),
        ),
    )
    found, back = time_off(club, WHO, MONDAY, 28)
    assert [(each.day, each.reason) for each in found] == [
        (0, "away: cup"),
        (1, "away: cup"),
        (26, "away: league"),
        (27, "away: league"),
    ]
    assert back is None


@pytest.mark.parametrize(
    ("before", "bouts", "next_day", "off"),
    [
        (-1, None, None, [0]),
        (-1, 4, None, [0, 1]),
        (-1, 3, 8, [0, 1]),
        (-1, 3, 9, [0]),
        (-1, 4, 8, [0, 1, 2]),
        (-2, 3, None, []),
        (0, 5, None, []),  # an event in the camp: its recovery is the solver's
    ],
)
def test_recovery_from_an_event_before_the_camp_reaches_into_it(
    before: int, bouts: int | None, next_day: int | None, off: list[int]
) -> None:
    """One day, two where another event comes within nine, one more from four bouts on."""
    events = [Event("e", "Cup", day(before), bouts_expected=bouts)]
    if next_day is not None:
        events.append(Event("f", "Open", day(next_day)))
    days, _ = off_of(replace(WHO, events=tuple(events)))
    assert days == dict.fromkeys(off, "recovery from Cup")


@pytest.mark.parametrize(
    ("bouts", "to_next", "days"),
    [(3, None, 1), (3, 10, 1), (3, 9, 2), (4, 10, 2), (4, 9, 3), (5, 1, 3)],
)
def test_days_off_after_an_event(bouts: int, to_next: int | None, days: int) -> None:
    assert rest_days(CampRules(), bouts, to_next) == days


def test_the_coachs_own_length_of_a_gap_counts() -> None:
    rules = CampRules(gap_d=2)
    assert off_of(WHO, ill(5, 6), rules=rules)[1] == 7
    assert off_of(WHO, ill(5, 5), rules=rules)[1] is None
