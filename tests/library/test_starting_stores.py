"""Stores to start from are sound kit, and each starts from what its name says."""

from datetime import date

import pytest

from squadwright.errors import NotFound
from squadwright.exchange.club_file import mistakes
from squadwright.library.starting_stores import STARTING_STORES, kit_of, starting_store
from squadwright.model.club import Club
from squadwright.model.kit import Kit
from squadwright.units import MassUnit, pounds

TODAY = date(2026, 3, 2)
IDS = [store.id for store in STARTING_STORES]


@pytest.mark.parametrize("store_id", IDS)
def test_each_store_is_sound_as_it_stands_and_with_one_of_everything(store_id: str) -> None:
    store = starting_store(store_id)
    everything = {row.id: 1 for row in store.rows}
    for counts in (store.counts, everything, {}):
        club = Club(name="Any", kit=kit_of(store, counts))
        assert list(mistakes(club, today=TODAY)) == []
        assert club.kit != Kit()


@pytest.mark.parametrize("store_id", IDS)
def test_every_count_has_a_row(store_id: str) -> None:
    store = starting_store(store_id)
    assert set(store.counts) <= {row.id for row in store.rows}
    assert len({row.id for row in store.rows}) == len(store.rows)


def test_bars_become_single_pieces_and_plates_stay_pairs() -> None:
    kit = kit_of(starting_store("six-bars"), {"bar_20": 2, "technique_10": 1, "plates_2_5": 3})
    assert [bar.name for bar in kit.bars] == ["20 kg bar 1", "20 kg bar 2", "10 kg technique bar 1"]
    assert [bar.is_technique_bar for bar in kit.bars] == [False, False, True]
    assert (kit.plates[0].plate.kg, kit.plates[0].pairs) == (2.5, 3)


def test_a_store_in_pounds_keeps_what_is_stamped() -> None:
    kit = kit_of(starting_store("pounds"), {"plates_45": 2, "bar_45": 1})
    assert kit.plates[0].stamped == pounds(45)
    assert kit.bars[0].mass.unit is MassUnit.POUND


def test_an_unknown_store_is_not_found() -> None:
    with pytest.raises(NotFound, match="cellar"):
        starting_store("cellar")
