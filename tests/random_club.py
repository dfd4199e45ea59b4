"""Clubs and sessions made up at random from a seed: sane, of every kind a coach may meet."""

from datetime import date, time, timedelta
from decimal import Decimal
from random import Random

from random_routine import routine_of
from random_store import kit_of
from squadwright.model.athlete import (
    Athlete,
    AuthorRole,
    Clearance,
    Event,
    Guardian,
    JumpTest,
    Level,
    MassReading,
    Priority,
    Restriction,
    Sex,
    StrengthTest,
)
from squadwright.model.club import Club, StaffMember
from squadwright.model.exercise import Demand, ReferenceLift
from squadwright.model.muscles import BodyArea
from squadwright.model.room import CeilingZone, Obstacle, Room, ThrowWall
from squadwright.model.session import CheckIn, Override, Pain, Presence, Session, Settings
from squadwright.units import Mass, kilograms, pounds

TODAY = date(2026, 3, 2)
# What somebody of 75 kg lifts once [kg], by lift; others are scaled from it.
SINGLE_KG = {
    ReferenceLift.BACK_SQUAT: 110,
    ReferenceLift.FRONT_SQUAT: 90,
    ReferenceLift.DEADLIFT: 140,
    ReferenceLift.BENCH_PRESS: 80,
    ReferenceLift.STRICT_PRESS: 52,
    ReferenceLift.BENT_OVER_ROW: 75,
    ReferenceLift.POWER_CLEAN: 75,
}
SHARE_OF_LEVEL = {Level.NOVICE: 0.7, Level.INTERMEDIATE: 1.0, Level.ADVANCED: 1.3}
# Mostly small: the largest squads take most of the time.
SIZES = (*range(2, 15), *range(4, 15), 16, 18, 20, 24, 30, 40)
NAMES = ("Ash", "Birch", "Cedar", "Elm", "Hazel", "Maple", "Oak", "Rowan", "Willow", "Yew")


def random_club(seed: int, sizes: tuple[int, ...] = SIZES) -> tuple[Club, Session]:
    """A club with one session; the same seed gives the same."""
    random = Random(seed)
    size = random.choice(sizes)
    athletes = tuple(_athlete(random, number) for number in range(1, size + 1))
    routine = routine_of(random)
    room = _room(random)
    session = _session(random, athletes, room, routine.version)
    club = Club(
        name="Club of the dice",
        staff=(StaffMember("Head coach", "head coach"),),
        athletes=athletes,
        kit=kit_of(random, size),
        rooms=(room,),
        routines=(routine,),
        sessions=(session,),
    )
    return club, session


