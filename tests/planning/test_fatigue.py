"""How fatigue adds up and rest takes it away: by hand, and in every direction."""

from math import exp

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases import cases
from squadwright.model.muscles import MuscleGroup
from squadwright.planning.dose.fatigue import GROUPS, FatigueModel, People
from squadwright.planning.dose.named_lifts import NAMED_LIFTS, NamedLift, named_lift
from squadwright.planning.dose.protocol import read_protocol
from squadwright.planning.dose.set_series import Intensity, PlannedSet, simulate_series

MODEL = FatigueModel()
PLAIN = NamedLift("curl by hand", {MuscleGroup.ELBOW_FLEXORS: 1.0}, repetition_factor=30.0)
ONE = People(np.ones(1), np.ones(1), np.ones(1), np.zeros(1))
lifts = st.sampled_from(NAMED_LIFTS)
rests = st.integers(0, 600)


def series(
    lift: NamedLift, shares: list[float], rest_s: float, target: int | None
) -> list[PlannedSet]:
    return [PlannedSet(lift, Intensity(share_of_1rm=share), target, rest_s) for share in shares]


def test_strength_after_repetitions_and_rest_is_what_the_equation_gives_by_hand() -> None:
    constants = MODEL.constants
    pools = MODEL.pools([PLAIN])
    state = MODEL.fresh(ONE, pools)
    load = np.array([0.8])
    state = MODEL.after_repetitions(state, pools, PLAIN.name, load, np.array([5.0]), ONE)
    state = MODEL.after_rest(state, 60, pools, ONE)
    lost = 5 * 0.8**constants.load_exponent / 30
    immediate = lost * exp(-60 / constants.immediate_s)
    fast = lost * exp(-60 / constants.fast_s[MuscleGroup.ELBOW_FLEXORS])
    slow = lost * exp(-60 / constants.slow_s[MuscleGroup.ELBOW_FLEXORS])
    bent = (1 - constants.immediate_fraction) * 30 / 5
    by_hand = (
        1
        - constants.immediate_fraction * immediate
        - bent * constants.fast_fraction * fast**2
        - bent * (1 - constants.fast_fraction) * slow**2
    )
    assert MODEL.present_strength(state, pools, PLAIN.name)[0] == pytest.approx(by_hand, rel=1e-12)


def test_repetitions_possible_leave_exactly_the_load_before_the_last() -> None:
    pools = MODEL.pools([PLAIN])
    state, load = MODEL.fresh(ONE, pools), np.array([0.7])
    possible = MODEL.repetitions_possible(state, pools, PLAIN.name, load, ONE)
    state = MODEL.after_repetitions(state, pools, PLAIN.name, load, possible - 1, ONE)
    assert MODEL.present_strength(state, pools, PLAIN.name)[0] == pytest.approx(0.7, rel=1e-9)


def test_a_load_above_strength_is_not_lifted_once() -> None:
    pools = MODEL.pools([PLAIN])
    state = MODEL.fresh(ONE, pools)
    possible = MODEL.repetitions_possible(state, pools, PLAIN.name, np.array([1.01]), ONE)
    assert possible[0] < 1


def test_a_long_rest_gives_everything_back() -> None:
    result = simulate_series(series(named_lift("bench press"), [0.7, 0.7], 100_000, None))
    assert np.array_equal(result.repetitions[0], result.repetitions[1])


@given(lift=lifts, share=st.floats(0.3, 1.0), count=st.integers(1, 40), rest_s=rests)
@settings(max_examples=cases(60))
def test_what_is_left_lies_between_nothing_and_everything(
    lift: NamedLift, share: float, count: int, rest_s: int
) -> None:
    people = MODEL.people(50)
    pools = MODEL.pools([lift])
    load, done = np.full(50, share), np.full(50, float(count))
    tired = MODEL.after_repetitions(
        MODEL.fresh(people, pools), pools, lift.name, load, done, people
    )
    rested = MODEL.after_rest(tired, rest_s, pools, people)
    before, after = MODEL.present_share(tired), MODEL.present_share(rested)
    assert before.shape == (50, len(GROUPS))
    assert (before >= 0).all()
    assert (after >= before).all()
    assert (after <= 1).all()


