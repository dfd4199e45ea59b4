"""Dates, masses and sizes of a club file that cannot be right.

The limits are common sense about people and kit, no published ranges: wide enough for everybody
who trains, narrow enough to catch a slip of the finger or of the unit.
"""

from collections.abc import Iterator
from dataclasses import fields
from datetime import date, timedelta

from squadwright.errors import InvalidInput, NotFound
from squadwright.exchange.complaint import Complaint
from squadwright.model.athlete import Athlete, Restriction
from squadwright.model.club import Club, GateLimits
from squadwright.model.exercise import ReferenceLift
from squadwright.model.kit import Kit
from squadwright.model.room import Room
from squadwright.model.session import Session
from squadwright.planning.gates.gate import settings_of
from squadwright.units import Mass

YOUNGEST_YEARS, OLDEST_YEARS = 5, 90
BODY_MASS_KG = (20.0, 300.0)
BAR_KG = (2.0, 60.0)
PLATE_KG = (0.1, 60.0)
BALL_KG = (0.5, 30.0)
COLLAR_PAIR_KG = (0.0, 10.0)
BAR_LENGTH_M = (0.5, 3.0)
ON_A_BAR_KG = (1.0, 1000.0)
TEST_LOAD_KG = (1.0, 600.0)
LEG_PRESS_LOAD_KG = (1.0, 1000.0)
TEST_REPETITIONS = 50
JUMP_HEIGHT_M = (0.02, 4.0)
BOX_HEIGHT_M = (0.05, 1.6)
CEILING_M = (1.8, 60.0)
# A reading may be dated tomorrow where the clocks of two places differ.
LATEST_TOMORROW = timedelta(days=1)


def implausible(club: Club, *, today: date) -> Iterator[Complaint]:
    """Every date, mass or size of the club that cannot be right."""
    for index, athlete in enumerate(club.athletes):
        place = f"athletes[{index}]"
        yield from _age(place, athlete, today)
        yield from _tests(place, athlete)
        yield from _dates(place, athlete, today)
        yield from _restrictions(place, athlete)
    yield from _gate_limits(club)
    yield from _kit(club.kit)
    for index, room in enumerate(club.rooms):
        yield from _room(f"rooms[{index}]", room)
    for index, slot in enumerate(club.week):
        if slot.ends_at <= slot.starts_at:
            yield Complaint(
                f"week[{index}].ends_at",
                f"{slot.ends_at:%H:%M} is not after the start {slot.starts_at:%H:%M}",
                "Give a later end on the same day",
            )
    for index, session in enumerate(club.sessions):
        yield from _floor(f"sessions[{index}].floor_today.part", club, session)
        for number, override in enumerate(session.overrides):
            where = f"sessions[{index}].overrides[{number}].load"
            yield from _mass(where, override.load, ON_A_BAR_KG, "a load")


def _gate_limits(club: Club) -> Iterator[Complaint]:
    """Each limit of the coach's own is one of the gates, and stricter than published."""
    for index, limit in enumerate(club.gate_limits.chosen):
        place = f"gate_limits.chosen[{index}]"
        try:
            settings_of(GateLimits((limit,)))
        except InvalidInput as error:
            yield Complaint(f"{place}.value", f"{limit.name}: {error.problem}", error.advice)
        except NotFound as error:
            yield Complaint(f"{place}.name", str(error), "Write the name of one that there is")


def _floor(place: str, club: Club, session: Session) -> Iterator[Complaint]:
    """The part of a room that is free lies in that room; an unknown room is told elsewhere."""
    try:
        club.room_of(session)
    except InvalidInput as error:
        yield Complaint(place, error.problem, error.advice)
    except NotFound:
        return


def _mass(
    place: str, mass: Mass | None, limits_kg: tuple[float, float], what: str
) -> Iterator[Complaint]:
    if mass is None or limits_kg[0] <= mass.kg <= limits_kg[1]:
        return
    converted = "" if mass.unit == "kg" else f" ({mass.kg:.1f} kg)"
    yield Complaint(
        place,
        f"{mass}{converted} is not plausible for {what}: the limits are "
        f"{limits_kg[0]:g} and {limits_kg[1]:g} kg",
        "Check the number and the unit",
    )


