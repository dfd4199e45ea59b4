"""Use cases of guests: take one in at the door, make him a member, or remove him when the time is
over.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, timedelta
from secrets import token_hex

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.athlete import Athlete, Consent, Guardian, Level, MassReading, Sex
from squadwright.model.club import Club
from squadwright.model.session import Session
from squadwright.services.club_changes import Changed, change_club
from squadwright.services.clubs import load_club
from squadwright.services.session_changes import Replanned, change_and_plan, with_session
from squadwright.services.squad import remove_athlete, with_athlete
from squadwright.services.unit_of_work import Keeper
from squadwright.units import Mass
from squadwright.words import day_words

GUEST_DAYS = 30
ADULT_AGE = 18
YOUNGEST_AGE, OLDEST_AGE = 6, 99
AGE_OF_A_MINOR = 12
"""The age taken for a minor who does not say it: careful, a default of ours."""
CONSENT = "training as a guest"
NOT_SAID = "Birth date and sex are taken as the most careful: ask for them."


@dataclass(frozen=True)
class NewGuest:
    """What a guest says at the door; ``age`` and ``sex`` may stay open."""

    name: str
    is_minor: bool
    agreed: bool
    agreed_by: str = ""
    age: int | None = None
    sex: Sex | None = None
    body_mass: Mass | None = None


def next_guest_name(club: Club) -> str:
    """ "Guest 1", or the next one that nobody has."""
    taken = {athlete.name.casefold() for athlete in club.athletes}
    return next(f"Guest {n}" for n in range(1, len(taken) + 2) if f"guest {n}" not in taken)


def age_of(number: int, *, today: date) -> int:
    """An age from an age or from a birth year; born on the last day of it, as is careful."""
    return number if number <= OLDEST_AGE else today.year - number - 1


def add_guest(keeper: Keeper, session_id: str, guest: NewGuest, *, today: date) -> Replanned:
    """Take a guest into the club for a month and into the session, and plan it anew."""
    guest_id = f"g{token_hex(5)}"

    def change(club: Club) -> Club:
        session = club.session(session_id)
        athlete = _athlete(guest_id, guest, session, today)
        with_guest = replace(club, athletes=(*club.athletes, athlete))
        return with_session(with_guest, replace(session, athletes=(*session.athletes, guest_id)))

    def said(club: Club, session: Session) -> str:
        until = club.athlete(guest_id).guest_until
        said = f"{club.shown_names()[guest_id]} is a guest"
        return f"{said}." if until is None else f"{said} until {day_words(until)}."

    return change_and_plan(keeper, session_id, change, today=today, said=said, athletes=(guest_id,))


def make_member(
    keeper: Keeper, athlete_id: str, birth_date: date, sex: Sex, *, today: date
) -> Changed:
    """A guest becomes a member; his birth date and sex are asked for."""

    def change(club: Club) -> Club:
        athlete = _guest(club, athlete_id)
        note = athlete.note.replace(NOT_SAID, "").strip()
        member = replace(athlete, guest_until=None, birth_date=birth_date, sex=sex, note=note)
        return with_athlete(club, member)

    return change_club(keeper, change, today=today)


def remove_guest(keeper: Keeper, athlete_id: str, *, today: date) -> Changed:
    """A guest is removed from the club and from every session."""
    _guest(load_club(keeper), athlete_id)
    return remove_athlete(keeper, athlete_id, today=today)


def guests(club: Club) -> tuple[Athlete, ...]:
    """Every guest, those whose time ends first before the others."""
    found = [a for a in club.athletes if a.guest_until is not None]
    return tuple(sorted(found, key=lambda a: (a.guest_until or date.max, a.name)))


def guests_to_ask_about(club: Club, *, today: date) -> tuple[Athlete, ...]:
    """Guests whose time is over: a member, or removed?"""
    return tuple(_over(guests(club), today))


def _over(found: Iterable[Athlete], today: date) -> list[Athlete]:
    return [a for a in found if a.guest_until is not None and a.guest_until <= today]


def _guest(club: Club, athlete_id: str) -> Athlete:
    athlete = club.athlete(athlete_id)
    if athlete.guest_until is None:
        raise NotFound(f"{athlete.name} is no guest any more")
    return athlete


def _athlete(guest_id: str, guest: NewGuest, session: Session, today: date) -> Athlete:
    if not guest.agreed:
        raise InvalidInput(
            "agreed",
            "nobody has agreed",
            "Ask, then tick: the guest agrees, or the guardian of a minor",
        )
    if guest.is_minor and not guest.agreed_by:
        raise InvalidInput(
            "agreed_by", "no guardian is named", "A minor trains when the guardian has agreed"
        )
    careful = AGE_OF_A_MINOR if guest.is_minor else ADULT_AGE
    age = careful if guest.age is None else guest.age
    if not YOUNGEST_AGE <= age <= OLDEST_AGE:
        raise InvalidInput(
            "age",
            f"{age} years is outside {YOUNGEST_AGE} to {OLDEST_AGE} years",
            "Write the age, or the year of birth with four digits",
        )
    if guest.is_minor != (age < ADULT_AGE):
        is_told = "an adult" if age >= ADULT_AGE else "a minor"
        raise InvalidInput("age", f"{age} years is {is_told}", f"Add the guest as {is_told}")
    by = guest.agreed_by or guest.name
    reading = () if guest.body_mass is None else (MassReading(guest.body_mass, today),)
    return Athlete(
        id=guest_id,
        name=guest.name,
        birth_date=_years_before(min(today, session.held_on), age),
        sex=guest.sex or Sex.FEMALE,
        level=Level.NOVICE,
        sport="guest",
        body_mass=reading,
        guardian=Guardian(by, "guardian") if guest.is_minor else None,
        consents=(Consent(CONSENT, by, today),),
        note="" if guest.age is not None and guest.sex is not None else NOT_SAID,
        guest_until=session.held_on + timedelta(days=GUEST_DAYS),
    )


def _years_before(day: date, years: int) -> date:
    try:
        return day.replace(year=day.year - years)
    except ValueError:
        return day.replace(year=day.year - years, day=28)
