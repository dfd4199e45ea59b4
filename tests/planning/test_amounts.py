"""Keys of steps, amounts in words, and as much work of another exercise, by hand."""

from dataclasses import replace

import pytest

from squadwright.library import exercise
from squadwright.model.exercise import Landing, Pattern, Sides
from squadwright.model.plan import Severity
from squadwright.model.routine import Block, CountedIn, Scheme, Step, Style
from squadwright.planning.finding import finding
from squadwright.planning.personal import PersonalStep, amount_text, step_keys, unswapped, with_sets
from squadwright.planning.same_work import same_work

SQUAT = exercise("squat")
JUMP, THROW = exercise("broad-jump-and-stick"), exercise("tall-kneeling-chest-pass")


def block(*labels: str) -> Block:
    steps = tuple(Step("squat", Scheme(CountedIn.REPETITIONS, 5), label) for label in labels)
    return Block("Legs", Style.SETS, steps)


@pytest.mark.parametrize(
    ("labels", "keys"),
    [
        (("A1", "A2"), ("A1", "A2")),
        (("", ""), ("Legs 1", "Legs 2")),
        (("A1", "", "A1"), ("Legs 1", "Legs 2", "Legs 3")),
        (("A1", "A2", "A1"), ("Legs 1", "A2", "Legs 3")),
    ],
)
def test_a_key_is_the_label_where_it_stands_once_and_else_the_place(
    labels: tuple[str, ...], keys: tuple[str, ...]
) -> None:
    assert step_keys(block(*labels)) == keys


@pytest.mark.parametrize(
    ("counted", "hold_s", "words"),
    [
        (CountedIn.REPETITIONS, 0, "6"),
        (CountedIn.REPETITIONS_EACH_SIDE, 0, "6 each side"),
        (CountedIn.SECONDS, 0, "6 s"),
        (CountedIn.PASSES_DOWN_AND_BACK, 0, "6 down and back"),
        (CountedIn.PASSES_ONE_WAY, 0, "6 one way"),
        (CountedIn.LADDER_TO, 0, "ladder to 6 and back"),
        (CountedIn.REPETITIONS, 3, "6, hold 3 s"),
    ],
)
def test_an_amount_in_words(counted: CountedIn, hold_s: int, words: str) -> None:
    step = Step("squat", Scheme(counted, 6, hold_after_s=hold_s))
    assert amount_text(PersonalStep("A1", step, SQUAT)) == words


def test_a_swap_is_told_where_there_is_one_and_sets_change_alone() -> None:
    (own,) = unswapped(block("A1"), exercise)
    assert own.swap is None
    swapped = replace(own, exercise=JUMP, replaced=SQUAT, reason="knee")
    assert swapped.swap is not None
    assert (swapped.swap.from_exercise, swapped.swap.to_exercise) == (SQUAT.id, JUMP.id)
    more = with_sets(own, 4)
    assert more.step.scheme == Scheme(CountedIn.REPETITIONS, 5, 4)
    assert replace(more, step=own.step) == own


def reps(count: int, sets: int = 2) -> Scheme:
    return Scheme(CountedIn.REPETITIONS, count, sets)


HOLD = replace(SQUAT, id="hold", is_hold=True)
EACH = replace(SQUAT, id="each", sides=Sides.EACH)
CARRY = replace(EACH, id="carry", pattern=Pattern.CARRY)
TWICE = replace(JUMP, id="twice", landings=(Landing(count=2),))


@pytest.mark.parametrize(
    ("old", "scheme", "new", "found"),
    [
        # Ten squats of 1.8 s are 18 s: a hold of 20 s, to the nearest five.
        (SQUAT, reps(10), HOLD, Scheme(CountedIn.SECONDS, 20, 2)),
        (SQUAT, reps(9), HOLD, Scheme(CountedIn.SECONDS, 15, 2)),
        (SQUAT, reps(1), HOLD, Scheme(CountedIn.SECONDS, 5, 2)),
        # Landing for landing: seven jumps of one landing are three of two.
        (JUMP, reps(7), TWICE, reps(3)),
        (JUMP, reps(1), TWICE, reps(1)),
        # Throw for throw, whatever the seconds.
        (THROW, reps(6), replace(THROW, seconds_per_repetition=9.0), reps(6)),
        (THROW, reps(6), replace(THROW, throws_per_repetition=2), reps(3)),
        # Second for second: 25 s of throws are 14 squats of 1.8 s; 20 s of jumps are 11.
        (THROW, reps(10), SQUAT, reps(14)),
        (JUMP, reps(5), SQUAT, reps(11)),
        # Each side the same: 18 s are ten, five a side; 14.4 s are eight, four a side.
        (SQUAT, reps(10), EACH, Scheme(CountedIn.REPETITIONS_EACH_SIDE, 5, 2)),
        (SQUAT, reps(8), EACH, Scheme(CountedIn.REPETITIONS_EACH_SIDE, 4, 2)),
        # A carry in steps, an even number.
        (SQUAT, reps(10), CARRY, reps(10)),
        (SQUAT, reps(9), CARRY, reps(8)),
        (SQUAT, reps(1), CARRY, reps(2)),
    ],
)
def test_as_much_work_of_another_exercise(
    old: object, scheme: Scheme, new: object, found: Scheme
) -> None:
    assert same_work(old, scheme, new) == found  # type: ignore[arg-type]


def test_sentence_and_advice_of_a_finding_end_in_one_full_stop() -> None:
    for end in ("", ".", ".."):
        found = finding("r", Severity.NOTE, f"x{end}", advice=f"y{end}", source="s")
        assert (found.sentence, found.advice) == ("x.", "y.")
