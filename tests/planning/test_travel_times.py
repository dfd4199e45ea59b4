"""How long a block takes away from home, worked out by hand for each kind of rest and of block."""

from dataclasses import replace

import pytest

from planning.people import MONDAY, competes_in, person
from squadwright.demo import demo_club
from squadwright.model.athlete import Priority
from squadwright.model.routine import Block, CountedIn, Rest, RestKind, Scheme, Step, Style
from squadwright.planning.attendance import PersonToday
from squadwright.planning.travel import TravelBlock, TravelCard, TravelKit, travel_card

CLUB = demo_club(MONDAY)
SESSION = CLUB.session("monday-barbell")
SQUAT, PUSH = "squat", "push-up"


def step(name: str, count: int, sets: int = 1) -> Step:
    return Step(name, Scheme(CountedIn.REPETITIONS, count, sets))


def card(
    *steps: Step,
    who: PersonToday | None = None,
    kit: TravelKit | None = None,
    style: Style = Style.SETS,
    **more: object,
) -> TravelCard:
    block = Block("B", style, steps, **more)  # type: ignore[arg-type]
    routine = replace(CLUB.routine("ropewalk", 1), id="away", blocks=(block,))
    club = replace(CLUB, routines=(*CLUB.routines, routine))
    session = replace(SESSION, routine="away")
    return travel_card(club, session, kit or TravelKit(), who)


def times(*steps: Step, **more: object) -> tuple[float, ...]:
    """Work, rest, as written, away [s]."""
    (found,) = card(*steps, **more).blocks  # type: ignore[arg-type]
    return found.work_s, found.rest_s, found.written_s, found.travel_s


@pytest.mark.parametrize(
    ("rest", "rest_s"),
    [
        (Rest(RestKind.SECONDS, 40), 40.0),
        (Rest(RestKind.WORK_TO_REST, ratio=2.0), 36.0),
        (Rest(RestKind.PARTNER_WORKS), 18.0),
    ],
)
def test_sets_keep_the_rest_after_each(rest: Rest, rest_s: float) -> None:
    """Ten squats of 1.8 s, three sets in each of two rounds: six times 18 s and the rest."""
    found = times(step(SQUAT, 10, 3), rest=rest, rounds=2)
    assert found == pytest.approx((108.0, rest_s, 6 * (18 + rest_s), 6 * (18 + rest_s)))


def test_a_circuit_has_a_change_after_each_station_and_its_rest_after_each_round() -> None:
    """Two stations of 18 s and 20 s of change: 76 s a round, 36 of them work."""
    two = (step(SQUAT, 10), step(SQUAT, 10))
    found = times(*two, style=Style.CIRCUIT, rounds=3, changeover_s=20)
    assert found == pytest.approx((108.0, 40.0, 228.0, 228.0))


@pytest.mark.parametrize(("days", "rounds"), [(None, 4), (7, 2), (8, 4)])
def test_a_taper_has_fewer_rounds_in_the_time_of_so_many(days: int | None, rounds: int) -> None:
    who = person() if days is None else person(events=(competes_in(days),))
    (found,) = card(step(SQUAT, 10), who=who, style=Style.CIRCUIT, rounds=4).blocks
    assert (found.rounds, bool(found.rounds_reason)) == (rounds, rounds < 4)
    assert found.written_s == pytest.approx(rounds * 38.0)


def test_sets_are_named_where_there_are_several_and_not_in_a_circuit() -> None:
    assert card(step(SQUAT, 10, 3)).lines[0].amount == "3 sets of 10"
    assert card(step(SQUAT, 10)).lines[0].amount == "10"
    assert card(step(SQUAT, 10, 3), style=Style.CIRCUIT).lines[0].amount == "10"


def test_what_can_be_done_is_done_as_written() -> None:
    (line,) = card(step(PUSH, 10)).lines
    assert (line.chosen, line.reason, line.keeps_intent) == (line.written, "as written", True)
    throw = card(step("tall-kneeling-chest-pass", 10)).lines[0]
    assert throw.chosen is not throw.written
    there = TravelKit(width_m=9, length_m=9, ceiling_m=5, has_partner=True)
    kept = card(step("tall-kneeling-chest-pass", 10), kit=there).lines[0]
    assert kept.chosen is kept.written


@pytest.mark.parametrize(
    ("ball_kg", "kg", "is_left_out"),
    [(4.0, 74.9, False), (4.1, 74.9, True), (4.1, 75.0, False), (None, 50.0, False)],
)
def test_a_ball_too_heavy_for_him_is_left_out(
    ball_kg: float | None, kg: float, is_left_out: bool
) -> None:
    """Up to 4 kg below 75 kg of body mass: our estimate."""
    kit = TravelKit(ball_kg=ball_kg)
    assert card(step(SQUAT, 5), who=person(kg=kg), kit=kit).ball_left_out is is_left_out
    assert not card(step(SQUAT, 5), kit=kit).ball_left_out


def known(count: int, days: int) -> TravelBlock:
    """A squat away from home, for one with so many earlier sessions of it before an event."""
    who = person("A08", events=(competes_in(days, Priority.A),))
    block = Block("B", Style.SETS, (step(SQUAT, 5), step(PUSH, 5)))
    routine = replace(CLUB.routine("ropewalk", 1), id="away", blocks=(block,))
    only = replace(routine, id="only", blocks=(replace(block, steps=block.steps[:1]),))
    earlier = tuple(
        replace(SESSION, id=f"e{n}", routine="only", held_on=MONDAY.replace(month=2, day=1 + n))
        for n in range(count)
    )
    club = replace(CLUB, routines=(*CLUB.routines, routine, only), sessions=earlier)
    return travel_card(club, replace(SESSION, routine="away"), TravelKit(), who).blocks[0]


@pytest.mark.parametrize(
    ("count", "new"), [(2, [False, False]), (3, [False, True]), (4, [False, True])]
)
def test_from_three_earlier_sessions_on_it_is_known_what_is_new_to_him(
    count: int, new: list[bool]
) -> None:
    assert [line.is_new for line in known(count, 30).lines] == new
