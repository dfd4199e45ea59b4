"""The lighter version of a routine, the message about a changed week, and work in words."""

from dataclasses import replace
from datetime import date, datetime, time, timedelta

import pytest

from squadwright.camp.lighter import lighter
from squadwright.camp.message import message, original_of
from squadwright.camp.moves import Move
from squadwright.camp.routine_work import is_jump, regions_of, work_of
from squadwright.camp.rule_words import LEAST_ABOVE_NOTHING, rules_by_name
from squadwright.camp.week import DatedWork, group_week, works_between
from squadwright.camp.week_words import load_words, move_words, work_words, worked_words
from squadwright.demo import demo_club
from squadwright.errors import InvalidInput
from squadwright.library import exercise
from squadwright.model.calendar import BodyRegion, SlotChange, Work
from squadwright.model.camp_rules import CampRules
from squadwright.model.club import Club, Weekday, WeekSlot
from squadwright.model.routine import Block, CountedIn, Routine, Scheme, Step, Style

MONDAY = date(2026, 3, 2)
CLUB = demo_club(MONDAY)
JUMP, THROW, PRESS, HOLD = (
    "broad-jump-and-stick",
    "tall-kneeling-chest-pass",
    "split-stance-strict-press",
    "front-support-hold",
)


def block(name: str, *exercises: str, rounds: int = 1) -> Block:
    steps = tuple(Step(each, Scheme(CountedIn.REPETITIONS, 5, 2)) for each in exercises)
    return Block(name, Style.SETS, steps, rounds)


def routine(*blocks: Block) -> Routine:
    return Routine("long-name", 2, "Long", "power", blocks)


def test_a_lighter_routine_has_half_the_rounds_no_jumps_and_its_throws() -> None:
    written = routine(
        block("A", JUMP, rounds=4),
        block("B", JUMP, THROW, rounds=5),
        block("C", PRESS, rounds=2),
        block("D", THROW),
    )
    found = lighter(written)
    assert found.routine is not None
    assert (found.routine.id, found.routine.version) == ("long-name-2-lighter", 1)
    left = [(b.name, b.rounds, [s.exercise for s in b.steps]) for b in found.routine.blocks]
    assert left == [("B", 2, [THROW]), ("C", 1, [PRESS]), ("D", 1, [THROW])]
    jump, throw = exercise(JUMP).name, exercise(THROW).name
    assert (found.dropped, found.kept_throws) == ((jump, jump), (throw, throw))
    assert found.rounds == ((5, 2), (2, 1))
    assert found.words == (
        f"no jumps ({jump}, {jump}); throws as written; 2 rounds instead of 5; 1 rounds instead "
        "of 2"
    )


def test_nothing_but_jumps_leaves_no_lighter_routine() -> None:
    found = lighter(routine(block("A", JUMP), block("B", JUMP, rounds=4)))
    assert found.routine is None
    assert (len(found.dropped), found.kept_throws, found.rounds) == (2, (), ())
    assert lighter(routine(block("A", PRESS))).words == ""


@pytest.mark.parametrize(
    ("exercises", "work", "regions"),
    [
        ((PRESS, JUMP), Work.BARBELL, {BodyRegion.LEGS, BodyRegion.SHOULDERS, BodyRegion.GRIP}),
        ((JUMP,), Work.PLYOMETRIC, {BodyRegion.LEGS}),
        ((HOLD, THROW), Work.PLYOMETRIC, None),
        ((HOLD,), Work.CONDITIONING, None),
    ],
)
def test_the_kind_of_work_and_its_regions_come_from_the_exercises(
    exercises: tuple[str, ...], work: Work, regions: set[BodyRegion] | None
) -> None:
    written = routine(block("A", *exercises))
    assert work_of(written) is work
    if regions is not None:
        assert set(regions_of(written)) == regions
    assert (BodyRegion.GRIP in regions_of(written)) is (work is Work.BARBELL)


