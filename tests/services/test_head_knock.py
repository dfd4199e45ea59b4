"""A head knock on the floor: out at once, on the register, back by a written clearance only.

That who may have a concussion leaves at once and comes back only when he is cleared: common
practice, no source.
"""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from recording import START
from services.fakes import FakeKeeper, FakeStore
from squadwright.demo import demo_club
from squadwright.errors import NotAllowed
from squadwright.exchange.record_file import Brought
from squadwright.model.athlete import AuthorRole, Clearance, Restriction
from squadwright.model.muscles import BodyArea
from squadwright.model.record import EventKind, RecordEvent, in_force, stop_of
from squadwright.model.session import Presence
from squadwright.planning.attendance import people_today
from squadwright.services.check_in import mark_presence
from squadwright.services.head_knock import cleared_since
from squadwright.services.meeting import meet
from squadwright.services.planning import ShownSession, show_session
from squadwright.services.record import exchange
from squadwright.services.restrictions import clear, lift
from squadwright.services.running import running

MONDAY = date(2026, 3, 2)
SESSION = "monday-barbell"
NEXT = "wednesday-plyometric"
WHO = "A04"


def event(number: int, kind: EventKind, **more: Any) -> RecordEvent:
    at = START + timedelta(seconds=number)
    device = more.pop("device", "phone")
    return RecordEvent(f"{device}-{number}", SESSION, device, number, at, kind, **more)


STARTED = event(1, EventKind.STARTED, value=0.0)
KNOCK = event(2, EventKind.OUT, athlete=WHO, round=2, author="Anna")
NOTE = event(3, EventKind.INCIDENT, athlete=WHO, words="Head knock. Body area: head.")


@pytest.fixture
def keeper() -> FakeKeeper:
    return FakeKeeper(FakeStore(demo_club(MONDAY)), is_ready=True)


def about_the_head(keeper: FakeKeeper) -> list[Restriction]:
    assert keeper.store.club is not None
    athlete = keeper.store.club.athlete(WHO)
    return [r for r in athlete.restrictions if BodyArea.HEAD in r.body_areas]


def status(keeper: FakeKeeper) -> str:
    club = keeper.store.club
    assert club is not None
    return next(p.status for p in people_today(club, club.session(SESSION)) if p.id == WHO)


def test_a_head_knock_puts_him_on_the_register_in_the_same_write(keeper: FakeKeeper) -> None:
    assert status(keeper) == "present"
    exchange(keeper, SESSION, [STARTED, KNOCK, NOTE], after=0, today=MONDAY)
    (made,) = about_the_head(keeper)
    assert (made.author, made.author_role) == ("Anna", AuthorRole.COACH)
    assert (made.starts_on, made.until, made.all_training) == (MONDAY, None, True)
    assert made.needs_clearance
    assert status(keeper) == "not training"


def test_what_fails_leaves_neither_the_event_nor_the_restriction(keeper: FakeKeeper) -> None:
    keeper.store.fails = True
    with pytest.raises(RuntimeError):
        exchange(keeper, SESSION, [KNOCK], after=0, today=MONDAY)
    assert about_the_head(keeper) == []


def test_sent_twice_and_noted_on_two_devices_it_is_there_once(keeper: FakeKeeper) -> None:
    other = event(7, EventKind.OUT, athlete=WHO, device="tablet")
    for events in ([KNOCK], [KNOCK], [other], [KNOCK, other]):
        exchange(keeper, SESSION, events, after=0, today=MONDAY)
    assert len(about_the_head(keeper)) == 1


def test_it_begins_on_the_day_of_the_session_however_late_it_arrives(keeper: FakeKeeper) -> None:
    exchange(keeper, SESSION, [KNOCK], after=0, today=MONDAY + timedelta(days=3))
    assert about_the_head(keeper)[0].starts_on == MONDAY


