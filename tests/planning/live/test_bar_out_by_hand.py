"""A bar of the small plan breaks in round 1: where each of its users goes, worked out by hand.

Bar 1: Ada 40 kg (10 on each end) in wave 1, Cil 30 kg (5) in wave 2. Bar 2: Bo 40 of 42.5 kg (10)
in wave 1, Dag 40 kg (10) in wave 2. There is a light bar of 10 kg; two pairs of 10, one of 5.
"""

from dataclasses import replace
from datetime import date
from typing import Any

from planning.test_run_sheet_by_hand import BEFORE
from planning.verify.sound_plan import CLUB, KIT, PLAN, SESSION
from squadwright.model.club import Club
from squadwright.model.kit import Bar
from squadwright.model.plan import Basis, GroupLine, Plan
from squadwright.model.session import MinorRule, MissingKit, Session
from squadwright.planning.live.bar_out import moved_off
from squadwright.planning.live.course import Course
from squadwright.planning.plan import Timed
from squadwright.planning.run_lines import LineKeys
from squadwright.planning.run_sheet import BarUser, ComplexBlock, RunSheetProblem, TimedExercise
from squadwright.units import kilograms

SPARE = Bar("bar-3", "Bar 3", kilograms(20), kilograms(100))
BARS = (GroupLine("Bar 1", ("A1", "A3"), "pair", "A", bar="bar-1"),
        GroupLine("Bar 2", ("A2", "A4"), "pair", "A", bar="bar-2"))  # fmt: skip
USERS = (("A1", "bar-1", 1), ("A3", "bar-1", 2), ("A2", "bar-2", 1), ("A4", "bar-2", 2))
BLOCK = ComplexBlock(
    "A",
    (TimedExercise("lift", 60),),
    tuple(BarUser(a, f"Bar {bar[-1]}", bar, wave) for a, bar, wave in USERS),
    3,
    change_s=20,
)


def broken(
    bar: str = "bar-2",
    *,
    club: Club = CLUB,
    plan: Plan = PLAN,
    stopped: tuple[str, ...] = (),
    block: ComplexBlock = BLOCK,
    place_s: float = 1001,
    **session: Any,
) -> Timed | None:
    plan = replace(plan, groups=(*BARS, *(g for g in plan.groups if g.block != "A")))
    course = Course(plan, RunSheetProblem(3600, BEFORE, (block,), ()), LineKeys())
    now = replace(SESSION, missing=(MissingKit(bar),), **session)
    return moved_off(course, club, now, bar, stopped=frozenset(stopped), place_s=place_s)


def seats(timed: Timed | None) -> dict[str, tuple[str, int, float]]:
    assert timed is not None
    return {u.athlete: (b.bar, u.wave, u.load_kg) for b in timed.plan.bars for u in b.wave_users}


def with_bar(bar: Bar = SPARE) -> Club:
    return replace(CLUB, kit=replace(KIT, bars=(*KIT.bars, bar)))


STAY = {"A1": ("bar-1", 1, 40.0), "A3": ("bar-1", 2, 30.0)}


def test_both_take_turns_behind_the_others_where_the_light_bar_is_too_far_from_their_dose() -> None:
    """On the light bar a pair of 10 makes 30 kg; on bar 1 it makes 40 kg in a wave of its own."""
    found = broken()
    assert seats(found) == STAY | {"A2": ("bar-1", 3, 40.0), "A4": ("bar-1", 4, 40.0)}
    assert found is not None
    block = found.problem.blocks[0]
    assert isinstance(block, ComplexBlock)
    assert {(u.athlete, u.bar, u.wave) for u in block.users} == {
        ("A1", "bar-1", 1),
        ("A3", "bar-1", 2),
        ("A2", "bar-1", 3),
        ("A4", "bar-1", 4),
    }
    (group,) = [g for g in found.plan.groups if g.block == "A"]
    assert (set(group.athletes), group.bar) == ({"A1", "A2", "A3", "A4"}, "bar-1")
    assert found.plan.kit_bound is None
    sides = {u.athlete: u.per_side for b in found.plan.bars for u in b.wave_users}
    assert sides == {u.athlete: u.per_side for b in PLAN.bars for u in b.wave_users}
    # Their load is as it was, and so is what is said of it.
    assert found.plan.doses == PLAN.doses


def test_a_spare_bar_takes_both_in_their_waves_and_their_group() -> None:
    found = broken(club=with_bar())
    assert seats(found) == STAY | {"A2": ("bar-3", 1, 40.0), "A4": ("bar-3", 2, 40.0)}
    assert found is not None
    groups = {g.athletes: g.bar for g in found.plan.groups if g.block == "A"}
    assert groups == {("A1", "A3"): "bar-1", ("A2", "A4"): "bar-3"}
    heavy = replace(SPARE, mass=kilograms("42.6"))
    assert seats(broken(club=with_bar(heavy)))["A2"][0] == "bar-1"
    as_heavy = replace(SPARE, mass=kilograms("42.5"))
    assert seats(broken(club=with_bar(as_heavy)))["A2"] == ("bar-3", 1, 42.5)


