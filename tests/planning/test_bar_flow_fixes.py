"""Fixes of a break against every fix there could be, and ways of the bar against networkx."""

from itertools import combinations, pairwise, permutations, product
from random import Random

import networkx
import pytest

from squadwright.library import exercise, exercises
from squadwright.model.athlete import Level
from squadwright.model.exercise import BarPosition, Modality
from squadwright.model.routine import CountedIn, Scheme, Step
from squadwright.planning.bar_flow import ends_at, flow_breaks, starts_at
from squadwright.planning.bar_flow.fix import (
    LONGEST_TO_REORDER,
    OFFERED_OF_A_KIND,
    FixKind,
    FlowFix,
    FlowProblem,
    flow_fixes,
)
from squadwright.planning.bar_flow.transition import TRANSITIONS, flows, way
from squadwright.planning.same_work import same_work
from squadwright.planning.substitution.likeness import likeness

FIVE = Scheme(CountedIn.REPETITIONS, 5)
BAR_IDS = [e.id for e in exercises() if e.modality is Modality.BARBELL]
LEVELS = [level.value for level in Level]


def complex_of(seed: int, longest: int = 5) -> tuple[Step, ...]:
    """A few exercises with the bar, some with a word on where the last one ends."""
    dice = Random(seed)
    ids = dice.sample(BAR_IDS, dice.randint(2, longest))
    return tuple(
        Step(i, FIVE, label=str(n), last_ends=dice.choice((None, None, None, BarPosition.HANG)))
        for n, i in enumerate(ids, start=1)
    )


def fixes(steps: tuple[Step, ...], kind: FixKind) -> tuple[list[FlowFix], int]:
    """Fixes of a kind for the first break, and where that is."""
    broken = flow_breaks(steps, exercise)[0]
    found = flow_fixes(FlowProblem(steps, exercises()), broken)
    return [fix for fix in found if fix.kind is kind], broken.index


def shuffled(seed: int) -> tuple[Step, ...]:
    """Steps that flow in some order, the last lowered to the first, in another order."""
    dice = Random(seed)
    low = [i for i in BAR_IDS if _start(i) in {BarPosition.HANG, BarPosition.FLOOR}]
    ids = [dice.choice(low)]
    while len(ids) < 3 + seed % 3:
        here = ends_at(exercise(ids[-1]))
        ids.append(dice.choice([i for i in BAR_IDS if i not in ids and flows(here, _start(i))]))
    words = [None] * (len(ids) - 1) + [BarPosition.HANG]
    steps = [
        Step(i, FIVE, str(n), word) for n, (i, word) in enumerate(zip(ids, words, strict=True))
    ]
    dice.shuffle(steps)
    return tuple(steps)


def _start(exercise_id: str) -> BarPosition:
    return starts_at(exercise(exercise_id))


BROKEN = [s for seed in range(160) if flow_breaks(s := complex_of(seed), exercise)]


@pytest.mark.parametrize("is_free", [False, True])
def test_the_way_of_the_bar_is_the_shortest_path_through_the_named_transitions(
    is_free: bool,
) -> None:
    graph = networkx.DiGraph()
    graph.add_nodes_from(BarPosition)
    graph.add_edges_from((t.start, t.end) for t in TRANSITIONS if t.is_free or not is_free)
    for start, end in product(BarPosition, repeat=2):
        chain = way(start, end, free_only=is_free)
        reaches = networkx.has_path(graph, start, end)
        assert (chain is not None) is reaches
        if is_free:
            assert flows(start, end) is reaches
        if chain is not None:
            assert len(chain) == networkx.shortest_path_length(graph, start, end)
            places = [start, *(t.end for t in chain)]
            assert places[-1] is end
            assert [(t.start, t.end) for t in chain] == list(pairwise(places))


def turned(order: tuple[int, ...]) -> int:
    """Pairs of steps that have changed places."""
    return sum(a > b for a, b in combinations(order, 2))


def test_the_order_offered_is_the_nearest_of_all_that_flow() -> None:
    offered = 0
    for steps in (
        *BROKEN[::2],
        *(s for n in range(120) if flow_breaks(s := shuffled(n), exercise)),
    ):
        flowing = [
            turned(order)
            for order in permutations(range(len(steps)))
            if not flow_breaks([steps[at] for at in order], exercise)
        ]
        found, _ = fixes(steps, FixKind.ORDER)
        assert len(found) == (1 if flowing else 0)
        for fix in found:
            offered += 1
            order = tuple(steps.index(step) for step in fix.steps)
            assert sorted(order) == list(range(len(steps)))
            assert turned(order) == min(flowing)
            names = ", ".join(exercise(step.exercise).name for step in fix.steps)
            assert fix.sentence == f"Take them in another order: {names}."
    assert offered > 10


