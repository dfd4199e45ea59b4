"""Suspensions: the latest day counts, an open one never runs out by date."""

from datetime import date

import pytest

from squadwright.errors import InvalidInput
from squadwright.formulas.sources import Provenance, find_source
from squadwright.model.medical import MedicalClearance, Suspension
from squadwright.planning.gates.suspension import (
    TERMS,
    last_barred_day,
    standing_on,
)

KNOCKOUT = date(2025, 3, 1)
SIXTY = last_barred_day(KNOCKOUT, 60)


def suspended(
    *needs: str, until: date | None = SIXTY, is_open: bool = False, name: str = "ko"
) -> Suspension:
    return Suspension(name, "Ohio", "KO", until, until, needs, is_open)


def cleared(*lifts: str, on: date = date(2025, 4, 1)) -> MedicalClearance:
    return MedicalClearance("clear", "Dr Example", "12345", on, lifts)


def test_case_20_sixty_days_from_the_day_after() -> None:
    """Case 20 (Ohio, read: 60 days, from the day after; calc)."""
    assert date(2025, 4, 30) == SIXTY
    last = standing_on(date(2025, 4, 30), [suspended()])
    assert last.no_contact
    assert last.no_competition
    assert last.sentence == "Barred up to and on 2025-04-30."
    free = standing_on(date(2025, 5, 1), [suspended()])
    assert not free.no_contact
    assert not free.no_competition
    assert free.first_free_day == date(2025, 5, 1)


def test_case_20_an_open_one_still_bars() -> None:
    """Case 20: plus an open "until cleared"."""
    both = [suspended(), suspended("neurologist", until=None, is_open=True, name="open")]
    later = date(2031, 1, 1)
    found = standing_on(later, both)
    assert found.no_contact
    assert found.no_competition
    assert found.first_free_day is None
    assert found.missing == ("neurologist",)
    assert "until cleared: neurologist" in found.sentence
    assert not standing_on(later, both, [cleared("neurologist")]).no_contact


def test_the_latest_day_counts_and_no_contact_means_no_competition() -> None:
    shorter = Suspension("a", "Ohio", "bout", None, date(2025, 3, 8))
    longer = Suspension("b", "a doctor", "cut", date(2025, 6, 1), None)
    found = standing_on(date(2025, 5, 15), [shorter, suspended(), longer])
    assert found.no_contact
    assert found.no_competition
    assert found.first_free_day == date(2025, 6, 2)
    only_bout = standing_on(date(2025, 3, 5), [shorter])
    assert (only_bout.no_contact, only_bout.no_competition) == (False, True)


def test_a_clearance_never_shortens_a_date() -> None:
    found = standing_on(date(2025, 4, 15), [suspended("doctor")], [cleared("doctor")])
    assert found.no_contact
    assert found.missing == ()
    assert found.first_free_day == date(2025, 5, 1)


def test_a_date_that_is_over_still_needs_its_clearance() -> None:
    found = standing_on(date(2025, 5, 1), [suspended("doctor")], [cleared("eye doctor")])
    assert found.no_contact
    assert found.missing == ("doctor",)


def test_nothing_in_force() -> None:
    found = standing_on(KNOCKOUT, [])
    assert not found.no_competition
    assert found.sentence == "No suspension in force."


def test_one_that_bars_nothing_or_names_no_clearance_is_refused() -> None:
    with pytest.raises(InvalidInput, match="names no clearance"):
        suspended(until=None, is_open=True)
    with pytest.raises(InvalidInput, match="bars nothing"):
        suspended(until=None)
    with pytest.raises(InvalidInput, match="days: is 0"):
        last_barred_day(KNOCKOUT, 0)


@pytest.mark.parametrize(
    ("issuer", "reason", "days", "mark"),
    [
        ("North Carolina", "TKO", 30, Provenance.READ),
        ("North Carolina", "KO", 60, Provenance.READ),
        ("Ohio", "KO", 60, Provenance.READ),
        ("Ohio", "TKO", 30, Provenance.READ),
        ("Ohio", "any bout", 7, Provenance.READ),
        ("Massachusetts", "KO", 30, Provenance.READ),
        ("amateur boxing", "KO, no loss of consciousness", 30, Provenance.MEMORY),
        ("amateur boxing", "KO, out for less than a minute", 90, Provenance.MEMORY),
        ("amateur boxing", "KO, out for longer", 180, Provenance.MEMORY),
        ("ringside physicians", "TKO by blows to the head", 30, Provenance.MEMORY),
        ("ringside physicians", "KO", 60, Provenance.MEMORY),
        ("ringside physicians", "KO, out for longer", 90, Provenance.MEMORY),
    ],
)
def test_the_terms_of_each_place(issuer: str, reason: str, days: int, mark: Provenance) -> None:
    (term,) = [t for t in TERMS if (t.issuer, t.reason) == (issuer, reason)]
    assert term.least_days == days
    assert find_source(term.source_key).provenance is mark


def test_longer_terms_of_north_carolina_and_the_most_of_south_dakota() -> None:
    """Read: 120 to 180 and 180 to 365 days; up to 90 days."""
    spans = {(t.issuer, t.reason): (t.least_days, t.most_days) for t in TERMS}
    assert spans["North Carolina", "second KO in 12 months"] == (120, 180)
    assert spans["North Carolina", "pattern of KO"] == (180, 365)
    assert spans["South Dakota", "as the doctor says"] == (0, 90)
