"""Every write can be taken back, after a restart as well, and a bad one stores nothing."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cases import cases
from exchange.clubs import clubs
from services.fakes import FakeKeeper, FakeStore
from squadwright.demo import demo_club
from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.model.athlete import MassReading
from squadwright.model.club import Club
from squadwright.model.step import Step
from squadwright.services.club_changes import (
    change_club,
    fingerprint,
    require_unchanged,
    take_back,
)
from squadwright.services.club_entries import KEYED, differences, put_back
from squadwright.storage.database import Database
from squadwright.storage.keeper import SqlKeeper
from squadwright.units import Mass

MONDAY = date(2026, 3, 2)


def stored(keeper: SqlKeeper) -> Club:
    with keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    return club


def without_athlete(club: Club, name: str) -> Club:
    return replace(
        club,
        athletes=tuple(a for a in club.athletes if a.id != name),
        sessions=tuple(
            replace(
                s,
                athletes=tuple(a for a in s.athletes if a != name),
                check_ins=tuple(c for c in s.check_ins if c.athlete != name),
                overrides=tuple(o for o in s.overrides if o.athlete != name),
            )
            for s in club.sessions
        ),
    )


def weighs(name: str, mass: str) -> Callable[[Club], Club]:
    def change(club: Club) -> Club:
        reading = MassReading(Mass.parse(mass), MONDAY)
        return replace(
            club,
            athletes=tuple(
                replace(a, body_mass=(*a.body_mass, reading)) if a.id == name else a
                for a in club.athletes
            ),
        )

    return change


def test_what_was_changed_is_stored_and_taken_back_after_a_restart(keeper: SqlKeeper) -> None:
    before = stored(keeper)
    changed = change_club(keeper, weighs("A09", "121.4 kg"), today=MONDAY)
    assert stored(keeper) == changed.club != before
    again = SqlKeeper(Database(keeper.database.url.render_as_string(hide_password=False)))
    taken = take_back(again, changed.step, today=MONDAY)
    assert taken.names == ("Kwabena Fosuhene-Lund",)
    assert stored(keeper) == before
    assert take_back(keeper, taken.step, today=MONDAY).club == changed.club == stored(keeper)


def test_somebody_removed_comes_back_to_his_place_with_all_he_had(keeper: SqlKeeper) -> None:
    before = stored(keeper)
    changed = change_club(keeper, lambda club: without_athlete(club, "A05"), today=MONDAY)
    assert len(stored(keeper).athletes) == len(before.athletes) - 1
    take_back(keeper, changed.step, today=MONDAY)
    assert stored(keeper) == before


def test_a_step_whose_athlete_was_changed_again_is_not_taken_back(keeper: SqlKeeper) -> None:
    first = change_club(keeper, weighs("A09", "121.4 kg"), today=MONDAY)
    second = change_club(keeper, weighs("A09", "121.0 kg"), today=MONDAY)
    with pytest.raises(Conflict, match="Kwabena Fosuhene-Lund was changed again"):
        take_back(keeper, first.step, today=MONDAY)
    assert stored(keeper) == second.club


def test_later_changes_of_others_stay_when_a_step_is_taken_back(keeper: SqlKeeper) -> None:
    first = change_club(keeper, weighs("A09", "121.4 kg"), today=MONDAY)
    change_club(keeper, weighs("A01", "54.5 kg"), today=MONDAY)
    take_back(keeper, first.step, today=MONDAY)
    assert stored(keeper) == weighs("A01", "54.5 kg")(demo_club(MONDAY))


def test_a_change_that_breaks_a_reference_stores_nothing(keeper: SqlKeeper) -> None:
    before = stored(keeper)
    with pytest.raises(InvalidInput, match="room"):
        change_club(keeper, lambda club: replace(club, rooms=()), today=MONDAY)
    assert stored(keeper) == before


def test_a_step_that_something_now_rests_on_is_not_taken_back(keeper: SqlKeeper) -> None:
    def another_room(club: Club) -> Club:
        return replace(club, rooms=(*club.rooms, replace(club.rooms[0], id="loft", name="Loft")))

    def moves(club: Club) -> Club:
        return replace(club, sessions=(replace(club.sessions[0], room="loft"), *club.sessions[1:]))

    added = change_club(keeper, another_room, today=MONDAY)
    change_club(keeper, moves, today=MONDAY)
    with pytest.raises(Conflict, match="cannot be taken back any more"):
        take_back(keeper, added.step, today=MONDAY)


def test_an_athlete_and_his_session_that_came_in_one_step_go_in_one_step(
    keeper: SqlKeeper,
) -> None:
    before = stored(keeper)

    def both(club: Club) -> Club:
        new = replace(club.athletes[0], id="A99", name="Orrin Vasketh")
        own = replace(club.sessions[0], id="own-hour", athletes=("A99",), check_ins=())
        return replace(club, athletes=(*club.athletes, new), sessions=(*club.sessions, own))

    changed = change_club(keeper, both, today=MONDAY)
    take_back(keeper, changed.step, today=MONDAY)
    assert stored(keeper) == before


def test_an_old_mistake_does_not_stand_in_the_way_of_a_change(keeper: SqlKeeper) -> None:
    club = stored(keeper)
    aged = replace(club.athletes[0], birth_date=date(1890, 1, 1))
    with keeper.writing() as store:
        store.save_club(replace(club, athletes=(aged, *club.athletes[1:])))
    changed = change_club(keeper, weighs("A09", "121.4 kg"), today=MONDAY)
    assert stored(keeper) == changed.club


def test_an_unknown_step_and_a_missing_club_are_told() -> None:
    empty = FakeKeeper(FakeStore(), is_ready=True)
    with pytest.raises(NotFound, match="no club yet"):
        change_club(empty, lambda club: club, today=MONDAY)
    held = FakeKeeper(FakeStore(demo_club(MONDAY)), is_ready=True)
    with pytest.raises(NotFound, match="not remembered"):
        take_back(held, "0" * 24, today=MONDAY)


def test_a_form_over_an_older_value_is_refused() -> None:
    athlete = demo_club(MONDAY).athletes[0]
    require_unchanged(athlete, fingerprint(athlete), "Athlete")
    with pytest.raises(InvalidInput, match="changed somewhere else"):
        require_unchanged(replace(athlete, note="new"), fingerprint(athlete), "Athlete")


@settings(max_examples=cases(60), deadline=None, suppress_health_check=list(HealthCheck))
@given(before=clubs(), after=clubs(), number=st.integers(0, 10**9))
def test_any_two_clubs_are_one_step_apart_and_back(before: Club, after: Club, number: int) -> None:
    after = replace(after, format_version=before.format_version)
    step = Step(str(number), MONDAY, differences(before, after))
    back = put_back(after, step)
    for part in KEYED:
        held, _, shelf = part.partition(".")
        now, former = (
            (getattr(c.kit, shelf) if shelf else getattr(c, held)) for c in (back, before)
        )
        assert sorted(map(repr, now)) == sorted(map(repr, former))
    assert (back.name, back.note, back.squads) == (before.name, before.note, before.squads)
    assert (back.emergency, back.kit.store_walk) == (before.emergency, before.kit.store_walk)
