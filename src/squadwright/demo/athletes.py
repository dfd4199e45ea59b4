"""The fourteen athletes of the demo club, with every trap they were invented for."""

from calendar import isleap
from dataclasses import dataclass, field
from datetime import date, timedelta

from squadwright.demo.medical import demo_medical
from squadwright.demo.premises import CAGE, FRY, GROUND, MAT
from squadwright.demo.restrictions import demo_clearances, demo_restrictions
from squadwright.demo.weigh_ins import demo_weigh_in
from squadwright.model.athlete import (
    Athlete,
    Consent,
    Event,
    Guardian,
    Level,
    MassReading,
    Priority,
    Sex,
    StrengthTest,
)
from squadwright.model.exercise import ReferenceLift
from squadwright.units import Mass, kilograms, pounds

F, M = Sex.FEMALE, Sex.MALE
NOVICE, INTERMEDIATE, ADVANCED = Level
A, B = Priority.A, Priority.B

TESTED_DAY = -21
WEIGHED_DAY = -2
CONSENT_DAY = -60
WEIGH_IN_CONFIRMED = ("A02", "A13")
SOON_DAYS = 14
DATA_PURPOSE = "keeping training and health data"
TRAINING_PURPOSE = "training as a minor"


@dataclass(frozen=True)
class _Line:
    """One athlete; ``birthday`` is that many days before the Monday, ``press_kg`` for five."""

    id: str
    name: str
    sex: Sex
    age: int
    birthday: int
    sport: str
    squad: str
    weight_class: str
    limit: Mass
    mass_kg: str
    height_m: float
    level: Level
    years: float
    press_kg: str | None
    events: tuple[tuple[int, str, Priority], ...] = ()
    bouts_expected: int | None = None
    guardian: Guardian | None = None
    note: str = ""
    b_limit: Mass | None = None
    earlier_masses: tuple[tuple[int, Mass, str], ...] = field(default=())


MMA, GRAPPLING, WRESTLING = "mixed martial arts", "submission grappling", "wrestling"
FREESTYLE = "freestyle wrestling"

# fmt: off
_LINES = (
    _Line("A01", "Ottoline Baptiste-Ferro", F, 24, 71, MMA, CAGE, "115 lb", pounds(115), "54.9",
          1.60, INTERMEDIATE, 2, "32.5", ((33, "Bout", A),), note="amateur, 4-1"),
    _Line("A02", "Iskander Yulbarin", M, 27, 204, FREESTYLE, MAT, "74 kg", kilograms(74), "75.6",
          1.72, ADVANCED, 6, "57.5", ((12, "Spring qualifier", A), (20, "National open", A)),
          note="national level"),
    _Line("A03", "Marisol Quenaya", F, 17, 117, WRESTLING, MAT, "57 kg", kilograms(57), "58.9",
          1.63, INTERMEDIATE, 1.5, "30", ((26, "Regional championship", A),),
          guardian=Guardian("Pilar Quenaya", "aunt"),
          note="regional level; not in one room overnight with A14 on trips"),
    _Line("A04", "Birk Aldervoll", M, 30, 288, "Greco-Roman wrestling", MAT, "87 kg",
          kilograms(87), "90.2", 1.83, ADVANCED, 9, "70", ((19, "Harbour cup", A),),
          note="national level"),
    _Line("A05", "Parwana Sohrabin", F, 19, 150, GRAPPLING, GROUND, "under 61 kg", kilograms(61),
          "60.4", 1.66, NOVICE, 1, "32.5",
          ((5, "Novice open", B), (19, "Novice league day", B), (33, "Novice final", A)),
          note="often late (train)"),
    _Line("A06", "Dónal Mac Firvane", M, 33, 93, MMA, CAGE, "170 lb", pounds(170), "83.6",
          1.80, ADVANCED, 8, "65", ((40, "Bout", A),), note="professional, 9-3",
          earlier_masses=((-3, pounds(184), "typed as 184: pounds, not kilograms"),)),
    _Line("A07", "Haneul Namgyeong", F, 22, 231, "judo", GROUND, "63 kg", kilograms(63), "64.1",
          1.65, INTERMEDIATE, 3, "37.5",
          ((6, "League round 1", B), (20, "League round 2", B), (26, "Judo open", A),
           (34, "League round 3", B)), note="league every fortnight, there a class up",
          b_limit=kilograms(70)),
    _Line("A08", "Sami Darwazin", M, 25, 40, GRAPPLING, GROUND, "under 76 kg", kilograms(76),
          "78.0", 1.75, INTERMEDIATE, 4, "52.5", note="off-season; cousin of A12"),
    _Line("A09", "Kwabena Fosuhene-Lund", M, 28, 320, FREESTYLE, MAT, "125 kg", kilograms(125),
          "121.7", 1.90, ADVANCED, 5, "75", ((54, "National championship", A),),
          note="national level"),
    _Line("A10", "Lobsang Tsewangpa", M, 20, 176, MMA, CAGE, "135 lb", pounds(135), "65.0",
          1.68, INTERMEDIATE, 2, "45", ((68, "Bout", A),),
          note="amateur, 2-2; will ask to join in"),
    _Line("A11", "Mirela Costandrei", F, 31, 62, MMA, CAGE, "135 lb", pounds(135), "64.4",
          1.64, ADVANCED, 5, "42.5", ((47, "Bout", A),), note="professional, 4-2"),
    _Line("A12", "Sami Darwazin", M, 14, 25, WRESTLING, FRY, "U15 48 kg", kilograms(48), "46.3",
          1.52, NOVICE, 0.7, None, ((13, "Under-15 meet", A),),
          guardian=Guardian("Farida Darwazin", "mother"),
          note="8 months of training; no maximal tests, no weight loss; cousin of A08"),
    _Line("A13", "Chidozie Umelaro", M, 23, 262, GRAPPLING, GROUND, "under 85 kg", kilograms(85),
          "86.8", 1.78, INTERMEDIATE, 3, "60", ((6, "One-day tournament", A),),
          bouts_expected=5, note="expects 4 to 6 bouts in the day"),
    _Line("A14", "Ngaire Waipuhia", F, 41, 134, GRAPPLING, GROUND, "masters under 69 kg",
          kilograms(69), "70.5", 1.70, ADVANCED, 10, "45", ((40, "Masters open", A),),
          note="night shifts, misses Wednesdays"),
)
# fmt: on

