"""Stores made up at random, from poor to rich."""

from decimal import Decimal
from random import Random

from squadwright.model.kit import Ball, Bar, Box, CollarPairs, Kit, PlatePair, SinglePlate
from squadwright.units import kilograms, pounds


def kit_of(random: Random, people: int) -> Kit:
    """Bars, plates, collars, balls and boxes for about so many people."""
    wealth = random.choice((0.6, 1.0, 1.0, 1.5))
    bars = _bars(random, people, wealth)
    return Kit(
        bars=bars,
        plates=_plates(random, len(bars), wealth),
        single_plates=(SinglePlate("lone", kilograms(5)),) if random.random() < 0.3 else (),
        collars=(
            CollarPairs("collars", random.randint(len(bars) // 2, len(bars) + 2)),
            CollarPairs("slipping", 1, in_service=False),
        ),
        balls=_balls(random, people, wealth),
        boxes=_boxes(random, people, wealth),
    )


def _bars(random: Random, people: int, wealth: float) -> tuple[Bar, ...]:
    count = max(1, round(people * wealth * random.uniform(0.4, 0.7)))
    bars = []
    for number in range(1, count + 1):
        mass = random.choice((kilograms(20), kilograms(15), kilograms(15), pounds(45)))
        bars.append(
            Bar(
                f"bar-{number}",
                f"bar {number}",
                mass,
                maximum_load=kilograms(200) if random.random() < 0.2 else None,
                in_service=number == 1 or random.random() < 0.93,
            )
        )
    for number in range(random.choice((0, 1, 1, 2, 3))):
        bars.append(
            Bar(
                f"light-{number}",
                f"technique bar {number}",
                kilograms(random.choice((5, "7.5", 10))),
                maximum_load=kilograms(random.choice((10, 30))),
                is_technique_bar=True,
            )
        )
    return tuple(bars)


def _plates(random: Random, bars: int, wealth: float) -> tuple[PlatePair, ...]:
    plates = []
    for size in ("20", "10", "5", "2.5", "1.25", "0.5"):
        pairs = round(bars * wealth * random.uniform(0.1, 1.2))
        plates.append(PlatePair(f"p-{size}", kilograms(size), pairs, in_service=pairs > 0))
    if random.random() < 0.4:
        measured = kilograms(Decimal("20.41"))
        plates.append(PlatePair("p-45-lb", measured, random.randint(1, 3), stamped=pounds(45)))
    if random.random() < 0.4:
        plates.append(PlatePair("p-5-lb", pounds(5), random.randint(1, 4)))
    if random.random() < 0.3:
        plates.append(PlatePair("p-5-odd", kilograms(5), 1, in_service=random.random() < 0.5))
    return tuple(plates)


def _balls(random: Random, people: int, wealth: float) -> tuple[Ball, ...]:
    balls = []
    for mass in (2, 3, 4, 6):
        for bounces in (True, False):
            count = round(people * wealth * random.uniform(0, 0.35))
            if count:
                name = f"{'ball' if bounces else 'slam'}-{mass}"
                balls.append(
                    Ball(
                        name,
                        kilograms(mass),
                        count,
                        bounces=bounces,
                        fit_for_walls=random.random() < 0.8,
                        in_service=random.random() < 0.9,
                    )
                )
    if random.random() < 0.3:
        balls.append(Ball("ball-10-lb", pounds(10), 2))
    return tuple(balls)


def _boxes(random: Random, people: int, wealth: float) -> tuple[Box, ...]:
    kinds = ((0.3,), (0.3, 0.45), (0.4, 0.5, 0.6), (0.2,))
    return tuple(
        Box(
            f"box-{number}",
            random.choice(kinds),
            is_foam=random.random() < 0.4,
            fit_for_landing=random.random() < 0.9,
            maximum_body_mass=kilograms(120) if random.random() < 0.2 else None,
            in_service=random.random() < 0.93,
        )
        for number in range(1, max(0, round(people * wealth * random.uniform(0.2, 0.9))) + 1)
    )
