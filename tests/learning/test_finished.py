"""How often a complex is finished: bounds, what is too few, and what differs beyond chance."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from learning.histories import PRESSES, trial
from squadwright.learning.finished import (
    FEWEST,
    Finished,
    Template,
    difference_interval,
    differences,
    finished_by_template,
    is_counted,
)

A = Template("Ropewalk", 4, 75)
B = Template("Ropewalk", 4, 45)


def test_the_published_difference_of_two_shares() -> None:
    """56 of 70 against 48 of 80: 0.0524 to 0.3339 by method 10 (Newcombe 1998, table II), from
    memory.
    """
    low, high = difference_interval(Finished(A, 56, 70), Finished(B, 48, 80), 0.95)
    assert low == pytest.approx(0.0524, abs=0.00005)
    assert high == pytest.approx(0.3339, abs=0.00005)


@given(st.integers(1, 60), st.integers(1, 60), st.data())
def test_turned_round_a_difference_has_the_other_sign(n: int, m: int, data: st.DataObject) -> None:
    one = Finished(A, data.draw(st.integers(0, n)), n)
    other = Finished(B, data.draw(st.integers(0, m)), m)
    low, high = difference_interval(one, other, 0.9)
    turned = difference_interval(other, one, 0.9)
    assert turned == (pytest.approx(-high), pytest.approx(-low))
    assert -1 - 1e-9 <= low <= one.finished / n - other.finished / m <= high <= 1 + 1e-9


def test_only_what_shows_strength_is_counted() -> None:
    whole, lost = trial(7, 40.0), trial(7, 40.0, clean=2, lost=2)
    assert is_counted(whole)
    assert is_counted(lost)
    assert not is_counted(trial(7, 40.0, clean=2))
    assert not is_counted(replace(lost, lost_repetitions=0, spared="came late"))
    assert not is_counted(replace(whole, spared="had pain"))
    assert not is_counted(replace(whole, wanted_kg=44.0))


def test_templates_are_told_apart_by_routine_rounds_and_rest() -> None:
    quick = replace(PRESSES, rest_s=46.0)
    rows = finished_by_template(
        [
            ("Ropewalk", trial(7, 40.0)),
            ("Ropewalk", trial(14, 40.0, clean=2, lost=1)),
            ("Ropewalk", trial(14, 40.0, work=quick)),
            ("Other", trial(14, 40.0)),
            ("Other", trial(14, 40.0, clean=2)),
        ]
    )
    assert [(r.template, r.finished, r.count) for r in rows] == [
        (Template("Other", 4, 90), 1, 1),
        (Template("Ropewalk", 4, 45), 1, 1),
        (Template("Ropewalk", 4, 90), 1, 2),
    ]


def test_a_few_say_nothing_and_many_do() -> None:
    assert Finished(A, FEWEST - 1, FEWEST - 1).is_few
    assert not Finished(A, FEWEST, FEWEST).is_few
    assert differences([Finished(A, 7, 7), Finished(B, 0, 7)]) == ()
    [found] = differences([Finished(B, 2, 12), Finished(A, 11, 12)])
    assert (found.more.template, found.less.template) == (A, B)
    assert 0 < found.low < found.high < 1
    assert differences([Finished(A, 11, 12), Finished(B, 10, 12)]) == ()


def test_the_more_pairs_are_looked_at_the_less_is_claimed() -> None:
    pair = [Finished(A, 12, 12), Finished(B, 8, 12)]
    assert len(differences(pair)) == 1
    others = [Finished(Template("Other", rounds, 60), 10, 12) for rounds in range(1, 6)]
    assert differences([*pair, *others]) == ()
