"""Sessions: added, changed, copied, taken out; the odd is asked, the impossible refused."""

from dataclasses import replace
from datetime import date, time, timedelta

import pytest

from services.fakes import FakeKeeper, FakeStore
from squadwright.demo import demo_club
from squadwright.errors import InvalidInput, NotFound
from squadwright.model.session import CheckIn, Presence
from squadwright.services.asking import Asked
from squadwright.services.club_changes import fingerprint, take_back
from squadwright.services.sessions import (
    Entry,
    add_session,
    copy_session,
    edit_session,
    entry_of,
    remove_session,
)

MONDAY = date(2026, 3, 2)
NEXT_MONDAY = MONDAY + timedelta(days=7)
CLUB = demo_club(MONDAY)
BARBELL = CLUB.session("monday-barbell")


@pytest.fixture
def keeper() -> FakeKeeper:
    return FakeKeeper(FakeStore(CLUB), is_ready=True)


def entry(**changed: object) -> Entry:
    """The Monday session a week later, changed in some fields."""
    return replace(entry_of(BARBELL), held_on=NEXT_MONDAY, **changed)  # type: ignore[arg-type]


def asked(keeper: FakeKeeper, wanted: Entry) -> tuple[str, ...]:
    """The questions about a new session."""
    with pytest.raises(Asked) as error:
        add_session(keeper, wanted, today=MONDAY)
    return tuple(doubt.question for doubt in error.value.doubts)


def test_a_new_session_takes_the_newest_version_of_its_routine_and_an_id_of_its_own(
    keeper: FakeKeeper,
) -> None:
    newer = replace(CLUB.routines[0], version=4)
    keeper.store.club = replace(CLUB, routines=(*CLUB.routines, newer))
    stored = add_session(keeper, entry(), today=MONDAY)
    assert stored.session.routine_version == 4
    assert stored.session.id == "2026-03-09-monday-barbell"
    assert stored.session.check_ins == ()


def test_two_of_one_name_on_one_day_keep_separate_ids(keeper: FakeKeeper) -> None:
    add_session(keeper, entry(), today=MONDAY)
    later = entry(starts_at=time(19, 20), room="mat-hall")
    second = add_session(keeper, later, today=MONDAY)
    assert second.session.id == "2026-03-09-monday-barbell-2"


def test_a_copy_leaves_behind_what_belonged_to_the_day(keeper: FakeKeeper) -> None:
    assert BARBELL.check_ins
    stored = copy_session(keeper, BARBELL.id, NEXT_MONDAY, today=MONDAY)
    assert entry_of(stored.session) == replace(entry_of(BARBELL), held_on=NEXT_MONDAY)
    assert stored.session.check_ins == ()
    assert stored.session.overrides == ()
    assert stored.session.settings == BARBELL.settings


def test_a_change_keeps_the_check_ins_of_those_still_expected(keeper: FakeKeeper) -> None:
    wanted = replace(entry_of(BARBELL), athletes=("A05", "A01", "A02"), minutes=55)
    shown = fingerprint(entry_of(BARBELL))
    stored = edit_session(keeper, BARBELL.id, wanted, shown, today=MONDAY)
    assert stored.session.minutes == 55
    assert [c.athlete for c in stored.session.check_ins] == ["A05"]
    assert stored.session.check_ins[0] == CheckIn("A05", Presence.LATE, 12, note="train")


def test_a_change_over_something_that_changed_meanwhile_is_refused(keeper: FakeKeeper) -> None:
    shown = fingerprint(entry_of(BARBELL))
    wanted = replace(entry_of(BARBELL), minutes=55)
    edit_session(keeper, BARBELL.id, wanted, shown, today=MONDAY)
    with pytest.raises(InvalidInput, match="changed somewhere else"):
        edit_session(keeper, BARBELL.id, wanted, shown, today=MONDAY)


def test_a_session_taken_out_comes_back_by_undo(keeper: FakeKeeper) -> None:
    done = remove_session(keeper, BARBELL.id, today=MONDAY)
    with pytest.raises(NotFound):
        done.club.session(BARBELL.id)
    assert take_back(keeper, done.step, today=MONDAY).club == CLUB


