"""Units at the edge: masses kept as typed, and the exact conversion factors.

References: international yard and pound agreement of 1959 (1 lb = 0.45359237 kg, 1 in = 0.0254 m).
"""

import re
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import Any, Self

from squadwright.errors import InvalidInput

KILOGRAMS_PER_POUND = Decimal("0.45359237")
METRES_PER_INCH = Decimal("0.0254")
STANDARD_GRAVITY_M_S2 = 9.80665

_MASS = re.compile(r"^\s*(?P<amount>\d{1,6}(?:\.\d{1,4})?)\s*(?P<unit>kg|lb)\s*$")


class MassUnit(StrEnum):
    """Units in which a mass may be typed."""

    KILOGRAM = "kg"
    POUND = "lb"


@dataclass(frozen=True, order=False)
class Mass:
    """A mass exactly as somebody typed it, with its unit.

    ``amount`` keeps trailing zeros ("32.50" stays "32.50"); ``kg`` is the converted value [kg].
    """

    amount: Decimal
    unit: MassUnit = MassUnit.KILOGRAM

    @classmethod
    def parse(cls, text: str, *, place: str = "mass") -> Self:
        """Read "32.5 kg" or "184 lb"; raise InvalidInput otherwise."""
        match = _MASS.match(text)
        if match is None:
            raise InvalidInput(
                place,
                f"{text!r} is not a mass",
                'Write a number and a unit, for example "32.5 kg" or "184 lb"',
            )
        return cls(Decimal(match["amount"]), MassUnit(match["unit"]))

    @property
    def kg(self) -> float:
        """The mass in kilograms [kg]."""
        return float(self.exact_kg)

    @property
    def exact_kg(self) -> Decimal:
        """The mass in kilograms as an exact decimal [kg]."""
        if self.unit is MassUnit.POUND:
            return self.amount * KILOGRAMS_PER_POUND
        return self.amount

    @property
    def pounds(self) -> float:
        """The mass in pounds [lb]."""
        if self.unit is MassUnit.POUND:
            return float(self.amount)
        return float(self.amount / KILOGRAMS_PER_POUND)

    def __str__(self) -> str:
        return f"{self.amount} {self.unit.value}"

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: Any) -> Any:
        """Tell Pydantic that a mass is written as text ("32.5 kg") in files."""
        from pydantic_core import core_schema

        def read(value: Any) -> Mass:
            return value if isinstance(value, Mass) else cls.parse(value)

        text = core_schema.str_schema(
            pattern=_MASS.pattern.replace("?P<amount>", "").replace("?P<unit>", "")
        )
        from_text = core_schema.no_info_after_validator_function(read, text)
        return core_schema.json_or_python_schema(
            json_schema=from_text,
            python_schema=core_schema.union_schema(
                [core_schema.is_instance_schema(cls), from_text]
            ),
            serialization=core_schema.plain_serializer_function_ser_schema(
                str, when_used="always", return_schema=core_schema.str_schema()
            ),
        )


def kilograms(amount: str | float | Decimal) -> Mass:
    """Shorthand for a mass typed in kilograms."""
    return Mass(Decimal(str(amount)), MassUnit.KILOGRAM)


def pounds(amount: str | float | Decimal) -> Mass:
    """Shorthand for a mass typed in pounds."""
    return Mass(Decimal(str(amount)), MassUnit.POUND)
