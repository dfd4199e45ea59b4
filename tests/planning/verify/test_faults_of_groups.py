"""Each fault about groups, raised by a plan spoiled in exactly that way."""

from dataclasses import replace
from datetime import date

import pytest

from planning.plan_changes import Case, change_athlete, change_dose, change_kit, change_settings
from planning.verify.sound_plan import SOUND
from planning.verify.spoiled import (
    Spoiled,
    block,
    found,
    group,
    lines_raised,
    lines_that_raise,
    piece,
)
from squadwright.model.kit import Box
from squadwright.model.plan import Finding, GroupLine, Severity
from squadwright.model.routine import GroupKind, LaneRule
from squadwright.model.session import MinorRule
from squadwright.planning.verify import groups
from squadwright.planning.verify.day import ON_HIS_OWN
from squadwright.planning.verify.groups import (
    IN_TURNS,
    banned_pairs_are_apart,
    everybody_is_in_one_group_of_a_block,
    groups_are_of_a_block_of_the_routine,
    lines_are_short_enough,
    minors_are_not_alone_with_an_adult,
    nobody_works_alone,
    partner_work_has_a_partner,
    required_pairs_are_together,
)

GROUPS = SOUND.plan.groups
SQUAD = tuple(f"A{n}" for n in range(1, 12))
DOSE = SOUND.plan.doses[0]
NO_CIRCUIT = change_dose(
    SOUND, "A1", exercises=tuple(e for e in DOSE.exercises if e.block != "B"), throws=0
)
AGAIN = GroupLine("Pair 3", ("A1", "A2"), "pair", "B")
ALONE_AT_B = group(SOUND, 2, athletes=("A1",))
ONLY_A1 = group(ALONE_AT_B, 3, athletes=())
LESS_FLOOR = Finding("less floor", None, Severity.NOTE, "Less floor.", None, None, "", "", "")
NEVER = change_settings(SOUND, minor_rule=MinorRule.NEVER)
ADULT_AND_MINOR = "is one minor with one adult"


def kept_apart(*pairs: tuple[str, str], case: Case = SOUND) -> Case:
    return change_settings(case, banned_pairs=pairs)


def wanted(*pairs: tuple[str, str], case: Case = SOUND) -> Case:
    return change_settings(case, required_pairs=pairs)


def boxes(count: int, longest: int = 3) -> Case:
    """So many boxes for rows of 3."""
    case = block(SOUND, "C", lane=LaneRule(boxes=3, longest_line=longest))
    return change_kit(case, boxes=tuple(Box(f"box-{n}", (0.3,)) for n in range(count)))


def born(case: Case, athlete: str, year: int, day: int) -> Case:
    return change_athlete(case, athlete, birth_date=date(year, 3, day))


def in_line(count: int, case: Case = SOUND) -> Case:
    return group(case, 4, athletes=SQUAD[:count])


LONG = (("groups[4]", "Line has 4 people; the most is 3"),)

