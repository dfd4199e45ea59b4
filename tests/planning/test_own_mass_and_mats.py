"""The rate of a loss, the week after an event, and who is next at the mats, each at its limit."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction

import pytest

from planning.people import MONDAY, athlete
from squadwright.model.athlete import Athlete, Event, MassReading
from squadwright.model.muscles import BodyArea
from squadwright.planning.mass_rate import fastest_loss, needed_loss, too_fast
from squadwright.planning.mat_side import CallSettings, Move, Standing, queue
from squadwright.planning.return_ramp import (
    PainNow,
    jumps_held,
    latest_event_day,
    ramp,
    usual_mass_kg,
)
from squadwright.units import kilograms

DAYS = timedelta(days=1)


def cup(days: int, limit_kg: str | None = "74", name: str = "e") -> Event:
    limit = None if limit_kg is None else kilograms(limit_kg)
    return Event(name, f"Cup {name}", MONDAY + days * DAYS, mass_limit=limit)


@pytest.mark.parametrize(
    ("kg", "days", "percent_a_week"),
    [
        ("75", 7, Fraction(4, 3)),  # 1 of 75 kg in a week
        ("75", 14, Fraction(2, 3)),
        ("75", 1, Fraction(28, 3)),
        ("75", 0, Fraction(28, 3)),  # today: no time left, one day
        ("74", 7, None),
        ("73.9", 7, None),
        ("75", -1, None),
    ],
)
def test_what_a_weigh_in_asks_a_week(kg: str, days: int, percent_a_week: Fraction | None) -> None:
    who = athlete(kg=None, body_mass=(MassReading(kilograms(kg), MONDAY),))
    found = needed_loss(who, cup(days), MONDAY)
    assert (None if found is None else found.weekly_percent) == percent_a_week
    if found is not None:
        assert found.over_kg == pytest.approx(float(kg) - 74)


def test_without_a_reading_or_a_limit_nothing_is_asked() -> None:
    assert needed_loss(athlete(kg=None), cup(7), MONDAY) is None
    assert needed_loss(athlete(), cup(7, None), MONDAY) is None


def test_the_event_that_asks_the_most_counts_and_a_minor_is_asked_nothing() -> None:
    events = (cup(70, "70", "far"), cup(7, "78", "near"), cup(3, None, "free"))
    found = fastest_loss(athlete(events=events), MONDAY)
    assert found is not None
    assert found.event.id == "near"
    assert fastest_loss(athlete(events=events, age=17), MONDAY) is None
    assert fastest_loss(athlete(), MONDAY) is None


@pytest.mark.parametrize(("limit_kg", "is_fast"), [("78.8", False), ("78.7", True)])
def test_exactly_the_weekly_limit_is_not_too_fast(limit_kg: str, is_fast: bool) -> None:
    """1.5 % of 80 kg are 1.2 kg."""
    found = too_fast(athlete(events=(cup(7, limit_kg),)), MONDAY)
    assert (found is not None) is is_fast
    if found is not None:
        assert found.limit == Decimal("1.5")


EVENT = MONDAY


def weighed(*readings: tuple[int, str]) -> Athlete:
    body_mass = tuple(MassReading(kilograms(kg), EVENT + days * DAYS) for days, kg in readings)
    return athlete(kg=None, body_mass=body_mass)


def test_the_usual_mass_is_read_from_eight_weeks_to_eight_days_before() -> None:
    inside = weighed((-57, "60"), (-56, "80"), (-20, "82"), (-8, "84"), (-7, "100"))
    assert usual_mass_kg(inside, EVENT) == 82
    assert usual_mass_kg(weighed((-57, "60"), (-7, "100")), EVENT) is None


@pytest.mark.parametrize(
    ("readings", "words"),
    [
        (((2, "80"),), "the usual body mass is not known"),
        (((-20, "80"), (0, "80")), "no body mass was read since the event"),
        (((-20, "80"), (1, "80")), ""),
        (((-20, "80"), (1, "81.7")), "body mass is 2.1% above the usual 80.0 kg"),
        (((-20, "80"), (1, "78.3")), "body mass is 2.1% below the usual 80.0 kg"),
        (((-20, "80"), (1, "81.5")), ""),
        (((-20, "80"), (1, "90"), (4, "80")), "body mass is 12.5% above the usual 80.0 kg"),
    ],
)
def test_body_mass_holds_jumps(readings: tuple[tuple[int, str], ...], words: str) -> None:
    held = jumps_held(weighed(*readings), EVENT, (), today=EVENT + 3 * DAYS)
    assert [each[: len(words)] for each in held] == ([words] if words else [])


@pytest.mark.parametrize(
    ("area", "score", "is_held"),
    [
        (BodyArea.KNEE, 2, False),
        (BodyArea.KNEE, 3, True),
        (BodyArea.HEAD, 0, False),
        (BodyArea.HEAD, 1, True),
    ],
)
def test_pain_holds_jumps(area: BodyArea, score: int, is_held: bool) -> None:
    fit = weighed((-20, "80"), (1, "80"))
    told = jumps_held(fit, EVENT, [PainNow(area, score, EVENT + DAYS)], today=EVENT + 2 * DAYS)
    assert bool(told) is is_held


@pytest.mark.parametrize(("bouts", "first_easy"), [(None, 2), (3, 2), (4, 3)])
def test_from_four_bouts_on_each_step_comes_a_day_later(bouts: int | None, first_easy: int) -> None:
    found = ramp(weighed(), EVENT, (), bouts=bouts, today=EVENT)
    easy = next(each for each in found.days if each.step.name == "Easy")
    assert (easy.after, easy.day) == (first_easy, EVENT + first_easy * DAYS)
    assert [bool(each.held) for each in found.days] == [e.step.has_jumps for e in found.days]


def test_the_latest_of_two_events_within_a_week_counts() -> None:
    who = athlete(events=(cup(-7), cup(-2, name="f"), cup(0, name="g"), cup(3, name="h")))
    assert latest_event_day(who, MONDAY) == MONDAY - 2 * DAYS
    assert latest_event_day(replace(who, events=(cup(-8),)), MONDAY) is None
    assert latest_event_day(replace(who, events=(cup(-7),)), date(2026, 3, 2)) is not None


@pytest.mark.parametrize(
    ("ahead", "gone", "move", "to_call", "to_warm_up"),
    [
        (6, 0.0, Move.WAIT, 48, 16),  # 6 x 8 min; he warms up from 4 x 8 min on
        (6, 15.5, Move.WAIT, 33, 1),
        (6, 16.0, Move.WARM_UP, 32, 0),
        (4, 0.0, Move.WARM_UP, 32, 0),
        (1, 9.0, Move.WARM_UP, 0, 0),
        (0, 0.0, Move.WARM_UP, 0, 0),
    ],
)
def test_when_he_is_called_and_when_he_warms_up(
    ahead: int, gone: float, move: Move, to_call: int, to_warm_up: int
) -> None:
    (found,) = queue([Standing("a", ahead, minutes_gone=gone)], CallSettings())
    assert (found.move, found.minutes_to_call, found.minutes_to_warm_up) == (
        move,
        to_call,
        to_warm_up,
    )


def test_the_queue_is_in_the_order_in_which_they_must_move() -> None:
    given = [
        Standing("barred", 1, is_barred=True, is_over=True),
        Standing("over", 1, is_over=True),
        Standing("unsaid"),
        Standing("later", 9),
        Standing("sooner", 6),
        Standing("second", 2),
        Standing("first", 0),
    ]
    found = [each.standing.athlete for each in queue(given, CallSettings())]
    assert found == ["first", "second", "sooner", "later", "unsaid", "over", "barred"]
