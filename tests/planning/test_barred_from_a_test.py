"""Who must not do a test: restrictions, areas, age and what the young need first, one by one."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from squadwright.demo import demo_club
from squadwright.library.fitness_tests import fitness_tests
from squadwright.model.athlete import Athlete, AuthorRole, Consent, Guardian, Restriction
from squadwright.model.exercise import Demand
from squadwright.model.fitness_test import FitnessTest
from squadwright.model.medical import TechniqueSeen
from squadwright.model.muscles import BodyArea
from squadwright.planning.test_day.barred import SUBMAXIMAL, barred_from, words_for_the_young

DAY = date(2026, 3, 2)
SETS = f"a set, {SUBMAXIMAL}"


def anybody_s(**changes: object) -> FitnessTest:
    plain = {"demands": (), "is_maximal": False, "is_maximal_strength": False}
    return replace(fitness_tests()[0], **(plain | changes))  # type: ignore[arg-type]


EASY = anybody_s()
JUMP = anybody_s(is_maximal=True, demands=(Demand.JUMP_LANDING,))
DROP = anybody_s(is_maximal=True, demands=(Demand.DROP_LANDING,))
LIFT = anybody_s(is_maximal=True, is_maximal_strength=True)


def aged(
    years: int, *restrictions: Restriction, agrees: bool = False, **changes: object
) -> Athlete:
    guardian = Guardian("Parent", "mother")
    return replace(
        demo_club(DAY).athletes[0],
        birth_date=date(DAY.year - years, 1, 1),
        restrictions=restrictions,
        clearances=(),
        guardian=guardian,
        consents=(Consent("training", guardian.name, DAY),) if agrees else (),
    )


def held(**fields: object) -> Restriction:
    return Restriction("r", "Physio", AuthorRole.MEDICAL, DAY, **fields)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("restriction", "test", "is_barred"),
    [
        (held(all_training=True), EASY, True),
        (held(demands=(Demand.JUMP_LANDING,)), JUMP, True),
        (held(demands=(Demand.JUMP_LANDING,)), LIFT, False),
        (held(demands=(Demand.MAXIMAL_EFFORT,)), LIFT, True),
        (held(demands=(Demand.MAXIMAL_EFFORT,)), EASY, False),
        (held(body_areas=(BodyArea.KNEE,)), JUMP, True),
        (held(body_areas=(BodyArea.KNEE,)), LIFT, False),
        (held(body_areas=(BodyArea.HEAD,)), JUMP, False),
    ],
)
def test_a_restriction_bars_a_test_that_asks_for_what_it_names(
    restriction: Restriction, test: FitnessTest, is_barred: bool
) -> None:
    assert bool(barred_from(test, aged(25, restriction), DAY)) is is_barred
    assert barred_from(test, aged(25), DAY) == ()


@pytest.mark.parametrize(
    ("years", "test", "agrees", "reasons"),
    [
        (17, LIFT, True, ("no test of maximal strength",)),
        (18, LIFT, False, ()),
        (40, LIFT, False, ()),
        (17, JUMP, False, ("guardian has not agreed",)),
        (17, JUMP, True, ()),
        (18, JUMP, False, ()),
        (17, EASY, False, ()),
        (15, DROP, True, ("hard landings begin at 16",)),
        (15, JUMP, True, ()),
        (16, DROP, True, ()),
        (15, DROP, False, ("guardian has not agreed", "hard landings begin at 16")),
    ],
)
def test_the_young_need_consent_and_neither_lift_their_most_nor_land_hard(
    years: int, test: FitnessTest, agrees: bool, reasons: tuple[str, ...]
) -> None:
    found = barred_from(test, aged(years, agrees=agrees), DAY)
    assert len(found) == len(reasons)
    for said, words in zip(found, reasons, strict=True):
        assert said.startswith(f"{years} years: ")
        assert words in said


@pytest.mark.parametrize(
    ("seen_days", "checked_days", "missing"),
    [
        (None, None, 2),
        (0, 0, 0),
        (0, None, 1),
        (1, 1, 0),
        (-1, 0, 1),
        (0, -1, 1),
    ],
)
def test_a_set_of_several_needs_technique_seen_and_growth_checked_by_the_day(
    seen_days: int | None, checked_days: int | None, missing: int
) -> None:
    """Days before the test; what is dated after it does not count."""
    young = aged(17, agrees=True)
    if seen_days is not None:
        checked = None if checked_days is None else DAY - timedelta(checked_days)
        seen = TechniqueSeen(DAY - timedelta(seen_days), "Coach", checked)
        young = replace(young, medical=replace(young.medical, technique=seen))
    else:
        young = replace(young, medical=replace(young.medical, technique=None))
    assert len(barred_from(LIFT, young, DAY, method=SETS)) == missing
    assert barred_from(LIFT, aged(18), DAY, method=SETS) == ()
    assert barred_from(JUMP, young, DAY, method=SETS) == ()


def test_what_is_said_of_a_test_for_the_young_follows_its_kind() -> None:
    assert words_for_the_young(EASY) == "no"
    assert words_for_the_young(JUMP).startswith("yes: below 18 years with the guardian")
    assert words_for_the_young(LIFT).startswith("yes: no test of maximal strength below 18")
