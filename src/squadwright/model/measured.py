"""What is measured of an athlete beside his sessions: mass around training, urine of the morning,
a pain that medical staff have him watch, and energy and food as they wrote them down.

Values are kept as they were typed. What follows from them is worked out, never stored.
"""

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from enum import StrEnum
from typing import Annotated

from annotated_types import Ge, Gt, Le

from squadwright.errors import InvalidInput
from squadwright.model.composition import SpecificGravity
from squadwright.model.field import Identifier, Label, Name, Note, PainScore
from squadwright.model.muscles import BodyArea
from squadwright.units import Mass

HoursOfWork = Annotated[float, Gt(0.0), Le(8.0)]
Kilocalories = Annotated[float, Ge(0.0), Le(15_000.0)]
FoodGrams = Annotated[float, Ge(0.0), Le(3_000.0)]
Litres = Annotated[float, Ge(0.0), Le(15.0)]
LIGHTEST_KG, HEAVIEST_KG = 20, 300


@dataclass(frozen=True)
class AroundTraining:
    """Body mass before and after training, with what was drunk and passed in between.

    InvalidInput where more came out of nowhere than any body takes up: a wrong reading.
    """

    id: Identifier
    taken_on: date
    before: Mass
    after: Mass
    hours: HoursOfWork
    drunk_l: Litres = 0.0
    passed_l: Litres = 0.0
    note: Note = ""

    def __post_init__(self) -> None:
        for name, weighed in (("before", self.before), ("after", self.after)):
            if not LIGHTEST_KG <= weighed.exact_kg <= HEAVIEST_KG:
                raise InvalidInput(
                    name,
                    f"{weighed} is not {LIGHTEST_KG} to {HEAVIEST_KG} kg",
                    "Write the body mass as the scales say, with its unit",
                )
        if not 0 < self.hours <= 8:
            raise InvalidInput(
                "hours",
                f"{self.hours:g} h is not more than 0 and at most 8 h",
                "Write the time between the two weighings in hours, for example 1.5",
            )
        if self.lost_kg < 0:
            raise InvalidInput(
                "after",
                f"{self.after} is {-self.lost_kg:.2f} kg more than the mass before, what was drunk "
                "and what was passed allow",
                "Weigh again, and check what was drunk and passed",
            )

    @property
    def lost_kg(self) -> Decimal:
        """What left the body as sweat and breath [kg], one kilogram for one litre."""
        taken_in = self.before.exact_kg + Decimal(str(self.drunk_l))
        return taken_in - self.after.exact_kg - Decimal(str(self.passed_l))


@dataclass(frozen=True)
class MorningUrine:
    """The specific gravity of the first urine of a morning."""

    id: Identifier
    taken_on: date
    specific_gravity: SpecificGravity
    note: Note = ""

    @property
    def exact_gravity(self) -> Decimal:
        """As it was typed, for comparing with a limit."""
        return Decimal(str(self.specific_gravity))


class NotForTheScale(StrEnum):
    """What a watch on a scale of 10 is not for: medical staff see it before any load."""

    FRESH_INJURY = "fresh injury"
    BONE = "stress of bone"
    NERVE = "signs of a nerve"
    LOCKING = "joint that locks"
    CHEST = "pain in the chest"
    HEAD_OR_NECK = "pain in the head or neck"


class NextMorning(StrEnum):
    """Pain of the next morning against the usual."""

    SAME = "same"
    WORSE = "worse"


class WeekTrend(StrEnum):
    """Pain and stiffness from week to week."""

    FLAT = "flat"
    RISING = "rising"


@dataclass(frozen=True)
class PainReading:
    """What he tells of a watched pain: under load, after it, the next morning, over the weeks.

    None is not told yet.
    """

    taken_on: date
    during: PainScore
    after: PainScore | None = None
    next_morning: NextMorning | None = None
    week: WeekTrend | None = None
    author: Name = "Athlete"


