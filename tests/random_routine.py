"""Routines made up at random: complexes whose bar flow is whole, sets, lanes and circuits."""

from collections.abc import Callable
from random import Random

from squadwright.library import exercises
from squadwright.model.exercise import BarPosition, Exercise, Modality, Sides, Travel
from squadwright.model.routine import (
    Alternation,
    Block,
    CountedIn,
    Facing,
    GroupKind,
    LaneRule,
    Rest,
    RestKind,
    Routine,
    Scheme,
    Step,
    Style,
)

LOW = {BarPosition.FLOOR, BarPosition.HANG, BarPosition.HIP}
WITHOUT_BAR = (
    Modality.PLYOMETRIC,
    Modality.MEDICINE_BALL,
    Modality.BOX_PUSH_UP,
    Modality.BODYWEIGHT,
)


def routine_of(random: Random) -> Routine:
    """One or two blocks of any style."""
    makers: list[Callable[[Random, str], Block]] = random.choices(
        (complex_block, sets_block, row_block, lane_block, circuit_block, barbell_sets_block),
        weights=(8, 5, 2, 2, 3, 1),
        k=random.choices((1, 2), weights=(3, 1))[0],
    )
    return Routine(
        id="made-up",
        version=random.randint(1, 3),
        name="Made up",
        aim="whatever comes out",
        blocks=tuple(maker(random, name) for maker, name in zip(makers, "MN", strict=False)),
        warm_up_s=random.choice((480, 600, 720)),
        rehearsal_s=random.choice((0, 180, 300, 480)),
        cautions=("Stop when form is lost.",) if random.random() < 0.7 else (),
    )


def complex_block(random: Random, name: str) -> Block:
    """Two to seven exercises with one bar; each takes the bar where the one before left it."""
    lifts = [e for e in exercises() if e.modality is Modality.BARBELL]
    while True:
        chain = [random.choice(lifts)]
        for _ in range(random.randint(1, 6)):
            following = [e for e in lifts if e not in chain and meets(chain[-1].end, e.start)]
            if not following:
                break
            chain.append(random.choice(following))
        first, last = chain[0].start, chain[-1].end
        if meets(last, first) or (first in LOW and last is not BarPosition.BACK_RACK):
            break
    steps = [Step(e.id, scheme_of(random, e), label=str(n)) for n, e in enumerate(chain, start=1)]
    if not meets(last, first):
        ends = Step(steps[-1].exercise, steps[-1].scheme, steps[-1].label, BarPosition.HANG)
        steps[-1] = ends
    return Block(
        name=name,
        style=Style.COMPLEX,
        steps=tuple(steps),
        rounds=random.randint(2, 5),
        work_s=random.choice((None, 90, 100)),
        changeover_s=random.choice((15, 20, 30)),
        rest=random.choice((Rest(RestKind.PARTNER_WORKS), Rest(RestKind.SECONDS, 90))),
        group_kind=GroupKind.WAVES,
        waves=random.choice((1, 2, 2, 2, 3)),
    )


def meets(end: BarPosition | None, start: BarPosition | None) -> bool:
    """Whether the bar gets from one exercise to the next without a word."""
    return end is start or {end, start} <= LOW


def scheme_of(random: Random, exercise: Exercise, *, sets: int = 1) -> Scheme:
    """A usual amount of an exercise."""
    if exercise.is_hold:
        return Scheme(CountedIn.SECONDS, random.choice((10, 15, 20)), sets)
    if exercise.sides is Sides.EACH:
        return Scheme(CountedIn.REPETITIONS_EACH_SIDE, random.randint(2, 4), sets)
    hold_s = 5 if random.random() < 0.1 else 0
    return Scheme(CountedIn.REPETITIONS, random.randint(3, 8), sets, hold_s)


def sets_block(random: Random, name: str) -> Block:
    """Jumps, throws, push-ups and bodyweight work in sets."""
    pool = [e for e in exercises() if e.modality in WITHOUT_BAR and not e.needs.box_row]
    chosen = random.sample(pool, random.randint(2, 5))
    return Block(
        name=name,
        style=Style.SETS,
        steps=tuple(
            Step(e.id, sets_of(random, e), label=f"{name}{n}")
            for n, e in enumerate(chosen, start=1)
        ),
        rest=random.choice(
            (Rest(RestKind.PARTNER_WORKS), Rest(seconds=45), Rest(RestKind.WORK_TO_REST, ratio=2.0))
        ),
        changeover_s=random.choice((20, 40)),
        alternation=random.choice(list(Alternation)),
        group_kind=random.choice((GroupKind.ALONE, GroupKind.PAIRS, GroupKind.THREES)),
    )


