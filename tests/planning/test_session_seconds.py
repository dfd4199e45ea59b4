"""Seconds of a complex and of the parts around it, and blocks after cuts: shares by hand."""

from collections.abc import Sequence
from dataclasses import replace
from random import Random

import pytest

from cases import cases
from planning.people import MONDAY, person
from squadwright.demo import demo_club
from squadwright.errors import InvalidInput
from squadwright.library import exercise
from squadwright.model.routine import (
    Block,
    CountedIn,
    GroupKind,
    LaneRule,
    Rest,
    RestKind,
    Routine,
    Scheme,
    Step,
    Style,
)
from squadwright.model.session import Settings
from squadwright.planning.contacts import count_set
from squadwright.planning.run_sheet import FixedPart, PartKind
from squadwright.planning.run_sheet.blocks import (
    BarUser,
    CircuitBlock,
    CircuitStation,
    Drill,
    DrillBlock,
    WorkGroup,
)
from squadwright.planning.session_time import (
    complex_block,
    complex_cycle_s,
    late_arrivals,
    least_rest_s,
    least_warm_up_s,
    parts_after,
    parts_before,
    steps_that_must_stay,
    usual_parts,
    work_seconds,
)
from squadwright.planning.slot_blocks import cut_sentences, ready_blocks, with_cuts

CLUB = demo_club(MONDAY)
SESSION = CLUB.sessions[0]
ROPEWALK = CLUB.routine("ropewalk", 1)
COMPLEX = ROPEWALK.blocks[0]
JUMP, THROW, PRESS = "broad-jump-and-stick", "tall-kneeling-chest-pass", "split-stance-strict-press"


def step(name: str, count: int = 5, sets: int = 1, label: str = "") -> Step:
    return Step(name, Scheme(CountedIn.REPETITIONS, count, sets), label)


def block(*steps: Step, style: Style = Style.SETS, **more: object) -> Block:
    return Block("B", style, steps, **more)  # type: ignore[arg-type]


def kinds(parts: Sequence[FixedPart]) -> dict[PartKind, int]:
    return {part.kind: part.duration_s for part in parts}


@pytest.mark.parametrize(("minutes", "lengths"), [(50, (3, 2, 3, 3)), (51, (6, 6, 6, 6))])
def test_a_slot_of_fifty_minutes_is_a_short_one(minutes: int, lengths: tuple[int, ...]) -> None:
    assert tuple(usual_parts(minutes).values()) == lengths


@pytest.mark.parametrize(
    ("written_s", "least", "warm_up", "shortest"),
    [(720, 8, 720, 480), (300, 8, 480, 480), (720, 0, 720, 0), (720, 12, 720, 720)],
)
def test_a_warm_up_is_as_long_as_written_and_as_the_coach_allows(
    written_s: int, least: int, warm_up: int, shortest: int
) -> None:
    session = replace(SESSION, settings=Settings(least_warm_up_minutes=least))
    parts = parts_before(session, replace(ROPEWALK, warm_up_s=written_s))
    found = next(part for part in parts if part.kind is PartKind.WARM_UP)
    assert (found.duration_s, found.minimum_s) == (warm_up, shortest)
    assert least_warm_up_s(session, parts) == shortest


def test_parts_of_no_length_are_left_out() -> None:
    before = kinds(parts_before(replace(SESSION, arrive_minutes=0), ROPEWALK))
    assert before == {PartKind.SET_UP: 900, PartKind.WARM_UP: 720, PartKind.REHEARSAL: 480}
    after = kinds(parts_after(replace(SESSION, spare_minutes=0, pack_minutes=7)))
    assert after == {PartKind.COOL_DOWN: 360, PartKind.PACK: 420}


def test_without_a_warm_up_planned_a_minute_is_the_least() -> None:
    assert least_warm_up_s(SESSION, ()) == 60


def test_who_comes_late_warms_up_for_the_longer_of_two_settings() -> None:
    people = (person("A"), person("B", status="late", late_minutes=12))
    for late, least, minutes in ((8, 8, 8), (5, 9, 9), (10, 8, 10)):
        settings = Settings(late_warm_up_minutes=late, least_warm_up_minutes=least)
        session = replace(SESSION, settings=settings)
        (found,) = late_arrivals(people, session, ROPEWALK)
        assert (found.athlete, found.arrives_s, found.warm_up_s) == ("B", 720, minutes * 60)


