"""Who may compete or meet a partner on a day, by suspensions as they were written."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from squadwright.demo import demo_club
from squadwright.model.athlete import Athlete
from squadwright.model.medical import Medical, MedicalClearance, Suspension
from squadwright.planning.gates.competing import (
    barred_from_competing,
    may_meet_a_partner,
    suspended_on,
)

MONDAY = date(2026, 3, 2)
FREE = demo_club(MONDAY).athlete("A08")


def suspended(*held: Suspension, clearances: tuple[MedicalClearance, ...] = ()) -> Athlete:
    return replace(FREE, medical=Medical(suspensions=held, clearances=clearances))


def ban(name: str = "ko", **more: object) -> Suspension:
    said: dict[str, object] = {
        "issuer": "Commission",
        "reason": "KO",
        "no_contact_until": MONDAY + timedelta(days=29),
        "no_competition_until": MONDAY + timedelta(days=59),
        "starts_on": MONDAY,
        **more,
    }
    return Suspension(id=name, **said)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("days", "contact", "competition"),
    [(-1, True, True), (0, False, False), (29, False, False), (30, True, False), (60, True, True)],
)
def test_contact_and_competition_end_on_days_of_their_own(
    days: int, contact: bool, competition: bool
) -> None:
    athlete, day = suspended(ban()), MONDAY + timedelta(days=days)
    assert may_meet_a_partner(athlete, day) is contact
    assert (suspended_on(athlete, day) is None) is competition
    assert bool(barred_from_competing(athlete, day)) is not competition


def test_the_words_say_who_and_until_when_and_not_why() -> None:
    held = suspended_on(suspended(ban()), MONDAY)
    assert held is not None
    assert held.words == (
        "suspended by Commission: no contact and no competition up to and on 30 Apr 2026"
    )
    later = suspended_on(suspended(ban()), MONDAY + timedelta(days=40))
    assert later is not None
    assert later.words == "suspended by Commission: no competition up to and on 30 Apr 2026"


def test_an_open_one_ends_only_with_the_clearance_it_asks_for() -> None:
    held = ban(
        no_contact_until=None, no_competition_until=None, needs=("brain scan",), is_open=True
    )
    years_on = MONDAY + timedelta(days=800)
    barred = barred_from_competing(suspended(held), years_on)
    assert barred == (
        "suspended by Commission: no contact and no competition until cleared: brain scan"
    )
    cleared = MedicalClearance("c", "Dr Example", "12345", MONDAY, ("brain scan",))
    assert barred_from_competing(suspended(held, clearances=(cleared,)), years_on) == ""
    # What it does not ask for lifts nothing, and no clearance shortens a date.
    other = replace(cleared, lifts=("clearance before training",))
    assert barred_from_competing(suspended(held, clearances=(other,)), years_on)
    assert suspended_on(suspended(ban(), clearances=(cleared,)), MONDAY) is not None


def test_the_latest_of_two_counts_and_both_are_named() -> None:
    other = ban("tko", issuer="League", no_competition_until=MONDAY + timedelta(days=89))
    held = suspended_on(suspended(ban(), other), MONDAY)
    assert held is not None
    assert held.issuers == ("Commission", "League")
    assert held.standing.last_barred_day == MONDAY + timedelta(days=89)
