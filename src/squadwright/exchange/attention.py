"""What a coach should look at in a club that is sound: gaps, ends, odd jumps."""

from collections.abc import Iterator
from datetime import date
from itertools import pairwise

from squadwright.exchange.complaint import Complaint
from squadwright.exchange.room_shape import misplaced
from squadwright.exchange.session_doubts import clashes
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club

# Common sense, no published limits: a larger change is more often a slip than a fact.
LARGEST_MASS_JUMP_FRACTION = 0.08
MASS_JUMP_DAYS = 14
LARGEST_STAMP_ERROR_FRACTION = 0.10


def attention(club: Club, *, today: date) -> Iterator[Complaint]:
    """Everything worth a look; none of it keeps the club from being used."""
    yield from _names_alike(club)
    for index, athlete in enumerate(club.athletes):
        place = f"athletes[{index}]"
        yield from _minor(place, athlete, today)
        yield from _ended_restrictions(place, athlete, today)
        yield from _mass_jumps(place, athlete)
        if not athlete.tests and not athlete.is_minor_on(today):
            yield Complaint(
                f"{place}.tests",
                f"{athlete.name} has no strength test",
                "Test a lift; until then the load can only be guessed",
            )
    for index, pair in enumerate(club.kit.plates):
        if pair.stamped is None:
            continue
        error = abs(pair.plate.kg - pair.stamped.kg) / pair.stamped.kg
        if error > LARGEST_STAMP_ERROR_FRACTION:
            yield Complaint(
                f"kit.plates[{index}].plate",
                f"measured {pair.plate}, stamped {pair.stamped}: {error:.0%} apart",
                "Weigh it again, or check the unit",
            )
    for index, room in enumerate(club.rooms):
        for found in misplaced(room):
            yield Complaint(f"rooms[{index}].{found.place}", found.problem, found.advice)
    for index, session in enumerate(club.sessions):
        if not session.athletes:
            yield Complaint(f"sessions[{index}].athletes", "nobody is expected", "Name the squad")
        for doubt in clashes(club, session, club.sessions[:index]):
            field = "athletes" if doubt.place == "who" else doubt.place
            yield Complaint(
                f"sessions[{index}].{field}", doubt.question.rstrip("?"), "Move one, or leave it so"
            )


def _names_alike(club: Club) -> Iterator[Complaint]:
    shown = club.shown_names()
    for index, athlete in enumerate(club.athletes):
        if shown[athlete.id] != athlete.name:
            yield Complaint(
                f"athletes[{index}].name",
                f"{athlete.name} is the name of more than one, shown as {shown[athlete.id]}",
                "Check that this is another person and not the same one entered twice",
            )


def _minor(place: str, athlete: Athlete, today: date) -> Iterator[Complaint]:
    if not athlete.is_minor_on(today):
        return
    age = athlete.age_on(today)
    if athlete.guardian is None:
        yield Complaint(
            f"{place}.guardian",
            f"{athlete.name} is {age} and has no guardian",
            "Enter the adult who answers for the athlete",
        )
    elif not athlete.has_consent_of_guardian:
        yield Complaint(
            f"{place}.consents",
            f"{athlete.name} is {age}, and {athlete.guardian.name} has agreed to nothing yet",
            "Ask the guardian, and enter what was agreed to",
        )


def _ended_restrictions(place: str, athlete: Athlete, today: date) -> Iterator[Complaint]:
    ended = athlete.ended_restrictions_on(today)
    for index, restriction in enumerate(athlete.restrictions):
        if restriction in ended:
            yield Complaint(
                f"{place}.restrictions[{index}].until",
                f"{athlete.name}: restriction {restriction.id!r} by {restriction.author} "
                f"ended on {restriction.until}",
                "Ask whether it is really over, and enter who cleared it",
            )


def _mass_jumps(place: str, athlete: Athlete) -> Iterator[Complaint]:
    in_order = sorted(enumerate(athlete.body_mass), key=lambda pair: pair[1].taken_on)
    for (_, before), (index, after) in pairwise(in_order):
        change = abs(after.reading.kg - before.reading.kg) / before.reading.kg
        days = (after.taken_on - before.taken_on).days
        if days <= MASS_JUMP_DAYS and change > LARGEST_MASS_JUMP_FRACTION:
            yield Complaint(
                f"{place}.body_mass[{index}].reading",
                f"{athlete.name}: {after.reading} is {change:.0%} away from {before.reading} "
                f"{days} day(s) before",
                "Check the number and the unit",
            )