@pytest.mark.random_cases
def test_the_seconds_of_the_steps_are_whole_and_make_the_time_of_the_round() -> None:
    """Each within a second of its share, by its own length at the pace of the library."""
    for number in range(cases(200)):
        random = Random(number)
        steps = tuple(
            step(each.exercise, random.randint(1, 9), random.randint(1, 2))
            for each in random.sample(COMPLEX.steps, random.randint(1, 6))
        )
        work_s = random.choice((None, random.randint(len(steps) * 4, 200)))
        made = block(*steps, style=Style.COMPLEX, work_s=work_s)
        own = [count_set(exercise(s.exercise), s.scheme).work_s * s.scheme.sets for s in steps]
        total = work_s or round(sum(own))
        found = work_seconds(made, exercise)
        assert sum(found) == total
        shares = [each * total / sum(own) for each in own]
        if all(share >= 1 for share in shares):
            assert all(abs(a - b) < 1 for a, b in zip(found, shares, strict=True))


def test_the_second_left_over_goes_to_the_step_that_lost_most() -> None:
    """Ten seconds for 15 and 12 s of work (5 and 4 repetitions of 3 s): 6 and 4."""
    pair = block(step(PRESS, 5), step(PRESS, 4), style=Style.COMPLEX, work_s=10)
    assert work_seconds(pair, exercise) == (6, 4)  # 5.56 and 4.44
    three = block(step(PRESS, 1), step(PRESS, 1), step(PRESS, 1), style=Style.COMPLEX, work_s=11)
    assert work_seconds(three, exercise) == (4, 4, 3)
    short = block(step(PRESS, 1), step(PRESS, 30), style=Style.COMPLEX, work_s=10)
    assert work_seconds(short, exercise) == (1, 9)


@pytest.mark.parametrize(
    ("rest", "seconds"),
    [
        (Rest(RestKind.SECONDS, 90), 90),
        (Rest(RestKind.WORK_TO_REST, ratio=1.5), 45),
        (Rest(RestKind.PARTNER_WORKS, 90), 0),
    ],
)
def test_the_rest_that_is_owed(rest: Rest, seconds: int) -> None:
    assert least_rest_s(rest, 30) == seconds


@pytest.mark.parametrize(
    ("waves", "rest", "cycle"),
    [
        (1, Rest(RestKind.SECONDS, 60), 90),  # 30 of work and 60 of rest
        (2, Rest(RestKind.SECONDS, 60), 100),  # two waves of 30 and 20
        (1, Rest(RestKind.PARTNER_WORKS), 50),
        (1, Rest(RestKind.WORK_TO_REST, ratio=3.0), 120),
    ],
)
def test_from_one_round_to_the_next_of_ones_own(waves: int, rest: Rest, cycle: int) -> None:
    made = block(step(PRESS, 5), style=Style.COMPLEX, work_s=30, rest=rest, changeover_s=20)
    assert complex_cycle_s(made, waves, exercise) == (30, cycle)


def test_only_steps_that_leave_the_bar_flowing_can_be_cut() -> None:
    """Each step of the demo complex may go from the end; of one step alone none can."""
    users = (BarUser("A", "g", "bar", 1),)
    timed = complex_block(COMPLEX, users, exercise)
    last = steps_that_must_stay(COMPLEX, exercise)
    assert 1 <= last <= len(COMPLEX.steps)
    assert [each.can_be_cut for each in timed.exercises] == [
        place >= last for place in range(len(COMPLEX.steps))
    ]
    assert not timed.exercises[0].can_be_cut
    one = replace(COMPLEX, steps=COMPLEX.steps[:1])
    assert steps_that_must_stay(one, exercise) == 1
    assert timed.minimum_rest_s == least_rest_s(COMPLEX.rest, sum(work_seconds(COMPLEX, exercise)))
    assert sum(each.work_s for each in timed.exercises) == timed.work_s


def routine(*blocks: Block) -> Routine:
    return Routine("r", 1, "R", "power", blocks)


