"""Blocks before they are timed: the coach's words, sets of each, what is left for the late."""

from dataclasses import replace
from decimal import Decimal

import pytest

from planning.people import MONDAY, competes_in, losing_too_fast, person
from squadwright.demo import demo_club
from squadwright.library import exercise
from squadwright.model.routine import Block, CountedIn, GroupKind, LaneRule, Scheme, Step, Style
from squadwright.model.session import Override, Session, Settings, Swap
from squadwright.planning.attendance import PersonToday
from squadwright.planning.block_plan import (
    BlockPlan,
    BlockTask,
    as_worked,
    override_of,
    plan_block,
    sits_out_by_word,
    stations_used,
    waves_on_floor,
)
from squadwright.planning.drill_groups import ON_HIS_OWN
from squadwright.planning.gates.gate import Caps
from squadwright.planning.personal import PersonalStep, unswapped
from squadwright.planning.rounds import Rounds
from squadwright.units import kilograms

CLUB = demo_club(MONDAY)
JUMP, THROW, BOX_JUMP = (
    "broad-jump-and-stick",
    "tall-kneeling-chest-pass",
    "seated-start-jump-to-box",
)


def step(name: str, count: int = 5, sets: int = 1, label: str = "", **more: object) -> Step:
    return Step(name, Scheme(CountedIn.REPETITIONS, count, sets), label, **more)  # type: ignore[arg-type]


def block(*steps: Step, style: Style = Style.SETS, **more: object) -> Block:
    return Block("B", style, steps, **more)  # type: ignore[arg-type]


def session(*words: Override, **settings: object) -> Session:
    made = Settings(**settings)  # type: ignore[arg-type]
    return replace(CLUB.sessions[0], overrides=words, check_ins=(), settings=made)


def word(block_name: str = "", reason: str = "x", **more: object) -> Override:
    return Override("P", reason, block=block_name, **more)  # type: ignore[arg-type]


def test_the_last_word_on_a_block_counts_and_leaves_open_what_was_said_for_all() -> None:
    said = session(
        word(reason="old", rounds=1),
        word(reason="tired.", rounds=2, load=kilograms(30), bar="b1"),
        word("B", reason="knee", rounds=3),
        word("C", reason="tired."),
        Override("Q", "other", rounds=9),
    )
    assert override_of(said, "P") == said.overrides[1]
    assert override_of(said, "P", "D") == said.overrides[1]
    assert override_of(said, "R", "B") is None
    own = override_of(said, "P", "B")
    assert own is not None
    assert (own.reason, own.rounds, own.load, own.bar) == (
        "knee; tired",
        3,
        kilograms(30),
        "b1",
    )
    same = override_of(said, "P", "C")
    assert same is not None
    assert (same.reason, same.rounds) == ("tired", 2)
    alone = override_of(session(word("B", rounds=3)), "P", "B")
    assert alone == word("B", rounds=3)
    assert override_of(session(word("B", rounds=3)), "P", "C") is None


def test_a_stick_for_all_of_it_gives_way_to_a_load_of_the_block() -> None:
    stick = word(with_stick=True)
    for own, has_stick in (
        (word("B"), True),
        (word("B", load=kilograms(20)), False),
        (word("B", with_stick=True, load=kilograms(20)), True),
    ):
        found = override_of(session(stick, own), "P", "B")
        assert found is not None
        assert found.with_stick is has_stick
    swapped = override_of(
        session(word(swaps=(Swap("A1", "push-up"),)), word("B", rounds=1)), "P", "B"
    )
    assert swapped is not None
    assert swapped.swaps == (Swap("A1", "push-up"),)


@pytest.mark.parametrize(("rounds", "sits"), [(0, True), (1, False), (None, False)])
def test_no_round_by_the_coachs_word_is_to_sit_out(rounds: int | None, sits: bool) -> None:
    assert sits_out_by_word(session(word("B", rounds=rounds)), "P", "B") is sits
    assert not sits_out_by_word(session(), "P", "B")