CASES = (
    Spoiled(
        "in no group",
        everybody_is_in_one_group_of_a_block,
        group(SOUND, 2, athletes=("A2",)),
        (("groups of B", "Ada Brink, A1 is in 0 groups, not 1"),),
    ),
    Spoiled(
        "in two groups",
        everybody_is_in_one_group_of_a_block,
        group(SOUND, 3, athletes=("A1", "A3", "A4")),
        (("groups of B", "Ada Brink, A1 is in 2 groups, not 1"),),
    ),
    Spoiled("in one and does nothing", everybody_is_in_one_group_of_a_block, NO_CIRCUIT),
    Spoiled(
        "in two and does nothing",
        everybody_is_in_one_group_of_a_block,
        group(NO_CIRCUIT, 3, athletes=("A1", "A3", "A4")),
        (("groups of B", "Ada Brink, A1 is in 2 groups"),),
    ),
    Spoiled(
        "of a block that is not there",
        groups_are_of_a_block_of_the_routine,
        group(SOUND, 0, block="Nowhere"),
        (("groups[0]", "'Nowhere' is not a block of the routine"),),
    ),
    Spoiled(
        "with a stranger",
        groups_are_of_a_block_of_the_routine,
        group(SOUND, 0, athletes=("A1", "A2", "A9")),
        (("groups[0]", "A9 is not an athlete of the session"),),
    ),
    Spoiled(
        "alone among others",
        nobody_works_alone,
        ALONE_AT_B,
        (("groups[2]", "Pair 1 has 1 of 3 people; the least is 2"),),
    ),
    Spoiled(
        "a group of nobody",
        nobody_works_alone,
        group(SOUND, 2, athletes=()),
        (("groups[2]", "Pair 1 has 0 of 2 people; the least is 2"),),
    ),
    Spoiled("one person only", nobody_works_alone, ONLY_A1),
    Spoiled(
        "alone with partner work",
        partner_work_has_a_partner,
        ALONE_AT_B,
        (
            (
                "doses[0] (Ada Brink, A1).exercises[3]",
                "Standing chest pass needs a partner, and works alone",
            ),
        ),
    ),
    Spoiled(
        "everyone on her own",
        partner_work_has_a_partner,
        group(SOUND, 2, kind=ON_HIS_OWN),
        tuple(
            (
                f"doses[{n}] ({name}).exercises[3]",
                "Standing chest pass needs a partner, and works alone",
            )
            for n, name in enumerate(("Ada Brink, A1", "Bo Calder, A2"))
        ),
    ),
    Spoiled("the coach is the partner of one person", partner_work_has_a_partner, ONLY_A1),
    Spoiled(
        "on her own where no partner is needed",
        partner_work_has_a_partner,
        group(SOUND, 5, kind=ON_HIS_OWN),
    ),
    Spoiled("apart", banned_pairs_are_apart, kept_apart(("A9", "A1"))),
    *(
        Spoiled(
            f"together, {pair}",
            banned_pairs_are_apart,
            kept_apart(pair, case=group(group(SOUND, 4, kind=ON_HIS_OWN), 0, kind=ON_HIS_OWN)),
            tuple((f"groups[{n}]", f"{said} are in Pair 1") for n in (2, 5)),
        )
        for pair, said in (
            (("A1", "A2"), "Ada Brink, A1 and Bo Calder, A2"),
            (("A2", "A1"), "Bo Calder, A2 and Ada Brink, A1"),
        )
    ),
    Spoiled(
        "together in the line alone",
        banned_pairs_are_apart,
        kept_apart(("A1", "A3")),
        (("groups[4]", "Ada Brink, A1 and Cil Dorn, A3 are in Line"),),
    ),
    Spoiled("together", required_pairs_are_together, wanted(("A1", "A2"), ("A4", "A3"))),
    Spoiled(
        "apart but in the line",
        required_pairs_are_together,
        wanted(("A1", "A3")),
        tuple(
            (f"groups of {name}", f"Ada Brink, A1 is in {kind} 1, Cil Dorn, A3 in {kind} 2")
            for name, kind in (("A", "Wave"), ("B", "Pair"), ("D", "Pair"))
        ),
    ),
    Spoiled(
        "one of them is in no group",
        required_pairs_are_together,
        wanted(("A1", "A9"), ("A9", "A1")),
    ),
    Spoiled("a three for a pair", lines_are_short_enough, group(SOUND, 2, athletes=SQUAD[:3])),
    Spoiled(
        "four for a pair",
        lines_are_short_enough,
        group(SOUND, 2, athletes=SQUAD[:4]),
        (("groups[2]", "Pair 1 has 4 people; the most is 3"),),
    ),
    *(
        Spoiled(
            f"{count} for a three",
            lines_are_short_enough,
            block(group(SOUND, 2, athletes=SQUAD[:count]), "B", group_kind=GroupKind.THREES),
            (("groups[2]", "Pair 1 has 5 people; the most is 4"),) if count > 4 else (),
        )
        for count in (4, 5)
    ),
    Spoiled("a wave of any size", lines_are_short_enough, group(SOUND, 0, athletes=SQUAD)),
    Spoiled(
        "on her own with any number",
        lines_are_short_enough,
        block(group(SOUND, 2, athletes=SQUAD), "B", group_kind=GroupKind.ALONE),
    ),
    Spoiled("a block that is not there", lines_are_short_enough, group(SOUND, 2, block="Nowhere")),
    *(
        Spoiled(
            f"{count} in a line without boxes",
            lines_are_short_enough,
            in_line(count, block(SOUND, "C", lane=LaneRule(longest_line=3))),
            (("groups[4]", "Line has 4 people; the most is 3"),) if count > 3 else (),
        )
        for count in (3, 4)
    ),
    # Four people: one row of 3 boxes makes a line of 4, two rows lines of 2 (3 are allowed).
    Spoiled("no row", lines_are_short_enough, boxes(2)),
    Spoiled("one row", lines_are_short_enough, boxes(5)),
    Spoiled("two rows", lines_are_short_enough, boxes(6), LONG),
    Spoiled("two rows, a longer line allowed", lines_are_short_enough, boxes(6, longest=4)),
    Spoiled(
        "two rows less a box out of service",
        lines_are_short_enough,
        piece(boxes(6), "boxes", "box-0", in_service=False),
    ),
    Spoiled(
        "two rows less a box not fit for landing",
        lines_are_short_enough,
        piece(boxes(6), "boxes", "box-0", fit_for_landing=False),
    ),
    Spoiled(
        "two rows for five in two lines",
        lines_are_short_enough,
        group(boxes(6), 4, athletes=SQUAD[:3]).with_plan(
            groups=(
                *group(boxes(6), 4, athletes=SQUAD[:3]).plan.groups,
                GroupLine("Line 2", SQUAD[3:5], "line", "C", lane=2),
            )
        ),
    ),
    *(
        Spoiled(
            f"{count} in turns on less floor",
            lines_are_short_enough,
            group(SOUND, 2, kind=IN_TURNS, athletes=SQUAD[:count]).with_plan(audit=audit),
            (("groups[2]", f"Pair 1 has {count} people; the most is {most}"),)
            if count > most
            else (),
        )
        for count, audit, most in ((10, (LESS_FLOOR,), 10), (11, (LESS_FLOOR,), 10), (10, (), 3))
    ),
    Spoiled(
        "less floor, not in turns",
        lines_are_short_enough,
        group(SOUND, 2, athletes=SQUAD[:4]).with_plan(audit=(LESS_FLOOR,)),
        (("groups[2]", "Pair 1 has 4 people; the most is 3"),),
    ),
    Spoiled(
        "17 with an adult",
        minors_are_not_alone_with_an_adult,
        born(NEVER, "A1", 2008, 3),
        (
            ("groups[0]", f"Wave 1 {ADULT_AND_MINOR}"),
            ("groups[2]", f"Pair 1 {ADULT_AND_MINOR}"),
            ("groups[5]", f"Pair 1 {ADULT_AND_MINOR}"),
        ),
    ),
    Spoiled("18 today", minors_are_not_alone_with_an_adult, born(NEVER, "A1", 2008, 2)),
    Spoiled(
        "two of 17",
        minors_are_not_alone_with_an_adult,
        born(born(NEVER, "A1", 2008, 3), "A2", 2008, 3),
    ),
    Spoiled(
        "17 with an adult where the coach allows it",
        minors_are_not_alone_with_an_adult,
        born(change_settings(SOUND, minor_rule=MinorRule.AVOID), "A1", 2008, 3),
    ),
    Spoiled(
        "17 with a stranger, whose age nobody knows",
        minors_are_not_alone_with_an_adult,
        group(NEVER, 2, athletes=("A9", "A1")),
    ),
)


@pytest.mark.parametrize("spoiled", CASES, ids=str)
def test_a_plan_spoiled_in_one_way_has_exactly_that_fault(spoiled: Spoiled) -> None:
    assert found(spoiled) == spoiled.faults


def test_each_fault_about_groups_is_raised_by_some_case(monkeypatch: pytest.MonkeyPatch) -> None:
    assert lines_raised(groups, CASES, monkeypatch) == lines_that_raise(groups)


def test_a_group_of_one_minor_is_no_pair() -> None:
    alone = group(born(NEVER, "A1", 2008, 3), 2, athletes=("A1",))
    alone = alone.with_plan(groups=tuple(g for g in alone.plan.groups if g.block == "B"))
    assert found(Spoiled("alone", minors_are_not_alone_with_an_adult, replace(alone))) == ()
