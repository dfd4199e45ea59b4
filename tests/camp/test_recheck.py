"""The second look at a camp refuses one broken plan a rule, and uses nothing of the solver."""

import ast
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from camp.camp_cases import athlete, camp, weekly_sessions
from squadwright.camp import recheck
from squadwright.camp.limits import limits_of
from squadwright.camp.problem import CampProblem, CampRules, CampSession, CampSolution
from squadwright.camp.recheck import breaches
from squadwright.camp.solve import solve_camp

SESSIONS = (
    *weekly_sessions(6),
    *(
        CampSession(f"x{7 * week + 1}", "Early", 7 * week + 1, 0, 2, 60.0, False)
        for week in range(6)
    ),
)
AT = {session.id: number for number, session in enumerate(SESSIONS)}
CAMP = camp(
    6,
    SESSIONS,
    athlete("one", SESSIONS, (26, True), off=(9,)),
    athlete("two", SESSIONS, returns_on=14, off=tuple(range(7, 14))),
    athlete("three", SESSIONS[:9]),
)
GOOD = solve_camp(CAMP)


def with_rounds(who: int, **rounds: int | None) -> CampSolution:
    rows = [list(row) for row in GOOD.rounds]
    for session, number in rounds.items():
        rows[who][AT[session]] = number
    return replace(GOOD, rounds=tuple(tuple(row) for row in rows))


def with_squad(session: str, rounds: int) -> CampSolution:
    squad = list(GOOD.squad_rounds)
    squad[AT[session]] = rounds
    return replace(GOOD, squad_rounds=tuple(squad))


