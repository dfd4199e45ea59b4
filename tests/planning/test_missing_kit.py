"""What is missing for one session is taken off the store, and the re-check agrees."""

from dataclasses import replace
from datetime import date

import pytest

from squadwright.demo import demo_club
from squadwright.errors import NoSolution
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import MissingKit, Override, Session
from squadwright.model.shelf import find_piece
from squadwright.planning.kit_there import kit_there
from squadwright.planning.plan import make_plan
from squadwright.planning.verify import verify_plan
from squadwright.units import kilograms

CLUB = demo_club(date(2026, 3, 2))
BARBELL, PLYOMETRIC = CLUB.sessions
# Half of each plates of the demo store are gone: 1, 3, 2, 2, 1 pairs are left.
HALF_GONE = (
    MissingKit("plates-10", 1),
    MissingKit("plates-5", 3),
    MissingKit("plates-2.5", 3),
    MissingKit("plates-1.25", 2),
    MissingKit("plates-0.5", 1),
)
# The targets of the demo dozen (60 % of the press for five), as the coach's word.
WORDS_KG = {
    **{"A03": 18, "A01": 19.5, "A05": 19.5, "A07": 22.5, "A11": 25.5, "A14": 27},
    **{"A02": 34.5, "A13": 36, "A06": 39, "A04": 42, "A09": 45},
}


def with_missing(session: Session, *missing: MissingKit) -> Session:
    return replace(session, missing=missing)


def planned(session: Session, club: Club = CLUB) -> Plan:
    plan = make_plan(club, session)
    assert verify_plan(club, session, plan) == ()
    return plan


def test_pairs_pieces_and_balls_are_taken_off_the_kit_and_never_below_none() -> None:
    kit = kit_there(
        CLUB.kit,
        (
            *(MissingKit("plates-10", 1), MissingKit("plates-10", 1), MissingKit("bar-10", 1)),
            *(MissingKit("ball-4", 3), MissingKit("ball-8", 5), MissingKit("collars", 9)),
            *(MissingKit("plate-5-lone", 1), MissingKit("discs", 4), MissingKit("gone", 2)),
        ),
    )
    assert [p.pairs for p in kit.plates] == [0, 6, 5, 4, 2, 1, 1]
    assert [b.id for b in kit.bars] == ["bar-20-1", "bar-20-2", "bar-15-1", "bar-15-2", "bar-15-3"]
    assert [(b.id, b.count) for b in kit.balls if b.mass.kg in (4, 8)] == [
        ("ball-4", 1),
        ("slam-4", 2),
    ]
    assert kit.collars[0].pairs == 0
    assert kit.single_plates == ()
    assert find_piece(kit, "discs")[1].count == 16  # type: ignore[union-attr]
    assert kit_there(CLUB.kit, ()) == CLUB.kit


def test_without_tens_the_bars_are_loaded_with_other_plates() -> None:
    before = planned(BARBELL)
    after = planned(with_missing(BARBELL, MissingKit("plates-10", 2)))
    assert any(p.plate_kg == 10 for b in before.bars for u in b.wave_users for p in u.per_side)
    assert not any(p.plate_kg == 10 for b in after.bars for u in b.wave_users for p in u.per_side)
    # Two fives stand in for a ten, so no load is given up; there is only more to handle.
    assert before.kit_bound is not None
    assert after.kit_bound is not None
    assert after.kit_bound.total_shortfall_kg == before.kit_bound.total_shortfall_kg
    assert after.kit_bound.plates_handled > before.kit_bound.plates_handled


def test_the_re_check_refuses_a_plan_that_uses_what_is_missing() -> None:
    plan = planned(BARBELL)
    for missing, rule in (
        (MissingKit("plates-10", 2), "plates are in the store"),
        (MissingKit("bar-15-1", 1), "bars are in service"),
    ):
        breaches = verify_plan(CLUB, with_missing(BARBELL, missing), plan)
        assert rule in {breach.constraint for breach in breaches}


def test_half_of_each_gives_the_tolerance_of_the_worked_table() -> None:
    """Worked table of the demo club, "half of each": not within 12.5 %, within 15 % (arithmetic).

    The tightest by exhaustive search there is 3/23 of the target, 13.05 %.
    """
    words = tuple(Override(a, "as tested", load=kilograms(kg)) for a, kg in WORDS_KG.items())
    plan = planned(with_missing(replace(BARBELL, overrides=words), *HALF_GONE))
    assert plan.kit_bound is not None
    assert plan.kit_bound.proven
    largest = plan.kit_bound.largest_shortfall_fraction
    assert 0.125 < largest < 0.15
    assert largest == pytest.approx(3 / 23)


def test_a_missing_ball_goes_to_the_next_lighter_one() -> None:
    before = planned(PLYOMETRIC)
    after = planned(with_missing(PLYOMETRIC, MissingKit("ball-4", 4)))
    assert "ball-4" in {e.ball for d in before.doses for e in d.exercises}
    assert "ball-4" not in {e.ball for d in after.doses for e in d.exercises}


def test_without_any_bar_there_is_no_plan_and_the_sentence_says_so() -> None:
    missing = tuple(MissingKit(bar.id) for bar in CLUB.kit.bars)
    with pytest.raises(NoSolution, match="no bar is in service"):
        make_plan(CLUB, with_missing(BARBELL, *missing))


def test_each_thing_to_fetch_names_the_pieces_of_the_store_that_serve() -> None:
    for session in CLUB.sessions:
        for item in planned(session).set_up:
            assert item.pieces
            for piece in item.pieces:
                shelf, _ = find_piece(CLUB.kit, piece)
                assert shelf.value == item.place


def test_chosen_waves_take_the_place_of_those_of_the_routine() -> None:
    plan = planned(replace(BARBELL, waves=3))
    assert max(user.wave for bar in plan.bars for user in bar.wave_users) == 3
    # Twelve lifters on six bars cannot do it in one wave, whatever is chosen.
    plan = planned(replace(BARBELL, waves=1))
    assert max(user.wave for bar in plan.bars for user in bar.wave_users) == 2
