"""The minutes left, several late, and an odd number: settings of a session that the plan honours.

The club is the invented demo club; nothing here is published.
"""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from squadwright.demo import demo_club
from squadwright.demo.sessions import BARBELL_SESSION, PLYOMETRIC_SESSION
from squadwright.errors import InvalidInput
from squadwright.library import routine
from squadwright.model.plan import Plan
from squadwright.model.session import OddSquad
from squadwright.planning.verify.check import verify_plan
from squadwright.services.check_in import mark_late
from squadwright.services.planning import ShownSession, show_session
from squadwright.services.session_changes import take_back
from squadwright.services.session_settings import set_minutes_left, set_odd_squad
from squadwright.storage.database import Database
from squadwright.storage.keeper import SqlKeeper

MONDAY = date(2026, 3, 2)
FROM_SCHOOL = ("A01", "A02", "A03", "A06", "A07")


@pytest.fixture
def keeper(tmp_path: Path) -> SqlKeeper:
    """A database of one test's own with the demo club, Wednesday in pairs."""
    made = SqlKeeper(Database(f"sqlite:///{tmp_path / 'club.sqlite3'}"))
    made.initialise()
    club = demo_club(MONDAY)
    pairs = routine("paper-boats")
    sessions = tuple(
        replace(s, routine=pairs.id, routine_version=pairs.version, minutes=60, check_ins=())
        if s.id == PLYOMETRIC_SESSION
        else s
        for s in club.sessions
    )
    with made.writing() as store:
        store.save_club(replace(club, routines=(*club.routines, pairs), sessions=sessions))
    return made


def shown(keeper: SqlKeeper, session: str = BARBELL_SESSION) -> ShownSession:
    found = show_session(keeper, session, today=MONDAY)
    assert isinstance(found, ShownSession)
    return found


def plan_of(keeper: SqlKeeper, session: str = BARBELL_SESSION) -> Plan:
    """The plan of a session; it keeps every rule."""
    now = shown(keeper, session)
    assert now.plan is not None
    assert verify_plan(now.club, now.session, now.plan) == ()
    return now.plan


def test_twenty_two_minutes_left_keep_warm_up_and_rehearsal_and_say_what_was_cut(
    keeper: SqlKeeper,
) -> None:
    before = plan_of(keeper)
    done = set_minutes_left(keeper, BARBELL_SESSION, 22, today=MONDAY)
    after = plan_of(keeper)
    assert after.session.minutes == 22
    assert max(line.end_s for line in after.run_sheet) <= 22 * 60
    whole = [x for x in after.run_sheet if x.group != "late"]
    warm_up = next(x for x in whole if x.activity == "warm-up")
    assert warm_up.end_s - warm_up.start_s >= 8 * 60
    rehearsals = [
        next(x.end_s - x.start_s for x in p.run_sheet if x.activity == "rehearsal")
        for p in (before, after)
    ]
    assert rehearsals[0] == rehearsals[1]
    cut = next(f for f in after.audit if f.rule == "slot too short")
    assert "Ropewalk 4 to 1 rounds" in cut.sentence
    assert "would save" in cut.advice
    assert done.words.startswith("22 minutes left.")
    take_back(keeper, BARBELL_SESSION, done.step, today=MONDAY)
    assert plan_of(keeper) == before


def test_the_whole_slot_again(keeper: SqlKeeper) -> None:
    set_minutes_left(keeper, BARBELL_SESSION, 40, today=MONDAY)
    assert shown(keeper).session.minutes_left == 40
    set_minutes_left(keeper, BARBELL_SESSION, 60, today=MONDAY)
    assert shown(keeper).session.minutes_left is None
    assert plan_of(keeper).session.minutes == 60


@pytest.mark.parametrize("minutes", [4, 61])
def test_minutes_outside_the_slot_are_refused(keeper: SqlKeeper, minutes: int) -> None:
    with pytest.raises(InvalidInput, match="outside 5 to 60"):
        set_minutes_left(keeper, BARBELL_SESSION, minutes, today=MONDAY)


def test_too_few_minutes_say_how_many_are_needed(keeper: SqlKeeper) -> None:
    done = set_minutes_left(keeper, BARBELL_SESSION, 9, today=MONDAY)
    assert "There is no plan now: Nothing fits into 9:00" in done.words


def test_five_late_warm_up_alone_join_at_round_two_and_three_rounds_are_planned(
    keeper: SqlKeeper,
) -> None:
    before = plan_of(keeper)
    done = mark_late(keeper, BARBELL_SESSION, FROM_SCHOOL, 12, today=MONDAY)
    after = plan_of(keeper)
    seats = {
        p: {u.athlete: bar.bar for bar in plan.bars for u in bar.wave_users}
        for p, plan in (("before", before), ("after", after))
    }
    for athlete in FROM_SCHOOL:
        dose = after.dose_of(athlete)
        assert dose is not None
        assert (dose.first_round, dose.rounds) == (2, 3)
        assert "joins at round 2, 3 rounds planned" in dose.reason
        own = [x for x in after.run_sheet if x.group == "late" and athlete in x.athletes]
        warm_up = next(x for x in own if x.activity == "warm-up")
        assert (warm_up.start_s, warm_up.end_s) == (12 * 60, 20 * 60)
        assert athlete in seats["after"]
    assert seats["after"] == seats["before"]
    clock = [
        [(x.start_s, x.end_s, x.round, x.role) for x in p.run_sheet if x.activity == "work"]
        for p in (before, after)
    ]
    assert {(s, e) for s, e, *_ in clock[0]} == {(s, e) for s, e, *_ in clock[1]}
    assert "are 12 minutes late." in done.words
    take_back(keeper, BARBELL_SESSION, done.step, today=MONDAY)
    assert plan_of(keeper) == before


def test_thirteen_where_pairs_are_wanted_make_either_division_and_nobody_sits_out(
    keeper: SqlKeeper,
) -> None:
    def sizes() -> dict[str, list[int]]:
        found: dict[str, list[int]] = {}
        for group in plan_of(keeper, PLYOMETRIC_SESSION).groups:
            found.setdefault(group.block, []).append(len(group.athletes))
        return {block: sorted(sizes) for block, sizes in found.items()}

    assert [2, 2, 2, 2, 2, 3] in sizes().values()
    done = set_odd_squad(keeper, PLYOMETRIC_SESSION, OddSquad.THREES, today=MONDAY)
    assert [2, 2, 3, 3, 3] in sizes().values()
    assert all(min(each) >= 2 and sum(each) == 13 for each in sizes().values())
    take_back(keeper, PLYOMETRIC_SESSION, done.step, today=MONDAY)
    assert [2, 2, 2, 2, 2, 3] in sizes().values()
