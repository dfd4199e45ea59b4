"""The demo club keeps the facts it was invented with, on whatever Monday it is made.

The club is invented, so nothing here is published; the rules it is held to (six bars, one
technique bar, three events for one athlete) are those of the invented club itself.
"""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.demo import demo_club
from squadwright.errors import InvalidInput
from squadwright.exchange.club_file import mistakes, read_club, write_club
from squadwright.model.athlete import AuthorRole, Priority
from squadwright.model.calendar import monday_of
from squadwright.model.exercise import Demand
from squadwright.planning.gates.bars import in_force as holds
from squadwright.units import MassUnit

MONDAY = date(2026, 3, 2)
AGES = {
    "A01": 24,
    "A02": 27,
    "A03": 17,
    "A04": 30,
    "A05": 19,
    "A06": 33,
    "A07": 22,
    "A08": 25,
    "A09": 28,
    "A10": 20,
    "A11": 31,
    "A12": 14,
    "A13": 23,
    "A14": 41,
}

mondays = st.dates(date(2000, 1, 1), date(2099, 12, 31)).map(monday_of)


@given(monday=mondays)
def test_ages_are_the_same_on_every_monday(monday: date) -> None:
    club = demo_club(monday)
    assert {a.id: a.age_on(monday) for a in club.athletes} == AGES


@given(monday=mondays)
def test_the_two_samis_are_never_shown_alike(monday: date) -> None:
    shown = demo_club(monday).shown_names()
    assert len(set(shown.values())) == 14
    assert shown["A08"] != shown["A12"]


def test_in_a_week_of_2026_the_samis_show_the_birth_years_01_and_12() -> None:
    shown = demo_club(MONDAY).shown_names()
    assert (shown["A08"], shown["A12"]) == ("Sami Darwazin '01", "Sami Darwazin '12")


@given(monday=mondays)
def test_the_demo_club_holds_no_mistake_and_survives_its_own_file(monday: date) -> None:
    club = demo_club(monday)
    assert mistakes(club, today=monday) == []
    text = write_club(club)
    assert read_club(text, today=monday) == club
    assert write_club(read_club(text, today=monday)) == text


def test_a_day_that_is_no_monday_is_refused_with_the_nearest_one() -> None:
    with pytest.raises(InvalidInput, match=r"2026-03-04 is a Wednesday. Give a Monday.*2026-03-02"):
        demo_club(date(2026, 3, 4))


def test_one_mass_was_typed_in_pounds_and_stays_so() -> None:
    reading = demo_club(MONDAY).athlete("A06").body_mass[0]
    assert (str(reading.reading), reading.reading.unit) == ("184 lb", MassUnit.POUND)
    assert reading.taken_on == MONDAY - timedelta(days=3)
    assert reading.reading.kg == pytest.approx(83.461, abs=0.0005)


def test_events_carry_their_offsets_and_priorities() -> None:
    club = demo_club(MONDAY)

    def events(athlete: str) -> list[tuple[int, Priority]]:
        return [((e.starts_on - MONDAY).days, e.priority) for e in club.athlete(athlete).events]

    assert events("A05") == [(5, Priority.B), (19, Priority.B), (33, Priority.A)]
    assert events("A02") == [(12, Priority.A), (20, Priority.A)]
    assert events("A13") == [(6, Priority.A)]
    assert events("A08") == []
    assert {p for offset, p in events("A07") if offset != 26} == {Priority.B}


def test_restrictions_in_force_on_the_day_are_those_of_the_story() -> None:
    club = demo_club(MONDAY)
    in_force = {a.id: held for a in club.athletes if (held := holds(a, MONDAY))}
    assert set(in_force) == {"A04", "A10", "A11", "A12", "A14"}
    assert in_force["A04"][0].demands == (Demand.OVERHEAD,)
    assert in_force["A04"][0].until == MONDAY + timedelta(days=18)
    knock, suspension = in_force["A10"]
    assert knock.all_training
    assert knock.until is None
    assert knock.author_role is AuthorRole.MEDICAL
    assert suspension.author_role is AuthorRole.OFFICIAL
    assert suspension.until == MONDAY + timedelta(days=24)
    assert in_force["A11"][0].demands == (Demand.HINGE_BELOW_KNEE, Demand.BENT_OVER_HOLD)
    assert [r.demands for r in in_force["A14"]] == [(Demand.BREATH_HOLD,)]


def test_minors_have_a_guardian_who_consented() -> None:
    club = demo_club(MONDAY)
    minors = [a for a in club.athletes if a.is_minor_on(MONDAY)]
    assert [a.id for a in minors] == ["A03", "A12"]
    for minor in minors:
        assert minor.guardian is not None
        assert minor.guardian.name in {c.given_by for c in minor.consents}


def test_the_store_sets_apart_what_must_not_be_used() -> None:
    kit = demo_club(MONDAY).kit
    assert sorted(bar.mass.kg for bar in kit.bars) == [10, 15, 15, 15, 20, 20]
    usable = {pair.plate.kg: pair.pairs for pair in kit.plates if pair.in_service}
    assert usable == {10: 2, 5: 6, 2.5: 5, 1.25: 4, 0.5: 2}
    odd = [pair for pair in kit.plates if not pair.in_service]
    assert [str(pair.stamped) for pair in odd] == ["45 lb", "2.5 lb"]
    assert {pair.note for pair in odd} == {"odd pair kept apart"}
    assert [ball.id for ball in kit.balls if not ball.fit_for_walls] == ["ball-3-taped"]
    assert [box.id for box in kit.boxes if not box.in_service] == ["wood-3"]
    assert sum(c.pairs for c in kit.collars if c.in_service) == 5


def test_both_sessions_name_rooms_routines_and_staff_of_the_club() -> None:
    club = demo_club(MONDAY)
    barbell, plyometric = club.sessions
    assert (barbell.held_on, barbell.minutes, barbell.routine) == (MONDAY, 60, "ropewalk")
    assert plyometric.held_on == MONDAY + timedelta(days=2)
    assert (plyometric.minutes, plyometric.routine) == (50, "tide-lanes")
    for session in club.sessions:
        assert len(session.athletes) == 14
        assert club.routine(session.routine, session.routine_version).blocks
        assert club.room(session.room).area_m2 > 90
