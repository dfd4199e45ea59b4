"""The store of the demo club, with the traps a real store has: odd pairs, a lone plate, leaks."""

from squadwright.model.kit import (
    Ball,
    Bar,
    Box,
    CollarPairs,
    Kit,
    OtherKit,
    PlatePair,
    SinglePlate,
)
from squadwright.units import kilograms, pounds

BARS = (
    Bar("bar-20-1", "20 kg bar 1", kilograms(20)),
    Bar("bar-20-2", "20 kg bar 2", kilograms(20)),
    Bar("bar-15-1", "15 kg bar 1", kilograms(15)),
    Bar("bar-15-2", "15 kg bar 2", kilograms(15)),
    Bar("bar-15-3", "15 kg bar 3", kilograms(15), note="worn knurl"),
    Bar(
        "bar-10",
        "10 kg technique bar",
        kilograms(10),
        maximum_load=kilograms(30),
        is_technique_bar=True,
    ),
)

PLATES = (
    PlatePair("plates-10", kilograms(10), 2),
    PlatePair("plates-5", kilograms(5), 6),
    PlatePair("plates-2.5", kilograms("2.5"), 5),
    PlatePair("plates-1.25", kilograms("1.25"), 4),
    PlatePair("plates-0.5", kilograms("0.5"), 2),
    PlatePair(
        "plates-45-lb",
        kilograms("20.41"),
        1,
        stamped=pounds(45),
        in_service=False,
        note="odd pair kept apart",
    ),
    PlatePair(
        "plates-2.5-lb",
        kilograms("1.13"),
        1,
        stamped=pounds("2.5"),
        in_service=False,
        note="odd pair kept apart",
    ),
)

BALLS = (
    Ball("ball-2", kilograms(2), 2),
    Ball("ball-3", kilograms(3), 3),
    Ball("ball-3-taped", kilograms(3), 1, fit_for_walls=False, note="taped and leaking"),
    Ball("ball-4", kilograms(4), 4),
    Ball("ball-6", kilograms(6), 2),
    Ball("ball-8", kilograms(8), 1),
    Ball("slam-4", kilograms(4), 2, bounces=False),
    Ball("slam-6", kilograms(6), 2, bounces=False),
)

BOXES = (
    Box("foam-1", (0.4, 0.5, 0.6), is_foam=True, note="turn-box"),
    Box("foam-2", (0.4, 0.5, 0.6), is_foam=True, note="turn-box"),
    Box("wood-1", (0.3,)),
    Box("wood-2", (0.3,)),
    Box("wood-3", (0.3,), fit_for_landing=False, in_service=False, note="wobbles: do not use"),
)

STORE = Kit(
    bars=BARS,
    plates=PLATES,
    single_plates=(SinglePlate("plate-5-lone", kilograms(5), note="lone plate, no twin"),),
    collars=(
        CollarPairs("collars", 5),
        CollarPairs("collars-slipping", 1, in_service=False, note="slips: do not use"),
    ),
    balls=BALLS,
    boxes=BOXES,
    other=(
        OtherKit("hurdles", "low hurdle", 8, height_m=0.15),
        OtherKit("discs", "disc", 20),
        OtherKit("mats", "mat", 6),
        OtherKit("chalk", "chalk", 1),
        OtherKit("whistle", "whistle", 1),
        OtherKit("wall-screen", "24-inch wall screen", 1),
        OtherKit("printer", "printer", 1),
    ),
)