@given(
    lift=lifts,
    share=st.floats(0.45, 0.95),
    step=st.sampled_from([0.0, 0.02]),
    sets=st.integers(1, 6),
    target=st.sampled_from([None, 5, 10]),
    rests=st.tuples(rests, rests),
)
@settings(max_examples=cases(120))
def test_repetitions_in_total_never_fall_as_rest_grows(
    lift: NamedLift,
    share: float,
    step: float,
    sets: int,
    target: int | None,
    rests: tuple[int, int],
) -> None:
    shares = [min(share + step * number, 1.0) for number in range(sets)]
    short, long = (
        simulate_series(series(lift, shares, rest_s, target), people_count=200).totals()
        for rest_s in sorted(rests)
    )
    assert (long >= short).all()


@pytest.mark.parametrize("change", [0.95, 0.90, 0.85])
@pytest.mark.parametrize("name", ["bench press", "back squat", "leg press"])
def test_totals_do_not_fall_with_rest_when_the_load_is_cut_from_set_to_set(
    name: str, change: float
) -> None:
    lift = named_lift(name)
    totals = []
    for rest_s in (20, 40, 60, 90, 120, 180, 240, 300, 420):
        loads = [Intensity(repetition_maximum=10, factor=change**k) for k in range(4)]
        sets = [PlannedSet(lift, load, None, rest_s) for load in loads]
        totals.append(simulate_series(sets).totals().mean())
    assert totals == sorted(totals)


@given(
    lift=lifts,
    load=st.sampled_from(["60%", "80%", "3RM", "8RM", "15RM"]),
    sets=st.integers(2, 6),
    change=st.sampled_from(["0%", "-5%", "-10%", "-15%"]),
    others=st.lists(lifts, max_size=2),
    reps=st.sampled_from(["max", "10"]),
    rests=st.tuples(rests, rests),
)
@settings(max_examples=cases(60))
def test_totals_do_not_fall_with_rest_with_other_exercises_between_and_loads_cut(
    lift: NamedLift,
    load: str,
    sets: int,
    change: str,
    others: list[NamedLift],
    reps: str,
    rests: tuple[int, int],
) -> None:
    between = [f"{other.name}:10RM:{reps}" for other in others]
    short, long = (
        simulate_series(
            read_protocol(
                lift.name, load, sets, rest_s, "max", load_change=change, between=between
            ).sets(),
            people_count=400,
        ).repetitions[:: len(between) + 1]
        for rest_s in sorted(rests)
    )
    assert long.sum(axis=0).mean() >= short.sum(axis=0).mean()


@given(lift=lifts, low=st.floats(0.4, 1.0), high=st.floats(0.4, 1.0), rest_s=rests)
@settings(max_examples=cases(60))
def test_a_heavier_load_never_gives_more_repetitions_in_total(
    lift: NamedLift, low: float, high: float, rest_s: int
) -> None:
    light, heavy = (
        simulate_series(series(lift, [share] * 3, rest_s, None), people_count=200)
        for share in sorted((low, high))
    )
    assert (heavy.repetitions[0] <= light.repetitions[0]).all()
    assert heavy.totals().mean() <= light.totals().mean()


def test_another_exercise_for_the_same_muscles_costs_repetitions_and_a_far_one_hardly_any() -> None:
    bench = named_lift("bench press")
    load = Intensity(repetition_maximum=10)

    def second_set(other: str) -> float:
        sets = [
            PlannedSet(bench, load, None, 90),
            PlannedSet(named_lift(other), load, None, 90),
            PlannedSet(bench, load, None, 90),
        ]
        return simulate_series(sets).per_set()[2].mean

    assert second_set("pec deck") < second_set("leg extension") - 0.5


def test_the_same_seed_draws_the_same_people_and_another_seed_others() -> None:
    sets = series(named_lift("bench press"), [0.7] * 3, 60, None)
    first, again = simulate_series(sets), simulate_series(sets)
    other = simulate_series(sets, seed=7)
    assert np.array_equal(first.repetitions, again.repetitions)
    assert not np.array_equal(first.repetitions, other.repetitions)
    assert other.totals().mean() == pytest.approx(first.totals().mean(), rel=0.03)


@pytest.mark.parametrize(
    "name",
    [
        *("bench press", "back squat", "leg press", "deadlift", "overhead press", "bent-over row"),
        *("pec deck", "triceps extension", "biceps curl", "leg curl", "leg extension"),
        *("lat pulldown", "shoulder press"),
    ],
)
def test_the_usual_exercises_are_known_by_name(name: str) -> None:
    assert named_lift(name.upper().replace(" ", "_")) is named_lift(name)


def test_no_two_lifts_share_a_name() -> None:
    names = [name for lift in NAMED_LIFTS for name in (lift.name, *lift.other_names)]
    assert len(set(names)) == len(names)
