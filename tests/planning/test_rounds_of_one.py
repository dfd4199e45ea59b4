"""Rounds of one athlete, and whose place a guest takes: every reason alone, at its limits."""

from dataclasses import replace
from decimal import Decimal
from itertools import permutations

import pytest

from planning.people import competes_in, losing_too_fast, person
from squadwright.model.athlete import Priority
from squadwright.model.session import Override, Settings
from squadwright.planning.attendance import PersonToday
from squadwright.planning.gates.gate import Caps
from squadwright.planning.in_turn import rounds_in_turn, turns_after
from squadwright.planning.mass_rate import halved
from squadwright.planning.rounds import Rounds, RoundsProblem, personal_rounds

USUAL = Settings()


def of(who: PersonToday, rounds: int = 4, **more: object) -> tuple[int, int, str]:
    found = personal_rounds(RoundsProblem(who, rounds, USUAL, **more))  # type: ignore[arg-type]
    return found.rounds, found.first_round, found.reason


@pytest.mark.parametrize(("first", "left"), [(1, 4), (2, 3), (4, 1), (5, 0), (7, 0)])
def test_who_comes_late_has_the_rounds_from_his_first_one_on(first: int, left: int) -> None:
    who = person(status="late", late_minutes=12)
    words = f"12 min late: joins at round {first}, {left} rounds planned" if first > 1 else ""
    assert of(who, first_round=first) == (left, first, words)


@pytest.mark.parametrize(("rounds", "own", "words"), [(3, 2, "guest: 2 rounds"), (2, 2, "")])
def test_a_guest_has_two_rounds(rounds: int, own: int, words: str) -> None:
    assert of(person(is_guest=True), rounds) == (own, 1, words)


@pytest.mark.parametrize(
    ("rounds", "first", "in_sets", "own"),
    [(4, 1, False, 2), (5, 1, False, 2), (1, 1, False, 1), (4, 3, False, 2), (4, 1, True, 4)],
)
def test_before_an_event_half_of_the_rounds_are_left_and_one_at_least(
    rounds: int, first: int, in_sets: bool, own: int
) -> None:
    """Half of five rounds is two (to the even number)."""
    who = person(events=(competes_in(7),))
    found = of(who, rounds, first_round=first, in_sets=in_sets)
    assert found[0] == own
    assert ("competes in 7 days" in found[2]) is (own < rounds - first + 1)


@pytest.mark.parametrize(
    ("share", "rounds", "own"), [("0.5", 4, 2), ("0.5", 1, 1), ("1", 4, 4), ("0.25", 3, 1)]
)
def test_a_gate_takes_off_its_share_and_says_why(share: str, rounds: int, own: int) -> None:
    who = person(caps=Caps(Decimal(share), why=("heat",)))
    words = f"heat: {own} rounds" if own < rounds else ""
    assert of(who, rounds) == (own, 1, words)


@pytest.mark.parametrize(
    ("said", "rounds", "own", "words"),
    [
        (3, 4, 3, "coach's override: knee"),
        (4, 4, 4, "coach's override: knee"),
        (5, 4, 4, "coach's override: knee (5 wanted)"),
        (0, 4, 0, "coach's override: knee"),
        (2, 1, 1, "coach's override: knee"),
        (None, 4, 4, ""),
    ],
)
def test_the_coachs_word_goes_as_far_as_there_are_rounds(
    said: int | None, rounds: int, own: int, words: str
) -> None:
    assert of(person(), rounds, override=Override("P", "knee", rounds=said)) == (own, 1, words)


def test_the_coachs_word_never_lifts_what_a_gate_caps() -> None:
    who = person(caps=Caps(Decimal("0.5"), why=("heat",)))
    word = Override("P", "strong", rounds=4)
    assert of(who, override=word)[0] == 2


@pytest.mark.parametrize(
    ("rounds", "said", "own", "words"),
    [
        (4, None, 2, "2 rounds at the same load before the weigh-in"),
        (5, None, 2, "2 rounds at the same load before the weigh-in"),
        (1, None, 1, "no round is added before the weigh-in"),
        (4, 2, 2, "coach's override: x; no round is added before the weigh-in"),
        (4, 4, 2, "coach's override: x; 2 rounds at the same load before the weigh-in"),
        (4, 0, 0, "coach's override: x"),
    ],
)
def test_who_would_lose_mass_too_fast_has_half_whatever_else_is_said(
    rounds: int, said: int | None, own: int, words: str
) -> None:
    who = losing_too_fast(person())
    word = None if said is None else Override("P", "x", rounds=said)
    assert of(who, rounds, override=word) == (own, 1, words)
    if said is None:
        assert of(who, rounds, in_sets=True)[0] == rounds


@pytest.mark.parametrize(("rounds", "half"), [(1, 1), (2, 1), (3, 1), (4, 2), (5, 2)])
def test_half_the_rounds_is_one_at_least(rounds: int, half: int) -> None:
    assert halved(rounds) == half


