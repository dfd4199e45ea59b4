"""Which ball and which box for whom: each limit at it, below and above; shares tried at random."""

from dataclasses import replace
from datetime import timedelta
from random import Random

import pytest

from cases import cases
from planning.people import MONDAY, person
from squadwright.library import exercise
from squadwright.model.athlete import JumpTest, Level
from squadwright.model.exercise import Exercise, Needs
from squadwright.model.kit import Ball, Box
from squadwright.planning.ball import BallBand, BallUse, ball_band, share_balls, suits
from squadwright.planning.box import box_for, height_limit_m
from squadwright.units import kilograms

PASS = exercise("tall-kneeling-chest-pass")


def needing(**needs: bool) -> Exercise:
    return replace(PASS, needs=Needs(ball=True, **needs))


@pytest.mark.parametrize(
    ("kg", "age", "heaviest"),
    [(60.0, 15, 3.0), (60.0, 16, 4.0), (54.9, 16, 3.0), (None, 15, 2.0), (100.0, 15, 6.0)],
)
def test_the_young_throw_one_step_lighter_up_to_their_sixteenth_birthday(
    kg: float | None, age: int, heaviest: float
) -> None:
    """Bands and the step are our estimate."""
    assert ball_band(kg, age).heaviest_kg == heaviest


SOUND = Ball("b", kilograms(3))


@pytest.mark.parametrize(
    ("ball", "needs", "is_fit"),
    [
        ({}, {}, True),
        ({"in_service": False}, {}, False),
        ({"bounces": False}, {}, True),
        ({"bounces": False}, {"ball_must_bounce": True}, False),
        ({}, {"ball_must_bounce": True}, True),
        ({}, {"ball_must_not_bounce": True}, False),
        ({"bounces": False}, {"ball_must_not_bounce": True}, True),
        ({"fit_for_walls": False}, {"throw_wall": True}, False),
        ({"fit_for_walls": False}, {}, True),
        ({}, {"throw_wall": True}, True),
    ],
)
def test_a_ball_is_left_out_for_one_reason_alone(
    ball: dict[str, bool], needs: dict[str, bool], is_fit: bool
) -> None:
    assert suits(replace(SOUND, **ball), needing(**needs)) is is_fit  # type: ignore[arg-type]


def band(heaviest: float) -> BallBand:
    return BallBand(0.0, 0.0, heaviest)


def ids(found: tuple[Ball | None, ...]) -> list[str | None]:
    return [None if ball is None else ball.id for ball in found]


def test_a_group_keeps_its_ball_and_a_second_piece_goes_to_another_group() -> None:
    balls = (Ball("light", kilograms(2)), Ball("heavy", kilograms(4), count=2))
    other = replace(PASS, id="other")
    uses = [
        BallUse("one", PASS, band(4.0)),
        BallUse("two", PASS, band(4.0)),
        BallUse("one", other, band(4.0)),
        BallUse("six", PASS, band(4.0)),
    ]
    assert ids(share_balls(uses, balls)) == ["heavy", "light", "heavy", "heavy"]


def test_where_all_are_taken_the_piece_with_the_fewest_groups_is_shared() -> None:
    """Three of 4 kg and one of 3 kg for six groups: a fourth on three, then a second on one."""
    balls = (Ball("one", kilograms(3)), Ball("three", kilograms(4), count=3))
    uses = [BallUse(f"g{n}", PASS, band(4.0)) for n in range(6)]
    found = ids(share_balls(uses, balls))
    assert found == ["three", "three", "three", "one", "three", "one"]
    assert ids(share_balls(uses, balls, in_turn=False)).count(None) == 2


