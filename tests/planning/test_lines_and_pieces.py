"""Lines of the run sheet and pieces to fetch, from a few entries and bars put there by hand."""

from collections import Counter
from dataclasses import replace
from random import Random

import pytest

from cases import cases
from planning.people import bar, dose, group, planned, user
from squadwright.model.kit import Ball, Bar, Box, CollarPairs, Kit, PlatePair
from squadwright.model.plan import BarPlan, RunLine, SetUpItem
from squadwright.planning.drill_block import ROW_POOL
from squadwright.planning.run_lines import (
    LineKeys,
    OwnRounds,
    OwnSets,
    TimedStep,
    run_lines,
)
from squadwright.planning.run_sheet.problem import (
    BlockTiming,
    RestOwed,
    RunEntry,
    RunSheetSolution,
)
from squadwright.planning.set_up import set_up_items
from squadwright.units import kilograms


def sheet(*entries: RunEntry, rests: tuple[RestOwed, ...] = (), loose: int = 0) -> RunSheetSolution:
    """A sheet of one block B; the first ``loose`` entries are of no block."""
    timing = BlockTiming("B", 0, 600, 600, entries[loose:])
    return RunSheetSolution(entries, (timing,), 600, 600, 0, rests)


def work(start: int, *who: str, **more: object) -> RunEntry:
    found = RunEntry(start, start + 30, "g", "", "A1", "work", athletes=who)
    return replace(found, **more)  # type: ignore[arg-type]


def told(*lines: RunLine) -> list[tuple[str, tuple[str, ...]]]:
    return [(line.activity, line.athletes) for line in lines]


KEYS = LineKeys(
    steps=(TimedStep("B", "A1", "a", "push-up"),),
    own_sets=(OwnSets("B", "A1", "P", 2), OwnSets("B", "A1", "Q", 3)),
)


@pytest.mark.parametrize(
    ("number", "lines"),
    [
        (1, [("work", ("P", "Q"))]),
        (2, [("work", ("P", "Q"))]),
        (3, [("work", ("Q",)), ("help and watch", ("P",))]),
        (4, [("help and watch", ("P", "Q"))]),
    ],
)
def test_who_has_done_his_sets_helps_and_watches(
    number: int, lines: list[tuple[str, tuple[str, ...]]]
) -> None:
    found = run_lines(sheet(work(0, "P", "Q", set=number)), KEYS)
    assert told(*found) == lines
    assert all(line.set is None for line in found if line.activity != "work")
    assert {(line.step, line.exercise) for line in found} == {("a", "push-up")}


@pytest.mark.parametrize(("number", "helps"), [(1, ()), (2, ()), (3, ("P",))])
def test_who_has_done_his_rounds_of_a_circuit_helps(number: int, helps: tuple[str, ...]) -> None:
    keys = LineKeys(own_rounds=(OwnRounds("B", "P", 2),))
    found = run_lines(sheet(work(0, "P", "Q", round=number)), keys)
    assert [line.athletes for line in found if line.activity != "work"] == [helps] * bool(helps)


def test_only_work_has_sets_to_run_out_of() -> None:
    found = run_lines(sheet(work(0, "P", set=9, activity="rest")), KEYS)
    assert told(*found) == [("rest", ("P",))]
    done = run_lines(sheet(work(0, "P", set=9, activity="work, one way")), KEYS)
    assert told(*done) == [("help and watch", ("P",))]


def test_lines_of_no_block_have_no_step_and_stand_in_order_of_time() -> None:
    warm = RunEntry(0, 60, "all", "", "", "warm-up", athletes=("P",))
    found = run_lines(sheet(warm, work(90, "P"), work(60, "P"), loose=1), KEYS)
    assert [(line.start_s, line.block, line.exercise) for line in found] == [
        (0, "", None),
        (60, "B", "push-up"),
        (90, "B", "push-up"),
    ]


def test_rest_is_that_of_the_wave_or_else_of_the_group() -> None:
    rests = (RestOwed("B", "g", 40), RestOwed("B", "wave 1", 90), RestOwed("C", "wave 2", 10))
    found = run_lines(
        sheet(work(0, "P", role="wave 1"), work(30, "Q", role="wave 2"), rests=rests), KEYS
    )
    assert [line.rest_s for line in found] == [90, 40]


def test_lifters_of_one_wave_at_one_time_are_one_line() -> None:
    wave = {"role": "wave 1", "round": 1}
    found = run_lines(
        sheet(
            work(0, "P", kit=("bar 1",), **wave),
            work(0, "Q", kit=("bar 2",), **wave),
            work(0, "R", role="wave 2", round=1),
            work(0, "S", role="feed"),
            work(0, "T", activity="rest", **wave),
            work(30, "P", role="wave 1", round=2),
        ),
        LineKeys(),
    )
    lines = [(x.start_s, x.group, x.station, x.athletes, x.kit) for x in found]
    assert (0, "wave 1", "bars", ("P", "Q"), ("bar 1", "bar 2")) in lines
    assert (0, "wave 2", "bars", ("R",), ()) in lines
    assert (30, "wave 1", "bars", ("P",), ()) in lines
    assert (0, "g", "", ("S",), ()) in lines
    assert (0, "g", "", ("T",), ()) in lines
    assert len(lines) == 5


