"""With whom somebody works for whom no bar is light enough: common practice, no source."""

from dataclasses import replace
from datetime import date

from squadwright.demo import demo_club
from squadwright.model.plan import GroupLine
from squadwright.planning.bar_sharing import SharingProblem, _with_stick

CLUB = demo_club(date(2026, 3, 2))
SESSION = CLUB.sessions[0]
PAIR = GroupLine("Ropewalk group 1", ("A01", "A05"), "pair", "Ropewalk", bar="bar1")
ALONE = GroupLine("Ropewalk group 2", ("A09",), "waves", "Ropewalk", bar="bar2")


def problem(*, apart: tuple[tuple[str, str], ...] = ()) -> SharingProblem:
    settings = replace(SESSION.settings, banned_pairs=apart, required_pairs=())
    session = replace(SESSION, settings=settings)
    return SharingProblem("Ropewalk", CLUB.kit, session, people={}, targets={}, waves=2)


def groups(lines: tuple[GroupLine, ...]) -> list[tuple[str, ...]]:
    return [line.athletes for line in lines]


def test_who_has_a_stick_works_beside_the_lifter_who_is_alone_and_not_with_a_pair() -> None:
    found = _with_stick(problem(), [PAIR, ALONE], ["A12"])
    assert groups(found) == [("A01", "A05"), ("A09", "A12")]
    assert found[1].kind == "pair"


def test_two_with_a_stick_work_together_where_nobody_is_alone() -> None:
    found = _with_stick(problem(), [PAIR], ["A12", "A03"])
    assert groups(found) == [("A01", "A05"), ("A12", "A03")]


def test_who_is_kept_apart_from_the_lifter_alone_joins_the_others() -> None:
    found = _with_stick(problem(apart=(("A12", "A09"),)), [PAIR, ALONE], ["A12"])
    assert groups(found) == [("A01", "A05", "A12"), ("A09",)]