ATHLETE_IDS = tuple(line.id for line in _LINES)


def demo_athletes(monday: date) -> tuple[Athlete, ...]:
    """The athletes, every date counted from the Monday."""
    return tuple(_athlete(line, monday) for line in _LINES)


def _day(monday: date, offset: int) -> date:
    return monday + timedelta(days=offset)


def _birth_date(line: _Line, monday: date) -> date:
    """A birth date that gives the age on the Monday, whichever Monday it is."""
    birthday = _day(monday, -line.birthday)
    year = birthday.year - line.age
    if (birthday.month, birthday.day) == (2, 29) and not isleap(year):
        return date(year, 2, 28)
    return birthday.replace(year=year)


def _athlete(line: _Line, monday: date) -> Athlete:
    tested_on, weighed_on = _day(monday, TESTED_DAY), _day(monday, WEIGHED_DAY)
    tests: tuple[StrengthTest, ...] = ()
    if line.press_kg is not None:
        tests = (
            StrengthTest(
                ReferenceLift.STRICT_PRESS,
                kilograms(line.press_kg),
                5,
                tested_on,
                "best set of 5",
            ),
        )
    return Athlete(
        id=line.id,
        name=line.name,
        birth_date=_birth_date(line, monday),
        sex=line.sex,
        level=line.level,
        sport=line.sport,
        squad=line.squad,
        weight_class=line.weight_class,
        training_age_years=float(line.years),
        stature_m=line.height_m,
        tests=tests,
        body_mass=(
            *(MassReading(m, _day(monday, day), note) for day, m, note in line.earlier_masses),
            MassReading(kilograms(line.mass_kg), weighed_on),
        ),
        events=_events(line, monday),
        restrictions=demo_restrictions(line.id, monday),
        clearances=demo_clearances(line.id, monday),
        guardian=line.guardian,
        consents=_consents(line, monday),
        medical=demo_medical(line.id, monday),
        note=line.note,
    )


def _events(line: _Line, monday: date) -> tuple[Event, ...]:
    return tuple(
        Event(
            id=f"{line.id}-{number}",
            name=name,
            starts_on=_day(monday, offset),
            priority=priority,
            mass_limit=line.b_limit if line.b_limit and priority is B else line.limit,
            bouts_expected=line.bouts_expected,
            weigh_in=demo_weigh_in(
                line.sport,
                line.weight_class,
                _day(monday, offset),
                monday=monday,
                knows_hours=line.id in WEIGH_IN_CONFIRMED and offset <= SOON_DAYS,
            ),
        )
        for number, (offset, name, priority) in enumerate(line.events, start=1)
    )


def _consents(line: _Line, monday: date) -> tuple[Consent, ...]:
    given_on = _day(monday, CONSENT_DAY)
    if line.guardian is None:
        return (Consent(DATA_PURPOSE, line.name, given_on),)
    return (
        Consent(DATA_PURPOSE, line.guardian.name, given_on),
        Consent(TRAINING_PURPOSE, line.guardian.name, given_on),
        Consent(TRAINING_PURPOSE, line.name, given_on),
    )
