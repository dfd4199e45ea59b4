"""Load through the use cases: weeks worked out by hand, planned beside told, what is not known."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

import pytest

from squadwright.demo import demo_club
from squadwright.errors import InvalidInput, NotFound
from squadwright.formulas.acute_chronic import WARNING
from squadwright.formulas.session_load import POPULATION, SAMPLE
from squadwright.model.calendar import Closure, SlotChange
from squadwright.model.diary import Content, RestDay, SessionDone
from squadwright.model.record import EventKind
from squadwright.planning.load_history import LoadHistory, week_of
from squadwright.services.after import note_at_door
from squadwright.services.diary import Told, take_back, write_diary
from squadwright.services.load import (
    load_histories,
    occasion_of,
    squad_load,
    take_out_told,
    tell_effort,
    tell_rest,
)
from squadwright.storage.keeper import SqlKeeper

MONDAY = date(2026, 3, 2)
NOW = datetime(2026, 3, 2, 21, 0, tzinfo=UTC)
WEEK = timedelta(days=7)
# Made-up weeks with the numbers that follow from them by hand (reference of load, check weeks):
# days, load of the week, monotony and strain with n - 1, monotony and strain with n.
WEEKS_BY_HAND = (
    ((0, 420, 300, 540, 0, 600, 240), 2100, 1.25, 2625, 1.350154, 2835.324056),
    ((300, 450, 200, 500, 350, 600, 0), 2400, 1.706684, 4096.040455, 1.843429, 4424.229346),
    ((0, 300, 300, 300, 300, 300, 300), 1800, 2.267787, 4082.016308, 2.449490, 4409.081537),
    ((600, 0, 600, 0, 600, 0, 600), 2400, 1.069045, 2565.707922, 1.154701, 2771.281292),
    ((700, 0, 0, 0, 0, 0, 0), 700, 0.377964, 264.575131, 0.408248, 285.773803),
)
WEEK_A = WEEKS_BY_HAND[0][0]
# Three weeks A, then this one: ratios of the last week to 28 days, and to the 21 before, by hand.
RATIOS_BY_HAND = (
    (WEEK_A, 1.0, 1.0),
    ((0, 520, 420, 640, 300, 700, 320), 1.260870, 1.380952),
    ((0, 210, 150, 270, 0, 0, 0), 0.363636, 0.3),
)


def told(load: int | None) -> Content | None:
    """A day of a load: rest, or a session of effort 10."""
    if load is None:
        return None
    return RestDay() if load == 0 else SessionDone("Session", "mat", load // 10, 10.0)


@pytest.fixture
def bare(keeper: SqlKeeper) -> SqlKeeper:
    """The demo club without its week and its sessions: only what is told counts."""
    with keeper.writing() as store:
        store.save_club(replace(demo_club(MONDAY), week=(), sessions=()))
    return keeper


def live(keeper: SqlKeeper, loads: Sequence[int | None], athlete: str = "A01") -> None:
    """Days of these loads, the last of them the Sunday before the Monday."""
    first = MONDAY - timedelta(days=len(loads))
    days = [(first + timedelta(days=n), told(load)) for n, load in enumerate(loads)]
    write_diary(
        keeper,
        [Told(athlete, day, content) for day, content in days if content is not None],
        author="Coach",
        today=MONDAY,
        now=NOW,
    )


def history(keeper: SqlKeeper, athlete: str = "A01") -> LoadHistory:
    return load_histories(keeper, today=MONDAY, of=[athlete])[1][athlete]


@pytest.mark.parametrize("week", WEEKS_BY_HAND, ids=lambda week: "-".join(map(str, week[0])))
def test_a_week_gives_what_follows_by_hand_with_the_deviation_stated(
    bare: SqlKeeper, week: tuple[tuple[int, ...], float, float, float, float, float]
) -> None:
    loads, total, monotony, strain, monotony_n, strain_n = week
    live(bare, loads)
    days = squad_load(bare, MONDAY - WEEK, MONDAY - timedelta(days=1), of=["A01"]).days["A01"]
    sample = week_of(days).summary
    assert (sample.load, sample.known_days, sample.deviation) == (total, 7, SAMPLE)
    assert sample.monotony == pytest.approx(monotony, abs=5e-7)
    assert sample.strain == pytest.approx(strain, abs=5e-7)
    population = week_of(days, deviation=POPULATION).summary
    assert population.monotony == pytest.approx(monotony_n, abs=5e-7)
    assert population.strain == pytest.approx(strain_n, abs=5e-7)


@pytest.mark.parametrize(("last", "coupled", "uncoupled"), RATIOS_BY_HAND)
def test_recent_load_beside_usual_load_gives_what_follows_by_hand(
    bare: SqlKeeper, last: tuple[int, ...], coupled: float, uncoupled: float
) -> None:
    live(bare, (*WEEK_A * 4, *last))
    recent = history(bare).recent
    assert recent.coupled == pytest.approx(coupled, abs=5e-7)
    assert recent.uncoupled == pytest.approx(uncoupled, abs=5e-7)
    assert recent.warning == WARNING


def test_the_first_28_days_show_no_ratio_and_missing_days_are_no_rest(bare: SqlKeeper) -> None:
    live(bare, WEEK_A * 4)
    assert history(bare).recent.why_not == "hidden for the first 28 days: this is day 28"
    live(bare, WEEK_A * 5, "A02")
    assert history(bare, "A02").recent.coupled == pytest.approx(1)
    live(bare, (*WEEK_A * 4, 0, None, 300, None, 0, 600, 240), "A03")
    found = history(bare, "A03")
    assert found.recent.why_not == "not given: 5 of the last 7 days are known, fewer than 80 %"
    last = found.weeks[-2].summary
    # The week as zeros would be 1,140 as well, but its monotony is not given.
    assert (last.load, last.known_days, last.monotony) == (1140, 5, None)
    assert found.recent.known_usual_days == 26


def test_told_and_planned_stand_apart(keeper: SqlKeeper) -> None:
    """Tuesday: early lift 45 min at 6, MMA sparring 90 min at 8, told as 9 over 80 min."""
    tuesday = MONDAY - timedelta(days=6)
    club = demo_club(MONDAY)
    sparring = occasion_of(club, "tue-sparring", tuesday)
    tell_effort(keeper, sparring, ["A01"], 9, minutes=80, today=MONDAY, now=NOW)
    day = squad_load(keeper, tuesday, tuesday, of=["A01"]).days["A01"][0]
    assert day.planned == 45 * 6 + 90 * 8
    assert (day.load, day.told_load) == (None, 720)
    assert [o.slot for o in day.missing] == ["tue-early"]
    tell_effort(keeper, occasion_of(club, "tue-early", tuesday), ["A01"], 0, today=MONDAY, now=NOW)
    day = squad_load(keeper, tuesday, tuesday, of=["A01"]).days["A01"][0]
    assert (day.load, day.planned, day.missing) == (720, 990, ())
    bias = history(keeper).bias
    assert bias is not None
    assert (bias.sessions, bias.mean) == (1, 1)


def test_a_session_told_at_its_door_and_in_the_diary_counts_once(keeper: SqlKeeper) -> None:
    """Monday: the barbell session of 60 min is what its slot was for; A05 came 12 min late."""
    for athlete, effort in (("A02", 7), ("A05", 6)):
        note_at_door(keeper, "monday-barbell", athlete, EventKind.EFFORT, effort, now=NOW)
    found = squad_load(keeper, MONDAY, MONDAY)
    assert [(o.slot, o.session) for o in found.occasions] == [
        ("", "monday-barbell"),
        ("mon-wrestling", ""),
    ]
    assert found.occasions[0].effort == 6
    assert found.days["A02"][0].told_load == 420
    assert found.days["A05"][0].load == 6 * 48
    assert found.days["A08"][0].load == 0
    again = SessionDone("Barbell", "", 55, None, session="monday-barbell")
    write_diary(
        keeper,
        [Told("A02", MONDAY, again), Told("A05", MONDAY, replace(again, effort=5.0))],
        author="Coach",
        today=MONDAY,
        now=NOW,
    )
    found = squad_load(keeper, MONDAY, MONDAY)
    assert found.days["A02"][0].told_load == 7 * 55
    assert found.days["A05"][0].load == 5 * 55


def test_an_answer_replaces_the_former_one_and_undo_brings_it_back(keeper: SqlKeeper) -> None:
    day = MONDAY - timedelta(days=3)
    live_rounds = occasion_of(demo_club(MONDAY), "fri-wrestling", day)

    def loads() -> float:
        return squad_load(keeper, day, day, of=["A02"]).days["A02"][0].told_load

    tell_effort(keeper, live_rounds, ["A02"], 8, today=MONDAY, now=NOW)
    mark = tell_effort(keeper, live_rounds, ["A02", "A03"], 9, today=MONDAY, now=NOW)
    assert loads() == 810
    take_back(keeper, mark)
    assert loads() == 720
    told_of = squad_load(keeper, day, day, of=["A02"]).days["A02"][0].told[0]
    take_out_told(keeper, told_of.entry, today=MONDAY, now=NOW)
    assert loads() == 0


def test_who_is_not_expected_or_tells_of_tomorrow_is_refused(keeper: SqlKeeper) -> None:
    club = demo_club(MONDAY)
    sparring = occasion_of(club, "tue-sparring", MONDAY + timedelta(days=1))
    with pytest.raises(NotFound, match="A02"):
        tell_effort(keeper, sparring, ["A02"], 5, today=MONDAY, now=NOW)
    with pytest.raises(InvalidInput, match="has not come yet"):
        tell_effort(keeper, sparring, ["A01"], 5, today=MONDAY, now=NOW)
    with pytest.raises(NotFound, match="no slot"):
        occasion_of(club, "tue-sparring", MONDAY)


def test_a_day_of_rest_is_said_and_gives_way_to_a_session_told_later(keeper: SqlKeeper) -> None:
    sunday = MONDAY - timedelta(days=1)
    assert squad_load(keeper, sunday, sunday).days["A01"][0].load is None
    tell_rest(keeper, ["A01", "A02"], sunday, today=MONDAY, now=NOW)
    assert squad_load(keeper, sunday, sunday).days["A01"][0].load == 0
    with pytest.raises(InvalidInput, match="told of 2026-03-01 already for 1"):
        tell_rest(keeper, ["A01"], sunday, today=MONDAY, now=NOW)
    with pytest.raises(InvalidInput, match="nobody"):
        tell_rest(keeper, [], sunday, today=MONDAY, now=NOW)


def test_slots_that_are_off_moved_or_shut_are_expected_where_they_are(keeper: SqlKeeper) -> None:
    club = demo_club(MONDAY)
    changes = (
        SlotChange("c1", "tue-sparring", MONDAY + timedelta(days=1), MONDAY + timedelta(days=3),
                   starts_at=time(20, 0), ends_at=time(21, 0), planned_effort=5),
        SlotChange("c2", "sat-open", MONDAY + timedelta(days=5), is_off=True),
    )  # fmt: skip
    shut = Closure("shut", "gala", MONDAY + timedelta(days=4), MONDAY + timedelta(days=4))
    with keeper.writing() as store:
        store.save_club(replace(club, slot_changes=changes, closures=(shut,)))
    on = squad_load(keeper, MONDAY, MONDAY + timedelta(days=6)).occasions
    moved = next(o for o in on if o.slot == "tue-sparring")
    assert (moved.day, moved.minutes, moved.effort) == (MONDAY + timedelta(days=3), 60, 5)
    assert {o.slot for o in on} & {"sat-open", "fri-short", "fri-wrestling"} == set()
