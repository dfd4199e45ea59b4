"""Other ways with a thin store, and the plate problem of a plan again."""

from dataclasses import replace
from datetime import date

import pytest

from planning.test_missing_kit import HALF_GONE, with_missing
from squadwright.demo import demo_club
from squadwright.errors import NoSolution
from squadwright.model.kit import PlatePair
from squadwright.model.plan import Plan
from squadwright.model.session import MissingKit, Session
from squadwright.planning.alternatives import (
    alternatives,
    effect_of,
    more_repetitions,
    one_more_wave,
    same_load,
    with_more_repetitions,
)
from squadwright.planning.bars_of_plan import kit_problem_of, one_load_per_bar
from squadwright.planning.kit import solve_kit
from squadwright.planning.kit_in_service import plate_sizes
from squadwright.planning.kit_there import kit_there
from squadwright.planning.next_piece import next_pieces, sessions_that_count
from squadwright.planning.plan import make_plan

MONDAY = date(2026, 3, 2)
CLUB = demo_club(MONDAY)
BARBELL, PLYOMETRIC = CLUB.sessions
BLOCK = "Ropewalk"


@pytest.fixture(scope="module")
def thin() -> tuple[Session, Plan]:
    """The barbell session with half of each plates gone."""
    session = with_missing(BARBELL, *HALF_GONE)
    return session, make_plan(CLUB, session)


def test_the_problem_of_a_plan_solved_again_reaches_what_the_plan_reached(
    thin: tuple[Session, Plan],
) -> None:
    session, plan = thin
    found = solve_kit(kit_problem_of(plan, CLUB.kit, session, BLOCK))
    bound = plan.kit_bound
    assert bound is not None
    assert float(found.largest_shortfall_fraction) == bound.largest_shortfall_fraction
    assert found.total_shortfall_g == round(bound.total_shortfall_kg * 1000)


def test_missing_plates_are_off_the_stock_and_a_mass_gone_stays_listed() -> None:
    kit = kit_there(CLUB.kit, (MissingKit("plates-10", 2), MissingKit("plates-5", 1)))
    sizes = {size.mass_g: size.pairs for size in plate_sizes(kit)}
    assert sizes == {500: 2, 1250: 4, 2500: 5, 5000: 5, 10_000: 0}


def test_with_one_load_for_a_bar_no_plate_moves_except_at_the_technique_bar(
    thin: tuple[Session, Plan],
) -> None:
    session, plan = thin
    found = one_load_per_bar(plan, CLUB.kit, session, BLOCK)
    by_bar: dict[str, list[tuple[int, tuple[tuple[int, int], ...]]]] = {}
    for load in found.loads:
        assert load.load_g <= load.target_g
        by_bar.setdefault(load.bar, []).append((load.load_g, load.per_side))
    assert len(found.loads) == 12
    changing = {bar for bar, loads in by_bar.items() if len(set(loads)) > 1}
    assert changing == {"bar-10"}
    assert found.two_loads == ("10 kg technique bar",)
    # In any one wave the plates of all bars together are in the store.
    stock = {s.mass_g: s.pairs for s in plate_sizes(kit_there(CLUB.kit, session.missing))}
    for mass_g, pairs in stock.items():
        used = sum(max(dict(side).get(mass_g, 0) for _, side in loads) for loads in by_bar.values())
        assert used <= pairs
    # It gives up more than the plan, which may change plates.
    assert found.largest_shortfall_fraction >= effect_of(plan).largest_shortfall_fraction


def test_each_way_is_planned_and_its_effect_is_that_of_its_plan(
    thin: tuple[Session, Plan],
) -> None:
    session, plan = thin
    waves, load, more = alternatives(CLUB, session, plan)
    now = effect_of(plan)
    assert waves.effect is not None
    assert (waves.effect.waves, waves.effect.bars) == (now.waves + 1, 4)
    assert waves.words == "3 waves on 4 bars"
    assert "Ropewalk 4 to 3 rounds" in waves.effect.cuts
    assert load.effect is not None
    assert load.effect.plate_moves == 2
    assert load.effect.work_minutes == now.work_minutes
    assert more.effect is not None
    assert more.effect.cuts == ""
    assert more.effect.work_minutes > now.work_minutes
    assert more.effect.largest_shortfall_fraction < now.largest_shortfall_fraction


