"""Each fault about bars and plates, raised by a plan spoiled in exactly that way."""

from dataclasses import replace

import pytest

from planning.plan_changes import Case, change_dose
from planning.verify.sound_plan import SOUND
from planning.verify.spoiled import (
    Spoiled,
    bar,
    bound,
    found,
    lines_raised,
    lines_that_raise,
    piece,
    session,
    user,
)
from squadwright.model.kit import PlatePair
from squadwright.model.plan import BarUser, Basis, PlatesOnSide
from squadwright.model.session import MissingKit
from squadwright.planning.verify import kit
from squadwright.planning.verify.check import Rule
from squadwright.planning.verify.kit import (
    bars_are_in_service,
    bound_is_a_bound,
    each_bar_stands_once,
    nothing_heavier_than_a_bar_bears,
    one_user_for_a_bar_and_wave,
    plates_are_counted_right,
    plates_are_in_the_store,
    shortfalls_are_added_up_right,
    technique_users_have_a_technique_bar,
)
from squadwright.units import kilograms

BARS = SOUND.plan.bars
ADA = "doses[0] (Ada Brink, A1)"
UNSAID = SOUND.with_plan(kit_bound=None)
EMPTY = SOUND.with_plan(bars=tuple(replace(b, wave_users=()) for b in BARS))
LEARNS = change_dose(SOUND, "A1", basis=Basis.TECHNIQUE_BAR)
LIGHT = {"bar": "bar-10", "bar_kg": 10.0}


def more_bars(*bars: object) -> Case:
    return SOUND.with_plan(bars=(*BARS, *bars))


def pairs(family: str, count: int) -> Case:
    return piece(SOUND, "plates", family, pairs=count)


def bears(mass: str) -> Case:
    return piece(SOUND, "bars", "bar-2", maximum_load=kilograms(mass))


def on(athlete: str, wave: int, *plates_kg: float) -> BarUser:
    load_kg = 20 + 2 * sum(plates_kg)
    side = tuple(PlatesOnSide(each, plates_kg.count(each)) for each in dict.fromkeys(plates_kg))
    return BarUser(athlete, wave, load_kg, load_kg, side)


def counted(case: Case, moves: int, handled: int) -> Case:
    return bound(case, plate_moves=moves, plates_handled=handled)


def one(why: str, rule: Rule, case: Case, place: str, sentence: str) -> Spoiled:
    return Spoiled(why, rule, case, ((place, sentence),))


# Three users of bar 1, written out of order: 10 and 5, then 5 and 5, then 10 and 10.
THREE = bar(SOUND, 0, wave_users=(on("A1", 3, 10, 10), on("A2", 1, 10, 5), on("A3", 2, 5, 5)))
THREE = THREE.with_plan(bars=THREE.plan.bars[:1])

