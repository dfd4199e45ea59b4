"""The target of one lifter: by test, by rule, by the coach's word, or the bare technique bar."""

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

import pytest

from planning.people import MONDAY, person
from planning.test_dose_line import LIFT, MOVES, PRESS, PROBLEM, STEP, STEPS, solution
from squadwright.errors import InvalidInput
from squadwright.library import exercise
from squadwright.model.athlete import AuthorRole, Restriction, StrengthTest
from squadwright.model.exercise import Demand, ReferenceLift
from squadwright.model.kit import Bar, Kit
from squadwright.model.plan import Basis
from squadwright.model.routine import CountedIn, Scheme
from squadwright.model.session import Override, Settings
from squadwright.planning.attendance import PersonToday
from squadwright.planning.complex_dose import (
    LifterTarget,
    LifterTask,
    movements,
    own_limit_kg,
    plain_rule_kg,
    targets,
    wanted_reserve,
)
from squadwright.planning.gates.gate import Caps
from squadwright.planning.personal import PersonalStep
from squadwright.planning.rounds import Rounds
from squadwright.units import kilograms

HINGE = exercise("snatch-grip-romanian-deadlift")


@pytest.mark.parametrize(
    ("asked", "solved", "limit"),
    [
        ({}, {}, 40.0),
        ({"is_first_session": True}, {}, 38.0),
        ({"is_first_session": True, "first_session_within_plain_rule": False}, {}, 40.0),
        ({"first_session_within_plain_rule": True}, {}, 40.0),
        ({"is_first_session": True}, {"plain_rule_kg": 45.0}, 40.0),
        ({"goes_by_plain_rule": True}, {"plain_rule_kg": 45.0}, 45.0),
        ({"rule_kg": 50.0}, {}, 50.0),
        ({"rule_kg": 50.0, "step_kg": 39.0}, {}, 39.0),
        ({"step_kg": 42.0}, {}, 40.0),
    ],
)
def test_what_he_would_have_without_the_coachs_word(
    asked: dict[str, object], solved: dict[str, object], limit: float
) -> None:
    assert own_limit_kg(replace(PROBLEM, **asked), solution(**solved)) == limit  # type: ignore[arg-type]


def lifted(
    kg: float, repetitions: int = 5, days: int = 0, lift: str = "strict press"
) -> StrengthTest:
    day = MONDAY - timedelta(days=days)
    return StrengthTest(ReferenceLift(lift), kilograms(kg), repetitions, day)


def test_the_plain_rule_is_a_share_of_the_latest_press_for_five() -> None:
    tests = (lifted(50, days=1), lifted(70, days=9), lifted(90, 3), lifted(100, lift="bench press"))
    who = person(tests=tests)
    assert plain_rule_kg(who, Settings(plain_rule_fraction=0.6)) == pytest.approx(30.0)
    assert plain_rule_kg(person(tests=tests[2:]), Settings()) is None
    with pytest.raises(InvalidInput, match="gives a load of 0 kg"):
        plain_rule_kg(who, Settings(plain_rule_fraction=0.0))


TECHNIQUE = Bar("t10", "technique", kilograms(10), is_technique_bar=True)
STORE = Kit(
    bars=(
        Bar("b8", "light", kilograms(8)),
        replace(TECHNIQUE, id="t12", mass=kilograms(12)),
        TECHNIQUE,
        replace(TECHNIQUE, id="t5", mass=kilograms(5), in_service=False),
    )
)
TESTED = (lifted(50),)


def target(
    who: PersonToday,
    *,
    word: Override | None = None,
    steps: tuple[PersonalStep, ...] = STEPS,
    kit: Kit = STORE,
    settings: Settings | None = None,
) -> LifterTarget:
    task = LifterTask(who, steps, Rounds(3, 1, ""), word)
    return targets((task,), kit, settings or Settings(), 120)["P"]


@pytest.mark.parametrize(
    ("who", "why"),
    [
        (person(age=15, tests=TESTED), "age 15, under 16"),
        (person(is_guest=True, tests=TESTED), "guest"),
        (person(tests=TESTED, caps=Caps(no_load="no screening")), "no screening"),
        (person(), "no strength test yet"),
    ],
)
def test_learners_have_the_lightest_technique_bar_and_nobody_else(
    who: PersonToday, why: str
) -> None:
    found = target(who)
    assert (found.target_kg, found.basis, found.needs_technique_bar) == (
        10.0,
        Basis.TECHNIQUE_BAR,
        True,
    )
    assert found.reason == f"{why}: the bare technique bar, no load from a test"
    none = target(who, kit=Kit(bars=STORE.bars[:1]))
    assert none.target_kg is None
    assert none.reason.startswith(f"{why}, and the store has no technique bar")
    assert target(person(age=16, tests=TESTED)).basis is Basis.TEST


