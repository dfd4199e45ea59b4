"""A history that makes no sense is refused, and one as of a day knows nothing of that day."""

from dataclasses import replace

import pytest

from learning.histories import BOTH, CAPACITIES, PRESSES, day, history, retest, trial
from squadwright.errors import InvalidInput
from squadwright.learning.history import History, Trial, Work
from squadwright.learning.progression import Direction, direction, two_for_two
from squadwright.planning.dose.problem import Learned


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"clean_rounds": 4, "lost_repetitions": 1}, "1 lost, but all 4 rounds are clean"),
        ({"clean_rounds": 5}, "clean_rounds: is 5 rounds; the limits are 0 and 4 rounds"),
        ({"called_reserve": 31.0}, "called_reserve: is 31 repetitions"),
        ({"load_kg": 0.4}, "load_kg: is 0.4 kg"),
        ({"strained_round": 5}, "strained_round: is 5 rounds"),
        ({"clean_rounds": 1, "lost_repetitions": 201}, "lost_repetitions: is 201"),
    ],
)
def test_a_trial_that_cannot_have_been_is_refused(change: dict[str, object], told: str) -> None:
    with pytest.raises(InvalidInput, match=told):
        replace(trial(3, 40.0), **change)  # type: ignore[arg-type]


def test_what_can_have_been_is_taken() -> None:
    assert trial(3, 40.0, clean=3, lost=2).lost_repetitions == 2
    assert trial(3, 40.0, clean=0, lost=0).clean_rounds == 0


def test_work_has_a_movement() -> None:
    with pytest.raises(InvalidInput, match=r"work.movements: is empty"):
        Work((), 4, 90.0)


@pytest.mark.parametrize(
    ("clean", "lost", "is_whole", "is_decided"),
    [(4, 0, True, True), (3, 0, False, False), (3, 1, False, True), (0, 5, False, True)],
)
def test_a_trial_decides_where_he_did_it_all_or_his_strength_gave_out(
    clean: int, lost: int, is_whole: bool, is_decided: bool
) -> None:
    found = trial(3, 40.0, clean, lost)
    assert (found.is_whole, found.is_decided) == (is_whole, is_decided)


def test_trials_stand_in_order_and_every_lift_has_a_capacity() -> None:
    with pytest.raises(InvalidInput, match="are not in order of time"):
        history(trial(9, 40.0), trial(3, 40.0))
    press = {"strict press": CAPACITIES["strict press"]}
    with pytest.raises(InvalidInput, match="has no back squat, from which"):
        History("x", day(0), press, (trial(3, 40.0, work=BOTH),))
    with pytest.raises(InvalidInput, match="has no back squat, from which"):
        History("x", day(0), press, (), (retest(3, "back squat", 120.0),))
    both = trial(3, 40.0, work=BOTH)
    assert History("x", day(0), CAPACITIES, (both, trial(3, 41.0))).trials[0] is both


def test_what_was_known_in_the_morning_has_nothing_of_the_day() -> None:
    known = history(
        trial(3, 40.0),
        trial(9, 42.0),
        retests=(retest(8, "strict press", 61.0), retest(9, "strict press", 62.0)),
    ).before(day(9))
    assert [each.load_kg for each in known.trials] == [40.0]
    assert [each.taken_on for each in known.retests] == [day(8)]


@pytest.mark.parametrize(
    ("names", "mean", "covariance"),
    [
        (("a", "b"), (0.0,), ((1.0, 0.0), (0.0, 1.0))),
        (("a", "b"), (0.0, 0.0), ((1.0, 0.0),)),
        (("a", "b"), (0.0, 0.0), ((1.0,), (0.0, 1.0))),
    ],
)
def test_moments_have_one_number_for_each_name(
    names: tuple[str, ...], mean: tuple[float, ...], covariance: tuple[tuple[float, ...], ...]
) -> None:
    with pytest.raises(InvalidInput, match="2 names do not go with moments of sizes"):
        Learned(names, mean, covariance, 0.03, 1)


def easy(reserve: float | None, clean: int = 4) -> Trial:
    return trial(3, 40.0, clean, reserve=reserve, work=PRESSES)


@pytest.mark.parametrize(
    ("trials", "is_met"),
    [
        ((easy(2.0), easy(2.0)), True),
        ((easy(2.0), easy(1.9)), False),
        ((easy(1.9), easy(2.0)), False),
        ((easy(0.0), easy(2.0), easy(3.0)), True),
        ((easy(2.0), easy(2.0, clean=3)), False),
        ((easy(None), easy(2.0)), False),
        ((easy(2.0),), False),
    ],
)
def test_two_for_two_asks_for_two_in_reserve_in_the_last_two_sessions(
    trials: tuple[Trial, ...], is_met: bool
) -> None:
    assert two_for_two(trials) is is_met


@pytest.mark.parametrize(
    ("load_kg", "way"),
    [
        (40.04, Direction.HOLD),
        (40.06, Direction.UP),
        (39.96, Direction.HOLD),
        (39.94, Direction.BACK),
    ],
)
def test_fifty_grams_are_no_change_of_load(load_kg: float, way: Direction) -> None:
    assert direction(load_kg, trial(3, 40.0)) is way