CASES = (
    Spoiled("in another block too", each_bar_stands_once, more_bars(replace(BARS[0], block="D"))),
    one(
        *("twice", each_bar_stands_once, more_bars(BARS[0])),
        *("bars", "bar-1 has 2 lines in A"),
    ),
    one(
        "twice, of no block",
        each_bar_stands_once,
        SOUND.with_plan(bars=(replace(BARS[0], block=""), replace(BARS[0], block=""))),
        *("bars", "bar-1 has 2 lines in the plan"),
    ),
    one(
        *("not there", bars_are_in_service, bar(SOUND, 1, bar="bar-9")),
        *("bars[1]", "bar-9 is not a bar in service"),
    ),
    one(
        *("out of service", bars_are_in_service, piece(SOUND, "bars", "bar-2", in_service=False)),
        *("bars[1]", "bar-2 is not a bar in service"),
    ),
    one(
        "missing today",
        bars_are_in_service,
        session(SOUND, missing=(MissingKit("bar-2"),)),
        *("bars[1]", "bar-2 is not a bar in service"),
    ),
    *(
        one(
            *(f"says {kg} kg", bars_are_in_service, bar(SOUND, 1, bar_kg=kg)),
            *("bars[1]", f"bar-2 weighs 20 kg, not {kg} kg"),
        )
        for kg in (20.001, 19.999)
    ),
    one(
        *("two in a wave", one_user_for_a_bar_and_wave, user(SOUND, 0, 1, wave=1)),
        *("bars[0]", "bar-1 has 2 users in wave 1"),
    ),
    one(
        *("on two bars", one_user_for_a_bar_and_wave, user(SOUND, 1, 1, athlete="A1")),
        *("bars", "Ada Brink, A1 has 2 places on bars"),
    ),
    Spoiled(
        "on two bars in two blocks",
        one_user_for_a_bar_and_wave,
        bar(user(SOUND, 1, 1, athlete="A1"), 1, block="D"),
    ),
    one(
        *("a pair too few", plates_are_in_the_store, pairs("plates-10", 1)),
        *("bars, A wave 1", "2 pairs of 10 kg; the store has 1"),
    ),
    one(
        *("none", plates_are_in_the_store, pairs("plates-5", 0)),
        *("bars, A wave 2", "1 pairs of 5 kg; the store has 0"),
    ),
    one(
        "out of service",
        plates_are_in_the_store,
        piece(SOUND, "plates", "plates-5", in_service=False),
        *("bars, A wave 2", "1 pairs of 5 kg; the store has 0"),
    ),
    one(
        "a pair missing today",
        plates_are_in_the_store,
        session(SOUND, missing=(MissingKit("plates-10"),)),
        *("bars, A wave 1", "2 pairs of 10 kg; the store has 1"),
    ),
    Spoiled(
        "two sorts of one mass",
        plates_are_in_the_store,
        replace(
            pairs("plates-10", 1),
            club=replace(
                SOUND.club,
                kit=replace(
                    pairs("plates-10", 1).club.kit,
                    plates=(
                        *pairs("plates-10", 1).club.kit.plates,
                        PlatePair("more", kilograms(10), 1),
                    ),
                ),
            ),
        ),
    ),
    Spoiled("bears just that", nothing_heavier_than_a_bar_bears, bears("20")),
    Spoiled(
        "bears a gram less",
        nothing_heavier_than_a_bar_bears,
        bears("19.999"),
        tuple(
            (f"bars[1].wave_users[{n}]", "20 kg hang on bar-2; it bears 19.999 kg") for n in (0, 1)
        ),
    ),
    Spoiled(
        "nobody knows what it bears",
        nothing_heavier_than_a_bar_bears,
        piece(SOUND, "bars", "bar-2", maximum_load=None),
    ),
    Spoiled("not there", nothing_heavier_than_a_bar_bears, bar(SOUND, 1, bar="bar-9")),
    one(
        *("learns on a heavy bar", technique_users_have_a_technique_bar, LEARNS),
        *(ADA, "bar-1 is not a technique bar"),
    ),
    Spoiled("learns on it", technique_users_have_a_technique_bar, bar(LEARNS, 0, **LIGHT)),
    Spoiled(
        "learns without a load",
        technique_users_have_a_technique_bar,
        change_dose(LEARNS, "A1", load_kg=None),
    ),
    Spoiled(
        "learns without a bar",
        technique_users_have_a_technique_bar,
        LEARNS.with_plan(bars=BARS[1:]),
    ),
    one(
        *("nothing is said", shortfalls_are_added_up_right, UNSAID),
        *("kit_bound", "4 people have a bar, and nothing is said of it"),
    ),
    Spoiled(
        "nothing is said, and nobody has a bar",
        shortfalls_are_added_up_right,
        EMPTY.with_plan(kit_bound=None),
    ),
    *(
        Spoiled(
            f"the largest is {largest}",
            shortfalls_are_added_up_right,
            bound(SOUND, largest_shortfall_fraction=largest),
            (("kit_bound", sentence),) if sentence else (),
        )
        for largest, sentence in (
            (2.5 / 42.5 + 5e-7, ""),
            (
                0.0589,
                "largest shortfall 0.0589 of the target; counted again: 0.0588235 of the target",
            ),
            (
                0.0588,
                "largest shortfall 0.0588 of the target; counted again: 0.0588235 of the target",
            ),
        )
    ),
    *(
        one(
            f"together {total} kg",
            shortfalls_are_added_up_right,
            bound(SOUND, total_shortfall_kg=total),
            *("kit_bound", f"total shortfall {total} kg; counted again: 4.5 kg"),
        )
        for total in (4.499, 4.501)
    ),
    Spoiled(
        "a part of a gram of a target does not count",
        shortfalls_are_added_up_right,
        user(SOUND, 0, 0, target_kg=41.0009),
    ),
    Spoiled(
        "a target of nothing is short by nothing",
        shortfalls_are_added_up_right,
        bound(user(SOUND, 0, 0, target_kg=0.0, load_kg=0.0), total_shortfall_kg=3.5),
    ),
    *(
        one(
            *(f"{count} plate moves", plates_are_counted_right, bound(SOUND, plate_moves=count)),
            *("kit_bound", f"plate moves {count} plates; counted again: 2 plates"),
        )
        for count in (1, 3)
    ),
    *(
        one(
            *(f"{count} handled", plates_are_counted_right, bound(SOUND, plates_handled=count)),
            *("kit_bound", f"plates handled {count} pairs; counted again: 3 pairs"),
        )
        for count in (2, 4)
    ),
    # From 10 and 5 to 5 and 5: two moves; to 10 and 10: four. Needed: two of each.
    Spoiled("three in turn", plates_are_counted_right, counted(THREE, 6, 4)),
    Spoiled("nothing is said", plates_are_counted_right, UNSAID),
    Spoiled("nothing is said", bound_is_a_bound, UNSAID),
    Spoiled("unproven", bound_is_a_bound, bound(SOUND, proven=False, largest_shortfall_bound=0.0)),
    Spoiled(
        "by less than counts",
        bound_is_a_bound,
        bound(SOUND, largest_shortfall_bound=2.5 / 42.5 + 5e-7),
    ),
    one(
        "better than its bound",
        bound_is_a_bound,
        bound(SOUND, largest_shortfall_bound=0.059),
        *("kit_bound", "a shortfall of 0.0588235 is below its bound of 0.059"),
    ),
    one(
        "proven above its bound",
        bound_is_a_bound,
        bound(SOUND, largest_shortfall_bound=0.0588),
        *("kit_bound", "proven at 0.0588235, and its bound is 0.0588"),
    ),
)


@pytest.mark.parametrize("spoiled", CASES, ids=str)
def test_a_plan_spoiled_in_one_way_has_exactly_that_fault(spoiled: Spoiled) -> None:
    assert found(spoiled) == spoiled.faults


def test_each_fault_about_bars_is_raised_by_some_case(monkeypatch: pytest.MonkeyPatch) -> None:
    assert lines_raised(kit, CASES, monkeypatch) == lines_that_raise(kit)