def test_the_coachs_load_is_taken_from_the_tested_and_the_untested_but_not_for_learners() -> None:
    word = Override("P", "feels good", load=kilograms(30))
    untested = target(person(), word=word)
    assert (untested.target_kg, untested.basis) == (30.0, Basis.OVERRIDE)
    assert untested.reason == ("coach's override: feels good; no strength test to compare with")
    tested = target(person(tests=TESTED), word=word)
    assert (tested.target_kg, tested.basis) == (30.0, Basis.OVERRIDE)
    assert tested.solution is not None
    for who in (person(age=15, tests=TESTED), person(is_guest=True, tests=TESTED)):
        assert target(who, word=word).basis is Basis.TECHNIQUE_BAR
    stick = target(person(tests=TESTED), word=Override("P", "elbow", with_stick=True))
    assert (stick.target_kg, stick.basis) == (None, Basis.OVERRIDE)
    assert target(person(tests=TESTED), word=Override("P", "x", rounds=2)).basis is Basis.TEST


def held(role: AuthorRole) -> tuple[Restriction, ...]:
    return (Restriction("r", "Dr Ilse", role, MONDAY, demands=(Demand.OVERHEAD,)),)


@pytest.mark.parametrize(
    ("role", "kg", "is_held"),
    [
        (AuthorRole.MEDICAL, 200.0, True),
        (AuthorRole.OFFICIAL, 200.0, True),
        (AuthorRole.COACH, 200.0, False),
        (AuthorRole.MEDICAL, 5.0, False),
    ],
)
def test_under_a_medical_restriction_the_coachs_load_is_not_above_what_holds(
    role: AuthorRole, kg: float, is_held: bool
) -> None:
    who = person(tests=TESTED)
    own = target(who).target_kg
    bound = replace(who, restrictions=held(role))
    found = target(bound, word=Override("P", "strong", load=kilograms(kg)))
    assert found.target_kg == (own if is_held else kg)
    assert found.reason.endswith("not above what holds under the restriction") is is_held


def test_a_share_of_the_maximum_caps_the_load_of_the_weakest_movement() -> None:
    """30 % of the press it is scaled from, by its ratio; far below the model's limit."""
    caps = Caps(share_of_maximum=Decimal("0.3"), why=("under 18",))
    found = target(person(tests=TESTED, caps=caps))
    free = target(person(tests=TESTED))
    assert found.problem is not None
    assert free.target_kg is not None
    capacity = found.problem.capacities[LIFT].mean_kg
    weakest = min(part.ratio for move in found.problem.movements for part in move.parts)
    assert found.target_kg == pytest.approx(0.3 * weakest * capacity)
    assert found.reason == "under 18: 30% of the maximum at most"
    high = Caps(share_of_maximum=Decimal("0.99"))
    assert target(person(tests=TESTED, caps=high)).target_kg == free.target_kg


def test_hinges_keep_more_in_reserve() -> None:
    settings = Settings(reserve_repetitions=1, hinge_reserve_repetitions=3)
    assert wanted_reserve(HINGE, settings) == 3
    assert wanted_reserve(PRESS, settings) == 1


def test_seconds_of_a_scheme_are_turned_into_repetitions() -> None:
    """A press of 3 s: 10 s are three, 1 s is one; three each side are six."""
    for seconds, repetitions in ((10, 3), (11, 4), (1, 1)):
        timed = replace(STEPS[0], step=replace(STEP, scheme=Scheme(CountedIn.SECONDS, seconds)))
        assert movements((timed,), Settings())[0].repetitions == repetitions
    assert MOVES[0].repetitions == 6


def test_a_version_without_strength_has_the_lightest_bar_in_service() -> None:
    squat = exercise("squat")
    plain = (replace(STEPS[0], step=replace(STEP, exercise=squat.id), exercise=squat),)
    found = target(person(tests=TESTED), steps=plain)
    assert (found.target_kg, found.basis) == (8.0, Basis.NONE)