def test_two_at_once_in_a_room_is_asked_and_then_taken(keeper: FakeKeeper) -> None:
    wanted = replace(entry_of(BARBELL), name="Second", starts_at=time(18, 20), minutes=40)
    questions = asked(keeper, wanted)
    assert questions == (
        "Weights room has Monday barbell from 18:00 to 19:00 that day. Do both share it?",
    )
    with pytest.raises(Asked) as error:
        add_session(keeper, wanted, today=MONDAY)
    stored = add_session(keeper, wanted, today=MONDAY, answer=error.value.code)
    assert len(stored.changed.club.sessions) == 3


def test_somebody_expected_in_two_at_once_is_asked(keeper: FakeKeeper) -> None:
    wanted = replace(entry_of(BARBELL), name="Second", room="mat-hall", athletes=("A03",))
    assert asked(keeper, wanted) == (
        "Marisol Quenaya is expected in Monday barbell from 18:00 to 19:00 that day as well. "
        "Is that so?",
    )


def test_one_after_the_other_in_a_room_is_not_asked(keeper: FakeKeeper) -> None:
    keeper.store.club = replace(CLUB, week=())
    wanted = replace(entry_of(BARBELL), name="Second", starts_at=time(19, 0))
    assert add_session(keeper, wanted, today=MONDAY).session.name == "Second"


def test_a_day_in_the_past_is_asked(keeper: FakeKeeper) -> None:
    past = replace(entry_of(BARBELL), held_on=MONDAY - timedelta(days=7))
    assert asked(keeper, past) == ("Monday 23 February 2026 was 7 days back. Is the day right?",)


def test_a_year_too_far_is_asked(keeper: FakeKeeper) -> None:
    far = replace(entry_of(BARBELL), held_on=date(2036, 3, 3))
    assert asked(keeper, far) == ("Monday 3 March 2036 is 3654 days away. Is the year right?",)


def test_a_time_without_a_slot_in_the_week_is_asked(keeper: FakeKeeper) -> None:
    sunday = replace(entry_of(BARBELL), held_on=MONDAY + timedelta(days=6))
    assert asked(keeper, sunday) == (
        "The week has no slot on Sunday at 18:00. Is there room and time?",
    )


def test_a_session_beside_mat_work_of_its_squads_is_asked(keeper: FakeKeeper) -> None:
    tuesday = replace(entry_of(BARBELL), held_on=MONDAY + timedelta(days=1), starts_at=time(18, 30))
    assert asked(keeper, tuesday) == (
        "the slot MMA sparring is from 19:00 to 20:30 that day, for Cage. Is that so?",
    )


def test_a_session_longer_than_its_slot_is_asked(keeper: FakeKeeper) -> None:
    assert asked(keeper, entry(minutes=75)) == (
        "It ends at 19:15, and the slot Barbell ends at 19:00. Is that so?",
    )


def test_a_slot_in_which_nothing_is_left_for_the_routine_is_asked(keeper: FakeKeeper) -> None:
    # Arriving 6, warm-up 8, rehearsal 8, close 6, packing 6.
    assert asked(keeper, entry(minutes=34)) == (
        "Arriving, the least warm-up, rehearsal, close and packing take 34 of 34 minutes: "
        "nothing is left for Ropewalk. Is that so?",
    )
    assert add_session(keeper, entry(minutes=35), today=MONDAY).session.minutes == 35


def test_a_slot_not_longer_than_the_least_warm_up_is_refused(keeper: FakeKeeper) -> None:
    with pytest.raises(InvalidInput, match="8 minutes are not longer than the least warm-up of 8"):
        add_session(keeper, entry(minutes=8), today=MONDAY)


def test_a_session_for_nobody_is_refused(keeper: FakeKeeper) -> None:
    with pytest.raises(InvalidInput, match="nobody is expected"):
        add_session(keeper, entry(athletes=()), today=MONDAY)


def test_two_who_are_to_be_together_and_apart_are_refused(keeper: FakeKeeper) -> None:
    clash = replace(
        BARBELL.settings, banned_pairs=(("A01", "A02"),), required_pairs=(("A02", "A01"),)
    )
    with pytest.raises(InvalidInput, match="together and never together"):
        add_session(keeper, entry(settings=clash), today=MONDAY)


def test_what_was_odd_before_is_not_asked_again(keeper: FakeKeeper) -> None:
    long = entry(minutes=75)
    with pytest.raises(Asked) as error:
        add_session(keeper, long, today=MONDAY)
    stored = add_session(keeper, long, today=MONDAY, answer=error.value.code).session
    renamed = replace(long, name="Long barbell")
    again = edit_session(keeper, stored.id, renamed, fingerprint(long), today=MONDAY)
    assert again.session.name == "Long barbell"