@dataclass(frozen=True)
class WatchedPain:
    """A pain that is loaded under the eye of medical staff, who are named with their licence.

    ``not_for`` is whatever holds of it that the scale is not for.
    """

    id: Identifier
    taken_on: date
    area: BodyArea
    author: Name
    licence: Name
    side: Label = ""
    not_for: tuple[NotForTheScale, ...] = ()
    readings: tuple[PainReading, ...] = ()
    note: Note = ""

    def __post_init__(self) -> None:
        require_licence(self.licence)

    @property
    def place(self) -> str:
        """Where it is: "left knee"."""
        return f"{self.side} {self.area.value}".strip()

    @property
    def is_for_a_clinician(self) -> bool:
        """Whether the scale is not for it."""
        return bool(self.not_for) or self.area in (BodyArea.HEAD, BodyArea.NECK)

    def latest(self, day: date) -> PainReading | None:
        """The last reading on or before a day, of two on one day the one entered later."""
        known = [each for each in reversed(self.readings) if each.taken_on <= day]
        return max(known, key=lambda each: each.taken_on, default=None)


@dataclass(frozen=True)
class EnergyDay:
    """Energy and food of a usual day, as medical staff or a dietitian wrote them down.

    Foods are told against a body mass; None is not asked.
    """

    id: Identifier
    taken_on: date
    intake_kcal: Kilocalories
    exercise_kcal: Kilocalories
    fat_free: Mass
    author: Name
    licence: Name
    body_mass: Mass | None = None
    carbohydrate_g: FoodGrams | None = None
    protein_g: FoodGrams | None = None
    fat_g: FoodGrams | None = None
    note: Note = ""

    def __post_init__(self) -> None:
        require_licence(self.licence)
        if not 0 < self.fat_free.exact_kg <= HEAVIEST_KG:
            raise InvalidInput(
                "fat_free",
                f"{self.fat_free} is not more than 0 and at most {HEAVIEST_KG} kg",
                "Take it from an assessment of body composition",
            )
        if self.foods and self.body_mass is None:
            raise InvalidInput(
                "body_mass",
                "is not known, and foods are told for each kilogram of it",
                "Write the body mass, or leave the foods out",
            )

    @property
    def foods(self) -> dict[str, Decimal]:
        """What was told of carbohydrate, protein and fat [g a day], as typed."""
        told = {
            "carbohydrate": self.carbohydrate_g,
            "protein": self.protein_g,
            "fat": self.fat_g,
        }
        return {name: Decimal(str(grams)) for name, grams in told.items() if grams is not None}


def require_licence(licence: str) -> None:
    """Whoever guides is of medical staff; raises InvalidInput."""
    if licence.strip().casefold() in ("", "not stated", "none", "-"):
        raise InvalidInput(
            "licence",
            "is not stated",
            "This is for medical staff alone: write the licence as it stands on the paper",
        )


@dataclass(frozen=True)
class Measured:
    """All of it, for one athlete, each in the order in which it was entered."""

    training: tuple[AroundTraining, ...] = ()
    urine: tuple[MorningUrine, ...] = ()
    pains: tuple[WatchedPain, ...] = ()
    energy: tuple[EnergyDay, ...] = ()

    def latest_energy(self, day: date) -> EnergyDay | None:
        """The last day of food on or before a day, of two the one entered later."""
        known = [each for each in reversed(self.energy) if each.taken_on <= day]
        return max(known, key=lambda each: each.taken_on, default=None)

    def latest_urine(self, day: date) -> MorningUrine | None:
        """The last reading on or before a day, of two on one day the one entered later."""
        known = [each for each in reversed(self.urine) if each.taken_on <= day]
        return max(known, key=lambda each: each.taken_on, default=None)

    @property
    def ids(self) -> frozenset[str]:
        """The ids of everything that may bar something by itself."""
        return frozenset((*(each.id for each in self.urine), *(each.id for each in self.pains)))

    def with_pain(self, new: WatchedPain) -> "Measured":
        """The same with a pain to watch, or in place of the one with its id."""
        if new.id not in {pain.id for pain in self.pains}:
            return replace(self, pains=(*self.pains, new))
        return replace(self, pains=tuple(new if p.id == new.id else p for p in self.pains))


NOTHING_MEASURED = Measured()


def both_measured(one: Measured, other: Measured) -> Measured:
    """The entries of two that are one person: all of them, what is equal once."""
    return Measured(
        training=tuple(dict.fromkeys((*one.training, *other.training))),
        urine=tuple(dict.fromkeys((*one.urine, *other.urine))),
        pains=tuple(dict.fromkeys((*one.pains, *other.pains))),
        energy=tuple(dict.fromkeys((*one.energy, *other.energy))),
    )
