"""The battery: every test is whole, its bands are as printed, its methods never mix.

Bands of 2017 and 2018 were read; those of the special judo fitness test are from memory, and the
five athletes below were worked out from them by hand.
"""

import pytest

from squadwright.errors import InvalidInput, NotFound
from squadwright.formulas.honest_change import Better
from squadwright.formulas.judo_fitness import special_judo_fitness_index
from squadwright.formulas.registry import all_formulas
from squadwright.formulas.sources import Provenance
from squadwright.library.fitness_tests import fitness_test, fitness_tests
from squadwright.model.fitness_test import BandTable, Family, FitnessTest
from squadwright.planning.test_day.order import ORDERS
from squadwright.planning.test_day.problem import Station

EVERY = [pytest.param(test, id=test.id) for test in fitness_tests()]
WITH_BANDS = [
    pytest.param(table, id=f"{test.id}, {table.measure}")
    for test in fitness_tests()
    for table in test.bands
]
NOT_REGISTERED = {"one_rep_max"}


def test_the_battery_covers_every_family_and_each_id_stands_once() -> None:
    assert {test.family for test in fitness_tests()} == set(Family)
    ids = [test.id for test in fitness_tests()]
    assert len(set(ids)) == len(ids) == 19


@pytest.mark.parametrize("test", EVERY)
def test_a_test_says_how_it_is_done_and_where_that_is_from(test: FitnessTest) -> None:
    assert test.methods
    assert len(set(test.methods)) == len(test.methods)
    assert test.kit
    assert len(test.protocol) > 20
    assert test.protocol_source
    if "no source" in test.protocol_source:
        assert test.protocol_mark is Provenance.MEMORY
    assert test.duration_s >= (test.attempts - 1) * test.rest_between_s
    assert set(test.formulas) - NOT_REGISTERED <= set(all_formulas())


@pytest.mark.parametrize("test", EVERY)
def test_every_test_can_stand_in_a_day_of_testing(test: FitnessTest) -> None:
    station = Station(test.id, test.kind, test.duration_s)
    assert all(order.stage(station.kind) >= 0 for order in ORDERS)


@pytest.mark.parametrize("table", WITH_BANDS)
def test_bands_cover_both_ends_and_each_printed_limit_is_the_last_of_its_band(
    table: BandTable,
) -> None:
    assert table.people
    assert table.source
    assert sum(band.low is None for band in table.bands) == 1
    assert sum(band.high is None for band in table.bands) == 1
    for band in table.bands:
        if band.high is not None:
            assert band.low is None or band.low <= band.high
            assert table.band_of(band.high) == band.name
            assert table.band_of(band.high + 10.0**-table.decimals) != band.name


@pytest.mark.parametrize(
    ("throws", "end", "later", "index", "band"),
    [
        (29, 172, 140, 10.7586, "excellent"),
        (27, 178, 152, 12.2222, "good"),
        (26, 186, 163, 13.4231, "regular"),
        (25, 190, 170, 14.4000, "poor"),
        (24, 196, 176, 15.5000, "very poor"),
    ],
)
def test_five_judoka_fall_into_the_five_bands(
    throws: int, end: int, later: int, index: float, band: str
) -> None:
    test = fitness_test("special_judo_fitness_test")
    found = special_judo_fitness_index(end, later, throws)
    assert found == pytest.approx(index, abs=5e-5)
    assert test.table("index").band_of(found) == band
    assert test.table("throws").band_of(throws) == band
    assert test.table("heart rate at the end").band_of(end) == band
    assert test.table("heart rate after one minute").band_of(later) == band
    assert test.table("index").mark is Provenance.MEMORY
    assert "not for cadets, juniors or women" in test.table("index").people


@pytest.mark.parametrize(
    ("test_id", "measure", "value", "band"),
    [
        ("jacket_chin_up_hold", "time held", 10, "very poor"),
        ("jacket_chin_up_hold", "time held", 55, "regular"),
        ("jacket_chin_up_hold", "time held", 63, "excellent"),
        ("jacket_chin_up_hold", "time x body mass", 3963, "good"),
        ("jacket_chin_up_repetitions", "repetitions", 16, "regular"),
        ("jacket_chin_up_repetitions", "repetitions x body mass", 1464, "excellent"),
        ("grip_strength", "force / body mass", 0.6790, "very poor"),
        ("grip_strength", "force / body mass", 1.80, "excellent"),
        ("leg_pull", "force / body mass", 2.16, "good"),
        ("back_pull", "force / body mass", 2.55, None),
        ("back_pull", "force / body mass", 2.6, "excellent"),
        ("countermovement_jump", "height x body mass", 4300, "good or excellent"),
        ("squat_jump", "height x body mass", 4029.5, "excellent"),
        ("plyometric_push_up", "height x body mass", 901.9, "poor"),
        ("shuttle_300_yards", "time", 59.7, "70th to 90th percentile"),
        ("seated_chest_throw", "distance", 5.0, "within one SD of their mean"),
        ("burpee_three_minutes", "repetitions", 67, "above the average band"),
    ],
)
def test_a_value_falls_into_the_band_that_is_printed(
    test_id: str, measure: str, value: float, band: str | None
) -> None:
    assert fitness_test(test_id).table(measure).band_of(value) == band


def test_a_value_between_two_printed_limits_is_rounded_as_the_table_prints() -> None:
    table = fitness_test("special_judo_fitness_test").table("index")
    assert table.band_of(11.734) == "excellent"
    assert table.band_of(11.736) == "good"


def test_times_and_the_judo_index_are_better_when_lower() -> None:
    lower = {test.id for test in fitness_tests() if test.better is Better.LOWER}
    assert lower == {"special_judo_fitness_test", "shuttle_300_yards", "queens_step"}


def test_a_number_keeps_its_method_and_another_method_is_refused() -> None:
    jump = fitness_test("countermovement_jump")
    number = jump.measured(0.41, "jump and reach")
    assert (number.quantity, number.unit, number.method) == ("jump height", "m", "jump and reach")
    with pytest.raises(InvalidInput, match="method: 'by eye' is none of force plate, impulse"):
        jump.measured(0.41, "by eye")


def test_unknown_tests_and_measures_are_answered_with_what_there_is() -> None:
    with pytest.raises(NotFound, match="Nearest: grip_strength"):
        fitness_test("grip_strenght")
    with pytest.raises(InvalidInput, match="no bands of 'speed'"):
        fitness_test("back_pull").table("speed")