STORE = Kit(
    bars=(Bar("a", "the a", kilograms(20)), Bar("b", "the b", kilograms(15))),
    plates=(
        PlatePair("p10", kilograms(10), 2),
        PlatePair("p5", kilograms(5), 3),
        PlatePair("q5", kilograms(5), 1),
        PlatePair("p1", kilograms("1.25"), 1),
        PlatePair("gone", kilograms(10), 9, in_service=False),
    ),
    collars=(
        CollarPairs("good", 2),
        CollarPairs("none", 0),
        CollarPairs("bad", 1, in_service=False),
    ),
    balls=(Ball("b3", kilograms(3), 2), Ball("b4", kilograms(4), 1, bounces=False)),
    boxes=(
        Box("f1", (0.4, 0.5), is_foam=True),
        Box("f2", (0.4, 0.5), is_foam=True),
        Box("w", (0.3,)),
        Box("x", (0.3,), in_service=False),
        Box("y", (0.3,), fit_for_landing=False),
    ),
)


def items(kit: Kit = STORE, **more: object) -> list[SetUpItem]:
    given: dict[str, object] = {
        "bars": (),
        "doses": (),
        "groups": (),
        "run_sheet": (),
        "row_boxes": {},
        **more,
    }
    return list(set_up_items(kit, **given))  # type: ignore[arg-type]


def fetched(place: str, **more: object) -> list[tuple[str, int, str]]:
    return [(x.item, x.count, x.goes_to) for x in items(**more) if x.place == place]


BARS = (
    bar("a", 20, user("P", 1, 50, (10.0, 1), (5.0, 1)), user("Q", 2, 60, (10.0, 1), (5.0, 2))),
    bar("b", 15, user("R", 2, 40, (10.0, 1), (1.25, 1)), user("S", 3, 15)),
    bar("c", 20, user("T", 1, 20)),
)


def test_plates_of_the_first_wave_lie_on_the_bar_and_what_a_later_one_adds_beside_it() -> None:
    """The wave of R is the first on his bar. Heaviest first, by bar."""
    assert fetched("plates", bars=BARS) == [
        ("10 kg pair", 1, "on bar 1"),
        ("10 kg pair", 1, "on bar 2"),
        ("5 kg pair", 1, "on bar 1"),
        ("5 kg pair", 1, "beside bar 1"),
        ("1.25 kg pair", 1, "on bar 2"),
    ]
    pieces = {x.item: x.pieces for x in items(bars=BARS) if x.place == "plates"}
    assert pieces == {"10 kg pair": ("p10",), "5 kg pair": ("p5", "q5"), "1.25 kg pair": ("p1",)}


def test_plates_that_are_on_another_bar_first_do_not_lie_beside_one() -> None:
    """One pair of 10 kg: on bar 2 from the first wave, so none is left beside bar 1."""
    one = replace(STORE, plates=(PlatePair("p10", kilograms(10), 1),))
    bars = (
        bar("a", 20, user("P", 1, 20), user("Q", 2, 40, (10.0, 1))),
        bar("b", 15, user("R", 1, 35, (10.0, 1))),
    )
    assert fetched("plates", kit=one, bars=bars) == [("10 kg pair", 1, "on bar 2")]
    two = replace(one, plates=(PlatePair("p10", kilograms(10), 2),))
    assert fetched("plates", kit=two, bars=bars) == [
        ("10 kg pair", 1, "beside bar 1"),
        ("10 kg pair", 1, "on bar 2"),
    ]
    both = (bars[0], replace(bars[0], bar="c"), bars[1])
    beside = [x for x in fetched("plates", kit=two, bars=both) if "beside" in x[2]]
    assert beside == [("10 kg pair", 1, "beside bar 1")]


@pytest.mark.random_cases
def test_no_pair_is_fetched_twice_and_each_first_wave_finds_its_plates() -> None:
    masses = (10.0, 5.0, 2.5, 1.25)
    for number in range(cases(200)):
        random = Random(number)
        stock = {mass: random.randint(1, 4) for mass in masses}
        kit = Kit(plates=tuple(PlatePair(f"p{m}", kilograms(m), n) for m, n in stock.items()))
        bars, left = [], {wave: Counter(stock) for wave in (1, 2, 3)}
        for place in range(random.randint(1, 4)):
            users = []
            for wave in sorted(random.sample((1, 2, 3), random.randint(1, 3))):
                plates = []
                for mass in masses:
                    most = left[wave][mass]
                    count = random.randint(0, min(2, most))
                    left[wave][mass] -= count
                    if count:
                        plates.append((mass, count))
                users.append(user(f"{place}{wave}", wave, 20, *plates))
            bars.append(bar(f"b{place}", 20, *users))
        first = Counter[str]()
        for each in bars:
            begins = min(each.wave_users, key=lambda u: u.wave)
            first.update({f"{p.plate_kg:g} kg pair": p.count for p in begins.per_side})
        if any(first[f"{mass:g} kg pair"] > stock[mass] for mass in masses):
            continue
        found = [x for x in items(kit=kit, bars=tuple(bars)) if x.place == "plates"]
        on = Counter[str]()
        taken = Counter[str]()
        for item in found:
            taken[item.item] += item.count
            if item.goes_to.startswith("on"):
                on[item.item] += item.count
        assert on == first
        assert all(taken[f"{mass:g} kg pair"] <= stock[mass] for mass in masses)
        assert all(item.count > 0 for item in found)


