"""The store as the plate problem sees it, and one bound for several blocks, by hand."""

from dataclasses import replace

from squadwright.model.kit import Bar, Kit, PlatePair
from squadwright.model.plan import KitBound
from squadwright.planning.kit.problem import KitBar, PlateSize
from squadwright.planning.kit_bound import worst_bound
from squadwright.planning.kit_in_service import kit_bars, plate_sizes, usable_bars
from squadwright.units import kilograms, pounds


def test_bars_in_service_come_in_grams_with_what_they_carry() -> None:
    kit = Kit(
        bars=(
            Bar("a", "A", kilograms("20.4"), maximum_load=kilograms(150)),
            Bar("b", "B", pounds(45)),
            Bar("c", "C", kilograms(15), in_service=False),
        )
    )
    assert [bar.id for bar in usable_bars(kit)] == ["a", "b"]
    # 45 lb of 0.45359237 kg are 20.41165665 kg.
    assert kit_bars(kit) == (KitBar("a", 20_400, "A", 150_000), KitBar("b", 20_412, "B", None))


def test_pairs_of_one_mass_are_counted_together_and_those_out_of_service_are_not() -> None:
    kit = Kit(
        plates=(
            PlatePair("p1", kilograms(5), 2),
            PlatePair("p2", kilograms("2.5"), 3),
            PlatePair("p3", kilograms(5), 1),
            PlatePair("p4", kilograms(5), 4, in_service=False),
            PlatePair("p5", kilograms(10), 0),
            PlatePair("p6", kilograms(1), 9, in_service=False),
        )
    )
    assert plate_sizes(kit) == (PlateSize(2_500, 3), PlateSize(5_000, 3), PlateSize(10_000, 0))


def test_the_bound_of_a_plan_is_the_worst_share_and_the_sum_of_the_rest() -> None:
    first = KitBound(
        largest_shortfall_fraction=0.05,
        largest_shortfall_bound=0.05,
        total_shortfall_kg=1.5,
        plate_moves=2,
        plates_handled=7,
        proven=True,
        advice=("one",),
    )
    second = replace(
        first,
        largest_shortfall_fraction=0.2,
        largest_shortfall_bound=0.1,
        total_shortfall_kg=4.0,
        plate_moves=3,
        plates_handled=5,
        proven=False,
        advice=("two", "three"),
    )
    assert worst_bound(()) is None
    assert worst_bound((first,)) == first
    for bounds in ((first, second), (second, first)):
        found = worst_bound(bounds)
        assert found is not None
        assert (found.largest_shortfall_fraction, found.largest_shortfall_bound) == (0.2, 0.1)
        assert (found.total_shortfall_kg, found.plate_moves, found.plates_handled) == (5.5, 5, 12)
        assert not found.proven
        assert sorted(found.advice) == ["one", "three", "two"]
    both = worst_bound((first, first))
    assert both is not None
    assert both.proven