@pytest.mark.parametrize(
    ("lifters", "wanted", "places", "waves"),
    [
        (8, 2, None, 2),
        (8, 2, 4, 2),
        (9, 2, 4, 3),
        (8, 2, 2, 4),
        (9, 2, 2, None),
        (8, 2, 0, None),
        (3, 4, 3, 4),
    ],
)
def test_fewer_places_ask_for_more_waves_up_to_four(
    lifters: int, wanted: int, places: int | None, waves: int | None
) -> None:
    assert waves_on_floor(lifters, wanted, places) == waves


def plan_of(made: Block, **more: object) -> BlockPlan:
    fields: dict[str, object] = {
        "block": made,
        "timed": None,
        "step_of": {},
        "versions": {},
        "rounds": {},
        "targets": {},
        "fittings": {},
        "missing": (),
        "bars": (),
        "bound": None,
        "groups": (),
        **more,
    }
    return BlockPlan(**fields)  # type: ignore[arg-type]


@pytest.mark.parametrize(("sticks", "stations"), [(0, 0), (1, 1), (2, 1), (3, 2)])
def test_sticks_share_a_station_in_turn(sticks: int, stations: int) -> None:
    made = plan_of(block(step(JUMP)), with_stick=tuple("ABC"[:sticks]), waves=2)
    assert stations_used(made) == stations


@pytest.mark.parametrize(
    ("drill", "sets", "own"),
    [
        ("A1", 3, 3),
        ("A1 set 2", 3, 1),
        ("A1 set 4", 3, 0),
        ("A1 set 3", 3, 1),
        ("A1 set 2 to 4", 3, 2),
        ("A1 set 2 to 4", 5, 3),
        ("A1 set 2 to 4 (box)", 1, 0),
        ("A1 set 2 (box)", 2, 1),
    ],
)
def test_of_a_stretch_he_does_the_sets_that_are_his(drill: str, sets: int, own: int) -> None:
    assert plan_of(block(step(JUMP))).set_limit(drill, sets) == own


def test_along_a_row_each_pass_is_a_turn_of_a_set() -> None:
    row = replace(step("row", 3, label="L"), scheme=Scheme(CountedIn.PASSES_ONE_WAY, 3, 2))
    for lane, turns in ((LaneRule(boxes=4), 3), (LaneRule(boxes=0), 1), (None, 1)):
        style = Style.SETS if lane is None else Style.LANES
        made = plan_of(block(step(JUMP, 7, label="J"), row, style=style, lane=lane))
        assert made.turns_in_a_set("L") == turns


def personal(made: Block, *names: str) -> dict[str, tuple[PersonalStep, ...]]:
    return dict.fromkeys(names, unswapped(made, exercise))


def sets_of(plan: BlockPlan, name: str) -> dict[str, int]:
    return {each.key: each.step.scheme.sets for each in plan.versions[name]}


def drills_of(
    made: Block, *people: PersonToday, said: Session | None = None, **more: object
) -> BlockPlan:
    names = [each.id for each in people]
    return plan_block(
        BlockTask(
            block=made,
            club=CLUB,
            session=said or session(),
            people=dict(zip(names, people, strict=True)),
            versions=personal(made, *names),
            lookup=exercise,
            starts_s=0,
            ready_s={},
            **more,  # type: ignore[arg-type]
        )
    )


LANDS = block(step(JUMP, 2, 4, "J"), step(THROW, 5, 3, "T"))


@pytest.mark.parametrize(
    ("who", "sets"),
    [
        (person(), {"J": 4, "T": 3}),
        (person(age=15), {"J": 2, "T": 3}),
        (person(age=16), {"J": 4, "T": 3}),
        (person(events=(competes_in(7),)), {"J": 2, "T": 2}),
        (person(events=(competes_in(8),)), {"J": 4, "T": 3}),
        (person(events=(competes_in(2, name="a"), competes_in(9, name="b"))), {"J": 2, "T": 1}),
        (person(is_guest=True), {"J": 2, "T": 2}),
        (person(caps=Caps(Decimal("0.5"), why=("heat",))), {"J": 2, "T": 1}),
        (losing_too_fast(person()), {"J": 2, "T": 1}),
        (person(age=15, is_guest=True), {"J": 2, "T": 2}),
    ],
    ids=["grown", "15", "16", "taper", "8 days", "two events", "guest", "heat", "mass", "young"],
)
def test_sets_of_one_are_fewer_for_a_reason_of_his_own(
    who: PersonToday, sets: dict[str, int]
) -> None:
    """Half of the sets in a taper to the nearest, between two events rounded down; one at least."""
    assert sets_of(drills_of(LANDS, who), "P") == sets


