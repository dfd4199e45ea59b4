"""Use cases of what is measured beside the sessions: kept as it was typed."""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from secrets import token_hex

from squadwright.errors import InvalidInput, NotAllowed, NotFound
from squadwright.model.athlete import Athlete, AuthorRole
from squadwright.model.club import Club
from squadwright.model.measured import (
    AroundTraining,
    EnergyDay,
    Measured,
    MorningUrine,
    PainReading,
    WatchedPain,
)
from squadwright.planning.restriction_words import day_words
from squadwright.services.body_composition import show_composition
from squadwright.services.club_changes import Changed, change_club
from squadwright.services.squad import with_athlete
from squadwright.services.unit_of_work import Keeper
from squadwright.units import Mass

Entry = AroundTraining | MorningUrine | WatchedPain
STORED = ("exactly this is stored already", "Change what is different, or go back")


def new_measure_id(athlete_id: str) -> str:
    """An id for an entry of an athlete."""
    return f"{athlete_id[:40]}-m{token_hex(4)}"


def enter_measure(keeper: Keeper, athlete_id: str, entry: Entry, *, today: date) -> Changed:
    """Keep one entry; InvalidInput for a day that has not been, or one that is stored already."""
    return _enter(keeper, athlete_id, entry, today)


def _enter(keeper: Keeper, athlete_id: str, entry: Entry | EnergyDay, today: date) -> Changed:
    def change(club: Club) -> Club:
        athlete = club.athlete(athlete_id)
        require_day(athlete, entry.taken_on, today)
        _require_new(athlete, entry)
        return with_athlete(club, replace(athlete, measured=_with(athlete.measured, entry)))

    return change_club(keeper, change, today=today)


def enter_energy(
    keeper: Keeper, athlete_id: str, entry: EnergyDay, *, by: AuthorRole, today: date
) -> Changed:
    """Keep energy and food of a day; NotAllowed for anybody but medical staff or a dietitian."""
    if by is not AuthorRole.MEDICAL:
        raise NotAllowed(
            f"Energy and food are not entered by a {by.value}. Let medical staff or a sports "
            "dietitian enter them; a coach sees the status alone."
        )
    return _enter(keeper, athlete_id, entry, today)


def fat_free_of(keeper: Keeper, athlete_id: str, *, today: date) -> Mass | None:
    """Mass without fat by the newest assessment of body composition that can be used."""
    latest = show_composition(keeper, athlete_id, today=today).latest
    if latest is None or latest.found is None:
        return None
    return Mass(Decimal(f"{latest.found.fat_free:.1f}"), latest.found.mass.unit)


def tell_pain(
    keeper: Keeper, athlete_id: str, pain_id: str, told: PainReading, *, today: date
) -> Changed:
    """Keep a reading of a watched pain; it goes into the dose of the next session."""

    def change(club: Club) -> Club:
        athlete = club.athlete(athlete_id)
        watched = watched_pain(athlete, pain_id)
        require_day(athlete, told.taken_on, today)
        if told.taken_on < watched.taken_on:
            raise InvalidInput(
                "taken_on",
                f"{day_words(told.taken_on)} is before {day_words(watched.taken_on)}, when the "
                "watch began",
                "Give a later day",
            )
        if told in watched.readings:
            raise InvalidInput("Entry", *STORED)
        new = replace(watched, readings=(*watched.readings, told))
        return with_athlete(club, replace(athlete, measured=athlete.measured.with_pain(new)))

    return change_club(keeper, change, today=today)


def watched_pain(athlete: Athlete, pain_id: str) -> WatchedPain:
    """A pain that is watched; raises NotFound."""
    for watched in athlete.measured.pains:
        if watched.id == pain_id:
            return watched
    raise NotFound(f"{athlete.name} has no watched pain {pain_id!r}; see the medical entries")


def require_day(athlete: Athlete, day: date, today: date) -> None:
    """A day that has been, and not before his birth."""
    if day > today:
        raise InvalidInput(
            "taken_on",
            f"{day_words(day)} lies in the future",
            f"Give a day up to {day_words(today)}",
        )
    if day < athlete.birth_date:
        raise InvalidInput("taken_on", f"{day_words(day)} is before the birth", "Check the year")


def _require_new(athlete: Athlete, entry: Entry | EnergyDay) -> None:
    measured = athlete.measured
    held = (*measured.training, *measured.urine, *measured.pains, *measured.energy)
    if any(replace(each, id=entry.id) == entry for each in held if type(each) is type(entry)):
        raise InvalidInput("Entry", *STORED)


def _with(measured: Measured, entry: Entry | EnergyDay) -> Measured:
    if isinstance(entry, AroundTraining):
        return replace(measured, training=(*measured.training, entry))
    if isinstance(entry, EnergyDay):
        return replace(measured, energy=(*measured.energy, entry))
    if isinstance(entry, WatchedPain):
        return measured.with_pain(entry)
    return replace(measured, urine=(*measured.urine, entry))