@pytest.mark.random_cases
def test_no_ball_is_too_heavy_and_nobody_goes_without_one_that_is_left() -> None:
    for number in range(cases(300)):
        random = Random(number)
        balls = tuple(
            Ball(
                f"b{n}",
                kilograms(random.randint(2, 6)),
                random.randint(1, 2),
                bounces=random.random() < 0.7,
                in_service=random.random() < 0.8,
            )
            for n in range(random.randint(1, 5))
        )
        uses = [
            BallUse(
                f"g{random.randrange(4)}",
                needing(ball_must_bounce=random.random() < 0.5),
                band(float(random.randint(2, 6))),
            )
            for _ in range(random.randint(1, 6))
        ]
        in_turn = random.random() < 0.5
        found = share_balls(uses, balls, in_turn=in_turn)
        holders: dict[str, set[str]] = {}
        for use, ball in zip(uses, found, strict=True):
            if ball is not None:
                assert suits(ball, use.exercise)
                assert ball.mass.kg <= use.band.heaviest_kg
                holders.setdefault(ball.id, set()).add(use.group)
        for use, ball in zip(uses, found, strict=True):
            fitting = [
                b for b in balls if suits(b, use.exercise) and b.mass.kg <= use.band.heaviest_kg
            ]
            left = [b for b in fitting if len(holders.get(b.id, ())) < b.count]
            if ball is None:
                assert not left
                assert not (in_turn and fitting)
        if not in_turn:
            assert all(len(who) <= b.count for b in balls for who in [holders.get(b.id, set())])


@pytest.mark.parametrize(
    ("age", "level", "height"),
    [
        (15, Level.ADVANCED, 0.30),
        (16, Level.ADVANCED, 0.60),
        (16, Level.INTERMEDIATE, 0.50),
        (16, Level.NOVICE, 0.40),
    ],
)
def test_the_limit_goes_by_level_and_stays_low_up_to_the_sixteenth_birthday(
    age: int, level: Level, height: float
) -> None:
    """Our estimate."""
    assert height_limit_m(person(age=age, level=level), drops=False)[0] == height


def test_the_latest_jump_counts() -> None:
    tests = tuple(
        JumpTest("jump", height, MONDAY - timedelta(days=days), "mat")
        for height, days in ((0.35, 1), (0.25, 20), (0.45, 9))
    )
    assert height_limit_m(person(jump_tests=tests), drops=True)[0] == 0.35


@pytest.mark.parametrize(
    ("kg", "drops", "height"), [(100.0, True, 0.6), (100.1, True, 0.46), (100.1, False, 0.6)]
)
def test_above_a_hundred_kilograms_drops_are_lower(kg: float, drops: bool, height: float) -> None:
    """18 in above 220 lb: newspaper column quoting the NSCA, read."""
    who = person(kg=kg, level=Level.ADVANCED)
    assert height_limit_m(who, drops=drops)[0] == height
    assert height_limit_m(person(kg=None, level=Level.ADVANCED), drops=True)[0] == 0.6


FIRM = Box("firm", (0.3, 0.5), top_width_m=0.46, top_depth_m=0.60)


@pytest.mark.parametrize(
    ("changed", "kg", "height"),
    [
        ({}, 80.0, 0.5),
        ({"heights_m": (0.3, 0.51)}, 80.0, 0.3),
        ({"heights_m": (0.51,)}, 80.0, None),
        ({"in_service": False}, 80.0, None),
        ({"fit_for_landing": False}, 80.0, None),
        ({"top_width_m": 0.45}, 80.0, None),
        ({"top_depth_m": 0.59}, 80.0, None),
        ({"maximum_body_mass": kilograms(80)}, 80.0, 0.5),
        ({"maximum_body_mass": kilograms(79)}, 80.0, None),
        ({"maximum_body_mass": kilograms(200)}, None, None),
        ({}, None, 0.5),
    ],
)
def test_a_box_is_left_out_for_one_reason_alone(
    changed: dict[str, object], kg: float | None, height: float | None
) -> None:
    found = box_for(person(kg=kg), (replace(FIRM, **changed),), drops=False)  # type: ignore[arg-type]
    assert (None if found is None else found.height_m) == height


def test_of_boxes_as_high_the_foam_one_is_taken() -> None:
    foam = replace(FIRM, id="a-foam", is_foam=True)
    found = box_for(person(), (FIRM, foam, replace(FIRM, id="z-low", heights_m=(0.3,))), drops=True)
    assert found is not None
    assert found.box is foam
