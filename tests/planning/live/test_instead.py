"""Swaps offered on the floor are the ranked ones, for what he does by the plan."""

from dataclasses import replace
from datetime import date

import pytest

from recording import START
from squadwright.demo import demo_club
from squadwright.library import exercises
from squadwright.model.plan import Plan
from squadwright.model.record import EventKind, RecordEvent, in_force
from squadwright.planning.live.done import done
from squadwright.planning.live.instead import MOST_SWAPS, instead_of
from squadwright.planning.live.noted_swaps import NotedSwap, noted_swaps
from squadwright.planning.plan import make_plan
from squadwright.planning.swap_choices import HELPS, step_choices

CLUB = demo_club(date(2026, 3, 2))
SESSIONS = ("monday-barbell", "wednesday-plyometric")


def plan_of(session: str) -> Plan:
    return make_plan(CLUB, CLUB.session(session))


@pytest.mark.parametrize("session", SESSIONS)
def test_everybody_who_works_has_swaps_for_each_exercise_of_his_plan(session: str) -> None:
    plan = plan_of(session)
    found = instead_of(CLUB, CLUB.session(session), plan)
    by_athlete: dict[str, set[tuple[str, str]]] = {dose.athlete: set() for dose in plan.doses}
    for dose in plan.doses:
        by_athlete[dose.athlete] |= {(e.block or dose.block, e.exercise) for e in dose.exercises}
    assert by_athlete
    for athlete, planned in by_athlete.items():
        assert {(each.block, each.exercise) for each in found[athlete]} >= planned
        for each in found[athlete]:
            assert each.swaps[-1] == HELPS
            assert len(each.swaps) <= MOST_SWAPS + 1
            assert each.name not in each.swaps


@pytest.mark.parametrize("session", SESSIONS)
def test_they_are_the_best_of_the_page_of_swaps(session: str) -> None:
    """Where nobody's own version differs from the routine, both pages rank the same problem."""
    found = instead_of(CLUB, CLUB.session(session), plan_of(session))
    compared = 0
    for athlete, own in found.items():
        choices = step_choices(CLUB, CLUB.session(session), athlete)
        if any(c.planned is None or c.planned.id != c.written.id for c in choices):
            continue
        for each in own:
            step = next(
                c for c in choices if c.block == each.block and c.written.id == each.exercise
            )
            ranked = [s.exercise.name for s in step.swaps if s.exercise is not None]
            assert each.swaps == (*ranked[:MOST_SWAPS], HELPS)
            compared += 1
    assert compared > 20


def test_nobody_is_offered_what_is_barred_for_him() -> None:
    """Birk must not do anything overhead: no exercise that ends overhead is among his swaps."""
    overhead = {e.name for e in exercises() if "overhead" in {str(d) for d in e.demands}}
    assert overhead
    own = instead_of(CLUB, CLUB.session(SESSIONS[0]), plan_of(SESSIONS[0]))["A04"]
    assert not overhead & {words for each in own for words in each.swaps}


def swapped(number: int, words: str, *, round_number: int) -> RecordEvent:
    left = plan_of(SESSIONS[0]).doses[0].exercises[0].exercise
    return RecordEvent(
        f"e{number}",
        SESSIONS[0],
        "phone",
        number,
        START.replace(second=number),
        EventKind.SWAPPED,
        athlete="A09",
        round=round_number,
        exercise=left,
        words=words,
    )


def test_a_swap_is_done_from_its_round_until_the_exercise_is_done_again() -> None:
    plan = plan_of(SESSIONS[0])
    first = plan.doses[0].exercises[0]
    events = [swapped(1, "Row", round_number=2), swapped(2, "", round_number=4)]
    found = next(
        each for each in done(plan, events, now=START, stop_after=3) if each.athlete == "A09"
    )
    assert found.swaps == (
        NotedSwap(first.exercise, first.name, "Row", 2),
        NotedSwap(first.exercise, first.name, "", 4),
    )
    assert [swap.words for swap in found.swaps] == [
        f"Row instead of {first.name} from round 2",
        f"{first.name} again from round 4",
    ]
    back = replace(
        events[0], id="e3", kind=EventKind.TAKEN_BACK, takes_back="e1", athlete="", exercise=""
    )
    assert len(noted_swaps(plan, in_force([*events, back]))) == 1
