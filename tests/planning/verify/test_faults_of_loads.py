"""Each fault about loads, raised by a plan spoiled in exactly that way."""

from dataclasses import replace
from datetime import date

import pytest

from planning.plan_changes import Case, change_athlete, change_dose, change_exercise
from planning.verify.sound_plan import SOUND, TODAY
from planning.verify.spoiled import (
    Spoiled,
    bar,
    found,
    lines_raised,
    lines_that_raise,
    medical,
    says,
    user,
)
from squadwright.model.athlete import Consent, Guardian
from squadwright.model.medical import TechniqueSeen
from squadwright.model.plan import Basis, PlatesOnSide
from squadwright.model.session import Override
from squadwright.planning.verify import loads
from squadwright.planning.verify.loads import (
    chance_to_finish_is_high_enough,
    coach_word_is_kept,
    exercises_carry_the_load_of_the_dose,
    limits_are_his_own,
    load_is_bar_and_plates,
    load_is_never_above_the_target,
    load_on_the_bar_is_the_dose,
    untested_and_young_use_the_bare_bar,
)
from squadwright.units import kilograms

ADA = "doses[0] (Ada Brink, A1)"
ON_BAR = "bars[0].wave_users[0]"


def born(case: Case, year: int, month: int = 3, day: int = 2) -> Case:
    return change_athlete(case, "A1", birth_date=date(year, month, day))


def agreed(case: Case, by: str = "Eva Brink") -> Case:
    """Her technique has been seen; somebody has agreed."""
    seen = medical(case, "A1", technique=TechniqueSeen(TODAY, "Coach"))
    guardian, consent = Guardian("Eva Brink", "mother"), Consent("lifting", by, TODAY)
    return change_athlete(seen, "A1", guardian=guardian, consents=(consent,))


def rests_on(case: Case, basis: Basis, chance: float | None = 0.92) -> Case:
    return change_dose(case, "A1", basis=basis, completion_probability=chance)


def bare(case: Case) -> Case:
    return rests_on(user(case, 0, 0, per_side=()), Basis.TECHNIQUE_BAR)


def word(**said: object) -> Override:
    return Override("A1", "the coach saw it", **said)  # type: ignore[arg-type]


UNTESTED = change_athlete(SOUND, "A1", tests=())
GUEST = change_athlete(SOUND, "A1", guest_until=TODAY)
IN_DOUBT = "under 18, technique not seen or guardian not asked, and the load rests on: test"
UNNAMED = SOUND.with_plan(bars=tuple(replace(b, block="") for b in SOUND.plan.bars))
LATER = change_dose(SOUND, "A1", first_round=2, rounds=2, limiting_round=None)

