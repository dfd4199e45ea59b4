"""The shelves of the store: one list, which everything that goes through the store follows."""

from dataclasses import fields

from squadwright.model.kit import Kit
from squadwright.model.shelf import Shelf
from squadwright.storage.repository import IN_STORE


def test_every_part_of_the_kit_that_holds_pieces_is_a_shelf() -> None:
    assert [field.name for field in fields(Kit) if field.name != "store_walk"] == [
        shelf.value for shelf in Shelf
    ]


def test_every_shelf_is_stored() -> None:
    assert [shelf for shelf, _, _ in IN_STORE] == list(Shelf)