def test_bars_have_numbers_and_collars_where_there_are_plates() -> None:
    assert fetched("bars", bars=BARS) == [
        ("the a (20 kg)", 1, "bar 1"),
        ("the b (15 kg)", 1, "bar 2"),
        ("the c (20 kg)", 1, "bar 3"),
    ]
    assert fetched("collars", bars=BARS) == [
        ("good pair of collars", 1, "bar 1"),
        ("good pair of collars", 1, "bar 2"),
    ]
    assert {x.pieces for x in items(bars=BARS) if x.place == "collars"} == {("good",)}


def throws(name: str, ball: str, block: str = "Bar") -> object:
    return dose(name, exercises=(planned("t", ball=ball, block=block),))


def test_a_ball_goes_to_each_group_while_there_are_enough_and_in_turn_after_that() -> None:
    groups = (group("one", "P", "Q"), group("two", "R"), group("six", "S"))
    given = {
        "groups": groups,
        "doses": (throws("P", "b3"), throws("Q", "b3"), throws("R", "b3"), throws("R", "b4")),
    }
    assert fetched("balls", **given) == [
        ("3 kg bouncing ball", 1, "one"),
        ("3 kg bouncing ball", 1, "two"),
        ("4 kg ball that does not bounce", 1, "two"),
    ]
    more = {**given, "doses": (*given["doses"], throws("S", "b3"), throws("S", "b4"))}
    assert fetched("balls", **more) == [
        ("3 kg bouncing ball", 2, "in turn: one, six, two"),
        ("4 kg ball that does not bounce", 1, "in turn: six, two"),
    ]
    alone = fetched("balls", doses=(throws("P", "b3", "Other"),), groups=groups)
    assert alone == [("3 kg bouncing ball", 1, "the store table")]


def jumps(name: str, box: str, height: float, block: str = "Bar") -> object:
    return dose(name, exercises=(planned("j", box=box, box_height_m=height, block=block),))


def line(*kit: str, block: str = "Bar", start: int = 0) -> RunLine:
    return RunLine(start, start + 30, "g", "", None, "work", block=block, kit=kit)


def test_boxes_are_fetched_by_kind_as_many_as_are_used_at_once() -> None:
    kind = "box 40/50 cm"
    given = {
        "doses": (jumps("P", "f1", 0.5), jumps("Q", "f2", 0.4), jumps("R", "w", 0.3)),
        "groups": (group("one", "P", "Q"), group("two", "R"), group("o", "P", block="Other")),
        "run_sheet": (
            line(f"{kind} 1"),
            line(f"{kind} 2", start=30),
            line(f"{kind} 1", start=60),
            line("box 40/50 cm high 3"),
        ),
    }
    assert fetched("boxes", **given) == [
        ("box 30 cm, set to 30 cm", 1, "two"),
        (f"{kind}, set to 40, 50 cm", 2, "one"),
    ]
    pieces = {x.item.split(",")[0]: x.pieces for x in items(**given) if x.place == "boxes"}
    assert pieces == {"box 30 cm": ("w", "y"), kind: ("f1", "f2")}


def test_a_row_is_as_many_boxes_as_its_rule_says_set_to_the_lowest() -> None:
    given = {
        "doses": (jumps("P", "f1", 0.5, "L"), jumps("Q", "f1", 0.4, "L"), jumps("R", "w", 0.3)),
        "groups": (group("lane 1", "P", "Q", block="L"), group("two", "R")),
        "run_sheet": (
            line(f"{ROW_POOL} 1", block="L"),
            line(f"{ROW_POOL} 2", block="L"),
            line(f"{ROW_POOL} 3", block="Other"),
        ),
    }
    assert fetched("boxes", **given, row_boxes={"L": 4}) == [
        ("box for a row, set to 40 cm", 8, "2 rows of L"),
        ("box 30 cm, set to 30 cm", 1, "two"),
    ]
    assert fetched("boxes", **given, row_boxes={"L": 0})[0][0] == "box 30 cm, set to 30 cm"
    assert fetched("boxes", run_sheet=given["run_sheet"], row_boxes={"L": 1}) == [
        ("box for a row", 2, "2 rows of L")
    ]
    row = [x.pieces for x in items(**given, row_boxes={"L": 4}) if "row" in x.item]
    assert row == [("f1", "f2", "w")]


def test_a_bar_without_users_asks_for_no_plates() -> None:
    empty: tuple[BarPlan, ...] = (bar("a", 20),)
    assert fetched("plates", bars=empty) == []
