"""Masses as they are printed: kilograms, pounds, or both."""

from collections.abc import Callable

from squadwright.model.club import Club
from squadwright.printing.choices import PrintedUnit
from squadwright.units import KILOGRAMS_PER_POUND, MassUnit

PlateLabel = Callable[[float], str]


def plain_number(value: float, decimals: int) -> str:
    """A number without trailing zeros: 17.50 is "17.5", 10.0 is "10"."""
    text = f"{value:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def kilogram_text(mass_kg: float) -> str:
    """Kilograms to the gram bench of a store (two decimals): "18.25 kg"."""
    return f"{plain_number(mass_kg, 2)} kg"


def pound_text(mass_kg: float) -> str:
    """A mass given in kilograms, in pounds to one decimal: "40.8 lb"."""
    return f"{plain_number(mass_kg / float(KILOGRAMS_PER_POUND), 1)} lb"


def mass_text(mass_kg: float, unit: PrintedUnit) -> str:
    """A mass in the unit asked for; both gives "18.5 kg (40.8 lb)"."""
    if unit is PrintedUnit.KILOGRAM:
        return kilogram_text(mass_kg)
    if unit is PrintedUnit.POUND:
        return pound_text(mass_kg)
    return f"{kilogram_text(mass_kg)} ({pound_text(mass_kg)})"


def mass_lines(mass_kg: float, unit: PrintedUnit) -> tuple[str, ...]:
    """A mass as one line for each unit asked for."""
    texts = {
        PrintedUnit.KILOGRAM: (kilogram_text(mass_kg),),
        PrintedUnit.POUND: (pound_text(mass_kg),),
        PrintedUnit.BOTH: (kilogram_text(mass_kg), pound_text(mass_kg)),
    }
    return texts[unit]


def plate_label(club: Club | None) -> PlateLabel:
    """How a plate of a given mass [kg] is found in the store: by what is stamped on it.

    A plate stamped in pounds is named in pounds whatever the unit of the sheet, because that is
    what the coach reads on it. A plate the store does not list is named by its mass.
    """
    stamps: dict[float, str] = {}
    for pair in club.kit.plates if club else ():
        mark = pair.stamped or pair.plate
        if mark.unit is MassUnit.POUND:
            stamps.setdefault(round(pair.plate.kg, 3), str(mark))

    def label(plate_kg: float) -> str:
        return stamps.get(round(plate_kg, 3), plain_number(plate_kg, 2))

    return label
