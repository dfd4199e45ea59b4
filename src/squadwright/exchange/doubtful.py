"""Values that may be right and seldom are: each becomes a question with its likely meanings.

``plausible`` holds what cannot be right and is refused. What stands here is asked about once and
then taken as typed. The limits are common sense about people, no published ranges.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from statistics import median

from squadwright.errors import OutsidePublishedRange
from squadwright.exchange.plausible import BODY_MASS_KG, OLDEST_YEARS, YOUNGEST_YEARS
from squadwright.formulas.one_rep_max import one_rep_max_epley
from squadwright.model.athlete import Athlete, Event, JumpTest, MassReading, StrengthTest
from squadwright.model.exercise import ReferenceLift
from squadwright.units import Mass, MassUnit
from squadwright.words import long_date, without_zeros

USUAL_OF_LAST = 5
MASS_CHANGE_FRACTION = 0.03
OTHER_UNIT_WITHIN_FRACTION = 0.12
FAR_FRACTION = 0.25
STRENGTH_GAIN_FRACTION = 0.25
STRENGTH_LOSS_FRACTION = 0.40
JUMP_CHANGE_FRACTION = 0.25
HIGH_JUMP_M = 0.90
YOUNG_YEARS, OLD_YEARS = 8, 70
SMALL_M, TALL_M = 1.25, 2.15
STATURE_M = (0.9, 2.6)
FAR_EVENT_DAYS = 730
# A best single over body mass beyond this is asked about.
MOST_OVER_BODY_MASS = {
    ReferenceLift.BACK_SQUAT: 3.0,
    ReferenceLift.FRONT_SQUAT: 2.4,
    ReferenceLift.DEADLIFT: 3.4,
    ReferenceLift.BENCH_PRESS: 2.2,
    ReferenceLift.STRICT_PRESS: 1.4,
    ReferenceLift.BENT_OVER_ROW: 1.8,
    ReferenceLift.POWER_CLEAN: 1.9,
    ReferenceLift.LEG_PRESS: 6.5,
    ReferenceLift.PULL_UP: 2.0,
}


@dataclass(frozen=True)
class Meaning:
    """What may have been meant: in words, and as the values of form fields."""

    words: str
    values: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Doubt:
    """A question about one field. ``stands_as_typed`` is the value as it would be taken."""

    place: str
    question: str
    stands_as_typed: str
    meanings: tuple[Meaning, ...] = ()


def usual_mass_kg(readings: Iterable[MassReading]) -> float | None:
    """The middle of the last five readings [kg], or None."""
    in_order = sorted(readings, key=lambda r: r.taken_on)[-USUAL_OF_LAST:]
    return median(r.reading.kg for r in in_order) if in_order else None


def doubt_of_mass(
    reading: MassReading, others: Sequence[MassReading], *, expected_kg: float | None = None
) -> Doubt | None:
    """A body mass far from the usual one, or more than 3 % from the entry before it.

    One that cannot be at all is left to ``plausible``, unless another reading of it is near.

    ``expected_kg`` stands in for the usual one where there is no other reading (a class limit).
    """
    usual_kg = usual_mass_kg(others)
    reference_kg = usual_kg if usual_kg is not None else expected_kg
    if reference_kg is None:
        return None
    what = "Usual is" if usual_kg is not None else "The limit of the class is"
    meanings = _other_meanings("reading", reading.reading, reference_kg)
    is_possible = BODY_MASS_KG[0] <= reading.reading.kg <= BODY_MASS_KG[1]
    if not is_possible and not meanings:
        return None
    shown = f"{reading.reading}{in_kg(reading.reading)}"
    as_typed = str(reading.reading) if is_possible else ""
    last = _nearest_before(reading, others)
    is_far = _apart(reading.reading.kg, reference_kg) > FAR_FRACTION
    if is_far and (meanings or last is None):
        question = f"{shown}? {what} {reference_kg:.1f} kg.{_unit_asked(meanings)}"
        return Doubt("reading", question, as_typed, meanings)
    if last is None:
        return None
    change = reading.reading.kg / last.reading.kg - 1
    if abs(change) <= MASS_CHANGE_FRACTION:
        return None
    question = (
        f"{shown}? The entry of {long_date(last.taken_on)} is {last.reading}"
        f"{in_kg(last.reading)}: {_percent(abs(change))} {'more' if change > 0 else 'less'}."
    )
    return Doubt("reading", question, as_typed, meanings)


def doubt_of_limit(limit: Mass, usual_kg: float | None) -> Doubt | None:
    """A weight limit far from what the athlete weighs."""
    if usual_kg is None or _apart(limit.kg, usual_kg) <= FAR_FRACTION:
        return None
    question = f"A limit of {limit}{in_kg(limit)}? Usual is {usual_kg:.1f} kg."
    meanings = _other_meanings("mass_limit", limit, usual_kg)
    return Doubt("mass_limit", question, str(limit), meanings)


def doubt_of_test(
    test: StrengthTest, others: Sequence[StrengthTest], body_mass_kg: float | None
) -> Doubt | None:
    """A load far from his last test of the lift, or far beyond his own mass."""
    best_kg = _single_kg(test)
    if not best_kg:
        return None
    before = [t for t in others if t.lift is test.lift and t.taken_on <= test.taken_on]
    known = max(before, key=lambda t: t.taken_on, default=None)
    typed = f"{test.load}{in_kg(test.load)} for {test.repetitions}"
    if known is not None:
        known_kg = _single_kg(known)
        change = best_kg / known_kg - 1
        if -STRENGTH_LOSS_FRACTION <= change <= STRENGTH_GAIN_FRACTION:
            return None
        question = (
            f"{typed}? The {test.lift.value} of {long_date(known.taken_on)} was "
            f"{known.load} for {known.repetitions}."
        )
        meanings = _other_meanings("load", test.load, test.load.kg * known_kg / best_kg)
        return Doubt("load", question, str(test.load), meanings)
    if body_mass_kg is None or best_kg <= MOST_OVER_BODY_MASS[test.lift] * body_mass_kg:
        return None
    question = (
        f"{typed}? That is {best_kg / body_mass_kg:.1f} times a body mass of "
        f"{body_mass_kg:.1f} kg in one {test.lift.value}."
    )
    swapped = in_other_unit(test.load)
    meanings = (_meaning("load", swapped),) if swapped.kg < test.load.kg else ()
    return Doubt("load", question, str(test.load), meanings)


def doubt_of_jump(jump: JumpTest, others: Sequence[JumpTest]) -> Doubt | None:
    """A jump far from the last of its kind and method, or higher than people jump."""
    same = [j for j in others if (j.kind, j.method) == (jump.kind, jump.method)]
    last = max(same, key=lambda j: j.taken_on, default=None)
    shown = f"{jump.height_m * 100:.1f} cm"
    if last is not None:
        if _apart(jump.height_m, last.height_m) <= JUMP_CHANGE_FRACTION:
            return None
        before = f"The {jump.kind} of {long_date(last.taken_on)} was {last.height_m * 100:.1f} cm."
        return Doubt("height_m", f"{shown}? {before}", shown)
    is_long = "long" in jump.kind.casefold() or "broad" in jump.kind.casefold()
    if is_long or jump.height_m <= HIGH_JUMP_M:
        return None
    return Doubt("height_m", f"{shown}? Few people jump higher than 90 cm.", shown)


def doubt_of_birth(birth_date: date, age: int) -> Doubt | None:
    """An age at which few train with a bar."""
    is_possible = YOUNGEST_YEARS <= age <= OLDEST_YEARS
    if not is_possible or YOUNG_YEARS <= age <= OLD_YEARS:
        return None
    return Doubt(
        "birth_date", f"Born {long_date(birth_date)}: {age} years old?", long_date(birth_date)
    )


def doubt_of_length(
    place: str, typed: Decimal, unit: str, limits_m: tuple[float, float]
) -> Doubt | None:
    """A length that is impossible as typed, with the units or points that would make it right."""
    other = "m" if unit == "cm" else "cm"
    if limits_m[0] <= _metres(typed, unit) <= limits_m[1]:
        return None
    tries = [(typed, other), *((typed.scaleb(shift), unit) for shift in (-1, 1))]
    tries += [(typed.scaleb(shift), other) for shift in (-1, 1)]
    sound = [(n, u) for n, u in tries if limits_m[0] <= _metres(n, u) <= limits_m[1]]
    seen: dict[float, Meaning] = {}
    for number, name in sound:
        metres = _metres(number, name)
        words = f"{without_zeros(f'{Decimal(str(metres)) * 100:f}')} cm"
        values = ((place, without_zeros(f"{number:f}")), (f"{place}_unit", name))
        seen.setdefault(round(metres, 4), Meaning(words, values))
    question = f"{typed} {unit}? The limits are {limits_m[0]:g} and {limits_m[1]:g} m."
    return Doubt(place, question, "", tuple(seen.values()))


def doubt_of_stature(stature_m: float) -> Doubt | None:
    """A stature that few have."""
    if SMALL_M <= stature_m <= TALL_M:
        return None
    shown = f"{stature_m * 100:.0f} cm"
    return Doubt("stature_m", f"{shown}? Few people are as {_size(stature_m)}.", shown)


def doubt_of_event(event: Event, today: date) -> Doubt | None:
    """An event that is over, or years away."""
    days = (event.starts_on - today).days
    if 0 <= days <= FAR_EVENT_DAYS:
        return None
    where = (
        f"lies {-days} day{'' if days == -1 else 's'} back" if days < 0 else f"is {days} days away"
    )
    shown = long_date(event.starts_on)
    return Doubt("starts_on", f"{shown} {where}. Is the year right?", shown)


def expected_mass_kg(athlete: Athlete, day: date) -> float | None:
    """The limit of the next event with one [kg], where there is no reading to go by."""
    coming = [e for e in athlete.events if e.mass_limit is not None and e.starts_on >= day]
    nearest = min(coming, key=lambda e: e.starts_on, default=None)
    return None if nearest is None or nearest.mass_limit is None else nearest.mass_limit.kg


def _single_kg(test: StrengthTest) -> float:
    """A best single by Epley's line, or the load itself where the line does not reach."""
    try:
        return one_rep_max_epley(test.load.kg, test.repetitions)
    except OutsidePublishedRange:
        return test.load.kg


