"""Restrictions: entered, made stricter, lengthened, lifted by whoever may, asked about for ever."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from services.fakes import FakeKeeper, FakeStore
from squadwright.demo import demo_club
from squadwright.errors import Conflict, InvalidInput, NotAllowed, NotFound
from squadwright.model.athlete import AuthorRole, Clearance, Restriction
from squadwright.model.club import Club
from squadwright.model.exercise import Demand
from squadwright.model.muscles import BodyArea
from squadwright.planning.gates.bars import in_force
from squadwright.services.club_changes import fingerprint, take_back
from squadwright.services.restrictions import (
    add_restriction,
    change_restriction,
    clear,
    lengthen,
    lift,
    register,
    restriction_of,
)

MONDAY = date(2026, 3, 2)
PHYSIO = "Rutger Vantongerle"
OLD = Restriction(
    "x", "Head coach", AuthorRole.COACH, MONDAY - timedelta(days=9), MONDAY, (Demand.LUNGE,)
)


@pytest.fixture
def keeper() -> FakeKeeper:
    return FakeKeeper(FakeStore(demo_club(MONDAY)), is_ready=True)


def club_of(keeper: FakeKeeper) -> Club:
    club = keeper.store.club
    assert club is not None
    return club


def shoulder(keeper: FakeKeeper) -> Restriction:
    return restriction_of(club_of(keeper).athlete("A04"), "A04-shoulder")


def test_the_register_tells_what_waits_what_holds_and_what_is_coming(keeper: FakeKeeper) -> None:
    add_restriction(keeper, "A06", OLD, today=MONDAY)
    later = replace(OLD, starts_on=MONDAY + timedelta(days=3), until=None)
    add_restriction(keeper, "A01", later, today=MONDAY)
    found = register(club_of(keeper), today=MONDAY)
    assert [(e.shown_name, e.days_left) for e in found.asked] == [("Dónal Mac Firvane", 0)]
    assert [e.athlete.id for e in found.coming] == ["A01"]
    # Soonest end first, then those without an end; A14's old one is cleared.
    assert [(e.restriction.id, e.days_left) for e in found.in_force] == [
        ("A04-shoulder", 18),
        ("A10-suspension", 24),
        ("A10-head-knock", None),
        ("A11-low-back", None),
        ("A12-minor", None),
        ("A14-breathing", None),
    ]


@pytest.mark.parametrize("days_later", [0, 15, 365])
def test_an_ended_restriction_waits_for_its_answer_however_long(
    keeper: FakeKeeper, days_later: int
) -> None:
    add_restriction(keeper, "A06", OLD, today=MONDAY)
    day = MONDAY + timedelta(days=days_later)
    assert "A06" in {e.athlete.id for e in register(club_of(keeper), today=day).asked}


LOOSER = {
    "an earlier end": lambda r: replace(r, until=r.until - timedelta(days=1)),
    "a later start": lambda r: replace(r, starts_on=r.starts_on + timedelta(days=1)),
    "overhead again": lambda r: replace(r, demands=(Demand.LUNGE,)),
    "who set it": lambda r: replace(r, author_role=AuthorRole.COACH),
    "another instruction": lambda r: replace(r, instruction="light overhead is fine"),
}


@pytest.mark.parametrize("what", LOOSER)
def test_a_medical_restriction_never_gets_looser(keeper: FakeKeeper, what: str) -> None:
    old = shoulder(keeper)
    with pytest.raises(InvalidInput, match=what) as told:
        change_restriction(keeper, "A04", LOOSER[what](old), fingerprint(old), today=MONDAY)
    assert "written clearance" in told.value.advice
    assert shoulder(keeper) == old


def test_training_again_is_looser_too(keeper: FakeKeeper) -> None:
    knock = replace(OLD, until=None, all_training=True, author_role=AuthorRole.MEDICAL)
    _, old = add_restriction(keeper, "A10", knock, today=MONDAY)
    new = replace(old, all_training=False, demands=(Demand.CONTACT,))
    with pytest.raises(InvalidInput, match="training again"):
        change_restriction(keeper, "A10", new, fingerprint(old), today=MONDAY)


def test_a_medical_restriction_may_get_stricter_and_longer(keeper: FakeKeeper) -> None:
    old = shoulder(keeper)
    new = replace(old, until=None, demands=(*old.demands, Demand.THROWING))
    change_restriction(keeper, "A04", new, fingerprint(old), today=MONDAY)
    assert shoulder(keeper) == new


def test_what_was_changed_elsewhere_is_not_overwritten(keeper: FakeKeeper) -> None:
    old = shoulder(keeper)
    new = replace(old, demands=(*old.demands, Demand.THROWING))
    change_restriction(keeper, "A04", new, fingerprint(old), today=MONDAY)
    with pytest.raises(InvalidInput, match="changed somewhere else"):
        change_restriction(keeper, "A04", old, fingerprint(old), today=MONDAY)
    assert shoulder(keeper) == new


@pytest.mark.parametrize("role", [AuthorRole.MEDICAL, AuthorRole.OFFICIAL])
def test_no_coach_lifts_what_medical_staff_or_an_official_set(
    keeper: FakeKeeper, role: AuthorRole
) -> None:
    set_by = replace(OLD, until=None, author_role=role)
    _, made = add_restriction(keeper, "A10", set_by, today=MONDAY)
    with pytest.raises(NotAllowed, match="Enter the written clearance"):
        lift(keeper, "A10", made.id, "Head coach", today=MONDAY)
    assert in_force(club_of(keeper).athlete("A10"), MONDAY)[0] == made


@pytest.mark.parametrize("entry", ["A10-head-knock", "A10-suspension"])
def test_no_coach_lifts_what_rests_on_a_medical_entry(keeper: FakeKeeper, entry: str) -> None:
    with pytest.raises(NotAllowed, match="Enter the written clearance"):
        lift(keeper, "A10", entry, "Head coach", today=MONDAY)
    assert len(in_force(club_of(keeper).athlete("A10"), MONDAY)) == 2


def test_a_head_knock_takes_a_clearance_whoever_entered_it(keeper: FakeKeeper) -> None:
    knock = replace(OLD, until=None, all_training=True, demands=(), body_areas=(BodyArea.HEAD,))
    _, made = add_restriction(keeper, "A06", knock, today=MONDAY)
    with pytest.raises(NotAllowed, match="written clearance"):
        lift(keeper, "A06", made.id, "Head coach", today=MONDAY)
    changed = replace(made, body_areas=(), demands=(Demand.CONTACT,))
    with pytest.raises(InvalidInput, match="written clearance"):
        change_restriction(keeper, "A06", changed, fingerprint(made), today=MONDAY)


def test_a_head_knock_has_no_end_by_date(keeper: FakeKeeper) -> None:
    with pytest.raises(InvalidInput, match="only a written clearance ends it"):
        add_restriction(keeper, "A06", replace(OLD, body_areas=(BodyArea.HEAD,)), today=MONDAY)
    assert club_of(keeper).athlete("A06").restrictions == ()


def test_a_written_clearance_ends_it_from_its_day_on(keeper: FakeKeeper) -> None:
    written = Clearance("x", "A04-shoulder", "Dr Ilse Mbeki-Ruane", MONDAY, "Ferrow 4411")
    done = clear(keeper, "A04", written, today=MONDAY)
    athlete = club_of(keeper).athlete("A04")
    assert athlete.restrictions_on(MONDAY) == ()
    assert len(athlete.restrictions_on(MONDAY - timedelta(days=1))) == 1
    take_back(keeper, done.step, today=MONDAY)
    assert len(club_of(keeper).athlete("A04").restrictions_on(MONDAY)) == 1


@pytest.mark.parametrize("days", [-13, 1])
def test_a_clearance_lies_between_the_start_and_today(keeper: FakeKeeper, days: int) -> None:
    day = MONDAY + timedelta(days=days)
    with pytest.raises(InvalidInput, match="is outside"):
        clear(keeper, "A04", Clearance("x", "A04-shoulder", "A", day, "1"), today=MONDAY)


def test_the_coach_lifts_his_own_and_it_asks_no_more(keeper: FakeKeeper) -> None:
    _, made = add_restriction(keeper, "A06", OLD, today=MONDAY)
    lift(keeper, "A06", made.id, "Head coach", today=MONDAY)
    found = register(club_of(keeper), today=MONDAY)
    assert found.asked == ()
    assert made.id not in {e.restriction.id for e in found.in_force}
    with pytest.raises(Conflict, match="lifted already by Head coach on 2 Mar 2026"):
        lift(keeper, "A06", made.id, "Head coach", today=MONDAY)


def test_it_goes_on_and_says_who_said_so(keeper: FakeKeeper) -> None:
    _, made = add_restriction(keeper, "A06", replace(OLD, reason="knee"), today=MONDAY)
    later = MONDAY + timedelta(days=7)
    lengthen(keeper, "A06", made.id, later, "Head coach", today=MONDAY)
    now = restriction_of(club_of(keeper).athlete("A06"), made.id)
    assert now.holds_on(MONDAY)
    assert now.reason == ("knee; until 2 Mar 2026 at first, lengthened on 2 Mar 2026 by Head coach")
    with pytest.raises(InvalidInput, match="is not after"):
        lengthen(keeper, "A06", made.id, later, "Head coach", today=MONDAY)


def test_who_or_what_is_not_known_is_not_found(keeper: FakeKeeper) -> None:
    with pytest.raises(NotFound):
        lift(keeper, "A99", "x", "Head coach", today=MONDAY)
    with pytest.raises(NotFound, match="has no restriction 'x'"):
        lift(keeper, "A06", "x", "Head coach", today=MONDAY)
