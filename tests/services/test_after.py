"""After a session: effort at the door, the review, and taking each back."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from recording import START
from squadwright.errors import InvalidInput, NotFound
from squadwright.exchange.record_file import Brought
from squadwright.model.effort import EFFORT_WORDS
from squadwright.model.kit import Kit
from squadwright.model.record import EventKind, RecordEvent, in_force
from squadwright.planning.live.review import Review
from squadwright.printing.done_rows import done_rows
from squadwright.services.after import accept_review, note_at_door, take_back_noted
from squadwright.services.check_in import mark_late
from squadwright.services.done import SessionDone, recorded_sessions, session_done
from squadwright.services.meeting import meet
from squadwright.services.record import exchange, record_of
from squadwright.storage.keeper import SqlKeeper

MONDAY = date(2026, 3, 2)
SESSION = "monday-barbell"
NOW = START + timedelta(hours=1)
EFFORT, RESERVE = EventKind.EFFORT, EventKind.RESERVE


def seen(keeper: SqlKeeper) -> SessionDone:
    return session_done(keeper, SESSION, today=MONDAY, now=NOW)


def run_to_the_end(keeper: SqlKeeper) -> None:
    started = RecordEvent("p1", SESSION, "phone", 1, START, EventKind.STARTED, value=0.0)
    ended = RecordEvent("p2", SESSION, "phone", 2, NOW, EventKind.ENDED)
    exchange(keeper, SESSION, [started, ended], after=0)


def test_the_words_of_the_scale_are_those_published() -> None:
    """egan_2006, table 1, which leaves 6, 8 and 9 without words."""
    assert EFFORT_WORDS == {
        0: "rest",
        1: "very, very easy",
        2: "easy",
        3: "moderate",
        4: "somewhat hard",
        5: "hard",
        7: "very hard",
        10: "maximal",
    }


def test_an_effort_is_noted_corrected_and_taken_back(keeper: SqlKeeper) -> None:
    note_at_door(keeper, SESSION, "A04", EFFORT, 7, now=NOW)
    second = note_at_door(keeper, SESSION, "A04", EFFORT, 8, now=NOW + timedelta(seconds=9))
    assert seen(keeper).value_of(EFFORT, "A04") == 8.0
    held = [event for event in in_force(record_of(keeper, SESSION)) if event.kind is EFFORT]
    assert [(event.value, event.author) for event in held] == [(8.0, "Coach")]
    back = take_back_noted(keeper, SESSION, second.mark, now=NOW + timedelta(seconds=20))
    assert seen(keeper).value_of(EFFORT, "A04") == 7.0
    take_back_noted(keeper, SESSION, back.mark, now=NOW + timedelta(seconds=30))
    assert seen(keeper).value_of(EFFORT, "A04") == 8.0


def test_the_same_again_adds_nothing(keeper: SqlKeeper) -> None:
    first = note_at_door(keeper, SESSION, "A04", EFFORT, 7, now=NOW)
    assert note_at_door(keeper, SESSION, "A04", EFFORT, 7, now=NOW).mark == ""
    take_back_noted(keeper, SESSION, first.mark, now=NOW)
    assert take_back_noted(keeper, SESSION, first.mark, now=NOW).mark == ""
    assert len(record_of(keeper, SESSION)) == 2


def test_who_was_not_asked_is_listed(keeper: SqlKeeper) -> None:
    everybody = seen(keeper).people
    assert len(everybody) == 12
    for athlete in everybody[:-1]:
        note_at_door(keeper, SESSION, athlete, EFFORT, 6, now=NOW)
    note_at_door(keeper, SESSION, everybody[-1], RESERVE, 2, now=NOW)
    assert seen(keeper).not_asked == everybody[-1:]
    assert [row.reserve for row in seen(keeper).rows if row.reserve is not None] == [2.0]


@pytest.mark.parametrize(
    ("athlete", "kind", "value", "told"),
    [
        ("A04", EFFORT, 11, "11 points of 10 is outside 0 to 10"),
        ("A04", EFFORT, -1, "-1 points of 10 is outside"),
        ("A04", RESERVE, 6, "6 repetitions is outside 0 to 5"),
        ("A99", EFFORT, 5, "not an athlete of the club"),
        ("A04", EventKind.REMARK, 5, "is not asked at the door"),
    ],
)
def test_a_bad_number_or_name_is_refused_and_nothing_is_stored(
    keeper: SqlKeeper, athlete: str, kind: EventKind, value: int, told: str
) -> None:
    with pytest.raises(InvalidInput, match=told):
        note_at_door(keeper, SESSION, athlete, kind, value, now=NOW)
    assert record_of(keeper, SESSION) == ()


def test_an_unknown_mark_takes_nothing_back(keeper: SqlKeeper) -> None:
    note_at_door(keeper, SESSION, "A04", EFFORT, 7, now=NOW)
    for mark in ("", "00", "zz"):
        with pytest.raises(NotFound, match="has the mark"):
            take_back_noted(keeper, SESSION, mark, now=NOW)
    assert seen(keeper).value_of(EFFORT, "A04") == 7.0


def test_a_review_is_kept_in_the_coachs_words_and_the_last_one_counts(keeper: SqlKeeper) -> None:
    run_to_the_end(keeper)
    draft = seen(keeper).draft
    accept_review(keeper, SESSION, draft, now=NOW)
    assert seen(keeper).review == draft
    own = Review("All went well.", "", "More\r\nrest  for Birk.")
    mended = accept_review(keeper, SESSION, own, now=NOW + timedelta(seconds=5))
    assert seen(keeper).review == Review("All went well.", "", "More rest for Birk.")
    take_back_noted(keeper, SESSION, mended.mark, now=NOW + timedelta(seconds=9))
    assert seen(keeper).review == draft


@pytest.mark.parametrize(
    ("review", "told"),
    [(Review("", "  ", ""), "Write one line at least"), (Review("x" * 321, "", ""), "at most 320")],
)
def test_a_review_that_says_nothing_or_too_much_is_refused(
    keeper: SqlKeeper, review: Review, told: str
) -> None:
    with pytest.raises(InvalidInput, match=told):
        accept_review(keeper, SESSION, review, now=NOW)


def test_the_record_is_whole_when_the_last_round_ends(keeper: SqlKeeper) -> None:
    """Nobody taps anything but start: everybody's rounds are there, fewer where fewer were due."""
    run_to_the_end(keeper)
    found = seen(keeper)
    planned = {dose.athlete: dose.rounds for dose in found.plan.doses} if found.plan else {}
    assert {row.athlete: row.rounds_done for row in found.rows} == planned
    assert sorted(planned.values()) == [2, 3, *[4] * 10]
    assert found.draft.work == "45 of 45 rounds done, 12 of 12 athletes did all of theirs."
    assert found.draft.change == "Keep it as it was."