def sets_of(random: Random, exercise: Exercise) -> Scheme:
    """Two to four sets; a ladder now and then."""
    sets = random.randint(2, 4)
    if exercise.id == "ladder-jumps-to-box":
        return Scheme(CountedIn.LADDER_TO, random.randint(3, 6), sets, 10)
    return scheme_of(random, exercise, sets=sets)


def row_block(random: Random, name: str) -> Block:
    """Lines over, onto and off a row of boxes."""
    pool = [e for e in exercises() if e.needs.box_row]
    one_way = random.random() < 0.5
    counted = CountedIn.PASSES_ONE_WAY if one_way else CountedIn.PASSES_DOWN_AND_BACK
    return Block(
        name=name,
        style=Style.LANES,
        steps=tuple(
            Step(
                exercise.id,
                Scheme(counted, random.randint(1, 3), random.randint(2, 4)),
                label=f"{name}{n}",
                facing=random.choice(list(Facing)),
            )
            for n, exercise in enumerate(random.sample(pool, random.randint(1, 2)), start=1)
        ),
        rest=Rest(seconds=random.choice((0, 30))),
        group_kind=GroupKind.LANES,
        lane=LaneRule(
            boxes=random.randint(2, 4),
            free_boxes_between=random.randint(1, 2),
            longest_line=random.randint(3, 6),
            sprint_back=one_way,
        ),
    )


def lane_block(random: Random, name: str) -> Block:
    """Lines that travel along the floor without boxes."""
    pool = [
        e
        for e in exercises()
        if e.travel is Travel.FORWARD and e.modality is not Modality.BARBELL and not e.needs.box_row
    ]
    return Block(
        name=name,
        style=Style.LANES,
        steps=tuple(
            Step(exercise.id, scheme_of(random, exercise, sets=random.randint(2, 4)), f"{name}{n}")
            for n, exercise in enumerate(random.sample(pool, min(2, len(pool))), start=1)
        ),
        rest=Rest(seconds=random.choice((0, 30))),
        group_kind=GroupKind.LANES,
        lane=LaneRule(start_gap_s=random.randint(3, 6), longest_line=random.randint(3, 6)),
    )


def circuit_block(random: Random, name: str) -> Block:
    """Stations of bodyweight and ball work, gone through in turn."""
    kinds = (Modality.BODYWEIGHT, Modality.MEDICINE_BALL, Modality.BOX_PUSH_UP)
    pool = [e for e in exercises() if e.modality in kinds]
    return Block(
        name=name,
        style=Style.CIRCUIT,
        steps=tuple(
            Step(exercise.id, scheme_of(random, exercise), label=f"{name}{n}")
            for n, exercise in enumerate(random.sample(pool, random.randint(3, 8)), start=1)
        ),
        rounds=random.randint(1, 3),
        work_s=random.choice((None, 30, 40)),
        changeover_s=random.choice((10, 15)),
        rest=Rest(seconds=random.choice((0, 60))),
        group_kind=random.choice((GroupKind.ALONE, GroupKind.PAIRS, GroupKind.THREES)),
    )


def barbell_sets_block(random: Random, name: str) -> Block:
    """Single lifts in sets, with one exercise without a bar between them."""
    lifts = [e for e in exercises() if e.modality is Modality.BARBELL and meets(e.end, e.start)]
    others = [e for e in exercises() if e.modality is Modality.BODYWEIGHT]
    first, second = random.sample(lifts, 2)
    chosen = (first, random.choice(others), second)
    return Block(
        name=name,
        style=Style.SETS,
        steps=tuple(
            Step(e.id, scheme_of(random, e, sets=random.randint(2, 4)), label=f"{name}{n}")
            for n, e in enumerate(chosen, start=1)
        ),
        rest=random.choice((Rest(RestKind.PARTNER_WORKS), Rest(seconds=90))),
        group_kind=random.choice((GroupKind.PAIRS, GroupKind.THREES)),
    )