def _nearest_before(reading: MassReading, others: Sequence[MassReading]) -> MassReading | None:
    """The entry before this one in time, else the first after it."""
    before = [r for r in others if r.taken_on <= reading.taken_on]
    if before:
        return max(before, key=lambda r: r.taken_on)
    return min(others, key=lambda r: r.taken_on, default=None)


def _other_meanings(place: str, mass: Mass, near_kg: float) -> tuple[Meaning, ...]:
    """The same digits in the other unit, or with the point moved, if that comes near."""
    tries = [in_other_unit(mass)]
    tries += [with_point_moved(mass, places) for places in (-1, 1)]
    near = [m for m in tries if _apart(m.kg, near_kg) <= OTHER_UNIT_WITHIN_FRACTION]
    return tuple(_meaning(place, each) for each in near)


def _meaning(place: str, mass: Mass) -> Meaning:
    words = f"{mass} is {mass.kg:.1f} kg" if mass.unit is MassUnit.POUND else str(mass)
    return Meaning(words, ((place, str(mass.amount)), (f"{place}_unit", mass.unit.value)))


def _unit_asked(meanings: tuple[Meaning, ...]) -> str:
    """Ask for the unit by name, where it is the likely slip: "Pounds? 170 lb is 77.1 kg."."""
    if not meanings:
        return ""
    unit = meanings[0].values[1][1]
    if unit != MassUnit.POUND.value:
        return ""
    return f" Pounds? {meanings[0].words}."


def in_other_unit(mass: Mass) -> Mass:
    """The same digits in the other unit."""
    other = MassUnit.POUND if mass.unit is MassUnit.KILOGRAM else MassUnit.KILOGRAM
    return Mass(mass.amount, other)


def with_point_moved(mass: Mass, places: int) -> Mass:
    """The same digits with the point moved; 1 is ten times as much."""
    return Mass(Decimal(without_zeros(f"{mass.amount.scaleb(places):f}")), mass.unit)


def in_kg(mass: Mass, decimals: int = 1) -> str:
    """What stands behind a mass in pounds: " (83.5 kg)"; nothing behind kilograms."""
    return f" ({mass.kg:.{decimals}f} kg)" if mass.unit is MassUnit.POUND else ""


def _apart(value: float, reference: float) -> float:
    return abs(value / reference - 1) if reference else float("inf")


def _percent(fraction: float) -> str:
    return f"{100 * fraction:.1f} %"


def _metres(number: Decimal, unit: str) -> float:
    return float(number / 100 if unit == "cm" else number)


def _size(stature_m: float) -> str:
    return "small" if stature_m < SMALL_M else "tall"