def lifting(*hosts: tuple[str, int], guests: tuple[str, ...] = ("G",)) -> dict[str, Rounds]:
    return {
        **{name: Rounds(number, 1, "") for name, number in hosts},
        **{name: Rounds(2, 1, "guest: 2 rounds") for name in guests},
    }


def people_of(rounds: dict[str, Rounds]) -> dict[str, PersonToday]:
    return {name: person(name, is_guest=name.startswith("G")) for name in rounds}


def turns(
    rounds: dict[str, Rounds], *, places: int, settings: Settings = USUAL, **late: PersonToday
) -> dict[str, str]:
    return turns_after({**people_of(rounds), **late}, rounds, settings, places=places, total=4)


def test_one_too_many_takes_the_place_of_who_is_done_first() -> None:
    """Four rounds in all: a guest's two go after a taper's two, not after three or four."""
    rounds = lifting(("A", 4), ("B", 2), ("C", 3))
    assert turns(rounds, places=3) == {"G": "B"}
    assert turns(rounds, places=4) == {}
    assert turns(rounds, places=5) == {}
    assert turns(rounds, places=2) == {}
    assert turns(lifting(("A", 4), ("B", 3), ("C", 3)), places=3) == {}
    assert turns(lifting(("A", 1), ("B", 2), ("C", 3)), places=3) == {"G": "A"}


def test_two_too_many_take_two_places_and_no_more_guests_move_than_need_to() -> None:
    rounds = lifting(("A", 2), ("B", 1), ("C", 4), guests=("G1", "G2"))
    assert turns(rounds, places=3) == {"G1": "B", "G2": "A"}
    assert turns(rounds, places=4) == {"G1": "B"}


def test_who_does_no_round_needs_no_place() -> None:
    rounds = lifting(("A", 4), ("B", 2), ("C", 0))
    assert turns(rounds, places=3) == {}
    assert turns(rounds, places=2) == {"G": "B"}


def test_who_is_late_neither_gives_his_place_nor_takes_one() -> None:
    rounds = lifting(("A", 4), ("B", 2), ("C", 2))
    late = person("B", status="late", late_minutes=10)
    assert turns(rounds, places=3, B=late) == {"G": "C"}
    guest = person("G", status="late", is_guest=True)
    assert turns(rounds, places=3, G=guest) == {}


def test_pairs_that_the_coach_wants_or_bans_are_kept() -> None:
    rounds = lifting(("A", 2), ("B", 2))
    for pair in permutations(("A", "G")):
        assert turns(rounds, places=2, settings=replace(USUAL, banned_pairs=(pair,))) == {"G": "B"}
        assert turns(rounds, places=2, settings=replace(USUAL, required_pairs=(pair,))) == {}
    other = replace(USUAL, banned_pairs=(("A", "B"),), required_pairs=(("A", "B"),))
    assert turns(rounds, places=2, settings=other) == {"G": "A"}


def test_a_guest_in_turn_starts_after_the_last_round_of_whose_place_he_takes() -> None:
    rounds = {**lifting(("A", 2), ("B", 4)), "H": Rounds(2, 1, "")}
    found = rounds_in_turn(rounds, {"G": "A", "H": "A"})
    place = "a place at the bars is free after round 2"
    assert found["G"] == Rounds(2, 3, f"guest: 2 rounds; {place}")
    assert found["H"] == Rounds(2, 3, place)
    assert (found["A"], found["B"]) == (rounds["A"], rounds["B"])


@pytest.mark.parametrize(
    ("first", "second", "is_close"),
    [
        ((3, Priority.B), (11, Priority.B), True),
        ((3, Priority.B), (12, Priority.B), False),
        ((8, Priority.B), (16, Priority.B), True),
        ((9, Priority.B), (17, Priority.B), False),
        ((-8, Priority.B), (0, Priority.B), True),
        ((-8, Priority.B), (-1, Priority.B), False),
    ],
)
def test_he_does_less_before_two_events_that_are_close_or_an_a_event(
    first: tuple[int, Priority], second: tuple[int, Priority], is_close: bool
) -> None:
    """Eight days from one to the other, and to the first; the second is still to come."""
    events = (competes_in(*first, "e1"), competes_in(*second, "e2"))
    who = person(events=events)
    assert who.close_events() == (events if is_close else None)
    coming = [days for days, _ in (first, second) if days >= 0]
    assert who.days_to_main_event() == (min(coming) if is_close else None)
    main = person(events=(*events, competes_in(30, name="e3")))
    assert main.days_to_main_event() == (min(coming) if is_close else 30)


@pytest.mark.parametrize(("age", "is_minor"), [(17, True), (18, False)])
def test_a_minor_is_under_eighteen_on_the_day(age: int, is_minor: bool) -> None:
    assert person(age=age).is_minor is is_minor
    assert person(age=age).age == age
