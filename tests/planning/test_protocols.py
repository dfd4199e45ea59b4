"""Protocols as typed: what is read, what is refused, and what lies outside of the fitted range."""

from dataclasses import replace

import pytest

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.muscles import MuscleGroup
from squadwright.planning.dose.capacity import TestedSet, capacity_from_set, lift_links
from squadwright.planning.dose.limit import check_within
from squadwright.planning.dose.named_lifts import named_lift
from squadwright.planning.dose.problem import (
    CapacityBasis,
    ComplexDoseProblem,
    ComplexMovement,
    LiftCapacity,
    MovementPart,
)
from squadwright.planning.dose.protocol import Protocol, read_intensity, read_protocol, read_target
from squadwright.planning.dose.set_series import Intensity, simulate_series


def read(
    intensity: str = "70%", sets: int = 3, rest_s: float = 60, target: str = "max", **more: object
) -> Protocol:
    return read_protocol("bench press", intensity, sets, rest_s, target, **more)  # type: ignore[arg-type]


def test_loads_and_targets_are_read_as_written() -> None:
    assert read_intensity(" 70 % ") == Intensity(share_of_1rm=0.7)
    assert read_intensity("10rm") == Intensity(repetition_maximum=10)
    assert (read_target("MAX", "t"), read_target("8", "t")) == (None, 8)
    assert [i.share_of_1rm for i in read("70%,75%,80%").intensities] == [0.7, 0.75, 0.8]


def test_a_change_from_set_to_set_is_a_share_of_the_set_before() -> None:
    factors = [i.factor for i in read(load_change="-10%").intensities]
    assert factors == pytest.approx([1.0, 0.9, 0.81])
    up = [i.factor for i in read("10RM", load_change="+5%").intensities]
    assert up == pytest.approx([1.0, 1.05, 1.1025])


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"intensity": "19%"}, "--intensity: is 19 % of the 1RM; the limits are 20 and 100"),
        ({"intensity": "101%"}, "--intensity: is 101 % of the 1RM"),
        ({"intensity": "31RM"}, "--intensity: is 31 RM; the limits are 1 and 30"),
        ({"intensity": "0RM"}, "--intensity: is 0 RM"),
        ({"intensity": "heavy"}, "'heavy' is neither a share"),
        ({"intensity": "70%,80%"}, "lists 2 loads for 3 sets"),
        ({"intensity": "70%,70%,70%", "load_change": "5%"}, "cannot be used with a load for each"),
        ({"load_change": "ten"}, "'ten' is not a percentage"),
        ({"load_change": "-51%"}, "is -51 %; the limits are -50 and 50"),
        ({"intensity": "80%", "load_change": "50%"}, "is 120 % of the 1RM"),
        ({"intensity": "5RM", "load_change": "-50%", "sets": 4}, "is 0.125; the limits are 0.2"),
        ({"sets": 0}, "--sets: is 0 sets"),
        ({"sets": 21}, "--sets: is 21 sets; the limits are 1 and 20"),
        ({"rest_s": -1}, "--rest-s: is -1 s"),
        ({"rest_s": 3601}, "--rest-s: is 3601 s"),
        ({"target": "0"}, "--target: is 0 repetitions"),
        ({"target": "101"}, "--target: is 101 repetitions"),
        ({"target": "many"}, "'many' is not a number of repetitions"),
        ({"between": ["triceps:10RM"]}, "'triceps:10RM' has 2 parts"),
    ],
)
def test_what_cannot_be_done_is_refused_with_its_limits(
    given: dict[str, object], told: str
) -> None:
    with pytest.raises(InvalidInput, match=told.replace("(", r"\(")):
        read(**given)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "given",
    [
        {"intensity": "20%"},
        {"intensity": "100%"},
        {"intensity": "30RM"},
        {"intensity": "1RM"},
        {"sets": 1},
        {"sets": 20},
        {"rest_s": 0},
        {"rest_s": 3600},
        {"target": "1"},
        {"target": "100"},
        {"intensity": "40%", "load_change": "-50%", "sets": 2},
        {"intensity": "70%,70%,70%", "load_change": "0%"},
    ],
)
def test_the_limits_themselves_are_taken(given: dict[str, object]) -> None:
    assert read(**given).intensities  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("given", "outside"),
    [
        ({}, ()),
        ({"intensity": "49%"}, ("the load",)),
        ({"intensity": "50%"}, ()),
        ({"intensity": "95%"}, ()),
        ({"intensity": "96%"}, ("the load",)),
        ({"intensity": "3RM"}, ()),
        ({"rest_s": 19}, ("the rest",)),
        ({"rest_s": 20}, ()),
        ({"rest_s": 300}, ()),
        ({"rest_s": 301}, ("the rest",)),
        ({"sets": 5}, ()),
        ({"sets": 6}, ("the number of sets",)),
        ({"intensity": "54%", "load_change": "-10%", "sets": 3}, ("the load",)),
        ({"intensity": "40%", "rest_s": 10, "sets": 9}, ("the load", "the rest", "the number")),
    ],
)
def test_outside_of_what_it_was_fitted_to_it_says_so(
    given: dict[str, object], outside: tuple[str, ...]
) -> None:
    cautions = read(**given).cautions()  # type: ignore[arg-type]
    assert len(cautions) == bool(outside)
    for each in ("the load", "the rest", "the number of sets"):
        is_told = any(f" {each}" in caution.partition("Outside:")[2] for caution in cautions)
        assert is_told is any(each.startswith(name) for name in outside)