def test_the_wave_of_one_who_has_stopped_is_taken_before_another_is_added() -> None:
    found = broken(stopped=("A3",))
    # Bo moves into wave 2, and nobody has to wait for a fourth wave.
    assert seats(found) == {
        "A1": ("bar-1", 1, 40.0),
        "A2": ("bar-1", 2, 40.0),
        "A4": ("bar-1", 3, 40.0),
    }
    gone = broken(stopped=("A2", "A4"))
    assert seats(gone) == STAY
    assert gone is not None
    assert [g.athletes for g in gone.plan.groups if g.block == "A"] == [("A1", "A3")]


def test_who_may_not_be_beside_the_others_has_the_light_bar_and_less() -> None:
    settings = replace(SESSION.settings, banned_pairs=(("A2", "A3"),))
    found = broken(settings=settings)
    assert seats(found)["A2"] == ("bar-10", 1, 30.0)
    # Dag need not keep away, and is short by nothing behind the others.
    assert seats(found)["A4"] == ("bar-1", 3, 40.0)
    assert found is not None
    dose = found.plan.dose_of("A2")
    assert dose is not None
    assert (dose.load_kg, dose.target_kg, dose.kit_limited) == (30.0, 42.5, True)
    assert (dose.completion_probability, dose.reserve_reps, dose.reserve) == (None, None, ())
    assert dose.basis is Basis.TEST
    with_load = {e.step: e.load_kg for e in dose.exercises if e.load_kg is not None}
    assert with_load == {"1": 30.0, "2": 30.0, "3": 30.0}
    assert "30 kg" in dose.reason
    # Alone on it now: no group breaks a rule that it did not break before, for two are one each.
    groups = [set(g.athletes) for g in found.plan.groups if g.block == "A"]
    assert {"A1", "A3", "A4"} in groups


def test_without_any_bar_left_they_go_on_with_sticks() -> None:
    few = replace(CLUB, kit=replace(KIT, bars=KIT.bars[1:2]))
    alone = replace(PLAN, bars=PLAN.bars[1:])
    block = replace(BLOCK, users=BLOCK.users[2:])
    found = broken(club=few, plan=alone, block=block)
    assert seats(found) == {}
    assert found is not None
    moved = found.problem.blocks[0]
    assert isinstance(moved, ComplexBlock)
    sticks = {u.athlete: (u.bar, u.wave) for u in moved.users}
    assert {wave for _, wave in sticks.values()} == {1, 2}
    assert len({bar for bar, _ in sticks.values()}) == 2
    for athlete in ("A2", "A4"):
        dose = found.plan.dose_of(athlete)
        assert dose is not None
        assert (dose.load_kg, dose.target_kg, dose.kit_limited) == (None, None, False)
        assert dose.basis is Basis.TECHNIQUE_BAR
        assert all(e.load_kg is None for e in dose.exercises)


def test_a_block_of_which_every_round_has_begun_stays_as_it_is() -> None:
    # The rounds of the plan begin at 1000, 1180 and 1360 s.
    for place_s, moves in ((1360, True), (1361, False)):
        found = broken(place_s=place_s)
        assert ("bar-2" not in {seat[0] for seat in seats(found).values()}) == moves


def test_of_a_fair_group_none_becomes_unfair() -> None:
    """Under the strict rule Bo, who is 17, is with nobody but one adult: it is planned anew."""
    young = tuple(
        replace(a, birth_date=date(2008, 5, 5)) if a.id == "A2" else a for a in CLUB.athletes
    )
    strict: Session = replace(
        SESSION, settings=replace(SESSION.settings, minor_rule=MinorRule.NEVER)
    )
    club = replace(CLUB, athletes=young, kit=replace(KIT, bars=(*KIT.bars, SPARE)))
    two = replace(BLOCK, users=(BLOCK.users[0], BLOCK.users[2]))
    plan = replace(
        PLAN,
        bars=tuple(replace(b, wave_users=b.wave_users[:1]) for b in PLAN.bars),
    )
    lone = (replace(BARS[0], athletes=("A1",)), replace(BARS[1], athletes=("A2",)))
    course = Course(
        replace(plan, groups=lone), RunSheetProblem(3600, BEFORE, (two,), ()), LineKeys()
    )
    for kit, is_planned_anew in ((KIT.bars[:1], True), (club.kit.bars, False)):
        there = replace(club, kit=replace(KIT, bars=kit))
        found = moved_off(course, there, strict, "bar-2", stopped=frozenset(), place_s=1001)
        assert (found is None) == is_planned_anew
