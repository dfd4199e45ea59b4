"""A block as one athlete does it today, on the demo club itself."""

from datetime import date

import pytest

from squadwright.library import exercise, exercises, routine
from squadwright.model.athlete import AuthorRole, Level, Restriction
from squadwright.model.exercise import Demand
from squadwright.model.muscles import BodyArea
from squadwright.model.session import Pain, Swap
from squadwright.planning.bar_flow import flow_breaks
from squadwright.planning.contacts import count_step
from squadwright.planning.personal_version import PersonToday, personal_version

(ROPEWALK,) = routine("ropewalk").blocks
TIDE_LANES = routine("tide-lanes").blocks
ADULT = PersonToday(level=Level.ADVANCED, age=28)


def restriction(**fields: object) -> Restriction:
    return Restriction("r", "Physio", AuthorRole.MEDICAL, date(2026, 3, 2), **fields)  # type: ignore[arg-type]


def held(**fields: object) -> PersonToday:
    return PersonToday(restrictions=(restriction(**fields),), level=Level.ADVANCED, age=28)


@pytest.mark.parametrize(
    ("person", "wanted"),
    [
        (ADULT, {}),
        (PersonToday(level=Level.NOVICE, age=14), {}),
        (held(demands=(Demand.BREATH_HOLD,)), {}),
        (held(demands=(Demand.OVERHEAD,)), {"6": "front-rack-march"}),
        (
            held(demands=(Demand.HINGE_BELOW_KNEE, Demand.BENT_OVER_HOLD)),
            {"1": "snatch-grip-hip-set-hold", "3": "tall-stance-shrug-pull"},
        ),
        (
            PersonToday(pains=(Pain(BodyArea.KNEE, 4),), level=Level.ADVANCED, age=28),
            {"5": "front-rack-heel-raise-hold"},
        ),
    ],
)
def test_each_athlete_of_the_demo_gets_the_coachs_swaps_and_an_unbroken_flow(
    person: PersonToday, wanted: dict[str, str]
) -> None:
    mine = personal_version(ROPEWALK, exercises(), person)
    assert {s.label: s.new.id for s in mine.swaps} == wanted
    assert (mine.left_out, mine.breaks) == ((), ())
    assert [s.label for s in mine.steps] == [s.label for s in ROPEWALK.steps]
    assert flow_breaks(mine.steps, exercise) == ()


def test_an_athlete_kept_from_training_does_no_step() -> None:
    told = held(all_training=True, instruction="walking and breathing drill set by physio")
    mine = personal_version(ROPEWALK, exercises(), told)
    assert (mine.steps, mine.swaps) == ((), ())
    assert len(mine.left_out) == 6
    assert mine.set_by_medical_staff is not None
    assert mine.set_by_medical_staff.exercise == exercise("walking-and-breathing-drill")


def test_a_sore_knee_makes_no_contact_in_tide_lanes_and_throws_as_often() -> None:
    sore = PersonToday(pains=(Pain(BodyArea.KNEE, 4),), level=Level.ADVANCED, age=28)
    versions = [personal_version(block, exercises(), sore) for block in TIDE_LANES]
    counts = [
        count_step(exercise(s.exercise), s.scheme) for version in versions for s in version.steps
    ]
    assert sum(c.contacts for c in counts) == 0
    assert sum(c.throws for c in counts) == 42


def test_the_coachs_own_swap_is_obeyed() -> None:
    own = (Swap("5", "front-rack-split-squat"),)
    mine = personal_version(ROPEWALK, exercises(), ADULT, swaps=own)
    assert mine.steps[4].exercise == "front-rack-split-squat"
    assert mine.swaps == ()


def test_a_swap_of_the_coach_that_is_barred_is_swapped_again() -> None:
    own = (Swap("6", "push-press"),)
    mine = personal_version(ROPEWALK, exercises(), held(demands=(Demand.OVERHEAD,)), swaps=own)
    assert [(s.old.id, s.new.id) for s in mine.swaps] == [("push-press", "front-rack-march")]


def test_a_step_that_nothing_can_replace_is_left_out_and_its_break_shown() -> None:
    # Nothing fast and nothing in the front rack: no way up from the hang to the press.
    held_back = held(demands=(Demand.FAST_PULL, Demand.FRONT_RACK_HOLD))
    mine = personal_version(ROPEWALK, exercises(), held_back)
    assert {"4", "5", "6"} >= {s.label for s in mine.left_out}
    assert mine.left_out