def _size(
    place: str, size_m: float, limits_m: tuple[float, float], what: str
) -> Iterator[Complaint]:
    if not limits_m[0] <= size_m <= limits_m[1]:
        yield Complaint(
            place,
            f"{size_m:g} m is not plausible for {what}: the limits are "
            f"{limits_m[0]:g} and {limits_m[1]:g} m",
            "Write it in metres, for example 0.45 for 45 cm",
        )


def _age(place: str, athlete: Athlete, today: date) -> Iterator[Complaint]:
    where, born = f"{place}.birth_date", athlete.birth_date
    if born > today:
        yield Complaint(where, f"{born} lies in the future", "Check the year")
        return
    age = athlete.age_on(today)
    if not YOUNGEST_YEARS <= age <= OLDEST_YEARS:
        yield Complaint(
            where,
            f"{born} gives an age of {age} years; the limits are "
            f"{YOUNGEST_YEARS} and {OLDEST_YEARS} years",
            "Check the year",
        )
    elif athlete.training_age_years > age:
        yield Complaint(
            f"{place}.training_age_years",
            f"{athlete.training_age_years:g} years of training at an age of {age} years",
            "Write the years of training for strength",
        )


def _tests(place: str, athlete: Athlete) -> Iterator[Complaint]:
    for index, test in enumerate(athlete.tests):
        where = f"{place}.tests[{index}]"
        is_leg_press = test.lift is ReferenceLift.LEG_PRESS
        limits = LEG_PRESS_LOAD_KG if is_leg_press else TEST_LOAD_KG
        yield from _mass(f"{where}.load", test.load, limits, f"a {test.lift.value} test")
        if test.repetitions > TEST_REPETITIONS:
            yield Complaint(
                f"{where}.repetitions",
                f"{test.repetitions} repetitions are no strength test; the limit is "
                f"{TEST_REPETITIONS}",
                "Write the good repetitions of one set",
            )
    for index, jump in enumerate(athlete.jump_tests):
        where = f"{place}.jump_tests[{index}].height_m"
        yield from _size(where, jump.height_m, JUMP_HEIGHT_M, "a jump")
    for index, reading in enumerate(athlete.body_mass):
        where = f"{place}.body_mass[{index}].reading"
        yield from _mass(where, reading.reading, BODY_MASS_KG, "a body mass")
    for index, event in enumerate(athlete.events):
        where = f"{place}.events[{index}].mass_limit"
        yield from _mass(where, event.mass_limit, BODY_MASS_KG, "a weight limit")


def _dates(place: str, athlete: Athlete, today: date) -> Iterator[Complaint]:
    """Things that have happened: after his birth, and not in the future."""
    past = [
        *((f"tests[{i}].taken_on", t.taken_on) for i, t in enumerate(athlete.tests)),
        *((f"jump_tests[{i}].taken_on", t.taken_on) for i, t in enumerate(athlete.jump_tests)),
        *((f"body_mass[{i}].taken_on", m.taken_on) for i, m in enumerate(athlete.body_mass)),
        *((f"clearances[{i}].given_on", c.given_on) for i, c in enumerate(athlete.clearances)),
        *((f"consents[{i}].given_on", c.given_on) for i, c in enumerate(athlete.consents)),
        *(
            (f"medical.clearances[{i}].given_on", c.given_on)
            for i, c in enumerate(athlete.medical.clearances)
        ),
        *(
            (f"medical.head_knocks[{i}].knocked_at", k.knocked_at.date())
            for i, k in enumerate(athlete.medical.head_knocks)
        ),
        *(
            (f"measured.{part.name}[{i}].taken_on", each.taken_on)
            for part in fields(athlete.measured)
            for i, each in enumerate(getattr(athlete.measured, part.name))
        ),
        *(
            (f"measured.pains[{i}].readings[{n}].taken_on", told.taken_on)
            for i, pain in enumerate(athlete.measured.pains)
            for n, told in enumerate(pain.readings)
        ),
    ]
    for field, day in past:
        if day > today + LATEST_TOMORROW:
            yield Complaint(
                f"{place}.{field}", f"{day} lies in the future; today is {today}", "Check the date"
            )
    if athlete.birth_date > today:
        return
    later = [
        *past,
        *(
            (f"restrictions[{i}].starts_on", r.starts_on)
            for i, r in enumerate(athlete.restrictions)
        ),
        *((f"events[{i}].starts_on", e.starts_on) for i, e in enumerate(athlete.events)),
    ]
    for field, day in later:
        if day < athlete.birth_date:
            yield Complaint(
                f"{place}.{field}",
                f"{day} is before the birth date {athlete.birth_date}",
                "Check both dates",
            )