def test_a_long_complex_is_not_put_into_another_order() -> None:
    """Hang to hang any number of times, and one clean, one front squat the wrong way round."""
    low = [
        i for i in BAR_IDS if {starts_at(exercise(i)), ends_at(exercise(i))} == {BarPosition.HANG}
    ]
    first = ("front-squat", "muscle-clean")
    for size in (LONGEST_TO_REORDER, LONGEST_TO_REORDER + 1):
        ids = (*first, *low[: size - 2])
        assert len(ids) == size
        steps = tuple(
            Step(i, FIVE, str(n), BarPosition.HANG if i == "front-squat" else None)
            for n, i in enumerate(ids)
        )
        found, _ = fixes(steps, FixKind.ORDER)
        assert bool(found) is (size == LONGEST_TO_REORDER)


def test_the_swaps_offered_are_the_likest_of_all_that_mend() -> None:
    for steps in BROKEN[::3]:
        before = len(flow_breaks(steps, exercise))
        found, index = fixes(steps, FixKind.SWAP)
        if flow_breaks(steps, exercise)[0].last_ends_is_wrong:
            assert found == []
            continue
        alike: dict[tuple[int, str], float] = {}
        for place in {index, (index + 1) % len(steps)}:
            old = exercise(steps[place].exercise)
            for new in exercises():
                if new.start is None or new.id in {s.exercise for s in steps}:
                    continue
                step = Step(
                    new.id,
                    same_work(old, FIVE, new),
                    steps[place].label,
                    steps[place].last_ends,
                )
                changed = (*steps[:place], step, *steps[place + 1 :])
                if len(flow_breaks(changed, exercise)) < before:
                    same = (new.pattern is old.pattern) + (new.sides is old.sides)
                    alike[place, new.id] = likeness(old, new) + same
        best = sorted(alike.values(), reverse=True)[:OFFERED_OF_A_KIND]
        offered = []
        for fix in found:
            (place,) = [n for n, step in enumerate(fix.steps) if step != steps[n]]
            offered.append(alike[place, fix.steps[place].exercise])
        assert offered == pytest.approx(best)


def test_one_exercise_is_put_in_before_two_and_an_easy_new_one_before_others() -> None:
    """Tried with every exercise of the library, with the words that a named way allows."""
    ones = twos = 0
    for steps in BROKEN[::2]:
        broken = flow_breaks(steps, exercise)[0]
        found, index = fixes(steps, FixKind.INSERT)
        if broken.last_ends_is_wrong:
            assert found == []
            continue
        used = {step.exercise for step in steps}
        old = exercise(steps[index].exercise)
        could = {
            new.id
            for new in exercises()
            if new.start is not None
            and (
                flows(broken.ends, starts_at(new)) or way(ends_at(old), starts_at(new)) is not None
            )
            and way(ends_at(new), broken.starts) is not None
        }
        new_steps = [
            fix.steps[index + 1 : index + 1 + len(fix.steps) - len(steps)] for fix in found
        ]
        sizes = [len(new) for new in new_steps]
        assert sizes == sorted(sizes)
        assert sizes.count(1) == min(OFFERED_OF_A_KIND, len(could))
        ranks = [
            (new[0].exercise in used, LEVELS.index(exercise(new[0].exercise).least_level))
            for new in new_steps
            if len(new) == 1
        ]
        every = sorted((i in used, LEVELS.index(exercise(i).least_level)) for i in could)
        assert ranks == every[: len(ranks)]
        for fix, new in zip(found, new_steps, strict=True):
            ones += len(new) == 1
            twos += len(new) == 2
            names = ", then ".join(exercise(step.exercise).name for step in new)
            assert fix.sentence.startswith(f"Put {names} between ")
            marks = ["+" * (n + 1) for n in range(len(new))]
            assert [step.label for step in new] == [steps[index].label + mark for mark in marks]
            assert fix.steps[:index] == steps[:index]
            assert fix.steps[index + 1 + len(new) :] == steps[index + 1 :]
            after = [b.index for b in flow_breaks(fix.steps, exercise)]
            assert not set(after) & set(range(index, index + 1 + len(new)))
    assert ones > 20
    assert twos > 5


def test_a_hold_is_put_in_for_seconds_and_all_else_for_repetitions() -> None:
    for steps in BROKEN[::4]:
        found, index = fixes(steps, FixKind.INSERT)
        for fix in found:
            for step in fix.steps[index + 1 : index + 1 + len(fix.steps) - len(steps)]:
                is_hold = exercise(step.exercise).is_hold
                assert (step.scheme.counted_in is CountedIn.SECONDS) is is_hold


def test_a_word_that_lowers_the_bar_too_far_is_taken_back() -> None:
    """The clean ends in the rack, where the squat takes it; the word says that it ends lower."""
    steps = (
        Step("muscle-clean", FIVE, "1", BarPosition.HANG),
        Step("front-squat", FIVE, "2", BarPosition.HANG),
    )
    found, index = fixes(steps, FixKind.WORD)
    assert index == 0
    assert [fix.sentence for fix in found] == ["Leave out that 1 Muscle clean ends at the hang."]
    assert [step.last_ends for step in found[0].steps] == [None, BarPosition.HANG]
    inserts, _ = fixes(steps, FixKind.INSERT)
    assert inserts
    for fix in inserts:
        if starts_at(exercise(fix.steps[1].exercise)) is BarPosition.FRONT_RACK:
            assert fix.steps[0].last_ends is None