def test_two_blocks_of_one_name_are_refused() -> None:
    with pytest.raises(InvalidInput, match=r"blocks\[1\].name: 'B' names two blocks of R"):
        ready_blocks(routine(block(step(JUMP)), block(step(THROW))), exercise)


def test_a_lift_in_sets_becomes_a_complex_of_one_and_parts_the_block() -> None:
    """Three sets in each of two rounds are six rounds of the lift."""
    made = block(step(JUMP), step(PRESS, 5, 3, "P"), step(THROW), step(JUMP, 3), rounds=2)
    found = ready_blocks(routine(made), exercise)
    assert [(b.name, b.style, len(b.steps), b.rounds) for b in found] == [
        ("B B 1", Style.SETS, 1, 2),
        ("B P", Style.COMPLEX, 1, 6),
        ("B B 3", Style.SETS, 2, 2),
    ]
    assert found[1].steps[0].scheme.sets == 1
    whole = ready_blocks(routine(block(step(JUMP), step(THROW))), exercise)
    assert [b.name for b in whole] == ["B"]


@pytest.mark.parametrize(
    ("rest", "kind", "waves", "found"),
    [
        (RestKind.SECONDS, GroupKind.PAIRS, 1, 1),
        (RestKind.PARTNER_WORKS, GroupKind.PAIRS, 1, 2),
        (RestKind.PARTNER_WORKS, GroupKind.PAIRS, 4, 4),
        (RestKind.PARTNER_WORKS, GroupKind.THREES, 1, 3),
        (RestKind.SECONDS, GroupKind.THREES, 2, 2),
    ],
)
def test_a_lift_with_a_partner_has_a_wave_for_each_of_them(
    rest: RestKind, kind: GroupKind, waves: int, found: int
) -> None:
    made = block(step(PRESS, 5, 3), rest=Rest(rest), group_kind=kind, waves=waves)
    (lift,) = ready_blocks(routine(made), exercise)
    assert (lift.waves, lift.group_kind) == (found, GroupKind.WAVES)


LABELLED = block(step(JUMP, 2, 4, "A1"), step(THROW, 5, 3, "A2"))
GROUPS = (WorkGroup("g", ("A", "B")),)


def cut(made: Block, *drills: tuple[str, int], step_of: dict[str, str]) -> Block:
    timed = DrillBlock("B", tuple(Drill(name, sets, 10) for name, sets in drills), GROUPS)
    (found,) = with_cuts((made,), (timed,), {"B": step_of}, exercise)
    return found


def sets_of(made: Block) -> dict[str, int]:
    return {each.label: each.scheme.sets for each in made.steps}


def test_sets_are_left_as_they_were_timed_and_a_step_without_any_goes() -> None:
    names = {"A1": "A1", "A2": "A2"}
    assert sets_of(cut(LABELLED, ("A1", 2), ("A2", 3), step_of=names)) == {"A1": 2, "A2": 3}
    assert sets_of(cut(LABELLED, ("A2", 1), step_of=names)) == {"A2": 1}


def test_of_two_variants_of_a_step_the_fewer_sets_count_and_stretches_add_up() -> None:
    drills = (
        ("A1 set 1 to 2 (box)", 2),
        ("A1 set 3 (box)", 1),
        ("A1 set 1 to 2 (free)", 2),
        ("A2", 3),
    )
    step_of = {name: name[:2] for name, _ in drills}
    assert sets_of(cut(LABELLED, *drills, step_of=step_of)) == {"A1": 2, "A2": 3}


def test_passes_along_a_row_count_up_to_whole_sets() -> None:
    """Three passes make a set: seven passes are left of three sets, eight begin the third."""
    lane = LaneRule(boxes=3)
    row = Step("row", Scheme(CountedIn.PASSES_DOWN_AND_BACK, 3, 4), "L")
    made = block(row, style=Style.LANES, lane=lane, rounds=2)
    for passes, sets in ((6, 2), (7, 3), (9, 3), (1, 1)):
        found = cut(made, ("L", passes), step_of={"L": "L"})
        assert (sets_of(found), found.rounds) == ({"L": sets}, 1)
    flat = replace(made, lane=LaneRule(boxes=0))
    assert sets_of(cut(flat, ("L", 7), step_of={"L": "L"})) == {"L": 7}