def _restrictions(place: str, athlete: Athlete) -> Iterator[Complaint]:
    known: dict[str, Restriction] = {r.id: r for r in athlete.restrictions}
    for index, clearance in enumerate(athlete.clearances):
        lifted = known.get(clearance.restriction)
        if lifted is not None and clearance.given_on < lifted.starts_on:
            yield Complaint(
                f"{place}.clearances[{index}].given_on",
                f"{clearance.given_on} is before restriction {lifted.id!r} began "
                f"on {lifted.starts_on}",
                "Check both dates",
            )


def _kit(kit: Kit) -> Iterator[Complaint]:
    for index, bar in enumerate(kit.bars):
        where = f"kit.bars[{index}]"
        yield from _mass(f"{where}.mass", bar.mass, BAR_KG, "a bar")
        yield from _mass(f"{where}.maximum_load", bar.maximum_load, ON_A_BAR_KG, "what a bar holds")
        yield from _size(f"{where}.length_m", bar.length_m, BAR_LENGTH_M, "a bar")
    for index, pair in enumerate(kit.plates):
        where = f"kit.plates[{index}]"
        yield from _mass(f"{where}.plate", pair.plate, PLATE_KG, "a plate")
        yield from _mass(f"{where}.stamped", pair.stamped, PLATE_KG, "a plate")
    for index, single in enumerate(kit.single_plates):
        yield from _mass(f"kit.single_plates[{index}].plate", single.plate, PLATE_KG, "a plate")
    for index, collars in enumerate(kit.collars):
        where = f"kit.collars[{index}].pair_mass"
        yield from _mass(where, collars.pair_mass, COLLAR_PAIR_KG, "a pair of collars")
    for index, ball in enumerate(kit.balls):
        yield from _mass(f"kit.balls[{index}].mass", ball.mass, BALL_KG, "a ball")
    for index, box in enumerate(kit.boxes):
        where = f"kit.boxes[{index}]"
        for number, height_m in enumerate(box.heights_m):
            yield from _size(f"{where}.heights_m[{number}]", height_m, BOX_HEIGHT_M, "a box")
        rated = f"{where}.maximum_body_mass"
        yield from _mass(rated, box.maximum_body_mass, BODY_MASS_KG, "a body mass")


def _room(place: str, room: Room) -> Iterator[Complaint]:
    yield from _size(f"{place}.ceiling_m", room.ceiling_m, CEILING_M, "a ceiling")
    for index, zone in enumerate(room.ceiling_zones):
        where = f"{place}.ceiling_zones[{index}].ceiling_m"
        yield from _size(where, zone.ceiling_m, (0.0, CEILING_M[1]), "a ceiling")
    if room.area_m2 < 1:
        yield Complaint(
            f"{place}.outline",
            f"the corners of room {room.id!r} enclose {room.area_m2:.2g} m2",
            "Give its corners in metres and in order round the room",
        )
    for index, wall in enumerate(room.throw_walls):
        if wall.start == wall.end:
            yield Complaint(
                f"{place}.throw_walls[{index}].end",
                f"wall {wall.name!r} ends where it starts",
                "Give the two ends of the wall in metres",
            )
