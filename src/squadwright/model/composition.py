"""How body fat is measured, and whose floor of body fat holds: the words of an assessment."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated

from annotated_types import Ge, Le

from squadwright.errors import InvalidInput

FoldMillimetres = Annotated[float, Ge(2.0), Le(60.0)]
FatPercent = Annotated[float, Ge(3.0), Le(50.0)]
FatError = Annotated[float, Ge(0.0), Le(20.0)]
LeastFatPercent = Annotated[float, Ge(5.0), Le(20.0)]
SpecificGravity = Annotated[float, Ge(1.0), Le(1.06)]


class FatMethod(StrEnum):
    """How body fat was found: folds with whose equation, or an instrument that gave a percent."""

    JACKSON_POLLOCK_THREE = "3 folds, Jackson and Pollock"
    JACKSON_POLLOCK_SEVEN = "7 folds, Jackson and Pollock"
    LOHMAN = "3 folds, Lohman"
    THORLAND = "3 folds, Thorland"
    HOUSH = "2 folds, Housh"
    SLAUGHTER = "2 folds, Slaughter"
    UNDER_WATER = "weighed under water"
    AIR = "air displacement"
    X_RAY = "X-ray absorptiometry"
    IMPEDANCE = "electrical impedance"

    @property
    def is_instrument(self) -> bool:
        """Whether an instrument gave the percent, and no folds were taken."""
        return self in _INSTRUMENTS


_INSTRUMENTS = frozenset(
    {FatMethod.UNDER_WATER, FatMethod.AIR, FatMethod.X_RAY, FatMethod.IMPEDANCE}
)


class FoldSite(StrEnum):
    """Where a fold of skin is taken."""

    ABDOMEN = "abdomen"
    CALF = "calf"
    CHEST = "chest"
    MIDAXILLARY = "midaxillary"
    SUBSCAPULAR = "subscapular"
    SUPRAILIAC = "suprailiac"
    THIGH = "thigh"
    TRICEPS = "triceps"


class FatFloor(StrEnum):
    """Whose floor of body fat holds."""

    COLLEGE_MEN = "college, men"
    COLLEGE_WOMEN = "college, women"
    SCHOOL_BOYS = "high school, boys"
    SCHOOL_GIRLS = "high school, girls"


@dataclass(frozen=True)
class SkinFold:
    """One fold of skin as read."""

    site: FoldSite
    millimetres: FoldMillimetres


def require_measured(
    method: FatMethod,
    folds: tuple[SkinFold, ...],
    measured_percent: float | None,
    error_percent: float | None,
) -> None:
    """An instrument gives a percent and its error, an equation takes folds; never both."""
    if not method.is_instrument:
        if not folds or measured_percent is not None:
            raise InvalidInput("folds", f"{method.value} takes folds alone", "Give the folds in mm")
        sites = [fold.site for fold in folds]
        if len(set(sites)) != len(sites):
            raise InvalidInput("folds", "one place stands there twice", "Give each place once")
        return
    if folds or measured_percent is None:
        raise InvalidInput(
            "measured_percent", f"{method.value} gives a percent", "Give it, and no folds"
        )
    if error_percent is None:
        raise InvalidInput(
            "error_percent",
            f"{method.value} has an error and none is given",
            "Ask whoever measured by how many percent it may be wrong",
        )