def test_jumps_are_of_the_legs_and_throw_nothing() -> None:
    assert is_jump(exercise(JUMP))
    assert not is_jump(exercise(THROW))
    assert not is_jump(exercise(PRESS))
    assert not is_jump(replace(exercise(JUMP), region=exercise(PRESS).region))
    assert not is_jump(replace(exercise(JUMP), throws_per_repetition=1))


CHANGED_SLOT = WeekSlot(
    "slot",
    "Evening bar",
    Weekday.MONDAY,
    time(18),
    time(19),
    "bar",
    squads=("Mat", "Cage"),
    work=Work.BARBELL,
    planned_effort=6,
    room=CLUB.rooms[0].id,
)
WEEK = (date(2026, 3, 2), date(2026, 3, 8))
OTHER = CLUB.rooms[1]


def told(change: SlotChange, slot: WeekSlot = CHANGED_SLOT) -> list[str]:
    """The lines under the head of the message."""
    club = replace(CLUB, week=(slot,), sessions=(), closures=(), travel=(), slot_changes=(change,))
    said = message(club, works_between(club, *WEEK), MONDAY)
    head, *lines = said.split("\n")
    assert head == f"{club.name}: changes to the week of Monday 2 March 2026."
    return lines


USUAL = "instead of Mon 2 Mar, 18:00 to 19:00"


@pytest.mark.parametrize(
    ("change", "lines"),
    [
        (
            {"is_off": True, "reason": "hall let"},
            ["Evening bar on Mon 2 Mar at 18:00 is off (hall let). For: Mat, Cage."],
        ),
        (
            {"moved_to": date(2026, 3, 3)},
            [
                f"Evening bar: Tue 3 Mar, 18:00 to 19:00, {CLUB.rooms[0].name}, {USUAL}. "
                "For: Mat, Cage."
            ],
        ),
        (
            {"ends_at": time(18, 30)},
            [
                f"Evening bar: Mon 2 Mar, 18:00 to 18:30, {CLUB.rooms[0].name}, {USUAL}. "
                "For: Mat, Cage."
            ],
        ),
        (
            {"room": OTHER.id},
            [f"Evening bar: Mon 2 Mar, 18:00 to 19:00, {OTHER.name}, {USUAL}. For: Mat, Cage."],
        ),
        (
            {"planned_effort": 3, "reason": "tired"},
            [
                "Evening bar on Mon 2 Mar at 18:00 is planned at effort 3 of 10 instead of 6 "
                "(tired). For: Mat, Cage."
            ],
        ),
        (
            {"planned_effort": 3, "starts_at": time(17), "reason": "tired"},
            [
                f"Evening bar: Mon 2 Mar, 17:00 to 19:00, {CLUB.rooms[0].name}, {USUAL} (tired). "
                "For: Mat, Cage.",
                "Evening bar on Mon 2 Mar at 17:00 is planned at effort 3 of 10 instead of 6.",
            ],
        ),
    ],
    ids=["off", "day", "end", "room", "effort", "hour and effort"],
)
def test_a_changed_date_is_told_in_lines_to_send(
    change: dict[str, object], lines: list[str]
) -> None:
    assert told(SlotChange("c", "slot", MONDAY, **change)) == lines  # type: ignore[arg-type]


def test_an_effort_that_stays_is_not_told_and_one_that_was_not_planned_has_no_before() -> None:
    change = SlotChange("c", "slot", MONDAY, planned_effort=6, ends_at=time(18, 30))
    assert len(told(change)) == 1
    bare = replace(CHANGED_SLOT, planned_effort=None, squads=(), room=None)
    lines = told(SlotChange("c", "slot", MONDAY, planned_effort=4), bare)
    assert lines == ["Evening bar on Mon 2 Mar at 18:00 is planned at effort 4 of 10."]


def test_a_week_as_it_stands_needs_no_message() -> None:
    assert message(CLUB, works_between(CLUB, *WEEK), MONDAY) == ""