def test_it_begins_today_where_the_session_was_run_before_its_day(keeper: FakeKeeper) -> None:
    exchange(keeper, SESSION, [KNOCK], after=0, today=MONDAY - timedelta(days=1))
    assert about_the_head(keeper)[0].starts_on == MONDAY - timedelta(days=1)


def test_undo_on_the_device_does_not_bring_him_back(keeper: FakeKeeper) -> None:
    undo = event(4, EventKind.TAKEN_BACK, takes_back=KNOCK.id)
    exchange(keeper, SESSION, [KNOCK, undo], after=0, today=MONDAY)
    assert len(about_the_head(keeper)) == 1
    assert in_force([KNOCK, undo]) == (KNOCK,)


def test_he_does_not_go_on_by_a_tap() -> None:
    on = event(4, EventKind.ATHLETE_WENT_ON, athlete=WHO)
    assert stop_of([KNOCK, on]) == KNOCK
    stop = event(1, EventKind.ATHLETE_STOPPED, athlete=WHO, round=1)
    assert stop_of([stop, on]) is None
    assert stop_of([stop, KNOCK, on]) == stop


def test_present_at_the_door_and_a_coach_s_word_do_not_bring_him_back(keeper: FakeKeeper) -> None:
    exchange(keeper, SESSION, [KNOCK], after=0, today=MONDAY)
    mark_presence(keeper, SESSION, WHO, Presence.PRESENT, today=MONDAY)
    assert status(keeper) == "not training"
    with pytest.raises(NotAllowed, match="written clearance"):
        lift(keeper, WHO, about_the_head(keeper)[0].id, "Coach", today=MONDAY)


def test_he_is_in_no_plan_until_the_written_clearance_is_entered(keeper: FakeKeeper) -> None:
    meet(keeper, SESSION, Brought(0, (STARTED, KNOCK)), today=MONDAY)
    assert WHO not in planned(keeper, NEXT)
    written = Clearance(
        "new", about_the_head(keeper)[0].id, "Club doctor", MONDAY, "licence 12", "cleared"
    )
    clear(keeper, WHO, written, today=MONDAY)
    assert WHO in planned(keeper, NEXT)
    assert cleared_since(keeper, SESSION) == (KNOCK.id,)


def planned(keeper: FakeKeeper, session: str) -> set[str]:
    shown = show_session(keeper, session, today=MONDAY)
    assert isinstance(shown, ShownSession)
    assert shown.plan is not None
    return {dose.athlete for dose in shown.plan.doses}


def test_a_knock_after_the_clearance_takes_him_out_again(keeper: FakeKeeper) -> None:
    exchange(keeper, SESSION, [KNOCK], after=0, today=MONDAY)
    written = Clearance("new", about_the_head(keeper)[0].id, "Club doctor", MONDAY, "licence 12")
    clear(keeper, WHO, written, today=MONDAY)
    exchange(keeper, SESSION, [KNOCK], after=0, today=MONDAY)
    assert status(keeper) == "present"
    exchange(keeper, SESSION, [replace(KNOCK, id="phone-9", number=9)], after=0, today=MONDAY)
    assert status(keeper) == "not training"


def test_a_session_run_without_the_server_is_pinned_as_it_ran(keeper: FakeKeeper) -> None:
    """The start and the knock arrive together: he was in the sheet until he was hurt."""
    met = meet(keeper, SESSION, Brought(0, (STARTED, KNOCK, NOTE), "phone"), today=MONDAY)
    assert met.exchange.stored == (STARTED.id, KNOCK.id, NOTE.id)
    assert WHO in {d.athlete for d in running(keeper, SESSION, today=MONDAY).plan.doses}


def test_an_incident_goes_back_to_its_own_device_and_to_no_other(keeper: FakeKeeper) -> None:
    exchange(keeper, SESSION, [STARTED, NOTE], after=0, device="phone")
    given = {
        device: exchange(keeper, SESSION, [], after=0, device=device).events
        for device in ("phone", "tablet", "")
    }
    assert given == {"phone": (STARTED, NOTE), "tablet": (STARTED,), "": (STARTED,)}