CASES = (
    Spoiled(
        "at the target", load_is_never_above_the_target, change_dose(SOUND, "A1", load_kg=41.0)
    ),
    Spoiled(
        "a gram above it",
        load_is_never_above_the_target,
        change_dose(SOUND, "A1", load_kg=41.001),
        ((ADA, "load 41.001 kg is above 41 kg"),),
    ),
    Spoiled(
        "no target",
        load_is_never_above_the_target,
        change_dose(SOUND, "A1", target_kg=None),
        ((ADA, "a load of 40 kg without a target"),),
    ),
    Spoiled(
        "no load",
        load_is_never_above_the_target,
        change_dose(SOUND, "A1", load_kg=None, target_kg=None),
    ),
    Spoiled(
        "at the target on the bar",
        load_is_never_above_the_target,
        user(SOUND, 0, 0, target_kg=40.0),
    ),
    Spoiled(
        "a gram above it on the bar",
        load_is_never_above_the_target,
        user(SOUND, 0, 0, target_kg=39.999),
        ((ON_BAR, "load 40 kg is above 39.999 kg"),),
    ),
    *(
        Spoiled(
            f"the load says {load_kg} kg",
            load_is_bar_and_plates,
            user(SOUND, 0, 0, load_kg=load_kg),
            ((ON_BAR, f"bar and plates weigh 40000 g, and the load says {grams} g"),),
        )
        for load_kg, grams in ((39.999, 39999), (40.001, 40001))
    ),
    Spoiled(
        "two plates of 5 and none of 10",
        load_is_bar_and_plates,
        user(SOUND, 0, 0, per_side=(PlatesOnSide(5.0, 2),)),
    ),
    Spoiled(
        "a plate of 10 and one of 5",
        load_is_bar_and_plates,
        user(SOUND, 0, 0, per_side=(PlatesOnSide(10.0, 1), PlatesOnSide(5.0, 1))),
        ((ON_BAR, "bar and plates weigh 50000 g, and the load says 40000 g"),),
    ),
    Spoiled(
        "another bar",
        load_is_bar_and_plates,
        bar(SOUND, 0, bar_kg=15.0, wave_users=SOUND.plan.bars[0].wave_users[:1]),
        ((ON_BAR, "bar and plates weigh 35000 g, and the load says 40000 g"),),
    ),
    Spoiled("bars without a block serve all", load_on_the_bar_is_the_dose, UNNAMED),
    Spoiled(
        "another load",
        load_on_the_bar_is_the_dose,
        change_dose(SOUND, "A1", load_kg=39.0),
        ((ADA, "load 39 kg of target 41 kg; on the bars: 40 kg"),),
    ),
    Spoiled(
        "another target",
        load_on_the_bar_is_the_dose,
        change_dose(SOUND, "A1", target_kg=40.5),
        ((ADA, "load 40 kg of target 40.5 kg; on the bars: 40 kg"),),
    ),
    Spoiled(
        "no bar",
        load_on_the_bar_is_the_dose,
        bar(SOUND, 0, wave_users=SOUND.plan.bars[0].wave_users[1:]),
        ((ADA, "load 40 kg of target 41 kg; on the bars: none"),),
    ),
    Spoiled(
        "a bar and no load",
        load_on_the_bar_is_the_dose,
        change_dose(SOUND, "A1", load_kg=None),
        (("bars", "Ada Brink, A1 has a bar and no load in A"),),
    ),
    Spoiled(
        "a bar and no load, of no block",
        load_on_the_bar_is_the_dose,
        change_dose(UNNAMED, "A1", load_kg=None, target_kg=None),
        (("bars", "Ada Brink, A1 has a bar and no load in the dose"),),
    ),
    Spoiled(
        "an exercise with another load",
        exercises_carry_the_load_of_the_dose,
        change_exercise(SOUND, "A1", "2", load_kg=40.001),
        ((f"{ADA}.exercises[1]", "load 40.001 kg; the dose says 40 kg"),),
    ),
    Spoiled(
        "an exercise with a bar and no load",
        exercises_carry_the_load_of_the_dose,
        change_exercise(SOUND, "A1", "2", load_kg=None),
        ((f"{ADA}.exercises[1]", "load none; the dose says 40 kg"),),
    ),
    Spoiled(
        "an exercise without a bar and with a load",
        exercises_carry_the_load_of_the_dose,
        change_exercise(SOUND, "A1", "D2", load_kg=5.0),
        ((f"{ADA}.exercises[7]", "load 5 kg; the dose says none"),),
    ),
    *(
        Spoiled(f"{basis.value}, chance {chance}", chance_to_finish_is_high_enough, case)
        for basis, chance in (
            (Basis.TEST, 0.9),
            (Basis.TEST, 1.0),
            (Basis.OVERRIDE, 0.0),
            (Basis.RULE, 0.0),
            (Basis.OVERRIDE, 0.1),
            *((basis, None) for basis in loads.NO_FORECAST),
        )
        for case in (rests_on(SOUND, basis, chance),)
    ),
    *(
        Spoiled(
            f"{basis.value}, chance {chance}",
            chance_to_finish_is_high_enough,
            rests_on(SOUND, basis, chance),
            ((ADA, sentence),),
        )
        for basis, chance, sentence in (
            (Basis.TEST, None, "no chance to finish, below the coach's level of 0.90"),
            (Basis.EARLIER, None, "no chance to finish, below the coach's level of 0.90"),
            (Basis.GUESSED, 0.899, "0.899 to finish, below the coach's level of 0.90"),
            (Basis.TEST, 1.001, "a chance of 1.001 to finish is outside 0 to 1"),
            (Basis.RULE, 1.001, "a chance of 1.001 to finish is outside 0 to 1"),
            (Basis.OVERRIDE, -0.1, "a chance of -0.1 to finish is outside 0 to 1"),
            (Basis.TEST, 0.0, "a chance of 0 to finish is outside 0 to 1"),
            (Basis.TECHNIQUE_BAR, 0.0, "a chance of 0 to finish is outside 0 to 1"),
        )
    ),
    Spoiled(
        "no load and no chance",
        chance_to_finish_is_high_enough,
        change_dose(SOUND, "A1", load_kg=None, completion_probability=None),
    ),
    Spoiled("untested, with the bare bar", untested_and_young_use_the_bare_bar, bare(UNTESTED)),
    Spoiled(
        "untested, without a load",
        untested_and_young_use_the_bare_bar,
        change_dose(UNTESTED, "A1", load_kg=None),
    ),
    Spoiled(
        "untested, with the coach's load",
        untested_and_young_use_the_bare_bar,
        rests_on(UNTESTED, Basis.OVERRIDE),
    ),
    Spoiled(
        "untested, by a test",
        untested_and_young_use_the_bare_bar,
        UNTESTED,
        ((ADA, "no strength test, and the load rests on: test"),),
    ),
    Spoiled(
        "untested, with plates",
        untested_and_young_use_the_bare_bar,
        rests_on(UNTESTED, Basis.TECHNIQUE_BAR),
        ((ADA, "no strength test, and there are plates on the bar"),),
    ),
    Spoiled(
        "a guest",
        untested_and_young_use_the_bare_bar,
        GUEST,
        ((ADA, "a guest, and the load rests on: test"),),
    ),
    Spoiled(
        "a guest with the coach's load",
        untested_and_young_use_the_bare_bar,
        rests_on(GUEST, Basis.OVERRIDE),
        ((ADA, "a guest, and the load rests on: coach's word"),),
    ),
    Spoiled("18 today", untested_and_young_use_the_bare_bar, born(SOUND, 2008)),
    Spoiled("16 today, agreed", untested_and_young_use_the_bare_bar, agreed(born(SOUND, 2010))),
    Spoiled(
        "16 tomorrow, agreed",
        untested_and_young_use_the_bare_bar,
        agreed(born(SOUND, 2010, 3, 3)),
        ((ADA, "age 15, below 16, and the load rests on: test"),),
    ),
    *(
        Spoiled(why, untested_and_young_use_the_bare_bar, case, ((ADA, IN_DOUBT),))
        for why, case in (
            ("18 tomorrow", born(SOUND, 2008, 3, 3)),
            ("17, not seen", medical(agreed(born(SOUND, 2008, 5)), "A1", technique=None)),
            ("17, no guardian", change_athlete(agreed(born(SOUND, 2008, 5)), "A1", guardian=None)),
            ("17, another agreed", agreed(born(SOUND, 2008, 5), by="Someone")),
        )
    ),
    *(
        Spoiled(f"the coach said {said}", coach_word_is_kept, says(SOUND, word(**said)))
        for said in (
            {"load": kilograms(40)},
            {"load": kilograms(41)},
            {"bar": "bar-1"},
            {"load": kilograms(39), "block": "B"},
            {"rounds": 1},
        )
    ),
    *(
        Spoiled(
            f"the coach said {said}",
            coach_word_is_kept,
            says(SOUND, word(**said)),
            ((ADA, sentence),),
        )
        for said, sentence in (
            ({"load": kilograms("39.999")}, "load 40 kg is above 39.999 kg"),
            ({"load": kilograms(39), "block": "A"}, "load 40 kg is above 39 kg"),
            ({"with_stick": True}, "load 40 kg; the coach took the bar away"),
            ({"bar": "bar-2"}, "bar bar-1; the coach set bar-2"),
        )
    ),
    Spoiled(
        "the coach said a bar, and he learns on the light one",
        coach_word_is_kept,
        says(rests_on(SOUND, Basis.TECHNIQUE_BAR), word(bar="bar-2")),
    ),
    Spoiled(
        "the coach said a load, and there is none",
        coach_word_is_kept,
        says(change_dose(SOUND, "A1", load_kg=None), word(load=kilograms(39), with_stick=True)),
    ),
    Spoiled(
        "bars without a block, another bar",
        coach_word_is_kept,
        says(UNNAMED, word(bar="bar-2")),
        ((ADA, "bar bar-1; the coach set bar-2"),),
    ),
    Spoiled(
        "limited by what he does not do",
        limits_are_his_own,
        change_dose(SOUND, "A1", limiting_exercise="back-squat"),
        ((ADA, "limited by back-squat, which is not done"),),
    ),
    Spoiled(
        "limited by nothing",
        limits_are_his_own,
        change_dose(SOUND, "A1", limiting_exercise=None, limiting_round=None),
    ),
    *(
        Spoiled(f"limited in round {n} of 2 to 3", limits_are_his_own, case, faults)
        for n in (1, 2, 3, 4)
        for case in (change_dose(LATER, "A1", limiting_round=n),)
        for faults in (
            () if n in (2, 3) else ((ADA, f"limited in round {n}; the rounds are 2 to 3"),),
        )
    ),
)


@pytest.mark.parametrize("spoiled", CASES, ids=str)
def test_a_plan_spoiled_in_one_way_has_exactly_that_fault(spoiled: Spoiled) -> None:
    assert found(spoiled) == spoiled.faults


def test_each_fault_about_loads_is_raised_by_some_case(monkeypatch: pytest.MonkeyPatch) -> None:
    assert lines_raised(loads, CASES, monkeypatch) == lines_that_raise(loads)