def test_a_lighter_routine_leads_back_to_the_one_it_was_made_from() -> None:
    ropewalk = CLUB.routine("ropewalk", 1)
    made = lighter(ropewalk).routine
    assert made is not None
    assert original_of(CLUB, made.id) == ropewalk
    assert original_of(CLUB, "ropewalk") is None


def work(**more: object) -> DatedWork:
    club = replace(CLUB, week=(CHANGED_SLOT,), sessions=(), closures=(), travel=())
    (found,) = works_between(club, *WEEK)
    return replace(found, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({}, "effort 6 x 60 min = 360 AU"),
        ({"effort": 8, "is_hard": True}, "effort 8 x 60 min = 480 AU, hard"),
        ({"effort": None}, "60 min, no planned effort"),
        ({"is_off": True}, "off"),
        ({"lost_to": "paint", "is_off": True}, "lost: paint"),
    ],
)
def test_work_in_words(changed: dict[str, object], words: str) -> None:
    assert work_words(work(**changed)) == words


def test_a_day_of_unknown_load_is_not_nothing() -> None:
    assert (load_words(None), load_words(0.0), load_words(360.0)) == ("not known", "0", "360")


def test_monotony_and_strain_are_worked_out_in_front_of_the_coach() -> None:
    """Daily loads 0 420 300 540 0 600 240: mean 300, SD 240, 1.25, 2625 (by Foster's formulas)."""
    days = ((1, 60, 7), (2, 60, 5), (3, 90, 6), (5, 120, 5), (6, 60, 4))
    slots = tuple(
        replace(
            CHANGED_SLOT,
            id=f"s{number}",
            day=list(Weekday)[number],
            starts_at=time(10),
            ends_at=(datetime(2026, 1, 1, 10) + timedelta(minutes=minutes)).time(),
            planned_effort=effort,
        )
        for number, minutes, effort in days
    )
    club = replace(CLUB, week=slots, sessions=(), closures=(), travel=())
    week = group_week(club, works_between(club, *WEEK), MONDAY, "Mat")
    assert worked_words(week) == "Mat: 300.0 / 240.0 = 1.25; 2100 x 1.25 = 2625."
    one = replace(club, week=(replace(slots[0], planned_effort=None),))
    unknown = group_week(one, works_between(one, *WEEK), MONDAY, "Mat")
    assert worked_words(unknown) == f"Mat: monotony and strain {unknown.summary.why_not}."


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({}, "Bar to Tue 3 Mar, 17:00 to 18:00"),
        ({"is_off": True}, "Bar off on Tue 3 Mar"),
        ({"effort": 3}, "Bar easier: planned effort 3"),
    ],
)
def test_a_move_in_words(more: dict[str, object], words: str) -> None:
    day = date(2026, 3, 3)
    move = Move("k", "Bar", MONDAY, day, time(17), time(18), **more)  # type: ignore[arg-type]
    assert move_words(move) == words


def rules_with(club: Club, **more: object) -> CampRules:
    return replace(club.camp_rules, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("name", "low", "high", "default"),
    [
        ("main_weight", LEAST_ABOVE_NOTHING, 10.0, 1.0),
        ("other_weight", 0.0, 10.0, 0.3),
        ("least_cut", 0.0, 100.0, 41.0),
        ("many_bouts", 2.0, 20.0, 4.0),
        ("quiet_rounds", 1.0, 20.0, 1.0),
        ("change_cost", 0.0, 1.0, 0.0005),
    ],
)
def test_a_rule_is_shown_with_the_limits_of_the_model(
    name: str, low: float, high: float, default: float
) -> None:
    """The ends of what the model takes; a main weight of 0 is refused, so 0.01 is its least."""
    rule = rules_by_name()[name]
    assert rule.limits == (low, high)
    assert rule.default == default
    assert rule.kept(rule.default) == getattr(CampRules(), name)
    assert type(rule.kept(rule.default)) is type(getattr(CampRules(), name))


def test_a_least_cut_above_the_most_is_refused() -> None:
    with pytest.raises(InvalidInput, match="above the most"):
        rules_with(CLUB, least_cut=0.61)
