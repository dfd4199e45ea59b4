"""Which last steps of a complex can go: random complexes of the library's barbell exercises."""

from random import Random

import pytest

from cases import cases
from squadwright.library import exercise, exercises
from squadwright.model.exercise import Modality
from squadwright.model.routine import Block, CountedIn, Scheme, Step, Style
from squadwright.planning.bar_flow import flow_breaks, leaves_at
from squadwright.planning.session_time import steps_that_must_stay, with_last_end

BARBELL = tuple(each.id for each in exercises() if each.modality is Modality.BARBELL)


def any_complex(random: Random) -> tuple[Step, ...]:
    chosen = random.sample(BARBELL, random.randint(1, 5))
    return tuple(Step(name, Scheme(CountedIn.REPETITIONS, 3), name) for name in chosen)


@pytest.mark.random_cases
def test_steps_are_cut_from_the_end_as_long_as_the_bar_flows_as_well_as_written() -> None:
    held = 0
    for number in range(cases(1200)):
        steps = any_complex(Random(number))
        written = len(flow_breaks(steps, exercise))
        flows = [
            len(flow_breaks(with_last_end(steps[:count], steps[-1], exercise), exercise)) <= written
            for count in range(1, len(steps))
        ]
        found = steps_that_must_stay(Block("B", Style.COMPLEX, steps), exercise)
        assert 1 <= found <= len(steps)
        assert all(flows[found - 1 :])
        assert found == 1 or not flows[found - 2]
        held += found > 1
    assert held


@pytest.mark.random_cases
def test_the_last_step_left_leaves_the_bar_where_the_last_one_did_if_it_can() -> None:
    moved = 0
    for number in range(cases(600)):
        steps = any_complex(Random(number))
        ends = leaves_at(steps[-1], exercise(steps[-1].exercise))
        left = with_last_end(steps[:1], steps[-1], exercise)
        assert [each.exercise for each in left] == [steps[0].exercise]
        if left != steps[:1]:
            moved += 1
            assert leaves_at(left[0], exercise(left[0].exercise)) is ends
        own = (Step(steps[0].exercise, steps[0].scheme, last_ends=ends),)
        assert with_last_end(own, steps[-1], exercise) == own
    assert moved
