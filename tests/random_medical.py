"""Medical entries made up at random from a seed: each kind, before, on and after its last day."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from random import Random

from random_club import TODAY, random_club
from squadwright.model.club import Club
from squadwright.model.measured import (
    AroundTraining,
    EnergyDay,
    Measured,
    MorningUrine,
    NextMorning,
    NotForTheScale,
    PainReading,
    WatchedPain,
    WeekTrend,
)
from squadwright.model.medical import (
    FirstWeeks,
    HeadKnock,
    Illness,
    Medical,
    MedicalClearance,
    Outcome,
    PrivateLimit,
    ReturnStage,
    Screening,
    Sign,
    Suspension,
    SymptomsTold,
    TechniqueSeen,
)
from squadwright.model.muscles import BodyArea
from squadwright.model.session import HeatReading, Session
from squadwright.units import kilograms

LIFTS = (
    *("concussion: return from step 4 on", "clearance before training", "illness"),
    *("earlier heat illness", "neurology", "private limit"),
    *("urine", "pain under load", "energy availability"),
)
SIZES = (2, 3, 3, 4, 5)


def random_clinic(seed: int) -> tuple[Club, Session]:
    """A small club, some of whose athletes have medical entries, and its session, some in heat."""
    club, session = random_club(seed, SIZES)
    random = Random(f"medical {seed}")
    athletes = tuple(
        replace(a, medical=_medical(random)) if random.random() < 0.6 else a for a in club.athletes
    )
    private = Random(f"private {seed}")
    athletes = tuple(
        replace(a, medical=replace(a.medical, private_limit=_private(private)))
        if private.random() < 0.15
        else a
        for a in athletes
    )
    more = Random(f"measured {seed}")
    athletes = tuple(
        replace(a, measured=_measured(more)) if more.random() < 0.4 else a for a in athletes
    )
    if random.random() < 0.3:
        reading = HeatReading(wet_bulb_globe_c=round(random.uniform(20, 33), 1))
        if random.random() < 0.3:
            air_c = round(random.uniform(18, 36), 1)
            reading = HeatReading(air_c=air_c, humidity_fraction=round(random.random(), 2))
        session = replace(session, heat=reading)
    return replace(club, athletes=athletes, sessions=(session,)), session


def _medical(random: Random) -> Medical:
    day = TODAY + timedelta(days=random.choice((-40, -1, 0, 1, 30)))
    return Medical(
        head_knocks=(_knock(random),) if random.random() < 0.4 else (),
        suspensions=(
            Suspension("s", "Commission", "knockout", day, None, ("neurology",), is_open=True)
            if random.random() < 0.4
            else Suspension("s", "Commission", "knockout", day, day),
        )
        if random.random() < 0.3
        else (),
        illnesses=(_illness(random),) if random.random() < 0.3 else (),
        clearances=tuple(
            MedicalClearance(
                f"c{number}",
                "Dr Made Up",
                "4411",
                TODAY - timedelta(days=random.choice((0, 1, 3, 20, 400))),
                tuple(random.sample(LIFTS, random.randint(1, 3))),
            )
            for number in range(random.choice((0, 0, 1, 2)))
        ),
        screening=Screening("form", 2026, TODAY, random.choice(list(Outcome)), TODAY)
        if random.random() < 0.1
        else None,
        known_disease="heart" if random.random() < 0.1 else "",
        has_symptoms=random.random() < 0.05,
        is_used_to_heat=random.random() < 0.5,
        has_had_heat_illness=random.random() < 0.1,
        first_weeks=FirstWeeks(
            TODAY - timedelta(days=random.choice((0, 6, 7, 20, 27, 28))), random.random() < 0.5
        )
        if random.random() < 0.3
        else None,
        technique=TechniqueSeen(TODAY, "Coach") if random.random() < 0.5 else None,
    )


def _private(random: Random) -> PrivateLimit:
    declared_on = TODAY - timedelta(days=random.choice((0, 3, 40)))
    stopped_on = declared_on if random.random() < 0.3 else None
    return PrivateLimit(declared_on, "Made up", stopped_on=stopped_on)


def _at(days: int, hour: int) -> datetime:
    return datetime.combine(TODAY + timedelta(days=days), time(hour), tzinfo=UTC)


def _knock(random: Random) -> HeadKnock:
    begins = -random.randint(1, 12)
    stages = []
    for number in range(random.randint(0, 6)):
        if begins + number > 0:
            break
        is_out = random.random() < 0.1
        stages.append(ReturnStage(number + 1, _at(begins + number, 18), "Physio", "2207", is_out))
    told = (SymptomsTold(_at(-random.randint(0, 9), 9), 3, 90),) if random.random() < 0.2 else ()
    return HeadKnock("k", _at(begins, 17), "Physio", "2207", tuple(stages), told)


def _illness(random: Random) -> Illness:
    signs = tuple(random.sample(list(Sign), random.randint(1, 2)))
    gone = None if random.random() < 0.4 else _at(-1, random.choice((8, 17, 19)))
    temperature = random.choice((None, 37.4, 37.9, 38.0, 39.5))
    began_on = TODAY - timedelta(days=random.choice((2, 20, 21, 30)))
    return Illness("i", "Coach", began_on, signs, temperature, gone)


def _measured(random: Random) -> Measured:
    """Readings around every border, on days before, on and after the session."""

    def day() -> date:
        return TODAY - timedelta(days=random.choice((-1, 0, 0, 1, 2, 9)))

    kg = kilograms("70.0")
    after = kilograms(random.choice(("69.0", "70.2")))
    readings = tuple(
        PainReading(
            day(),
            random.choice((0, 2, 3, 5, 6)),
            random.choice((None, 2, 6)),
            random.choice((None, *NextMorning)),
            random.choice((None, *WeekTrend)),
        )
        for _ in range(random.choice((0, 1, 2)))
    )
    area = random.choice((BodyArea.KNEE, BodyArea.NECK, BodyArea.SHOULDER, BodyArea.KNEE))
    not_for = (NotForTheScale.NERVE,) if random.random() < 0.1 else ()
    watched = WatchedPain("w", day(), area, "Dr A", "1", not_for=not_for, readings=readings)
    return Measured(
        training=(AroundTraining("t", day(), kg, after, 1.5, 1.0),),
        urine=tuple(
            MorningUrine(f"u{n}", day(), random.choice((1.015, 1.025, 1.03, 1.031)))
            for n in range(random.choice((0, 1, 2)))
        ),
        pains=(watched,) if random.random() < 0.5 else (),
        energy=(EnergyDay("e", day(), 2100, 700, kilograms(55), "Dr A", "1"),),
    )
