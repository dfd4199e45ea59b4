"""Other ways with few plates, on plans that a stand-in makes: which is chosen, what it comes to."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from planning.people import MONDAY, bar, plan, user
from squadwright.demo import demo_club
from squadwright.errors import NoSolution
from squadwright.model.club import Club
from squadwright.model.plan import Finding, KitBound, Plan, RunLine, Severity
from squadwright.model.routine import Block
from squadwright.model.session import Override, Session
from squadwright.planning import alternatives as module
from squadwright.planning.alternatives import (
    effect_of,
    more_repetitions,
    one_more_wave,
    same_load,
    with_more_repetitions,
)
from squadwright.planning.bars_of_plan import OneLoadPerBar, blocks_with_bars, kit_problem_of
from squadwright.planning.kit.problem import KitLoad
from squadwright.units import kilograms

CLUB = demo_club(MONDAY)
SESSION = CLUB.sessions[0]
CUT = Finding("slot too short", None, Severity.NOTE, "One round less.", 70, 60, "min", "", "")


def line(start_s: int, end_s: int, block: str = "Ropewalk") -> RunLine:
    return RunLine(start_s, end_s, "g", "", None, "work", block=block)


def made(largest: float = 0.1, *, is_cut: bool = False, waves: int = 2) -> Plan:
    return plan(
        kit_bound=KitBound(largest, 0.0, 12.5, 3, 9, True),
        bars=(
            bar("a", 20, user("A01", 1, 40), user("A02", waves, 50), block="Ropewalk"),
            bar("b", 20, user("A03", 1, 30), block="Ropewalk"),
        ),
        run_sheet=(line(600, 900), line(900, 1500), line(0, 3000, block="Other")),
        audit=(CUT,) if is_cut else (),
    )


def test_a_way_comes_to_its_shortfalls_and_the_minutes_from_first_to_last_work() -> None:
    found = effect_of(made())
    assert (found.largest_shortfall_fraction, found.total_shortfall_kg) == (0.1, 12.5)
    assert (found.plate_moves, found.bars, found.waves, found.work_minutes) == (3, 2, 2, 15.0)
    assert (found.cuts, effect_of(made(is_cut=True)).cuts) == ("", "One round less.")


def with_plans(monkeypatch: pytest.MonkeyPatch, answer: Callable[[Session, Block], Plan]) -> None:
    """Plans made by what is asked: the session, and its first block as changed."""

    def make(club: Club, session: Session) -> Plan:
        return answer(session, club.routine(session.routine, session.routine_version).blocks[0])

    monkeypatch.setattr(module, "make_plan", make)


def test_one_wave_more_is_told_by_what_comes_of_it(monkeypatch: pytest.MonkeyPatch) -> None:
    with_plans(monkeypatch, lambda session, block: made(waves=session.waves or 0))
    found = one_more_wave(CLUB, SESSION, made())
    assert (found.words, found.waves, found.trouble) == ("3 waves on 2 bars", 3, "")
    assert one_more_wave(CLUB, SESSION, made(waves=3)).waves == 4
    most = one_more_wave(CLUB, SESSION, made(waves=4))
    assert (most.effect, most.trouble) == (None, "4 waves is the most there is")
    with_plans(monkeypatch, lambda session, block: plan())
    none = one_more_wave(CLUB, SESSION, made())
    assert (none.effect, none.trouble) == (None, "nobody has a bar then")


@pytest.mark.parametrize(
    ("round_more", "one", "two", "words"),
    [
        ((0.05, False), (0.03, False), (0.04, False), "1 repetition more of each exercise"),
        ((0.05, False), (0.03, True), (0.01, True), "One round more"),
        ((0.05, True), (0.03, True), (0.01, True), "2 repetitions more of each exercise"),
        ((0.05, False), (0.06, False), None, "One round more"),
        (None, None, (0.9, True), "2 repetitions more of each exercise"),
    ],
)
def test_of_more_repetitions_the_way_that_fits_uncut_and_lacks_least_is_taken(
    monkeypatch: pytest.MonkeyPatch,
    round_more: tuple[float, bool] | None,
    one: tuple[float, bool] | None,
    two: tuple[float, bool] | None,
    words: str,
) -> None:
    written = CLUB.routine("ropewalk", 1).blocks[0]

    def answer(session: Session, block: Block) -> Plan:
        if block.rounds == written.rounds + 1:
            given = round_more
        else:
            more = block.steps[0].scheme.count - written.steps[0].scheme.count
            given = {1: one, 2: two}[more]
        if given is None:
            raise NoSolution("does not fit")
        return made(given[0], is_cut=given[1])

    with_plans(monkeypatch, answer)
    found = more_repetitions(CLUB, SESSION, made())
    assert found.words == f"{words}, with lighter loads"


def test_where_no_way_can_be_planned_the_first_says_why(monkeypatch: pytest.MonkeyPatch) -> None:
    def never(session: Session, block: Block) -> Plan:
        raise NoSolution(f"{block.rounds} rounds do not fit")

    with_plans(monkeypatch, never)
    found = more_repetitions(CLUB, SESSION, made())
    assert (found.words, found.effect, found.trouble) == (
        "One round more",
        None,
        "5 rounds do not fit",
    )


def load(name: str, wave: int, grams: int, target: int, per_side: tuple = ()) -> KitLoad:  # type: ignore[type-arg]
    return KitLoad(name, "a", wave, target, grams, per_side)


def test_the_same_load_for_all_of_a_bar_is_summed_over_the_blocks(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """40 kg for targets of 40 and 50: a fifth short, 10 kg; 30 of 30 nothing."""
    one = OneLoadPerBar((load("A01", 1, 40_000, 40_000), load("A02", 2, 40_000, 50_000)), ())
    other = OneLoadPerBar((load("A03", 1, 27_000, 30_000),), ("technique bar",))
    answers = {"Ropewalk": one, "Second": other}
    monkeypatch.setattr(module, "one_load_per_bar", lambda p, k, s, block: answers[block])
    two = made()
    second = replace(two.bars[1], block="Second")
    found = same_load(CLUB, SESSION, replace(two, bars=(two.bars[0], second)))
    assert found.words == (
        "The same load for everybody on a bar; the technique bar keeps its change"
    )
    assert found.effect is not None
    assert found.effect.largest_shortfall_fraction == pytest.approx(0.2)
    assert found.effect.total_shortfall_kg == pytest.approx(13.0)
    assert found.effect.work_minutes == effect_of(two).work_minutes
    alone = same_load(CLUB, SESSION, two)
    assert alone.words == "The same load for everybody on a bar"

    def never(*given: object) -> OneLoadPerBar:
        raise NoSolution("no plates")

    monkeypatch.setattr(module, "one_load_per_bar", never)
    none = same_load(CLUB, SESSION, two)
    assert (none.effect, none.trouble) == (None, "no plates")


@pytest.mark.parametrize(
    ("work_s", "more", "found"), [(100, 1, 127), (100, 2, 153), (None, 1, None)]
)
def test_the_time_of_a_round_grows_with_its_repetitions(
    work_s: int | None, more: int, found: int | None
) -> None:
    """23 repetitions, six exercises: 29 and 35 take 126.1 and 152.2 s, rounded up."""
    written = replace(CLUB.routine("ropewalk", 1).blocks[0], work_s=work_s)
    assert with_more_repetitions(written, more).work_s == found


def test_the_plate_problem_of_a_plan_has_its_people_partners_and_bars() -> None:
    two = made()
    named = replace(
        SESSION,
        overrides=(
            Override("A01", "x", bar="bar-15-1", block="Ropewalk"),
            Override("A02", "x", bar="bar-15-2", block="Other"),
            Override("A03", "x", load=kilograms(30)),
        ),
    )
    problem = kit_problem_of(two, CLUB.kit, named, "Ropewalk")
    found = {
        each.id: (each.target_g, each.wave, each.bars, each.bare_bar) for each in problem.users
    }
    assert found == {
        "A01": (40_000, 1, ("bar-15-1",), False),
        "A02": (50_000, 2, None, False),
        "A03": (30_000, 1, None, False),
    }
    assert problem.shared == (("A01", "A02"), ("A03",))
    assert (problem.waves, blocks_with_bars(two)) == (2, ("Ropewalk",))
