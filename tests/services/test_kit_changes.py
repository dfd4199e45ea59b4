"""The line of what a missing ball, box or plate does to a plan, and for whom."""

from dataclasses import replace
from datetime import date

from squadwright.demo import demo_club
from squadwright.model.plan import KitBound, Plan
from squadwright.model.session import MissingKit
from squadwright.planning.plan import make_plan
from squadwright.services.kit_words import kit_words, share_text, tolerance_words
from squadwright.services.plan_changes import changes

CLUB = demo_club(date(2026, 3, 2))
BARBELL, PLYOMETRIC = CLUB.sessions


def without(session: int, *missing: MissingKit) -> tuple[Plan, Plan]:
    named = CLUB.sessions[session]
    before = make_plan(CLUB, named)
    return before, make_plan(CLUB, replace(named, missing=missing), previous=before)


def test_who_gets_another_ball_or_box_is_told_with_what_he_had() -> None:
    before, after = without(1, MissingKit("ball-4", 4))
    line = changes(before, after)
    assert " kg ball (was 4 kg ball)" in line
    before, after = without(1, MissingKit("foam-1"), MissingKit("foam-2"))
    assert "box of 30 cm (was box of" in changes(before, after)


def test_a_plan_over_itself_has_no_words() -> None:
    for session in (0, 1):
        before, after = without(session)
        assert changes(before, after) == "Nobody has a change."
        assert kit_words(before, after) == ""


def test_other_plates_for_the_same_load_are_told_by_bar() -> None:
    before, after = without(0, MissingKit("plates-10", 2))
    assert kit_words(before, after).startswith("Other plates lie on bar")
    assert kit_words(before, after).endswith(", for the same load.")


def test_the_tolerance_is_rounded_up_so_that_the_figure_still_works() -> None:
    assert share_text(3 / 23) == "13.1 %"
    assert share_text(0.15) == "15 %"
    assert share_text(0.0) == "0 %"


def test_what_is_proven_of_the_tolerance_is_said_and_no_more() -> None:
    proven = KitBound(3 / 23, 3 / 23, 26.5, 4, 12, True)
    assert tolerance_words(proven)[0] == "Tightest tolerance that works: 13.1 %"
    assert "It is proven that no plates on these bars come nearer." in tolerance_words(proven)[1]
    is_open = replace(proven, largest_shortfall_bound=0.1, proven=False)
    assert (
        "It is proven that 10 % cannot be beaten; between, it is open."
        in (tolerance_words(is_open)[1])
    )
    exact = KitBound(0.0, 0.0, 0.0, 0, 0, True)
    assert tolerance_words(exact) == ("Every load is exactly the one wanted", "")
