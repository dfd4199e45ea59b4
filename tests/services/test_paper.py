"""A session that ran from paper: what is entered afterwards is read as if a device had noted it."""

from datetime import date, datetime, timedelta

import pytest

from recording import START
from squadwright.errors import Conflict, InvalidInput
from squadwright.model.record import EventKind, RecordEvent, in_force
from squadwright.planning.live.done import AthleteDone
from squadwright.printing.done_rows import done_rows
from squadwright.services.after import take_back_noted
from squadwright.services.done import SessionDone, session_done
from squadwright.services.paper import OnPaper, enter_from_paper, rounds_of
from squadwright.services.record import exchange, record_of
from squadwright.services.running import running
from squadwright.storage.keeper import SqlKeeper

MONDAY = date(2026, 3, 2)
SESSION = "monday-barbell"
# A year later: nothing is read by how long ago it was.
NOW = START + timedelta(days=365)


def enter(keeper: SqlKeeper, *lines: OnPaper) -> str:
    return enter_from_paper(keeper, SESSION, lines, today=MONDAY).mark


def seen(keeper: SqlKeeper, now: datetime = NOW) -> SessionDone:
    return session_done(keeper, SESSION, today=MONDAY, now=now)


def row(keeper: SqlKeeper, athlete: str) -> AthleteDone:
    return next(r for r in seen(keeper).rows if r.athlete == athlete)


def test_nothing_written_is_everything_done_as_planned(keeper: SqlKeeper) -> None:
    plan = running(keeper, SESSION, today=MONDAY).plan
    enter(keeper)
    found = seen(keeper)
    assert (found.is_started, found.is_ended) == (True, True)
    assert len(found.rows) == len({dose.athlete for dose in plan.doses})
    for each in found.rows:
        assert each.rounds_done == each.planned_rounds == len(rounds_of(plan, each.athlete)) > 0
        assert each.load_kg == each.planned_kg


def test_what_went_otherwise_is_read_as_a_device_would_have_noted_it(keeper: SqlKeeper) -> None:
    enter(
        keeper,
        OnPaper("A04", rounds=2, effort=8),
        OnPaper("A14", lost=((3, 2),), seen="leans back"),
        OnPaper("A02", load_kg=27.5, effort=5),
        OnPaper("A01", was_there=False),
    )
    birk, ngaire, iskander, away = (row(keeper, a) for a in ("A04", "A14", "A02", "A01"))
    assert (birk.rounds_done, birk.stopped_in_round, birk.effort) == (2, 3, 8.0)
    assert (ngaire.rounds_done, ngaire.lost) == (ngaire.planned_rounds, ((3, 2),))
    assert [fault.words for fault in ngaire.faults] == ["leans back"]
    assert (iskander.load_kg, iskander.effort) == (27.5, 5.0)
    assert (away.rounds_done, away.stopped_in_round, away.was_there) == (0, None, False)
    remarks = [e for e in record_of(keeper, SESSION) if e.kind is EventKind.REMARK]
    assert [(e.athlete, e.words) for e in remarks] == [("A01", "was not there")]


@pytest.mark.parametrize("session", ["monday-barbell", "wednesday-plyometric"])
def test_who_was_not_there_is_told_so_and_nobody_asks_him_anything(
    keeper: SqlKeeper, session: str
) -> None:
    day = date(2026, 3, 4)
    enter_from_paper(keeper, session, [OnPaper("A04", was_there=False)], today=day)
    found = session_done(keeper, session, today=day, now=NOW)
    assert found.plan is not None
    rows = done_rows(found.plan, found.rows, found.shown_name, is_started=True)
    birk = next(each for each in rows if each.athlete == "A04")
    assert (birk.done, birk.stopped, birk.load, birk.notes) == ("was not there", "", "", ())
    assert "A04" not in found.not_asked
    others = len(rows) - 1
    assert found.state == f"{others} of {others} did everything that was planned. 1 was not there."
    assert found.draft.work.endswith(
        f"{others} of {others} athletes did all of theirs; Birk Aldervoll was not there."
    )
    assert "Birk" not in found.draft.trouble + found.draft.change


def test_a_session_in_the_record_is_not_entered_twice(keeper: SqlKeeper) -> None:
    mark = enter(keeper, OnPaper("A04", effort=8))
    with pytest.raises(Conflict, match=r"already: it was entered from paper\. Take"):
        enter(keeper)
    take_back_noted(keeper, SESSION, mark, now=NOW)
    assert in_force(record_of(keeper, SESSION)) == ()
    enter(keeper, OnPaper("A04", effort=6))
    assert row(keeper, "A04").effort == 6.0


def test_where_a_clock_has_run_its_record_stands(keeper: SqlKeeper) -> None:
    started = RecordEvent("p1", SESSION, "phone", 1, START, EventKind.STARTED, value=0.0)
    exchange(keeper, SESSION, [started], after=0)
    with pytest.raises(Conflict, match="what was noted there stands"):
        enter(keeper)


def test_a_session_to_come_is_not_entered(keeper: SqlKeeper) -> None:
    with pytest.raises(Conflict, match="Enter it when it is over"):
        enter_from_paper(keeper, "wednesday-plyometric", (), today=MONDAY)


def test_somebody_without_a_dose_is_refused_and_nothing_is_stored(keeper: SqlKeeper) -> None:
    with pytest.raises(InvalidInput, match="'A10' has no dose"):
        enter(keeper, OnPaper("A10", effort=3))
    assert record_of(keeper, SESSION) == ()