def test_other_exercises_are_done_between_the_sets_and_not_after_the_last() -> None:
    found = read(sets=3, between=["triceps:10RM:max", "curl:50%:8"]).sets()
    assert [each.lift.name for each in found] == [
        "bench press", "triceps extension", "biceps curl",
        "bench press", "triceps extension", "biceps curl",
        "bench press",
    ]  # fmt: skip
    assert [each.target for each in found[:3]] == [None, None, 8]
    assert {each.rest_after_s for each in found} == {60}


def test_a_load_is_a_share_or_a_repetition_maximum_and_not_both() -> None:
    for given in ({}, {"share_of_1rm": 0.7, "repetition_maximum": 10}):
        with pytest.raises(InvalidInput, match="is neither a share of the 1RM nor"):
            Intensity(**given)  # type: ignore[arg-type]


def test_names_of_lifts_are_read_in_any_case_and_unknown_ones_refused() -> None:
    assert named_lift("Bench_PRESS") is named_lift("bench-press") is named_lift(" flat bench press")
    with pytest.raises(NotFound, match="no exercise named 'juggling'"):
        named_lift("juggling")


def test_repetitions_are_whole_never_above_the_target_and_totals_are_sums() -> None:
    result = simulate_series(
        read("60%", 3, 60, "8", between=["curl:50%:8"]).sets(), people_count=50
    )
    assert (result.repetitions <= 8).all()
    assert (result.repetitions == result.repetitions.round()).all()
    assert (result.totals() == result.repetitions.sum(axis=0)).all()
    assert (result.totals("biceps curl") == result.repetitions[[1, 3]].sum(axis=0)).all()
    means = [entry.mean for entry in result.per_set()]
    assert means == pytest.approx(list(result.repetitions.mean(axis=1)))


PART = MovementPart({MuscleGroup.SHOULDERS: 1.0}, "press", 1.0)
MOVE = ComplexMovement("press", (PART,), 5)
CAPACITIES = {"press": LiftCapacity(60.0, 0.065, CapacityBasis.TESTED)}


@pytest.mark.parametrize(
    ("make", "told"),
    [
        (lambda: ComplexMovement("press", (), 5), "has no part"),
        (lambda: ComplexMovement("press", (PART,), 0), "repetitions: is 0 repetitions"),
        (lambda: ComplexMovement("press", (PART,), 5, 11), "wanted reserve: is 11"),
        (lambda: replace(PART, involvement={}), "names no muscle group"),
        (lambda: replace(PART, involvement={MuscleGroup.GRIP: 1.1}), "is 1.1; the limits are 0"),
        (lambda: ComplexDoseProblem((), 3, 60.0, CAPACITIES), "movements: is empty"),
        (lambda: ComplexDoseProblem((MOVE,), 3, 60.0, {}), "has no press, from which"),
        (lambda: ComplexDoseProblem((MOVE,), 3, 60.0, CAPACITIES, step_kg=0.4), "step_kg: is 0.4"),
        (lambda: lift_links("other"), "sex: is 'other'"),
    ],
)
def test_a_dose_that_makes_no_sense_is_refused(make: object, told: str) -> None:
    assert callable(make)
    with pytest.raises(InvalidInput, match=told):
        make()


@pytest.mark.parametrize(("value", "is_in"), [(0.9, False), (1, True), (5, True), (5.1, False)])
def test_both_ends_are_within(value: float, is_in: bool) -> None:
    if is_in:
        check_within("x", value, 1, 5, "kg")
        return
    with pytest.raises(InvalidInput, match="limits are 1 and 5 kg"):
        check_within("x", value, 1, 5, "kg")


@pytest.mark.parametrize(("repetitions", "spread"), [(1, 0.03), (2, 0.065), (12, 0.065), (13, 0.1)])
def test_from_thirteen_repetitions_on_a_test_is_trusted_less(
    repetitions: int, spread: float
) -> None:
    assert capacity_from_set(TestedSet("press", 40.0, repetitions)).sd_fraction == spread
