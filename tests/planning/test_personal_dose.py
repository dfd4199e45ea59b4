"""Rounds, balls and boxes of one athlete."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from squadwright.demo import demo_club
from squadwright.library import exercise
from squadwright.model.athlete import Event, JumpTest, Priority
from squadwright.model.kit import Ball, Box
from squadwright.model.session import Override, Settings
from squadwright.planning.attendance import PersonToday, people_today
from squadwright.planning.ball import BallUse, ball_band, share_balls, suits
from squadwright.planning.box import box_for, height_limit_m
from squadwright.planning.rounds import RoundsProblem, personal_rounds
from squadwright.units import kilograms, pounds

MONDAY = date(2026, 3, 2)


@pytest.fixture
def someone() -> PersonToday:
    club = demo_club(MONDAY)
    return next(p for p in people_today(club, club.sessions[0]) if p.id == "A06")


def with_event(person: PersonToday, days: int, priority: Priority) -> PersonToday:
    event = Event("e", "Open", MONDAY + timedelta(days=days), priority)
    return replace(person, athlete=replace(person.athlete, events=(event,)))


@pytest.mark.parametrize(
    ("days", "priority", "rounds"),
    [
        (8, Priority.A, 4),
        (7, Priority.A, 2),
        (0, Priority.A, 2),
        (3, Priority.B, 4),
        (-1, Priority.A, 4),
    ],
)
def test_only_a_main_event_within_the_taper_days_halves_the_rounds(
    someone: PersonToday, days: int, priority: Priority, rounds: int
) -> None:
    """Half lies in the 41 to 60 % cut of Bosquet 2007."""
    person = with_event(someone, days, priority)
    assert personal_rounds(RoundsProblem(person, 4, Settings())).rounds == rounds


def test_the_coach_s_word_on_rounds_wins_but_not_beyond_what_is_left(someone: PersonToday) -> None:
    word = Override(someone.id, "first week back", rounds=3)
    problem = RoundsProblem(someone, 4, Settings(), first_round=3, override=word)
    answer = personal_rounds(problem)
    assert (answer.first_round, answer.rounds) == (3, 2)
    assert "first week back" in answer.reason


@pytest.mark.parametrize(
    ("mass_kg", "age", "heaviest_kg"),
    [(46.3, 14, 2.0), (54.9, 24, 3.0), (55.0, 24, 4.0), (74.9, 24, 4.0), (75.0, 15, 4.0),
     (94.9, 30, 6.0), (95.0, 30, 6.0), (121.7, 28, 6.0), (None, 30, 3.0)],
)  # fmt: skip
def test_the_heaviest_ball_goes_by_body_mass_and_one_step_lighter_for_the_young(
    mass_kg: float | None, age: int, heaviest_kg: float
) -> None:
    """Bands are our estimate, invented for the demo club."""
    assert ball_band(mass_kg, age).heaviest_kg == heaviest_kg


def test_a_ball_that_leaks_is_not_thrown_at_walls_and_a_bouncing_one_is_not_slammed() -> None:
    leaking = Ball("leak", kilograms(3), fit_for_walls=False)
    assert not suits(leaking, exercise("rotational-scoop-to-wall"))
    assert not suits(leaking, exercise("split-stance-slam"))
    assert suits(replace(leaking, bounces=False), exercise("split-stance-slam"))


def test_groups_get_the_heaviest_that_is_left_and_share_when_there_is_no_other() -> None:
    throw = exercise("tall-kneeling-chest-pass")
    balls = (Ball("b2", kilograms(2)), Ball("b4", kilograms(4)), Ball("b10", pounds(10)))
    light, heavy = ball_band(50, 20), ball_band(80, 20)
    uses = [
        BallUse("one", throw, heavy),
        BallUse("two", throw, light),
        BallUse("six", throw, light),
    ]
    assert [b.id if b else None for b in share_balls(uses, balls)] == ["b10", "b2", "b2"]
    alone = share_balls(uses, balls, in_turn=False)
    assert [b.id if b else None for b in alone] == ["b10", None, "b2"]


def test_a_box_is_never_above_the_athlete_s_own_jump(someone: PersonToday) -> None:
    boxes = (Box("turn", (0.4, 0.5, 0.6)), Box("low", (0.3,)))
    assert box_for(someone, boxes, drops=False) is not None
    jumper = replace(
        someone,
        athlete=replace(someone.athlete, jump_tests=(JumpTest("cmj", 0.38, MONDAY, "mat"),)),
    )
    choice = box_for(jumper, boxes, drops=False)
    assert choice is not None
    assert (choice.box.id, choice.height_m) == ("low", 0.3)


def test_above_100_kg_a_drop_is_from_at_most_46_cm(someone: PersonToday) -> None:
    """18 in above 220 lb: newspaper column quoting the NSCA, read."""
    heavy = replace(
        someone,
        athlete=replace(
            someone.athlete,
            jump_tests=(),
            body_mass=(replace(someone.athlete.body_mass[-1], reading=pounds(221)),),
        ),
    )
    assert height_limit_m(heavy, drops=True)[0] == 0.46
    assert height_limit_m(heavy, drops=False)[0] > 0.46


def test_a_box_that_wobbles_or_is_rated_below_his_body_mass_is_not_given(
    someone: PersonToday,
) -> None:
    wobbly = Box("wobbly", (0.3,), fit_for_landing=False)
    weak = Box("weak", (0.3,), maximum_body_mass=kilograms(60))
    narrow = Box("narrow", (0.3,), top_width_m=0.40)
    assert box_for(someone, (wobbly, weak, narrow), drops=False) is None
