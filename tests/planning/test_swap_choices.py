"""What an athlete may do instead of each exercise, and what is planned for him now."""

from dataclasses import replace

import pytest

from planning.people import MONDAY
from squadwright.demo import demo_club
from squadwright.errors import NotFound
from squadwright.model.session import CheckIn, Override, Presence, Swap
from squadwright.planning.swap_choices import StepChoices, step_choices

CLUB = demo_club(MONDAY)
SESSION = replace(CLUB.sessions[0], check_ins=())
STEPS = CLUB.routine("ropewalk", 1).blocks[0].steps


def of(name: str, *words: Override, **more: object) -> tuple[StepChoices, ...]:
    session = replace(SESSION, overrides=words, **more)  # type: ignore[arg-type]
    return step_choices(CLUB, session, name)


def test_somebody_who_is_not_expected_has_no_choices() -> None:
    with pytest.raises(NotFound, match="'A08' is not expected in Monday barbell"):
        of("A08", athletes=("A01",))


def test_every_step_has_its_swaps_with_help_and_watch_last() -> None:
    found = of("A08")
    assert [each.written.id for each in found] == [step.exercise for step in STEPS]
    for each in found:
        assert each.planned is each.written
        assert each.planned_amount == each.amount
        assert not each.is_word
        assert not each.sits_out
        *ranked, last = each.swaps
        assert (last.exercise, last.amount) == (None, "")
        assert all(swap.exercise is not None and swap.amount for swap in ranked)
        assert each.written.id not in {swap.exercise.id for swap in ranked if swap.exercise}


def test_an_exercise_by_the_coachs_word_is_planned_and_told_as_his_word() -> None:
    instead = of("A08")[1].swaps[0].exercise
    assert instead is not None
    found = of("A08", Override("A08", "likes it", swaps=(Swap("2", instead.id),)))
    assert [each.is_word for each in found] == [n == 1 for n in range(len(found))]
    assert found[1].planned is instead
    assert found[1].written.id == STEPS[1].exercise


def test_who_is_given_no_round_sits_out_and_nothing_is_planned_for_him() -> None:
    found = of("A08", Override("A08", "rest", rounds=0))
    assert all(each.sits_out for each in found)
    assert {(each.planned, each.planned_amount) for each in found} == {(None, "")}
    others = of("A09", Override("A08", "rest", rounds=0))
    assert not any(each.sits_out for each in others)


def test_who_is_absent_may_still_be_looked_up() -> None:
    absent = (CheckIn("A08", Presence.ABSENT),)
    assert [each.written for each in of("A08", check_ins=absent)] == [
        each.written for each in of("A08")
    ]


def test_what_is_barred_says_why() -> None:
    """A04 has a medical restriction on work overhead: the press goes, the hinge stays."""
    found = {each.written.id: each for each in of("A04")}
    press = found["split-stance-strict-press"]
    assert press.barred
    assert press.planned is not press.written
    assert found["snatch-grip-romanian-deadlift"].barred == ()
