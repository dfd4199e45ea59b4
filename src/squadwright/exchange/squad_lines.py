"""A squad typed as it comes, one athlete a line: read forgivingly, every guess said.

"Name, birth year or date, sex, level, body mass, press for 5". After the name the fields may stand
in any order and may be left out, but for birth and sex. Where only a year or an age is known the
athlete is taken as the youngest he can be, so that nobody passes for an adult too early.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from decimal import Decimal
from typing import Literal

from squadwright.exchange.alike import alike
from squadwright.exchange.athlete_words import LEVEL_WORDS, SEX_WORDS
from squadwright.exchange.doubtful import doubt_of_birth, doubt_of_test
from squadwright.exchange.plausible import (
    BODY_MASS_KG,
    OLDEST_YEARS,
    TEST_LOAD_KG,
    YOUNGEST_YEARS,
)
from squadwright.model.athlete import Athlete, Level, MassReading, Sex, StrengthTest, age_in_years
from squadwright.model.exercise import ReferenceLift
from squadwright.units import Mass, MassUnit
from squadwright.words import long_date

LONGEST_NAME = 120
MOST_LINES = 200
PRESS_REPETITIONS = 5
MOST_REPETITIONS = 12
# A body mass without a unit beyond these is asked about: common sense, no published limits.
ASK_ABOVE_KG, ASK_BELOW_LB = 130, 90
EXAMPLE = "Ann Example, 2003, f, novice, 58.5, 32.5"

# A typed line may be short; in a column of a file a single letter is asked about.
LINE_LEVELS = {
    **LEVEL_WORDS,
    **{"n": Level.NOVICE, "b": Level.NOVICE, "a": Level.ADVANCED},
    **{"i": Level.INTERMEDIATE, "inter": Level.INTERMEDIATE},
}
NOTHING = frozenset({"", "-", "?", "none", "n/a", "\N{EN DASH}", "\N{EM DASH}"})
_UNITS = r"(?P<unit>kgs?|lbs?|pounds?)?"
_LOAD = re.compile(rf"(?:press\s*)?(?P<amount>\d{{1,4}}(?:\.\d{{1,2}})?)\s*{_UNITS}")
_SET = re.compile(rf"{_LOAD.pattern}\s*(?:x|\*|\u00d7|for)\s*(?P<repetitions>\d{{1,3}})")
_YEAR = re.compile(r"(?:19|20)\d\d")
_AGE = re.compile(r"(?:age|aged)\s*(\d{1,2})|(\d{1,2})\s*(?:y|yo|yrs?|years?)(?:\s+old)?")
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_DAY_FIRST = re.compile(r"(\d{1,2})([./-])(\d{1,2})\2(\d{4})")
_SHORT_YEAR = re.compile(r"\d{1,2}([./-])\d{1,2}\1\d{2}")
_WRITTEN = ("%d %b %Y", "%d %B %Y", "%b %d %Y", "%B %d %Y")
_COUNTED = re.compile(r"^\s*\d{1,3}\s*[.)]\s+")
_SPLIT_UNIT = re.compile(r"(\d)\s+(kgs?|lbs?|pounds?)\b", re.IGNORECASE)


@dataclass(frozen=True)
class SquadLine:
    """One line as it was understood.

    ``born_from`` says whether the birth date follows from a year or an age alone. ``notes`` say
    what was taken as given, ``doubts`` what should be looked at, ``wrong`` what keeps it from
    being used.
    """

    number: int
    text: str
    name: str = ""
    birth_date: date | None = None
    sex: Sex | None = None
    level: Level | None = None
    body_mass: Mass | None = None
    press: Mass | None = None
    repetitions: int = PRESS_REPETITIONS
    notes: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()
    wrong: tuple[str, ...] = ()
    born_from: Literal["date", "year", "age"] = "date"


@dataclass
class _Reading:
    """What is known of a line while its fields are read."""

    today: date
    unit: MassUnit
    line: SquadLine
    masses: int = 0
    doubts: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)

    def put(self, **values: object) -> None:
        self.line = replace(self.line, **values)  # type: ignore[arg-type]


def read_squad(
    text: str, *, today: date, unit: MassUnit, known: Sequence[Athlete] = ()
) -> tuple[SquadLine, ...]:
    """Every athlete of a text; ``unit`` is that of masses without one, ``known`` are in the squad.

    Empty lines, a line of column heads and numbers before the names are passed over.
    """
    found: list[SquadLine] = []
    before = list(known)
    for number, typed in enumerate(text.splitlines(), start=1):
        plain = _COUNTED.sub("", typed).strip().strip(",;").strip()
        if not plain or _is_heading(plain):
            continue
        line = _read_line(number, plain, today, unit)
        near = alike(line.name, before) if line.name else ()
        if near:
            who = f"{near[0].name}, born {near[0].birth_date.year}"
            line = replace(line, doubts=(*line.doubts, f"{who}, is there already. Another person?"))
        found.append(line)
        if not line.wrong:
            before.append(athlete_of(line, f"line-{number}", sport="any", today=today))
    return tuple(found)


def athlete_of(line: SquadLine, athlete_id: str, *, sport: str, today: date) -> Athlete:
    """The athlete of a line in which nothing is wrong."""
    assert line.birth_date is not None
    assert line.sex is not None
    tests: tuple[StrengthTest, ...] = ()
    if line.press is not None:
        tests = (_test(line.press, line.repetitions, today),)
    masses = () if line.body_mass is None else (MassReading(line.body_mass, today),)
    return Athlete(
        id=athlete_id,
        name=line.name,
        birth_date=line.birth_date,
        sex=line.sex,
        level=line.level or Level.NOVICE,
        sport=sport,
        tests=tests,
        body_mass=masses,
    )


def _read_line(number: int, plain: str, today: date, unit: MassUnit) -> SquadLine:
    reading = _Reading(today, unit, SquadLine(number, plain))
    fields = _fields(plain)
    name = " ".join(fields[0].split())
    if len(name) > LONGEST_NAME:
        reading.wrong.append(
            f"the name has {len(name)} characters, at most {LONGEST_NAME} fit; shorten it"
        )
    reading.put(name=name[:LONGEST_NAME])
    for place, typed in enumerate(fields[1:], start=1):
        _read_field(reading, place, typed.strip())
    _look_over(reading)
    return replace(
        reading.line,
        notes=tuple(reading.notes),
        doubts=tuple(reading.doubts),
        wrong=tuple(reading.wrong),
    )


def _fields(plain: str) -> list[str]:
    """Fields by tab, semicolon or comma; without any, the name ends before the first figure."""
    for separator in ("\t", ";", ","):
        if separator in plain:
            return plain.split(separator)
    words = _SPLIT_UNIT.sub(r"\1\2", plain).split()
    first = next((i for i, word in enumerate(words) if word[0].isdigit()), len(words))
    while first > 2 and words[first - 1].casefold() in {**SEX_WORDS, **LINE_LEVELS}:
        first -= 1
    return [" ".join(words[:first]), *words[first:]]


def _is_heading(plain: str) -> bool:
    return _fields(plain)[0].strip().casefold() in ("name", "names", "athlete")


def _read_field(reading: _Reading, place: int, typed: str) -> None:
    said = " ".join(typed.casefold().split())
    if said in NOTHING:
        # A place left empty where the body mass stands, so that the next number is the press.
        reading.masses += place == 4
        return
    if said in SEX_WORDS:
        _once(reading, "sex", SEX_WORDS[said])
    elif said in LINE_LEVELS:
        _once(reading, "level", LINE_LEVELS[said])
    elif not any(read(reading, said) for read in _READERS):
        reading.wrong.append(f"\u201c{typed[:40]}\u201d is not understood; write it like {EXAMPLE}")


def _once(reading: _Reading, name: str, value: object) -> None:
    if getattr(reading.line, name) not in (None, value):
        reading.wrong.append(f"{name.replace('_', ' ')} stands twice")
    reading.put(**{name: value})


def _read_birth(reading: _Reading, said: str) -> bool:
    """A date, a year or an age; the youngest that fits is taken."""
    if _SHORT_YEAR.fullmatch(said):
        reading.wrong.append(f"{said}: write the year in full, for example 2003")
        return True
    try:
        born = _born(reading, said)
    except ValueError:
        reading.wrong.append(f"{said} is not a date; write year-month-day: 2003-04-28")
        return True
    if born is None:
        return False
    _once(reading, "birth_date", born)
    return True


def _born(reading: _Reading, said: str) -> date | None:
    if match := _ISO.fullmatch(said):
        return date(*map(int, match.groups()))
    if match := _DAY_FIRST.fullmatch(said):
        return _day_first(reading, said, int(match[1]), int(match[3]), int(match[4]))
    if _YEAR.fullmatch(said):
        reading.put(born_from="year")
        return min(date(int(said), 12, 31), reading.today)
    if match := _AGE.fullmatch(said):
        reading.put(born_from="age")
        return _years_before(reading.today, int(match[1] or match[2]))
    return _written(said)


def _day_first(reading: _Reading, said: str, first: int, second: int, year: int) -> date:
    """Day before month; where month before day is as likely, the later one is taken."""
    if first > 12 or second > 12:
        day, month = (first, second) if second <= 12 else (second, first)
        return date(year, month, day)
    born = max(date(year, second, first), date(year, first, second))
    if first != second:
        reading.doubts.append(f"{said} may be two days: taken as {long_date(born)}, the younger")
    return born


def _written(said: str) -> date | None:
    for form in _WRITTEN:
        try:
            return datetime.strptime(said, form).date()
        except ValueError:
            continue
    return None


def _read_set(reading: _Reading, said: str) -> bool:
    """A load with its repetitions: "32.5 x 5"."""
    match = _SET.fullmatch(said)
    if match is None:
        return False
    repetitions = int(match["repetitions"])
    if not 1 <= repetitions <= MOST_REPETITIONS:
        reading.wrong.append(
            f"{repetitions} repetitions of the press are outside 1 to {MOST_REPETITIONS}"
        )
    else:
        _once(reading, "press", _mass(match, reading.unit))
        reading.put(repetitions=repetitions)
    return True


def _read_mass(reading: _Reading, said: str) -> bool:
    """The first number is the body mass, the second the press."""
    match = _LOAD.fullmatch(said)
    if match is None:
        return False
    mass = _mass(match, reading.unit)
    is_press = said.startswith("press") or reading.masses > 0
    if not is_press:
        reading.masses += 1
        reading.put(body_mass=mass)
        _ask_about_unit(reading, mass, has_unit=bool(match["unit"]))
    elif reading.line.press is not None:
        reading.wrong.append(f"{said} is one number too many; write decimals with a point")
    else:
        reading.put(press=mass)
    return True


_READERS: tuple[Callable[[_Reading, str], bool], ...] = (_read_birth, _read_set, _read_mass)


def _ask_about_unit(reading: _Reading, mass: Mass, *, has_unit: bool) -> None:
    if has_unit:
        return
    if mass.unit is MassUnit.KILOGRAM and mass.kg > ASK_ABOVE_KG:
        reading.doubts.append(f"{mass} of body mass? If pounds are meant, write {mass.amount} lb")
    if mass.unit is MassUnit.POUND and mass.amount < ASK_BELOW_LB:
        reading.doubts.append(
            f"{mass} of body mass? If kilograms are meant, write {mass.amount} kg"
        )


def _look_over(reading: _Reading) -> None:
    """What is missing, what cannot be, what is odd."""
    line = reading.line
    if not any(character.isalpha() for character in line.name):
        reading.wrong.append("the name is missing")
    if line.sex is None:
        reading.wrong.append("sex is missing; write f or m, for formulas need it")
    if line.birth_date is None:
        if not reading.wrong:
            reading.wrong.append("the birth year is missing; write it, for example 2003")
    else:
        _look_at_age(reading, line.birth_date)
    if line.level is None:
        reading.notes.append("no level: taken as novice")
    _look_at_masses(reading)


def _look_at_age(reading: _Reading, born: date) -> None:
    age = age_in_years(born, reading.today)
    if not YOUNGEST_YEARS <= age <= OLDEST_YEARS:
        reading.wrong.append(
            f"born {long_date(born)} gives an age of {age} years; "
            f"the limits are {YOUNGEST_YEARS} and {OLDEST_YEARS}"
        )
        return
    doubt = doubt_of_birth(born, age)
    if doubt is not None:
        reading.doubts.append(doubt.question)
    if age < 18:
        reading.notes.append(f"{age} years old: a minor, enter the guardian later")


def _look_at_masses(reading: _Reading) -> None:
    line = reading.line
    for mass, limits, what in (
        (line.body_mass, BODY_MASS_KG, "body mass"),
        (line.press, TEST_LOAD_KG, "the press"),
    ):
        if mass is not None and not limits[0] <= mass.kg <= limits[1]:
            reading.wrong.append(f"{mass} is outside {limits[0]:g} to {limits[1]:g} kg for {what}")
    if reading.wrong:
        return
    if line.body_mass is None:
        reading.notes.append("no body mass")
    if line.press is None:
        reading.notes.append("no press: the load is guessed, or it is the technique bar")
        return
    body_kg = line.body_mass.kg if line.body_mass else None
    doubt = doubt_of_test(_test(line.press, line.repetitions, reading.today), (), body_kg)
    if doubt is not None:
        reading.doubts.append(doubt.question)


def _test(load: Mass, repetitions: int, today: date) -> StrengthTest:
    return StrengthTest(ReferenceLift.STRICT_PRESS, load, repetitions, today, "as told")


def _mass(match: re.Match[str], unit: MassUnit) -> Mass:
    said = match["unit"] or ""
    own = unit if not said else MassUnit.KILOGRAM if said.startswith("kg") else MassUnit.POUND
    return Mass(Decimal(match["amount"]), own)


def _years_before(day: date, years: int) -> date:
    try:
        return day.replace(year=day.year - years)
    except ValueError:
        return date(day.year - years, 2, 28)