def test_the_coachs_word_on_sets_holds_but_for_the_gates() -> None:
    more = session(word("B", rounds=5))
    one = session(word("B", rounds=1))
    assert sets_of(drills_of(LANDS, person(is_guest=True), said=more), "P") == {"J": 4, "T": 3}
    assert sets_of(drills_of(LANDS, person(), said=one), "P") == {"J": 1, "T": 1}
    fast = losing_too_fast(person())
    assert sets_of(drills_of(LANDS, fast, said=more), "P") == {"J": 2, "T": 1}
    capped = person(caps=Caps(Decimal("0.5"), why=("heat",)))
    assert sets_of(drills_of(LANDS, capped, said=more), "P") == {"J": 2, "T": 1}


def test_in_a_circuit_word_and_mass_take_rounds_and_no_sets() -> None:
    circuit = replace(LANDS, style=Style.CIRCUIT, rounds=4, group_kind=GroupKind.PAIRS)
    two = (losing_too_fast(person()), person("Q"))
    found = drills_of(circuit, *two, said=session(word("B", rounds=3)))
    assert sets_of(found, "P") == {"J": 4, "T": 3}
    assert (found.rounds["P"].rounds, found.rounds["Q"].rounds) == (2, 4)


def test_who_would_be_alone_at_a_throw_or_a_box_works_in_pairs() -> None:
    people = (person(), person("Q"))
    for name, kind in ((THROW, "pair"), (BOX_JUMP, "pair"), (JUMP, ON_HIS_OWN)):
        found = drills_of(block(step(name, label="S")), *people)
        assert [line.kind for line in found.groups] == [kind]


def test_late_ones_get_the_sets_that_are_left() -> None:
    made = replace(LANDS, steps=(step(JUMP, 2, 4, "J"), step(THROW, 5, 3, "T")))
    plan = plan_of(
        made,
        versions=personal(made, "P", "Q"),
        rounds={"P": Rounds(1, 1, ""), "Q": Rounds(1, 1, "")},
    )
    found = as_worked(plan, {("P", "J"): (1, 1), ("Q", "J"): (1,)}, {"P"})
    assert sets_of(found, "P") == {"J": 2}
    assert found.versions["Q"] == plan.versions["Q"]
    nothing = as_worked(plan, {}, {"P", "R"})
    assert nothing.versions["P"] == ()


def test_late_ones_in_a_circuit_join_in_the_first_round_they_are_in() -> None:
    made = replace(LANDS, style=Style.CIRCUIT, rounds=4)
    plan = plan_of(made, versions=personal(made, "P"), rounds={"P": Rounds(4, 1, "late")})
    found = as_worked(plan, {("P", "J"): (3, 4), ("P", "T"): (4,)}, {"P"})
    assert found.rounds["P"] == Rounds(2, 3, "late")
    assert sets_of(found, "P") == {"J": 4, "T": 3}
    none = as_worked(plan, {}, {"P"})
    assert none.rounds["P"] == Rounds(4, 1, "late")


def test_late_ones_along_a_row_get_whole_sets_of_passes() -> None:
    row = Step("row", Scheme(CountedIn.PASSES_ONE_WAY, 3, 4), "L")
    made = block(row, style=Style.LANES, lane=LaneRule(boxes=2))
    his = PersonalStep("L", row, exercise(JUMP))
    plan = plan_of(made, versions={"P": (his,)}, rounds={"P": Rounds(2, 1, "")})
    for turns, sets in ((7, {"L": 2}), (6, {"L": 2}), (5, {"L": 1}), (2, {})):
        found = as_worked(plan, {("P", "L"): (1,) * turns}, {"P"})
        assert sets_of(found, "P") == sets
        assert found.rounds["P"].rounds == 1