def test_ways_that_do_not_work_say_why(thin: tuple[Session, Plan]) -> None:
    session, plan = thin
    nobody = replace(CLUB, athletes=tuple(replace(a, tests=()) for a in CLUB.athletes))
    many = replace(
        plan,
        bars=tuple(
            replace(bar, wave_users=tuple(replace(u, wave=4) for u in bar.wave_users))
            for bar in plan.bars
        ),
    )
    assert one_more_wave(CLUB, session, many).trouble == "4 waves is the most there is"
    barless = replace(
        session, missing=tuple(MissingKit(bar.id) for bar in CLUB.kit.bars if bar.in_service)
    )
    with pytest.raises(NoSolution):
        make_plan(CLUB, barless)
    for way in (one_more_wave, more_repetitions):
        found = way(CLUB, barless, plan)
        assert found.effect is None
        assert "no bar is in service" in found.trouble
    assert same_load(nobody, session, plan).effect is not None


def test_more_repetitions_take_the_time_they_need() -> None:
    block = CLUB.routine("ropewalk", BARBELL.routine_version).blocks[0]
    longer = with_more_repetitions(block, 1)
    before = [step.scheme.count for step in block.steps]
    assert [step.scheme.count for step in longer.steps] == [count + 1 for count in before]
    assert block.work_s is not None
    # 23 counted repetitions become 29: 100 s become 126.1 s, rounded up.
    assert sum(before) == 23
    assert longer.work_s == 127


def test_sessions_that_count_are_without_what_the_day_brings_and_alike_ones_once() -> None:
    later = replace(BARBELL, id="again", held_on=date(2026, 3, 9))
    past = replace(BARBELL, id="past", held_on=date(2026, 2, 2), minutes=45)
    club = replace(CLUB, sessions=(*CLUB.sessions, later, past))
    found = sessions_that_count(club, today=MONDAY)
    assert [session.id for session in found] == ["monday-barbell", "wednesday-plyometric", "past"]
    assert all(session.check_ins == () and session.missing == () for session in found)


def test_the_piece_that_helps_most_is_named_with_what_it_does() -> None:
    half = replace(CLUB, kit=kit_there(CLUB.kit, HALF_GONE))
    (session,) = [s for s in sessions_that_count(half, today=MONDAY) if s.id == BARBELL.id]
    found = next_pieces(half, [session])
    best = found.worth[0]
    assert isinstance(best.piece, PlatePair)
    # The same pair put into the store by hand gives the same shortfalls.
    plates = tuple(
        replace(plate, pairs=plate.pairs + 1) if plate.plate.kg == best.piece.plate.kg else plate
        for plate in half.kit.plates
    )
    bound = make_plan(replace(half, kit=replace(half.kit, plates=plates)), session).kit_bound
    assert bound is not None
    assert best.after[0].largest_shortfall_fraction == bound.largest_shortfall_fraction
    assert best.after[0].total_shortfall_kg == pytest.approx(bound.total_shortfall_kg)
    assert best.before == found.now
    reached = [worth.after[0].largest_shortfall_fraction or 0.0 for worth in found.worth]
    assert reached == sorted(reached)
    assert (found.now[0].largest_shortfall_fraction or 0.0) >= reached[-1]


def test_where_nothing_helps_nothing_is_listed() -> None:
    young = tuple(
        replace(athlete, tests=()) for athlete in CLUB.athletes if athlete.id in ("A01", "A02")
    )
    kit = replace(CLUB.kit, bars=(*CLUB.kit.bars, replace(CLUB.kit.bars[-1], id="bar-10-2")))
    session = replace(BARBELL, athletes=("A01", "A02"), check_ins=(), overrides=())
    found = next_pieces(replace(CLUB, athletes=young, kit=kit, sessions=(session,)), [session])
    assert found.now[0].largest_shortfall_fraction == 0.0
    assert found.tried > 0
    assert found.worth == ()


def test_a_sound_box_for_who_goes_without_comes_first() -> None:
    kit = replace(CLUB.kit, boxes=tuple(b for b in CLUB.kit.boxes if b.is_foam))
    poor = replace(CLUB, kit=kit)
    session = sessions_that_count(poor, today=MONDAY)[1]
    found = next_pieces(poor, [session])
    assert found.now[0].goes_without >= 1
    assert found.worth[0].words == "box of 30 cm"
    assert found.worth[0].after[0].goes_without < found.now[0].goes_without
