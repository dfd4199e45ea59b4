"""The bars as drawn: letter, plates of each wave, and what changes between waves.

Disc sizes for the sketches: 450 mm for full-size discs is the rule of the International
Weightlifting Federation; sizes of smaller discs and all thicknesses are our estimate.
"""

from collections import Counter
from dataclasses import dataclass

from squadwright.model.club import Club
from squadwright.model.marks import bar_number
from squadwright.model.plan import BarPlan, BarUser, Plan
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.masses import PlateLabel, mass_text, plate_label
from squadwright.printing.people import WaveMark, wave_mark
from squadwright.words import kilogram_text

FULL_SIZE_DISC_MM = 450.0
_DISC_SIZES_MM: tuple[tuple[float, float, float], ...] = (
    # from this mass [kg] on: diameter, thickness
    (10.0, 450.0, 45.0),
    (5.0, 230.0, 30.0),
    (2.5, 190.0, 25.0),
    (1.25, 160.0, 20.0),
    (0.0, 135.0, 15.0),
)


@dataclass(frozen=True)
class Disc:
    """One disc of a sketch, from the inside out."""

    label: str
    diameter_mm: float
    thickness_mm: float


@dataclass(frozen=True)
class LoadedBar:
    """A bar as one athlete uses it in one wave."""

    wave: WaveMark
    athlete: str
    load: str
    discs: tuple[Disc, ...]
    per_side: str
    put_on: str
    take_off: str


@dataclass(frozen=True)
class BarInUse:
    """One bar with its loads in wave order."""

    mark: str
    name: str
    bar_mass: str
    loads: tuple[LoadedBar, ...]


def bars_in_use(plan: Plan, club: Club | None, unit: PrintedUnit) -> tuple[BarInUse, ...]:
    """Every bar of the plan, numbered in plan order."""
    label = plate_label(club)
    full_size = _full_size_plates(club)
    return tuple(
        BarInUse(
            mark=bar_number(index),
            name=bar.name,
            bar_mass=kilogram_text(bar.bar_kg),
            loads=_loads(plan, bar, label, full_size, unit),
        )
        for index, bar in enumerate(plan.bars)
    )


def _loads(
    plan: Plan, bar: BarPlan, label: PlateLabel, full_size: frozenset[float], unit: PrintedUnit
) -> tuple[LoadedBar, ...]:
    loads = []
    before: Counter[float] = Counter()
    for index, user in enumerate(sorted(bar.wave_users, key=lambda user: user.wave)):
        now = _plates(user)
        loads.append(
            LoadedBar(
                wave=wave_mark(user.wave),
                athlete=plan.shown_name(user.athlete),
                load=mass_text(user.load_kg, unit),
                discs=tuple(_disc(kg, label, full_size) for kg in _heaviest_first(now)),
                per_side=plates_text(now, label),
                put_on=plates_text(now - before, label) if index else "",
                take_off=plates_text(before - now, label) if index else "",
            )
        )
        before = now
    return tuple(loads)


def plates_text(plates: Counter[float], label: PlateLabel) -> str:
    """Plates of one side, heaviest first: "10 + 2.5 + 2.5"; none is empty text."""
    return " + ".join(label(kg) for kg in _heaviest_first(plates))


def _plates(user: BarUser) -> Counter[float]:
    return Counter({side.plate_kg: side.count for side in user.per_side})


def _heaviest_first(plates: Counter[float]) -> list[float]:
    return sorted(plates.elements(), reverse=True)


def _full_size_plates(club: Club | None) -> frozenset[float]:
    pairs = club.kit.plates if club else ()
    return frozenset(round(p.plate.kg, 3) for p in pairs if p.is_full_size)


def _disc(plate_kg: float, label: PlateLabel, full_size: frozenset[float]) -> Disc:
    diameter, thickness = next(
        (diameter, thickness) for least, diameter, thickness in _DISC_SIZES_MM if plate_kg >= least
    )
    if round(plate_kg, 3) in full_size:
        diameter = FULL_SIZE_DISC_MM
    return Disc(label(plate_kg), diameter, thickness)
