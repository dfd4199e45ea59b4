"""Masses as they are printed: kilograms, pounds, or both."""

from collections.abc import Callable

from squadwright.model.club import Club
from squadwright.printing.choices import PrintedUnit
from squadwright.units import MassUnit
from squadwright.words import kilogram_text, plain_number, pound_text

PlateLabel = Callable[[float], str]


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