def _athlete(random: Random, number: int) -> Athlete:
    age = random.choice((*range(12, 18), *range(16, 40), *range(18, 56)))
    level = Level.NOVICE if age < 15 else random.choice(list(Level))
    mass_kg = random.uniform(38, 60) if age < 15 else random.uniform(48, 125)
    identifier = f"P{number:02}"
    born = TODAY - timedelta(days=365 * age + age // 4 + random.randint(1, 350))
    return Athlete(
        id=identifier,
        name=random.choice(NAMES) if random.random() < 0.3 else f"{random.choice(NAMES)} {number}",
        birth_date=born,
        sex=random.choice(list(Sex)),
        level=level,
        sport="wrestling",
        training_age_years=float(random.randint(0, 8)),
        stature_m=None if random.random() < 0.1 else round(random.uniform(1.45, 2.0), 2),
        tests=_tests(random, level, mass_kg) if age >= 14 else (),
        jump_tests=(JumpTest("jump", round(random.uniform(0.2, 0.6), 2), TODAY, "by eye"),)
        if random.random() < 0.4
        else (),
        body_mass=() if random.random() < 0.05 else (MassReading(_mass(random, mass_kg), TODAY),),
        events=_events(random, identifier, mass_kg),
        restrictions=_restrictions(random, identifier),
        clearances=(Clearance("lifted", f"{identifier}-r", "Club doctor", TODAY),)
        if random.random() < 0.02
        else (),
        guardian=Guardian("Somebody", "parent") if age < 18 and random.random() < 0.9 else None,
    )


def _mass(random: Random, mass_kg: float) -> Mass:
    if random.random() < 0.3:
        return pounds(round(Decimal(mass_kg / 0.45359237), 1))
    return kilograms(round(Decimal(mass_kg), 1))


def _tests(random: Random, level: Level, mass_kg: float) -> tuple[StrengthTest, ...]:
    if random.random() < 0.15:
        return ()
    strength = SHARE_OF_LEVEL[level] * (mass_kg / 75) ** 0.67 * random.uniform(0.8, 1.2)
    lifts = random.sample(list(SINGLE_KG), random.randint(1, 4))
    tests = []
    for lift in lifts:
        repetitions = random.choice((1, 3, 5, 5, 8))
        load_kg = SINGLE_KG[lift] * strength / (1 + repetitions / 30)
        load = kilograms(round(Decimal(load_kg / 2.5)) * Decimal("2.5"))
        if random.random() < 0.2:
            load = pounds(round(Decimal(load_kg / 0.45359237)))
        taken_on = TODAY - timedelta(days=random.randint(1, 200))
        tests.append(StrengthTest(lift, load, repetitions, taken_on))
    return tuple(tests)


def _events(random: Random, identifier: str, mass_kg: float) -> tuple[Event, ...]:
    return tuple(
        Event(
            id=f"{identifier}-{number}",
            name="Meet",
            starts_on=TODAY + timedelta(days=random.choice((0, 3, 6, 7, 8, 20, 60))),
            priority=random.choice(list(Priority)),
            mass_limit=_limit(identifier, mass_kg),
        )
        for number in range(random.choice((0, 0, 0, 1, 2)))
    )


def _limit(identifier: str, mass_kg: float) -> Mass | None:
    """None, or a limit a little above or below his mass; chance of its own, so all else stays."""
    random = Random(f"limit of {identifier} {mass_kg}")
    share = random.choice((None, None, 0.96, 0.99, 1.02))
    return None if share is None else kilograms(f"{share * mass_kg:.1f}")


def _restrictions(random: Random, identifier: str) -> tuple[Restriction, ...]:
    if random.random() > 0.2:
        return ()
    until = TODAY + timedelta(days=random.choice((-3, 0, 1, 30)))
    bars_all = random.random() < 0.15
    return (
        Restriction(
            id=f"{identifier}-r",
            author="Physio",
            author_role=random.choice(list(AuthorRole)),
            starts_on=TODAY - timedelta(days=10),
            until=None if random.random() < 0.4 else until,
            demands=tuple(random.sample(list(Demand), random.randint(1, 2))),
            body_areas=(random.choice(list(BodyArea)),) if random.random() < 0.3 else (),
            all_training=bars_all,
            instruction="as told",
        ),
    )


def _room(random: Random) -> Room:
    width = round(random.uniform(6, 16), 1)
    depth = round(random.uniform(6, 14), 1)
    outline = ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
    walls = (ThrowWall("long wall", (0.0, 0.0), (width, 0.0)),)
    return Room(
        id="hall",
        name="Hall",
        outline=outline,
        ceiling_m=random.choice((2.5, 3.0, 3.4, 4.0, 5.5)),
        obstacles=(Obstacle("column", width / 2, depth / 2),) if random.random() < 0.3 else (),
        ceiling_zones=(CeilingZone("duct", 0.0, 0.0, 1.0, depth, 2.6),)
        if random.random() < 0.2
        else (),
        throw_walls=walls if random.random() < 0.6 else (),
    )


def _session(random: Random, athletes: tuple[Athlete, ...], room: Room, version: int) -> Session:
    ids = [athlete.id for athlete in athletes]
    return Session(
        id="today",
        name="Today",
        held_on=TODAY,
        starts_at=time(18, 0),
        minutes=random.choice((30, 40, 45, 60, 60, 75, 90)),
        room=room.id,
        routine="made-up",
        routine_version=version,
        athletes=tuple(ids),
        staff=("Head coach",),
        check_ins=tuple(c for a in ids if (c := _check_in(random, a)) is not None),
        overrides=tuple(o for a in ids if (o := _override(random, a)) is not None),
        spare_minutes=random.choice((0, 6)),
        close_minutes=random.choice((3, 6)),
        pack_minutes=random.choice((3, 6)),
        settings=_settings(random, ids),
        seed=random.randint(1, 99),
    )


def _check_in(random: Random, athlete: str) -> CheckIn | None:
    if random.random() < 0.75:
        return None
    presence = random.choice(
        (Presence.PRESENT, Presence.PRESENT, Presence.ABSENT, Presence.LATE, Presence.LATE)
    )
    pains: tuple[Pain, ...] = ()
    if random.random() < 0.5:
        pains = (Pain(random.choice(list(BodyArea)), random.randint(0, 9)),)
    late = random.randint(3, 25) if presence is Presence.LATE else 0
    return CheckIn(athlete, presence, late, pains)


def _override(random: Random, athlete: str) -> Override | None:
    if random.random() > 0.05:
        return None
    if random.random() < 0.5:
        return Override(athlete, "first week back", rounds=random.randint(1, 3))
    return Override(athlete, "seen him lift", load=kilograms(random.choice((20, 25, 30, 40))))


def _settings(random: Random, ids: list[str]) -> Settings:
    pairs = [tuple(random.sample(ids, 2)) for _ in range(3)]
    return Settings(
        target_probability=random.choice((0.8, 0.9, 0.9, 0.95)),
        least_warm_up_minutes=random.choice((5, 8)),
        banned_pairs=(pairs[0],) if len(ids) > 5 and random.random() < 0.3 else (),
        required_pairs=(pairs[1],)
        if len(ids) > 5 and random.random() < 0.2 and set(pairs[0]) != set(pairs[1])
        else (),
    )
