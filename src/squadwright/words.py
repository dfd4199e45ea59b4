"""Numbers, masses, counts, dates and lists in words: each said in one way everywhere."""

from collections.abc import Sequence
from datetime import date

from squadwright.units import KILOGRAMS_PER_POUND, Mass, MassUnit


def capital(words: str) -> str:
    """Words with a capital at the beginning."""
    return f"{words[:1].upper()}{words[1:]}"


def counted(count: int, one: str, many: str = "") -> str:
    """A count with its word: "1 athlete", "2 athletes"."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def listed(words: Sequence[str]) -> str:
    """Words in a row: "a", "a and b", "a, b and c"."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def plain_number(value: float, decimals: int) -> str:
    """A number without trailing zeros: 17.50 is "17.5", 10.0 is "10"."""
    return without_zeros(f"{value:.{decimals}f}")


def without_zeros(number: str) -> str:
    """A written number without zeros at the end of its decimals."""
    return number.rstrip("0").rstrip(".") if "." in number else number


def kilogram_text(mass_kg: float) -> str:
    """Kilograms to the gram bench of a store (two decimals): "18.25 kg"."""
    return f"{plain_number(mass_kg, 2)} kg"


def pound_text(mass_kg: float) -> str:
    """A mass given in kilograms, in pounds to one decimal: "40.8 lb"."""
    return f"{plain_number(mass_kg / float(KILOGRAMS_PER_POUND), 1)} lb"


def mass_words(mass: Mass, decimals: int = 1) -> str:
    """A mass as typed; one in pounds with its kilograms: "184 lb (83.5 kg)"."""
    return f"{mass} ({mass.kg:.{decimals}f} kg)" if mass.unit is MassUnit.POUND else str(mass)


def mass_in_both(mass: Mass) -> str:
    """A mass as typed, and in the other unit: "184 lb (83.5 kg)", "86.8 kg (191.4 lb)"."""
    if mass.unit is MassUnit.POUND:
        return mass_words(mass)
    return f"{mass} ({mass.pounds:.1f} lb)"


def day_words(day: date) -> str:
    """A date: "2 Mar 2026"."""
    return f"{day.day} {day:%b %Y}"


def day_and_month(day: date) -> str:
    """A date without its year: "2 Mar"."""
    return f"{day.day} {day:%b}"


def weekday_and_day(day: date) -> str:
    """A date of the weeks around: "Mon 2 Mar"."""
    return f"{day:%a} {day_and_month(day)}"


def long_date(day: date) -> str:
    """A date whose month is written out: "2 March 2026"."""
    return f"{day.day} {day:%B %Y}"


def full_date(day: date) -> str:
    """A date with its day of the week, written out: "Monday 2 March 2026"."""
    return f"{day:%A} {long_date(day)}"
