"""Questions about kit. The pound and inch are exact by the agreement of 1959; usual sizes of kit
are common practice, no source.
"""

from dataclasses import replace

import pytest

from squadwright.demo.store import STORE
from squadwright.exchange.doubtful import Doubt
from squadwright.exchange.doubtful_kit import doubts_of_piece
from squadwright.model.kit import Ball, Bar, Box, CollarPairs, PlatePair, SinglePlate
from squadwright.model.shelf import Piece, Shelf, pieces_on
from squadwright.units import kilograms, pounds


def asked(piece: Piece) -> Doubt:
    (doubt,) = doubts_of_piece(piece)
    return doubt


def meanings(piece: Piece) -> list[str]:
    return [meaning.words for meaning in asked(piece).meanings]


def test_a_plate_of_45_lb_typed_as_45_kg_is_asked_about() -> None:
    doubt = asked(PlatePair("new", kilograms(45), 2))
    assert doubt.place == "stamped"
    assert doubt.question == "45 kg? Plates of 45 lb (20.41 kg) are usual."
    assert doubt.stands_as_typed == "45 kg"
    assert doubt.meanings[0].values == (("stamped", "45"), ("stamped_unit", "lb"))


@pytest.mark.parametrize("mark", ["20", "15", "2"])
def test_a_kilogram_mark_typed_in_pounds_is_asked_about(mark: str) -> None:
    assert meanings(PlatePair("new", pounds(mark), 1)) == [f"{mark} kg"]


@pytest.mark.parametrize(
    "piece",
    [
        PlatePair("new", kilograms("2.5"), 1),
        PlatePair("new", pounds("2.5"), 1),
        PlatePair("new", pounds(45), 1),
        PlatePair("new", kilograms("20.41"), 1, stamped=pounds(45)),
        SinglePlate("new", kilograms(5)),
        Bar("new", "bar", pounds(45)),
        Ball("new", pounds(6)),
        Box("new", (0.3, 0.6)),
        CollarPairs("new", 1, kilograms("0.5")),
    ],
)
def test_usual_pieces_are_not_asked_about(piece: Piece) -> None:
    assert doubts_of_piece(piece) == ()


def test_nothing_of_the_demo_store_is_asked_about() -> None:
    for shelf in Shelf:
        for piece in pieces_on(STORE, shelf):
            assert doubts_of_piece(piece) == ()


@pytest.mark.parametrize(
    ("piece", "question", "offered"),
    [
        (
            Bar("new", "bar", kilograms(200)),
            "200 kg? Bars of 5 to 25 kg are usual.",
            ["20 kg"],
        ),
        (Ball("new", kilograms(60)), "60 kg? Balls of 1 to 15 kg are usual.", ["6 kg"]),
        (
            Box("new", (3.0,)),
            "A box of 300 cm? Boxes of 10 to 120 cm are usual.",
            ["30 cm"],
        ),
        (
            Box("new", (0.004, 0.5)),
            "A box of 0.4 cm? Boxes of 10 to 120 cm are usual.",
            ["40 cm"],
        ),
    ],
)
def test_what_cannot_be_is_not_to_be_taken_as_typed_but_its_meaning_is_offered(
    piece: Piece, question: str, offered: list[str]
) -> None:
    doubt = asked(piece)
    assert doubt.question == question
    assert doubt.stands_as_typed == ""
    assert [meaning.words for meaning in doubt.meanings] == offered


def test_a_bar_of_45_kg_may_be_one_of_45_pounds_and_may_stand() -> None:
    doubt = asked(Bar("new", "bar", kilograms(45)))
    assert doubt.stands_as_typed == "45 kg"
    assert [meaning.words for meaning in doubt.meanings] == ["45 lb (20.41 kg)"]


def test_a_measured_mass_far_from_the_stamp_is_asked_about() -> None:
    near = PlatePair("new", kilograms("10.4"), 1, stamped=kilograms(10))
    assert doubts_of_piece(near) == ()
    doubt = asked(replace(near, plate=kilograms("8.8")))
    assert doubt.question == "Measured 8.8 kg, stamped 10 kg: 12% apart. Is it so?"
    in_pounds = replace(near, plate=kilograms("22"))
    assert meanings(in_pounds) == ["22 lb (9.98 kg)"]


def test_several_heights_keep_the_others_in_the_meaning_offered() -> None:
    doubt = asked(Box("new", (0.4, 5.0, 0.6)))
    assert doubt.meanings[0].values == (("heights", "40, 50, 60"),)
