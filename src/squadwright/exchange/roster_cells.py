"""The cells of a roster, read field by field: a value, or a doubt with what may be meant.

A doubt that ``stands`` may be confirmed as it is; any other has to be written anew.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum
from typing import Any

from squadwright.exchange.athlete_words import LEVEL_WORDS, SEX_WORDS
from squadwright.exchange.doubtful import (
    STATURE_M,
    doubt_of_birth,
    doubt_of_mass,
    doubt_of_stature,
    in_kg,
    in_other_unit,
)
from squadwright.exchange.plausible import BODY_MASS_KG, OLDEST_YEARS, YOUNGEST_YEARS
from squadwright.exchange.roster_dates import read_birth_date
from squadwright.model.athlete import Level, MassReading, Sex, age_in_years
from squadwright.units import METRES_PER_INCH, Mass, MassUnit
from squadwright.words import long_date

LONGEST_WORDS = 120
# Common sense, no published limits: beyond these a body mass is asked about.
HEAVY_KG, LIGHT_KG = 130.0, 30.0
INCHES_PER_FOOT = 12
INCH_M = float(METRES_PER_INCH)


class Field(StrEnum):
    """What a column may hold."""

    NAME = "name"
    FIRST_NAME = "first name"
    LAST_NAME = "last name"
    BIRTH_DATE = "birth date"
    SEX = "sex"
    LEVEL = "level"
    SPORT = "sport"
    SQUAD = "squad"
    WEIGHT_CLASS = "class"
    BODY_MASS = "body mass"
    STATURE = "stature"
    TRAINING_YEARS = "years of training"
    NOTE = "note"


@dataclass(frozen=True)
class Reading:
    """One cell as understood; ``meanings`` are texts to write instead, each with its words."""

    value: Any = None
    doubt: str = ""
    stands: bool = False
    meanings: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class Around:
    """What a cell is read with: its head, the day, and what else its row says."""

    head: str
    today: date
    row: Mapping[Field, str]


_LEVELS = {**LEVEL_WORDS, "medium": Level.INTERMEDIATE}
_NUMBER = re.compile(r"\d{1,4}(?:[.,]\d{1,3})?")
_MASS = re.compile(r"(\d{1,4}(?:[.,]\d{1,3})?)\s*(kgs?|kilos?|kilograms?|lbs?|pounds?|#)?")
_LENGTH = re.compile(r"(\d{1,3}(?:[.,]\d{1,3})?)\s*(m|cm|metres?|meters?|in|inch|inches|\")?")
_FEET = re.compile(
    r"(\d)\s*(?:ft|feet|foot|')\s*(?:(\d{1,2}(?:[.,]\d{1,2})?)\s*(?:in|inch|inches|\"|'')?)?"
)
_UNSEEN = re.compile(r"[\x00-\x1f\x7f-\x9f\u200b\u200e\u200f\u202a-\u202e\u2066-\u2069]")


def read_cell(field: Field, text: str, around: Around) -> Reading:
    """One cell of one field."""
    if text.startswith(("=", "@", "+")):
        return Reading(doubt="a formula is not computed; write its value")
    if _UNSEEN.search(text):
        return Reading(doubt="it holds a character that shows nothing; write it afresh")
    return _READERS.get(field, _words)(text, around)


def _words(text: str, around: Around) -> Reading:
    if len(text) > LONGEST_WORDS:
        return Reading(doubt=f"{len(text)} characters, at most {LONGEST_WORDS} fit; shorten it")
    return Reading(text)


def _name(text: str, around: Around) -> Reading:
    if not text:
        return Reading(doubt="there is no name")
    if not any(c.isalpha() for c in text) or any(c.isdigit() for c in text):
        return Reading(text, f"is {text!r} a name?", stands=any(c.isalpha() for c in text))
    last, comma, first = text.partition(",")
    if comma and first.strip() and last.strip():
        turned = f"{first.strip()} {last.strip()}"
        return Reading(text, "is the last name first?", True, ((turned, turned),))
    return _words(text, around)


def _sport(text: str, around: Around) -> Reading:
    return _words(text, around) if text else Reading(doubt="there is no sport")


def _birth_date(text: str, around: Around) -> Reading:
    if not text:
        return Reading(doubt="there is no birth date; ages decide what is safe")
    read = read_birth_date(text, around.today)
    if read.day is None:
        ways = tuple((d.isoformat(), long_date(d)) for d in read.meanings)
        return Reading(doubt=read.doubt, meanings=ways)
    age = age_in_years(read.day, around.today)
    if read.day > around.today:
        return Reading(doubt=f"{text} lies in the future; write the day like 2010-04-03")
    if not YOUNGEST_YEARS <= age <= OLDEST_YEARS:
        limits = f"{YOUNGEST_YEARS} and {OLDEST_YEARS} years"
        return Reading(doubt=f"{text} gives an age of {age} years; the limits are {limits}")
    odd = doubt_of_birth(read.day, age)
    return Reading(read.day, odd.question, True) if odd else Reading(read.day)


def _sex(text: str, around: Around) -> Reading:
    known = SEX_WORDS.get(text.casefold())
    if known is not None:
        return Reading(known)
    said = f"{text!r} is not known" if text else "it is not said; some formulas need it"
    return Reading(doubt=said, meanings=tuple((s.value, s.value) for s in Sex))


def _level(text: str, around: Around) -> Reading:
    known = _LEVELS.get(text.casefold())
    if known is not None:
        return Reading(known)
    said = f"{text!r} is not known" if text else "it is not said"
    return Reading(doubt=f"{said}; novice is the careful choice",
                   meanings=tuple((level.value, level.value) for level in Level))  # fmt: skip


def _body_mass(text: str, around: Around) -> Reading:
    if not text:
        return Reading(None)
    match = _MASS.fullmatch(text.casefold())
    if match is None:
        return Reading(doubt=f"{text!r} is not a mass; write it like 77.5 kg or 170 lb")
    unit = _mass_unit(match[2] or "") or _unit_in(around.head)
    mass = Mass(Decimal(match[1].replace(",", ".")), unit or MassUnit.KILOGRAM)
    is_possible = BODY_MASS_KG[0] <= mass.kg <= BODY_MASS_KG[1]
    expected = class_kg(around.row.get(Field.WEIGHT_CLASS, ""))
    odd = doubt_of_mass(MassReading(mass, around.today), (), expected_kg=expected)
    if odd is not None:
        near = tuple((_typed(m.values), m.words) for m in odd.meanings)
        return Reading(mass, odd.question, is_possible, near)
    if not LIGHT_KG <= mass.kg <= HEAVY_KG:
        question = f"{mass}{in_kg(mass)}? Few athletes weigh that."
        other = in_other_unit(mass)
        is_likely = LIGHT_KG <= other.kg <= HEAVY_KG
        near = ((str(other), f"{other} ({other.kg:.1f} kg)"),) if is_likely else ()
        return Reading(mass, question, is_possible, near)
    return Reading(mass)


def class_kg(text: str) -> float | None:
    """The limit in the name of a weight class [kg]: "-74", "<61", "115 lb"; None if it has none."""
    match = re.search(r"(\d{2,3}(?:[.,]\d)?)\s*(lbs?|pounds?)?", text.casefold())
    if match is None:
        return None
    unit = MassUnit.POUND if match[2] else MassUnit.KILOGRAM
    kg = Mass(Decimal(match[1].replace(",", ".")), unit).kg
    return kg if BODY_MASS_KG[0] <= kg <= BODY_MASS_KG[1] else None


def _stature(text: str, around: Around) -> Reading:
    if not text:
        return Reading(None)
    words = text.casefold()
    if feet := _FEET.fullmatch(words):
        inches = float((feet[2] or "0").replace(",", "."))
        if inches < INCHES_PER_FOOT:
            return _sound_stature((int(feet[1]) * INCHES_PER_FOOT + inches) * INCH_M, text)
    match = _LENGTH.fullmatch(words)
    if match is None:
        return Reading(doubt=f"{text!r} is no stature; write it like 172 cm")
    number = float(match[1].replace(",", "."))
    unit = _length_unit(match[2] or "") or _length_unit(_last_word(around.head))
    scales = {"m": 1.0, "cm": 0.01, "in": INCH_M}
    if unit is None:
        fits = [u for u, scale in scales.items() if STATURE_M[0] < number * scale < STATURE_M[1]]
        if fits != ["m"] and fits != ["cm"]:
            ways = tuple((f"{number * scales[u] * 100:.0f} cm", f"{number:g} {u}") for u in fits)
            return Reading(doubt=f"{text}: in which unit?", meanings=ways)
        unit = fits[0]
    return _sound_stature(number * scales[unit], text)


def _sound_stature(metres: float, text: str) -> Reading:
    if not STATURE_M[0] < metres < STATURE_M[1]:
        limits = f"{STATURE_M[0]:g} and {STATURE_M[1]:g} m"
        return Reading(doubt=f"{text} is {metres:.2f} m; the limits are {limits}")
    odd = doubt_of_stature(round(metres, 3))
    return Reading(round(metres, 3), odd.question if odd else "", stands=odd is not None)


def _training_years(text: str, around: Around) -> Reading:
    words = text.casefold().removesuffix("years").removesuffix("yrs").removesuffix("y").strip()
    if not words:
        return Reading(0.0)
    if _NUMBER.fullmatch(words) is None:
        return Reading(doubt=f"{text!r} is no number of years")
    years = float(words.replace(",", "."))
    if years > 80:
        return Reading(doubt=f"{years:g} years of training; 80 are the most")
    born = read_birth_date(around.row.get(Field.BIRTH_DATE, ""), around.today).day
    age = None if born is None else (around.today - born).days / 365.25
    if age is not None and years > age:
        return Reading(doubt=f"{years:g} years of training at an age of {age:.0f}")
    return Reading(years)


def _mass_unit(word: str) -> MassUnit | None:
    if not word:
        return None
    return MassUnit.KILOGRAM if word.startswith("k") else MassUnit.POUND


def _unit_in(head: str) -> MassUnit | None:
    """The unit that the head of a column names: "Weight (lb)"."""
    words = re.findall(r"[a-z]+", head.casefold())
    if {"kg", "kgs", "kilograms", "kilos"} & set(words):
        return MassUnit.KILOGRAM
    return MassUnit.POUND if {"lb", "lbs", "pounds"} & set(words) else None


def _length_unit(word: str) -> str | None:
    units = {"m": "m", "metre": "m", "meter": "m", "metres": "m", "meters": "m", "cm": "cm",
             "in": "in", "inch": "in", "inches": "in", '"': "in"}  # fmt: skip
    return units.get(word)


def _last_word(head: str) -> str:
    words = re.findall(r"[a-z]+", head.casefold())
    return words[-1] if words else ""


def _typed(values: tuple[tuple[str, str], ...]) -> str:
    return " ".join(value for _, value in values)


_READERS: dict[Field, Callable[[str, Around], Reading]] = {
    Field.NAME: _name,
    Field.BIRTH_DATE: _birth_date,
    Field.SEX: _sex,
    Field.LEVEL: _level,
    Field.SPORT: _sport,
    Field.BODY_MASS: _body_mass,
    Field.STATURE: _stature,
    Field.TRAINING_YEARS: _training_years,
}