def test_five_who_come_late_did_all_of_their_three_rounds(keeper: SqlKeeper) -> None:
    """Twelve minutes late from school: three rounds are planned for them, and none is missing."""
    five = ("A01", "A02", "A03", "A04", "A06")
    mark_late(keeper, SESSION, five, 12, today=MONDAY)
    run_to_the_end(keeper)
    found = seen(keeper)
    rows = {row.athlete: row for row in found.rows}
    assert {(rows[a].rounds_done, rows[a].planned_rounds) for a in five} == {(3, 3)}
    assert found.state == "12 of 12 did everything that was planned."
    assert found.draft.trouble == "Nothing went wrong that was noted."
    assert found.plan is not None
    shown = done_rows(found.plan, found.rows, found.shown_name, is_started=True)
    notes = {row.athlete: row.notes for row in shown}
    assert all("3 of 4 rounds planned: came late" in notes[a] for a in five)


def test_rounds_cut_while_it_ran_are_measured_by_what_was_left(keeper: SqlKeeper) -> None:
    started = RecordEvent("p1", SESSION, "phone", 1, START, EventKind.STARTED, value=0.0)
    at = START + timedelta(seconds=1700)
    left = RecordEvent("p2", SESSION, "phone", 2, at, EventKind.TIME_LEFT, value=8.0)
    for event in (started, left):
        meet(keeper, SESSION, Brought(0, (event,), "phone"), today=MONDAY)
    found = seen(keeper)
    assert found.rows
    assert max(row.planned_rounds for row in found.rows) < 4
    assert all(row.is_all_done for row in found.rows)
    assert found.draft.change == "Keep it as it was."


def test_what_was_answered_at_the_door_and_the_review_go_to_no_device(keeper: SqlKeeper) -> None:
    run_to_the_end(keeper)
    note_at_door(keeper, SESSION, "A04", EFFORT, 7, now=NOW)
    note_at_door(keeper, SESSION, "A04", RESERVE, 2, now=NOW)
    accept_review(keeper, SESSION, Review("All of it.", "", ""), now=NOW)
    answer = exchange(keeper, SESSION, [], after=0, device="tablet")
    assert [event.kind for event in answer.events] == [EventKind.STARTED, EventKind.ENDED]
    assert answer.upto == len(record_of(keeper, SESSION)) == 5


def test_only_sessions_with_a_record_are_recorded(keeper: SqlKeeper) -> None:
    assert recorded_sessions(keeper) == frozenset()
    run_to_the_end(keeper)
    assert recorded_sessions(keeper) == {SESSION}


def test_a_session_without_a_plan_still_shows_its_record(keeper: SqlKeeper) -> None:
    note_at_door(keeper, SESSION, "A04", EFFORT, 7, now=NOW)
    with keeper.writing() as store:
        club = store.load_club()
        assert club is not None
        store.save_club(replace(club, kit=Kit()))
    found = seen(keeper)
    assert (found.plan is None, len(found.events), found.rows) == (True, 1, ())
    assert found.trouble
    assert "A04" not in found.not_asked
