"""The re-check of a plan: it passes good plans, and refuses one broken plan for each rule."""

import ast
import inspect
from collections.abc import Callable
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from planning import broken_floors, broken_plans, broken_sheets
from planning.plan_changes import Case
from squadwright.demo import demo_club
from squadwright.planning import verify
from squadwright.planning.plan import make_plan
from squadwright.planning.verify import RULES, verify_plan

MONDAY = date(2026, 3, 2)
BARBELL, PLYOMETRIC = 0, 1
IN_THE_PLYOMETRIC_SESSION = {
    *("contacts_are_counted_right", "throws_are_counted_right", "the_young_jump_less"),
    *("ball_and_box_are_named_where_needed", "ball_suits_the_exercise", "ball_is_light_enough"),
    *("there_are_enough_balls", "box_is_sound", "a_piece_of_kit_is_in_one_place"),
    *("everybody_is_in_one_group_of_a_block", "nobody_works_alone", "lines_are_short_enough"),
    *("there_are_boxes_for_all_at_once", "sets_on_the_sheet_are_those_of_the_dose"),
    "partner_work_has_a_partner",
    *("all_work_on_the_sheet_is_in_a_dose", "heavy_drops_are_in_the_audit"),
}
RULE_NAMES = [rule.__name__ for rule in RULES]


@cache
def planned(session: int) -> Case:
    club = demo_club(MONDAY)
    return Case(club, club.sessions[session], make_plan(club, club.sessions[session]))


@pytest.mark.parametrize("session", [BARBELL, PLYOMETRIC])
def test_a_plan_of_the_demo_club_breaks_no_rule(session: int) -> None:
    case = planned(session)
    assert verify_plan(case.club, case.session, case.plan) == ()


@pytest.mark.parametrize("rule", RULE_NAMES)
def test_a_plan_that_breaks_one_rule_is_refused_for_that_rule(rule: str) -> None:
    sources = (broken_floors, broken_plans, broken_sheets)
    breaks: Callable[[Case], Case] = next(getattr(s, rule) for s in sources if hasattr(s, rule))
    case = breaks(planned(PLYOMETRIC if rule in IN_THE_PLYOMETRIC_SESSION else BARBELL))
    breaches = verify_plan(case.club, case.session, case.plan)
    assert {breach.constraint for breach in breaches} == {rule.replace("_", " ")}
    assert all(breach.place and breach.sentence for breach in breaches)


def test_every_rule_says_itself_in_words_and_has_a_name_of_its_own() -> None:
    assert len(set(RULE_NAMES)) == len(RULE_NAMES)
    assert all(inspect.getdoc(rule) for rule in RULES)


def test_a_breach_reads_as_rule_place_and_sentence() -> None:
    case = broken_sheets.seed_is_that_of_the_session(planned(BARBELL))
    (breach,) = verify_plan(case.club, case.session, case.plan)
    assert str(breach) == "seed is that of the session, seed: 2, and the session has 1"


def test_the_re_check_shares_no_code_with_the_parts_that_plan() -> None:
    allowed = (
        *("squadwright.errors", "squadwright.library", "squadwright.model", "squadwright.units"),
        "squadwright.planning.verify",
    )
    foreign = {}
    for path in sorted(Path(inspect.getfile(verify)).parent.glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = []
            if isinstance(node, ast.Import):
                names = [alias.name for alias in node.names]
            elif isinstance(node, ast.ImportFrom):
                assert node.level == 0
                names = [node.module or ""]
            for name in names:
                if name.startswith("squadwright") and not name.startswith(allowed):
                    foreign[path.name] = name
    assert foreign == {}
