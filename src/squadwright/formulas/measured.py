"""A number of a test with its method, and a line of such numbers that refuses to mix methods.

Two methods of one test differ by more than most athletes change: heights from flight time stand
about 1.7 cm above heights from impulse on the same jumps (height_methods_asjsm). So a method never
leaves its number.
"""

from dataclasses import dataclass
from datetime import date

from squadwright.errors import InvalidInput
from squadwright.formulas.published import PROGRAM_LIMIT, Range

VALUE = Range(low=-1e6, high=1e6, reason=PROGRAM_LIMIT)


@dataclass(frozen=True)
class Measured:
    """One number of a test: what it is, how much, in which unit, by which method."""

    quantity: str
    value: float
    unit: str
    method: str

    def __post_init__(self) -> None:
        VALUE.check(self.quantity or "value", self.value, lambda: PROGRAM_LIMIT)
        for name in ("quantity", "unit", "method"):
            if not getattr(self, name).strip():
                raise InvalidInput(
                    name, "is empty", "Say it: a number without it cannot be compared"
                )

    @property
    def kind(self) -> tuple[str, str, str]:
        """What two numbers must share before they may be compared."""
        return self.quantity, self.unit, self.method


def refuse_mixed(place: str, first: Measured, other: Measured) -> None:
    """Raise InvalidInput unless both numbers are of one quantity, unit and method."""
    names = ("quantity", "unit", "method")
    for name, one, two in zip(names, first.kind, other.kind, strict=True):
        if one != two:
            raise InvalidInput(
                place,
                f"{other.quantity} has the {name} {two!r} and the first number {one!r}",
                "Compare numbers of one method only; keep the others in a line of their own",
            )


@dataclass(frozen=True)
class MeasuredLine:
    """Numbers of one athlete in order of their days, all of one quantity, unit and method."""

    points: tuple[tuple[date, Measured], ...]

    def __post_init__(self) -> None:
        if not self.points:
            raise InvalidInput("points", "holds no number", "Give at least one")
        for place, (day, number) in enumerate(self.points):
            refuse_mixed(f"points[{place}]", self.points[0][1], number)
            if place and day < self.points[place - 1][0]:
                raise InvalidInput(
                    f"points[{place}]",
                    f"{day} stands after {self.points[place - 1][0]}",
                    "Give the numbers in order of their days",
                )

    @property
    def method(self) -> str:
        """The one method of the line."""
        return self.points[0][1].method
