"""A session away from home: intents, rounds and minutes are kept with one ball and 3 x 3 m."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from squadwright.demo import demo_club
from squadwright.library import routines
from squadwright.model.exercise import Modality
from squadwright.model.routine import Routine
from squadwright.model.session import Session
from squadwright.planning.attendance import people_today
from squadwright.planning.travel import Intent, TravelKit, travel_card

CLUB = demo_club(date(2026, 3, 2))
MONDAY = CLUB.session("monday-barbell")


def test_one_ball_and_nine_square_metres_keep_what_the_session_is_for() -> None:
    """The acceptance of the trade: push, pull, hinge and lunge intents and the time."""
    card = travel_card(CLUB, MONDAY, TravelKit())
    assert {Intent.PUSH, Intent.PULL, Intent.HINGE, Intent.LUNGE} <= set(card.intents)
    assert card.lost == ()
    for line in card.lines:
        assert line.chosen is not None
        assert line.keeps_intent
        needs = line.chosen.needs
        assert (needs.bar, needs.boxes, needs.throw_wall, needs.partner) == (False, 0, False, False)
        assert max(needs.clear_width_m, needs.clear_length_m) <= 3.0
        assert needs.ceiling_m <= 2.4
        assert line.chosen.throws_per_repetition == 0
    [block] = card.blocks
    assert block.rounds == 4
    assert block.travel_s == block.written_s
    # Four rounds of work and of the 140 s of rest the demo club's circuit has.
    assert block.rest_s == pytest.approx(140, abs=5)


def test_his_restriction_his_age_and_his_event_hold_on_the_road() -> None:
    people = {p.id: p for p in people_today(CLUB, MONDAY)}
    shoulder = travel_card(CLUB, MONDAY, TravelKit(), people["A04"])
    assert shoulder.lost == ()
    assert all("overhead" not in line.chosen.demands for line in shoulder.lines if line.chosen)
    young = travel_card(CLUB, MONDAY, TravelKit(), people["A12"])
    assert young.ball_left_out
    assert all(line.chosen.modality is Modality.BODYWEIGHT for line in young.lines if line.chosen)
    assert young.lost == ()
    tapering = travel_card(CLUB, MONDAY, TravelKit(), people["A13"])
    assert tapering.blocks[0].rounds == 2
    knocked = travel_card(CLUB, MONDAY, TravelKit(), people["A10"])
    assert all(line.chosen is None for line in knocked.lines)
    assert knocked.blocks[0].travel_s == 0


def test_near_an_event_what_he_has_done_before_goes_first_and_the_rest_is_called_new() -> None:
    def week(number: int, routine: str) -> Session:
        return replace(
            MONDAY,
            id=f"earlier-{number}",
            held_on=MONDAY.held_on - timedelta(days=7 * number),
            routine=routine,
            routine_version=1,
        )

    earlier = tuple(week(number, "ropewalk") for number in (1, 2, 3))
    club = replace(CLUB, sessions=(*earlier, *CLUB.sessions))
    person = next(p for p in people_today(club, MONDAY) if p.id == "A13")
    card = travel_card(club, MONDAY, TravelKit(), person)
    assert all(line.is_new for line in card.lines)
    far = next(p for p in people_today(club, MONDAY) if p.id == "A06")
    assert travel_card(club, MONDAY, TravelKit(), far).lost == ()


def test_with_everything_there_jumps_stay_as_written() -> None:
    session = CLUB.session("wednesday-plyometric")
    hall = TravelKit(width_m=10, length_m=14, ceiling_m=5.2, has_partner=True)
    card = travel_card(CLUB, session, hall)
    kept = {line.key for line in card.lines if line.chosen is line.written}
    assert {"A1", "A2", "B1", "B3"} <= kept
    # No wall that is safe for throws, and no box.
    assert not {"B2", "A3"} & kept


@pytest.mark.parametrize("routine", routines(), ids=lambda r: r.id)
def test_every_routine_has_a_travel_version_as_long_as_itself(routine: Routine) -> None:
    session = replace(MONDAY, routine=routine.id, routine_version=routine.version)
    others = tuple(r for r in CLUB.routines if r.id != routine.id)
    club = replace(CLUB, routines=(*others, routine), sessions=(session,))
    card = travel_card(club, session, TravelKit())
    main = {Intent.PUSH, Intent.PULL, Intent.HINGE, Intent.LUNGE, Intent.SQUAT}
    assert not main & set(card.lost)
    assert all(line.chosen is not None for line in card.lines)
    for block in card.blocks:
        assert block.travel_s >= block.written_s > 0
        assert block.travel_s <= 1.35 * block.written_s