BROKEN: dict[str, tuple[Callable[[], CampSolution], str]] = {
    "too few lines": (lambda: replace(GOOD, rounds=GOOD.rounds[:1]), "not one line an athlete"),
    "too short a squad": (
        lambda: replace(GOOD, squad_rounds=(3,)),
        "one number of rounds a session",
    ),
    "too short a line": (
        lambda: replace(GOOD, rounds=((1,), *GOOD.rounds[1:])),
        "one: not one entry a session",
    ),
    "rounds where nobody is expected": (lambda: with_rounds(2, s21=2), "where nobody is expected"),
    "part of a round": (lambda: with_rounds(0, s0=1.5), "1.5 is no number"),  # type: ignore[arg-type]
    "the squad does nothing": (lambda: with_squad("s4", 0), "0 rounds of the squad are not 1 to 3"),
    "rounds on a day off": (lambda: with_rounds(0, s9=1), "one, s9: 1 rounds on a day off"),
    "rounds on the day of the event": (lambda: with_rounds(0, s0=9), "9 rounds, more than 3"),
    "a session dropped": (lambda: with_rounds(0, s4=0), "one, s4: a session is dropped"),
    "rounds the day before": (lambda: with_rounds(0, s25=2), "one, s25: 2 rounds, more than 1"),
    "extra rounds in a taper": (lambda: with_rounds(0, x15=1), "one, x15: 1 rounds, more than 0"),
    "far from the squad": (lambda: with_rounds(2, s4=1), "1 rounds, and the squad does 3"),
    "more than the squad": (lambda: with_squad("s37", 1), "3 rounds, and the squad does 1"),
    "a taper that cuts too little": (
        lambda: with_rounds(0, s14=3, s16=3, s18=3, s21=3),
        "taper for Event 26: ",
    ),
    "too much after a gap": (lambda: with_rounds(1, s14=3, s16=3), "two, week 1 back: more than 4"),
    "a week too low": (
        lambda: with_rounds(2, s0=2, s2=2, s4=2),
        "three, week 1: 6 rounds, at least 7 of 9 are asked",
    ),
    "a week too high": (lambda: with_rounds(1, x1=2, s4=9), "week 1: 17 rounds, usual are 9"),
    "a rise too steep": (
        lambda: with_rounds(1, s28=3, s30=3, s32=3, x29=2, s21=1),
        " rounds after ",
    ),
    "too many extra rounds": (lambda: with_rounds(1, x36=5), "two, week 6: 5 extra rounds"),
    "a wrong value": (lambda: replace(GOOD, value=GOOD.value + 1), "the value is "),
    "a bound that is none": (
        lambda: replace(GOOD, bound=GOOD.value - 1),
        "is below the value",
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_camp_is_refused(name: str) -> None:
    make, told = BROKEN[name]
    found = breaches(CAMP, make())
    assert any(told in each for each in found), found


def test_the_camp_they_were_broken_from_is_whole() -> None:
    assert breaches(CAMP, GOOD) == []


def test_a_first_week_above_what_was_done_before_is_refused() -> None:
    """Three done before, and the coach's rise of two: five at most."""
    sessions = SESSIONS[:9]
    problem = camp(3, sessions, athlete("four", sessions, before=3))
    good = solve_camp(problem)
    assert breaches(problem, good) == []
    line = (2, 2, 2, *good.rounds[0][3:])
    found = breaches(problem, replace(good, rounds=(line,)))
    assert "four, week 1: 6 rounds after 3" in found


def test_extra_rounds_are_counted_in_a_week_without_the_squad_as_well() -> None:
    """Two early sessions of up to two rounds in a week without any other: two rounds at most."""
    early = tuple(
        CampSession(f"x{day}", "Early", day, 0, 2, 60.0, is_shared=False) for day in (7, 9)
    )
    sessions = (*SESSIONS[:3], *early)
    problem = camp(2, sessions, athlete("five", sessions, (35, True)))
    good = solve_camp(problem)
    assert breaches(problem, good) == []
    assert sum(rounds or 0 for rounds in good.rounds[0][3:]) == problem.rules.most_extra_in_a_week
    line = (*good.rounds[0][:3], 2, 1)
    found = breaches(problem, replace(good, rounds=(line,)))
    assert "five, week 2: 3 extra rounds" in found


def test_a_taper_may_not_be_cut_to_nothing() -> None:
    problem: CampProblem = replace(CAMP, rules=CampRules(most_cut=0.3, least_cut=0.2))
    assert any("taper for Event 26" in each for each in breaches(problem, GOOD))


def test_the_second_look_uses_nothing_of_the_solver() -> None:
    tree = ast.parse(Path(recheck.__file__).read_text(encoding="utf-8"))
    modules = {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    assert {m for m in modules if m and m.startswith("squadwright")} == {"squadwright.camp.problem"}


@pytest.mark.parametrize(
    ("apart", "bouts", "last_off"), [(9, 1, 9), (10, 1, 8), (9, 4, 10), (10, 4, 9), (10, 3, 8)]
)
def test_the_days_off_after_an_event_go_by_the_next_one_and_by_its_bouts(
    apart: int, bouts: int, last_off: int
) -> None:
    """An event on day 7; a day off, two where the next is within nine, one more from four bouts."""
    daily = weekly_sessions(3, days=(0, 1, 2, 3, 4, 5, 6))
    who = athlete("six", daily, (7, False), (7 + apart, False))
    events = (replace(who.events[0], bouts=bouts), who.events[1])
    problem = camp(3, daily, replace(who, events=events))
    good = solve_camp(problem)
    assert breaches(problem, good) == []
    for day in (7, 8, 9, 10, 11):
        line = [1 if n == day else r for n, r in enumerate(good.rounds[0])]
        told = breaches(problem, replace(good, rounds=(tuple(line),)))
        assert (f"six, s{day}: 1 rounds on a day off" in told) is (day <= last_off)


@pytest.mark.parametrize(
    ("usual", "most"),
    [(4, [6, 8]), (2, [3, 4]), (1, [3, 3])],  # half of 12 and of 6; 8.4 and 4.2 rounded down
)
def test_after_a_gap_a_week_holds_its_share_and_a_round_a_session(
    usual: int, most: list[int]
) -> None:
    sessions = tuple(replace(s, usual_rounds=usual, most_rounds=usual) for s in weekly_sessions(3))
    who = athlete("seven", sessions, returns_on=0)
    limits = limits_of(camp(3, sessions, who), who)
    assert [s.most for s in limits.sums if s.rule == "return after a gap"] == most
