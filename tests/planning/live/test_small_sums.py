"""Small sums of a running session against all that could be: plates in a turn, lighter loads,
when something began, where a sheet goes on.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, product
from random import Random

import pytest

from cases import cases
from planning.test_drills_by_hand import drills
from planning.test_run_sheet_by_hand import ANN, BEFORE, BO, COMPLEX, CY, sheet
from squadwright.errors import InvalidInput
from squadwright.model.kit import Bar, Kit, PlatePair
from squadwright.model.plan import BarPlan, BarUser, PlatesOnSide, RunLine
from squadwright.planning.live.done import AthleteDone, Fault
from squadwright.planning.live.joined_lines import joined
from squadwright.planning.live.lighter import LighterLoad, free_plates, lighter
from squadwright.planning.live.onset import Onset, lost_pattern, onset_of
from squadwright.planning.live.taken_over import arrival_now, taken_over
from squadwright.planning.live.turn import Turn, fillings, lying_beside
from squadwright.planning.run_sheet import (
    CircuitBlock,
    CircuitStation,
    Drill,
    FixedPart,
    LateArrival,
    PartKind,
    WorkGroup,
)
from squadwright.units import kilograms

BAR = Bar("b", "bar", kilograms(20), kilograms(60))


def user(wave: int, side: Counter[float], load_kg: float = 20.0) -> BarUser:
    plates = tuple(PlatesOnSide(mass, count) for mass, count in side.items() if count)
    return BarUser(f"a{wave}", wave, load_kg, load_kg, plates)


def moved(one: Counter[float], other: Counter[float]) -> int:
    """Plates of one end taken off and put on."""
    return ((one - other) + (other - one)).total()


def every_filling(
    pool: dict[float, int], most_kg: float, before: Counter[float] | None,
    after: Counter[float] | None, change_s: int,
) -> Iterator[tuple[frozenset[tuple[float, int]], int]]:  # fmt: skip
    """All that may hang on the bar of 20 kg, which bears 60 kg, by trying everything."""
    fits = change_s // 5
    if before is not None and after is not None:
        fits = max(fits, moved(before, after))
    plates = [mass for mass, count in pool.items() for _ in range(count)]
    sides = {
        frozenset(Counter(chosen).items())
        for count in range(len(plates) + 1)
        for chosen in combinations(plates, count)
    }
    for side in sides:
        here = Counter(dict(side))
        hung_kg = 2 * sum(mass * count for mass, count in here.items())
        each = [moved(other, here) for other in (before, after) if other is not None]
        if hung_kg <= min(60, most_kg - 20) and all(count <= fits for count in each):
            yield side, sum(each)


@pytest.mark.random_cases
def test_what_a_turn_may_carry_is_what_trying_everything_finds() -> None:
    masses = (1.25, 2.5, 5.0, 10.0)
    seen = 0
    for seed in range(cases(150)):
        random = Random(seed)
        pool = {mass: random.randint(0, 2) for mass in masses}
        waves = sorted(random.sample(range(1, 5), random.randint(0, 3)))
        sides = {w: Counter({m: random.randint(0, 1) for m in masses}) for w in waves}
        free = [wave for wave in range(1, 6) if wave not in waves]
        wave, change_s = random.choice(free), random.choice((0, 4, 5, 9, 10, 20))
        most_kg = random.choice((30.0, 45.0, 60.0, 100.0))
        before = after = None
        if waves:
            # Who is before the first is the last, who is after the last the first.
            before = sides[max((w for w in waves if w < wave), default=waves[-1])]
            after = sides[min((w for w in waves if w > wave), default=waves[0])]
        expected = dict(every_filling(pool, most_kg, before, after, change_s))
        users = [user(w, side) for w, side in sides.items()]
        random.shuffle(users)
        in_grams = {round(mass * 1000): count for mass, count in pool.items()}
        turn = Turn(BAR, wave, users, in_grams, change_s, round(most_kg * 1000))
        found = {}
        for each in fillings(turn):
            side = {mass / 1000: count for mass, count in each.side.items()}
            hung = 2 * sum(mass * count for mass, count in side.items())
            assert each.load_g == round(1000 * (20 + hung))
            found[frozenset(side.items())] = each.moves
        assert found == expected, seed
        seen += len(found)
    assert seen > 100


def test_a_bar_without_a_known_limit_bears_what_is_asked() -> None:
    turn = Turn(replace(BAR, maximum_load=None), 1, (), {50_000: 1}, 0, 120_000)
    assert [each.load_g for each in fillings(turn)] == [20_000, 120_000]
    assert [each.load_g for each in fillings(replace(turn, most_g=119_999))] == [20_000]


def test_beside_a_bar_lies_the_most_of_each_plate_that_one_of_its_users_needs() -> None:
    users = (user(1, Counter({5.0: 2, 2.5: 1})), user(2, Counter({5.0: 1, 10.0: 1})))
    assert dict(lying_beside(users)) == {5000: 2, 2500: 1, 10_000: 1}


@pytest.mark.random_cases
def test_the_next_lighter_load_is_what_trying_everything_finds() -> None:
    for seed in range(cases(200)):
        random = Random(seed)
        side = Counter({m: random.randint(0, 2) for m in (1.25, 2.5, 5.0, 10.0)})
        now = sum(mass * count for mass, count in side.items())
        load_kg = 15 + 2 * now
        free = random.sample((0.5, 1.25, 2.5, 5.0, 10.0), random.randint(0, 3))
        on = [mass for mass, count in side.items() for _ in range(count)]
        left = {sum(c) for n in range(len(on) + 1) for c in combinations(on, n)}
        below = [total for total in left if total < now]
        found = lighter(user(1, side, load_kg), free)
        if not below:
            assert found is None
            continue
        best, fewest = max(below), 0
        if 2 * (now - best) > load_kg / 5:
            ways = [
                (total + sum(fetched), -count)
                for total in below
                for count in range(3)
                for fetched in combinations(free, count)
                if total + sum(fetched) < now
            ]
            best, fewest = max(ways)
        assert found is not None
        assert found.load_kg == pytest.approx(load_kg - 2 * (now - best)), seed
        assert len(found.fetched_kg) == -fewest, seed


def test_a_step_of_just_a_fifth_takes_nothing_from_the_store() -> None:
    # 2 x 2.5 of 25 kg are a fifth, of 24.9 kg more than one.
    just = BarUser("a", 1, 25.0, 25.0, (PlatesOnSide(2.5, 1),))
    assert lighter(just, (2.0,)) == LighterLoad(20.0)
    assert lighter(replace(just, load_kg=24.9), (2.0,)) == LighterLoad(23.9, (2.0,))


def test_plates_lie_free_that_no_bar_needs_in_any_wave() -> None:
    kit = Kit(
        plates=(
            PlatePair("a", kilograms(10), 2),
            PlatePair("b", kilograms(10), 1),
            PlatePair("c", kilograms(5), 2),
            PlatePair("d", kilograms("2.5"), 1, in_service=False),
        )
    )
    first = BarPlan("1", "1", 20, (user(1, Counter({10.0: 2})), user(2, Counter({10.0: 1}))))
    assert free_plates(kit, (first,)) == (10.0, 5.0)
    second = BarPlan("2", "2", 20, (user(1, Counter({10.0: 1, 5.0: 1})),))
    assert free_plates(kit, (first, second)) == (5.0,)


def of_rounds(planned: int, first: int = 1) -> AthleteDone:
    return AthleteDone("a", planned, planned, 40.0, first_round=first)


@pytest.mark.parametrize(
    ("rounds", "planned", "first", "onset"),
    [
        ((1,), 4, 1, Onset.SKILL),
        ((3, 1), 4, 1, Onset.SKILL),
        ((2,), 4, 1, Onset.EITHER),
        ((3,), 4, 1, Onset.FATIGUE),
        ((2,), 3, 1, Onset.FATIGUE),
        ((2,), 4, 2, Onset.SKILL),
        ((3,), 4, 2, Onset.EITHER),
        ((4,), 4, 2, Onset.FATIGUE),
        ((1,), 4, 2, Onset.SKILL),
        ((1,), 1, 1, Onset.EITHER),
        ((1,), 2, 1, Onset.SKILL),
        ((2,), 2, 1, Onset.FATIGUE),
        ((0,), 4, 1, Onset.EITHER),
        ((0, 3), 4, 1, Onset.FATIGUE),
    ],
)
def test_the_first_own_round_speaks_of_skill_and_the_second_half_of_fatigue(
    rounds: tuple[int, ...], planned: int, first: int, onset: Onset
) -> None:
    assert onset_of(rounds, of_rounds(planned, first)) is onset


def test_lost_repetitions_of_the_first_round_speak_of_neither() -> None:
    assert lost_pattern(of_rounds(4)) is None
    for lost, onset, since in (
        (((1, 2), (4, 1)), Onset.EITHER, "from round 1"),
        (((3, 3),), Onset.FATIGUE, "from round 3, likely fatigue"),
        (((0, 3),), Onset.EITHER, ""),
    ):
        found = lost_pattern(replace(of_rounds(4), lost=lost))
        assert found is not None
        assert (found.count, found.onset, found.since) == (3, onset, since)
    assert replace(of_rounds(4), faults=(Fault("f", 1, ""),)).is_all_done


def line(start_s: int, end_s: int, activity: str, group: str = "all", **more: object) -> RunLine:
    return RunLine(start_s, end_s, group, "", None, activity, **more)  # type: ignore[arg-type]


def times(lines: tuple[RunLine, ...]) -> list[tuple[int, int, str, str]]:
    return [(each.start_s, each.end_s, each.activity, each.group) for each in lines]


WARM = line(0, 500, "warm-up")
ROUND_1 = line(500, 560, "work", "w1", block="A", round=1)
ROUND_1_B = line(580, 640, "work", "w2", block="A", round=1)
HELPS = line(500, 900, "help and watch", "x", block="A")
ROUND_2 = line(660, 720, "work", "w1", block="A", round=2)
PACKS = line(900, 1000, "pack away")
FORMER = (WARM, ROUND_1, HELPS, ROUND_1_B, ROUND_2, PACKS)
COMING = (
    line(520, 660, "finish what is under way"),
    line(660, 720, "work", "w1", block="A", round=2),
    line(720, 800, "pack away"),
)


def test_a_round_under_way_keeps_its_lines_and_what_comes_follows() -> None:
    assert times(joined(FORMER, COMING, 520, ())) == [
        (0, 500, "warm-up", "all"),
        (500, 560, "work", "w1"),
        # Who helps does so until the round is finished.
        (500, 660, "help and watch", "x"),
        (580, 640, "work", "w2"),
        (660, 720, "work", "w1"),
        (720, 800, "pack away", "all"),
    ]


def test_a_part_under_way_goes_on_as_one_line() -> None:
    coming = (line(300, 450, "warm-up"), line(450, 510, "work", "w1", block="A"))
    assert times(joined(FORMER, coming, 300, ())) == [
        (0, 450, "warm-up", "all"),
        (450, 510, "work", "w1"),
    ]
    other = (line(300, 450, "rehearsal"),)
    assert times(joined(FORMER, other, 300, ())) == [
        (0, 300, "warm-up", "all"),
        (300, 450, "rehearsal", "all"),
    ]
    later = (line(301, 450, "warm-up"),)
    assert times(joined(FORMER, later, 300, ())) == [
        (0, 300, "warm-up", "all"),
        (301, 450, "warm-up", "all"),
    ]
    # A part that was over before is none that goes on.
    early = (line(0, 200, "warm-up"), line(200, 300, "rehearsal"))
    assert times(joined(early, (line(300, 450, "warm-up"),), 300, ())) == [
        (0, 200, "warm-up", "all"),
        (200, 300, "rehearsal", "all"),
        (300, 450, "warm-up", "all"),
    ]
    # At the very beginning of a part nothing of it has been done.
    assert times(joined(FORMER, (line(0, 450, "warm-up"),), 0, ())) == [(0, 450, "warm-up", "all")]


def test_of_drills_the_group_that_has_begun_one_finishes_it() -> None:
    """g does d from 500 s on in two sets, and then e; h begins d at 560 s."""
    former = (
        line(500, 520, "work", "g", block="D", step="d"),
        line(540, 560, "work", "g", block="D", step="d"),
        line(560, 580, "work", "h", block="D", step="d"),
        line(570, 590, "work", "g", block="D", step="e"),
        line(500, 560, "watch", "h", block="D", step="d"),
    )
    coming = (
        line(510, 560, "finish what is under way"),
        line(560, 580, "work", "h", block="D", step="d"),
    )
    kept = [
        (500, 520, "work", "g"),
        (500, 560, "watch", "h"),
        (540, 560, "work", "g"),
        (560, 580, "work", "h"),
    ]
    assert times(joined(former, coming, 510, ("D",))) == kept
    # A block that is none of drills keeps all that begins before the end.
    assert times(joined(former, coming, 510, ())) == kept


CIRCUIT = CircuitBlock(
    "B",
    (CircuitStation("box", "jump", 2), CircuitStation("mat", "plank", 2)),
    (WorkGroup("g", ("ann", "bo")),),
    *(30, 10, 2),
)


def test_what_is_left_of_a_complex_is_done_by_whom_a_newer_plan_has() -> None:
    left = replace(COMPLEX, rounds=2, users=(replace(ANN, rounds=1), replace(CY, first_round=2)))
    newer = replace(
        COMPLEX,
        users=(replace(ANN, bar="bar 2", rounds=3), replace(CY, wave=1), replace(BO, wave=3)),
    )
    block = taken_over(left, replace(sheet(3600), blocks=(CIRCUIT, newer)))
    assert {(u.athlete, u.bar, u.wave, u.rounds, u.first_round) for u in block.users} == {  # type: ignore[union-attr]
        ("ann", "bar 2", 1, 1, 1),
        ("cy", "bar 1", 1, None, 2),
        # Who comes in has his own rounds from the next one on.
        ("bo", "bar 1", 3, 2, 1),
    }
    assert block.rounds == 2  # type: ignore[union-attr]


def test_a_block_that_the_newer_plan_lacks_or_runs_otherwise_stays() -> None:
    asked = replace(sheet(3600), blocks=(replace(CIRCUIT, name="A"),))
    assert taken_over(COMPLEX, asked) is COMPLEX
    assert taken_over(CIRCUIT, asked) is CIRCUIT


def test_what_is_left_of_a_circuit_keeps_its_stations_and_has_the_newer_groups() -> None:
    box, mat = CIRCUIT.stations
    left = replace(CIRCUIT, stations=(mat,), rounds=1)
    newer = replace(
        CIRCUIT, stations=(box, replace(mat, capacity=3)), groups=(WorkGroup("h", ("cy",)),)
    )
    assert taken_over(left, replace(sheet(3600), blocks=(newer,))) == replace(
        left, stations=(replace(mat, capacity=3),), groups=newer.groups
    )
    other = replace(newer, stations=(replace(box, name="ring"),))
    found = taken_over(left, replace(sheet(3600), blocks=(other,)))
    assert found == replace(left, stations=other.stations, groups=newer.groups)


def test_a_new_group_has_done_what_most_of_its_members_have() -> None:
    d, e = Drill("d", 1, 20), Drill("e", 2, 20)
    left = replace(
        drills(e, members=("ann", "bo", "cy")),
        groups=(WorkGroup("g", ("ann", "bo", "cy"), ("d",)), WorkGroup("h", ("di", "ed"), ("e",))),
    )
    newer = replace(
        drills(d, replace(e, sets=1)),
        groups=(
            WorkGroup("1", ("ann", "bo", "di")),
            WorkGroup("2", ("ed", "zoe")),
            WorkGroup("3", ("yan",)),
        ),
    )
    block = taken_over(left, replace(sheet(3600), blocks=(newer,)))
    assert [(g.name, g.done) for g in block.groups] == [("1", ("d",)), ("2", ("e",)), ("3", ())]  # type: ignore[union-attr]
    assert block.drills == (replace(e, sets=1),)  # type: ignore[union-attr]
    none = replace(newer, drills=(d,))
    assert taken_over(left, replace(sheet(3600), blocks=(none,))).drills == (e,)  # type: ignore[union-attr]


def test_who_comes_now_rehearses_with_the_squad_or_alone_where_that_is_over() -> None:
    newer = sheet(3600, LateArrival("bo", 900, rehearsal_s=50), LateArrival("ann", 900))
    ahead, over = sheet(3600), replace(sheet(3600), before=())
    for left, rehearsals in ((ahead, (None, 50)), (over, (200, 50))):
        for name, rehearsal_s in zip(("ann", "bo"), rehearsals, strict=True):
            found = arrival_now(name, newer, left)
            assert (found.arrives_s, found.rehearsal_s) == (0, rehearsal_s)
    twice = replace(newer, before=(*BEFORE, FixedPart(PartKind.REHEARSAL, 30)))
    assert arrival_now("ann", twice, over).rehearsal_s == 230
    with pytest.raises(InvalidInput, match="does not train today"):
        arrival_now("cy", newer, ahead)


def test_trying_everything_tries_everything() -> None:
    """Two plates of one mass and one of another: six ends of a bar."""
    found = dict(every_filling({1.0: 2, 2.0: 1}, 100, None, None, 0))
    ends = {
        frozenset({(1.0, n), (2.0, m)} - {(1.0, 0), (2.0, 0)})
        for n, m in product(range(3), range(2))
    }
    assert set(found) == ends