def test_a_block_that_was_not_timed_stays_and_a_circuit_loses_stations_and_rounds() -> None:
    circuit = replace(LABELLED, style=Style.CIRCUIT, rounds=3, work_s=30)
    assert with_cuts((LABELLED,), (), {}, exercise) == (LABELLED,)
    timed = CircuitBlock("B", (CircuitStation("A2", "A2", 2),), GROUPS, 30, 10, 2)
    (found,) = with_cuts((circuit,), (timed,), {}, exercise)
    assert ([s.label for s in found.steps], found.rounds, found.work_s) == (["A2"], 2, 30)
    both = (CircuitStation("A1", "A1", 2), CircuitStation("A2", "A2", 2))
    (same,) = with_cuts((circuit,), (replace(timed, stations=both, rounds=3),), {}, exercise)
    assert same == circuit


@pytest.mark.parametrize(("work_s", "left_s"), [(60, 40), (61, 41), (62, 41)])
def test_a_complex_loses_its_last_steps_and_its_time_by_their_number(
    work_s: int, left_s: int
) -> None:
    """Six steps in 60 s: four of them in 40 s; of 61 and 62 s in 40.7 and 41.3 s."""
    made = replace(COMPLEX, work_s=work_s)
    timed = complex_block(made, (BarUser("A", "g", "bar", 1),), exercise)
    left = replace(timed, exercises=timed.exercises[:4], rounds=3)
    (found,) = with_cuts((made,), (left,), {}, exercise)
    assert (len(found.steps), found.rounds, found.work_s) == (4, 3, left_s)
    free = replace(made, work_s=None)
    (open_time,) = with_cuts((free,), (left,), {}, exercise)
    assert open_time.work_s is None


def parts(warm_up_s: int = 600, pack_s: int = 300) -> tuple[tuple[FixedPart, ...], ...]:
    return (FixedPart(PartKind.WARM_UP, warm_up_s),), (FixedPart(PartKind.PACK, pack_s),)


def said(written: Block, left: Block | None, *, now: object = None) -> list[str]:
    was = parts()
    found = cut_sentences(
        (written,),
        () if left is None else (left,),
        was,
        now or was,
        exercise,  # type: ignore[arg-type]
    )
    return list(found)


JUMP_NAME, THROW_NAME = exercise(JUMP).name, exercise(THROW).name


def test_what_was_cut_is_said_block_by_block() -> None:
    fewer = replace(LABELLED, steps=(step(JUMP, 2, 3, "A1"), LABELLED.steps[1]))
    assert said(LABELLED, LABELLED) == []
    assert said(LABELLED, fewer) == [f"A1 {JUMP_NAME} 4 to 3 sets"]
    assert said(LABELLED, replace(LABELLED, steps=LABELLED.steps[:1])) == [
        f"without A2 {THROW_NAME}"
    ]
    assert said(LABELLED, None) == ["B left out"]
    twice = replace(LABELLED, rounds=2)
    assert said(twice, replace(fewer, rounds=2)) == [f"A1 {JUMP_NAME} 8 to 6 sets"]
    flat = replace(LABELLED, steps=(step(JUMP, 2, 8, "A1"), step(THROW, 5, 6, "A2")))
    assert said(twice, flat) == []


@pytest.mark.parametrize("style", [Style.COMPLEX, Style.CIRCUIT])
def test_rounds_are_said_before_what_is_left_out(style: Style) -> None:
    written = replace(LABELLED, style=style, rounds=4)
    left = replace(written, rounds=3, steps=written.steps[1:])
    assert said(written, left) == ["B 4 to 3 rounds", f"without A1 {JUMP_NAME}"]
    assert said(written, written) == []


def test_parts_that_got_shorter_are_said_with_both_lengths() -> None:
    shorter = parts(480, 300)
    assert said(LABELLED, LABELLED, now=shorter) == ["warm-up 10:00 to 8:00"]
    gone = (parts()[0], ())
    assert said(LABELLED, LABELLED, now=gone) == ["pack away 5:00 to 0:00"]
