"""Forms: what was typed, read into values of the trade, every mistake told beside its field."""

import re
from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import date, time
from decimal import Decimal
from enum import Enum, StrEnum
from typing import Self, TypeVar

from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request

from squadwright.errors import InvalidInput, range_text
from squadwright.units import Mass

LONGEST_TEXT = 120
UNIT_ENDING = "_unit"
# Characters that show nothing or change the direction of writing; a line break may be wanted.
_UNSEEN = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u200b\u200e\u200f\u202a-\u202e\u2066-\u2069]")
_NUMBER = re.compile(r"[+-]?[0-9]{1,9}(\.[0-9]{1,6})?")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_CLOCK = re.compile(r"[0-9]{2}:[0-9]{2}(:[0-9]{2})?")
_MASS = re.compile(r"(?P<amount>[0-9.]*)\s*(?P<unit>kg|lb)?", re.IGNORECASE)
Choice = TypeVar("Choice", bound=StrEnum)
Typed = Mapping[str, tuple[str, ...]]


@dataclass(frozen=True)
class FormView:
    """A form as a template shows it: what stands in each field, and what is wrong with it."""

    typed: Typed = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)
    error: str = ""

    @classmethod
    def of(cls, **values: object) -> Self:
        """A form filled with values as they are kept; a mass fills its number and its unit."""
        typed: dict[str, tuple[str, ...]] = {}
        for name, value in values.items():
            typed.update(_as_typed(name, value))
        return cls(typed)

    def value(self, name: str, default: str = "") -> str:
        """What stands in a field."""
        return self.typed.get(name, (default,))[0]

    def values(self, name: str) -> tuple[str, ...]:
        """Everything chosen in a field that takes several."""
        return self.typed.get(name, ())

    def is_chosen(self, name: str, value: str, default: str = "") -> bool:
        """Whether a choice is marked."""
        return value in self.typed.get(name, (default,))

    def wrong(self, name: str) -> str:
        """What is wrong with a field; empty where nothing is."""
        return self.errors.get(name, "")


class FormRefused(InvalidInput):
    """A form in which some fields cannot be used; ``fields`` says why, by name."""

    def __init__(self, fields: Mapping[str, InvalidInput]) -> None:
        first = next(iter(fields.values()))
        super().__init__(first.place, first.problem, first.advice)
        self.fields = dict(fields)


class Form:
    """What a browser sent. Each reading gives a value, or notes the mistake and gives a stand-in.

    The stand-ins are never used: ``done`` comes last and raises ``FormRefused`` if there was one.
    """

    def __init__(self, data: FormData) -> None:
        self._data = data
        self._wrong: dict[str, InvalidInput] = {}

    @classmethod
    def of(cls, request: Request) -> Self:
        """The form that came with a request."""
        form = request.state.form
        assert isinstance(form, FormData)
        return cls(form)

    @classmethod
    def in_address(cls, request: Request) -> Self:
        """The form as it came in the address: it is sent by GET, since nothing is written."""
        typed: list[tuple[str, str | UploadFile]] = [*request.query_params.multi_items()]
        return cls(FormData(typed))

    def done(self) -> None:
        """Raise FormRefused if a field could not be used."""
        if self._wrong:
            raise FormRefused(self._wrong)

    def refuse(self, name: str, label: str, problem: str, advice: str) -> None:
        """Note a mistake of a field; the first one of each field is told."""
        self._wrong.setdefault(name, InvalidInput(label, problem, advice))

    def refused(self, error: InvalidInput) -> FormView:
        """The form as it was typed, with what is wrong beside each field, else above all."""
        typed: dict[str, tuple[str, ...]] = {}
        for name, value in self._data.multi_items():
            if isinstance(value, str):
                typed[name] = (*typed.get(name, ()), value)
        if isinstance(error, FormRefused):
            errors = {name: str(wrong) for name, wrong in error.fields.items()}
            return FormView(typed, errors)
        name = error.place.rpartition(".")[2]
        if name in typed:
            return FormView(typed, {name: str(error)})
        return FormView(typed, error=str(error))

    def items(self) -> tuple[tuple[str, str], ...]:
        """Every text that was sent with its name, as typed, files left out."""
        return tuple((k, v) for k, v in self._data.multi_items() if isinstance(v, str))

    def raw(self, name: str) -> str:
        """What was typed first, spaces at the ends taken off; empty where nothing was."""
        value = next(iter(self._data.getlist(name)), "")
        return value.strip() if isinstance(value, str) else ""

    def text(
        self, name: str, label: str, *, is_required: bool = True, longest: int = LONGEST_TEXT
    ) -> str:
        """A text of one or more lines."""
        typed = self.raw(name).replace("\r\n", "\n")
        if not typed and is_required:
            self.refuse(name, label, "is empty", "Fill it in")
        if len(typed) > longest:
            self.refuse(
                name, label, f"has {len(typed)} characters, at most {longest} fit", "Shorten it"
            )
        if _UNSEEN.search(typed):
            self.refuse(name, label, "holds a character that shows nothing", "Type it afresh")
        return typed

    def number(
        self,
        name: str,
        label: str,
        *,
        low: float | None = None,
        high: float | None = None,
        unit: str = "",
    ) -> float:
        """A number that must be there."""
        number = self.maybe_number(name, label, low=low, high=high, unit=unit)
        if number is None:
            if name not in self._wrong:
                self.refuse(name, label, "is empty", "Write a number")
            return 0.0
        return number

    def maybe_number(
        self,
        name: str,
        label: str,
        *,
        low: float | None = None,
        high: float | None = None,
        unit: str = "",
    ) -> float | None:
        """A number, or None where nothing was typed."""
        typed = self.raw(name)
        if not typed:
            return None
        if _NUMBER.fullmatch(typed) is None:
            example = "32.5, with a point" if "," in typed else "32.5"
            self.refuse(name, label, f"{cut(typed)!r} is not a number", f"Write it like {example}")
            return None
        number = float(typed)
        if (low is not None and number < low) or (high is not None and number > high):
            of_unit = f" {unit}" if unit else ""
            self.refuse(
                name,
                label,
                f"{typed}{of_unit} is outside {range_text(low, high)}{of_unit}",
                "Check the number and its unit",
            )
            return None
        return number

    def whole(
        self,
        name: str,
        label: str,
        *,
        low: int | None = None,
        high: int | None = None,
        unit: str = "",
    ) -> int:
        """A whole number that must be there."""
        number = self.number(name, label, low=low, high=high, unit=unit)
        if number != int(number):
            self.refuse(
                name, label, f"{number:g} is not a whole number", "Write it without a point"
            )
        return int(number)

    def maybe_whole(
        self,
        name: str,
        label: str,
        *,
        low: int | None = None,
        high: int | None = None,
        unit: str = "",
    ) -> int | None:
        """A whole number, or None where nothing was typed."""
        if not self.raw(name):
            return None
        return self.whole(name, label, low=low, high=high, unit=unit)

    def mass(self, name: str, label: str) -> Mass:
        """A mass that must be there."""
        mass = self.maybe_mass(name, label)
        if mass is None:
            if name not in self._wrong:
                self.refuse(name, label, "is empty", "Write a number and choose its unit")
            return Mass(Decimal(0))
        return mass

    def maybe_mass(self, name: str, label: str) -> Mass | None:
        """A mass exactly as typed: a number beside its unit, or "184 lb" in the field itself."""
        typed = self.raw(name)
        if not typed:
            return None
        match = _MASS.fullmatch(typed)
        if match is not None:
            unit = match["unit"] or self.raw(name + UNIT_ENDING)
            with suppress(InvalidInput):
                return Mass.parse(f"{match['amount']} {unit.lower()}", place=label)
        advice = 'Write a number like 32.5 and choose kg or lb, or write "184 lb"'
        self.refuse(name, label, f"{cut(typed)!r} is not a mass", advice)
        return None

    def day(self, name: str, label: str) -> date:
        """A date that must be there."""
        day = self.maybe_day(name, label)
        if day is None:
            self.refuse(name, label, "is empty", "Choose a day")
            return date.min
        return day

    def maybe_day(self, name: str, label: str) -> date | None:
        """A date, or None where nothing was typed."""
        typed = self.raw(name)
        if not typed:
            return None
        try:
            if _DAY.fullmatch(typed) is None:
                raise ValueError
            return date.fromisoformat(typed)
        except ValueError:
            self.refuse(
                name, label, f"{cut(typed)!r} is not a date", "Write year-month-day: 2026-03-02"
            )
            return None

    def clock(self, name: str, label: str) -> time:
        """A time of day that must be there."""
        typed = self.raw(name)
        try:
            if _CLOCK.fullmatch(typed) is None:
                raise ValueError
            return time.fromisoformat(typed)
        except ValueError:
            problem = f"{cut(typed)!r} is not a time of day" if typed else "is empty"
            self.refuse(name, label, problem, "Write hours and minutes: 18:05")
            return time.min

    def choice(self, name: str, label: str, known: Iterable[str]) -> str:
        """One of the known values."""
        values = tuple(known)
        typed = self.raw(name)
        if typed not in values:
            problem = f"{cut(typed)!r} is not one of the choices" if typed else "is not chosen"
            self.refuse(name, label, problem, "Choose one of those shown")
        return typed

    def member(self, name: str, label: str, kind: type[Choice]) -> Choice:
        """One of the values of an enumeration."""
        typed = self.choice(name, label, [member.value for member in kind])
        return next((member for member in kind if member.value == typed), next(iter(kind)))

    def choices(self, name: str, label: str, known: Iterable[str]) -> tuple[str, ...]:
        """Any number of the known values, in the order sent, each once."""
        values = tuple(known)
        typed = tuple(dict.fromkeys(v for v in self._data.getlist(name) if isinstance(v, str)))
        strange = [value for value in typed if value not in values]
        if strange:
            problem = f"{cut(strange[0])!r} is not one of the choices"
            self.refuse(name, label, problem, "Choose among those shown")
        return tuple(value for value in typed if value in values)

    def flag(self, name: str) -> bool:
        """Whether a box is ticked."""
        return bool(self.raw(name))

    def file(self, name: str, label: str) -> tuple[str, bytes]:
        """A file that must be there: its name and its content."""
        upload = self._data.get(name)
        if not isinstance(upload, UploadFile) or not upload.filename:
            self.refuse(name, label, "is not chosen", "Choose a file")
            return "", b""
        upload.file.seek(0)
        return upload.filename, upload.file.read()


def cut(typed: str) -> str:
    """What was typed, short enough to be told of in a sentence."""
    return typed if len(typed) <= 40 else f"{typed[:39]}\N{HORIZONTAL ELLIPSIS}"


def _as_typed(name: str, value: object) -> dict[str, tuple[str, ...]]:
    if value is None:
        return {}
    if isinstance(value, Mass):
        return {name: (str(value.amount),), name + UNIT_ENDING: (value.unit.value,)}
    if isinstance(value, bool):
        return {name: ("yes",)} if value else {}
    if isinstance(value, date):
        return {name: (value.isoformat(),)}
    if isinstance(value, time):
        return {name: (f"{value:%H:%M}",)}
    if isinstance(value, StrEnum):
        return {name: (value.value,)}
    if isinstance(value, float):
        return {name: (f"{value:.10g}",)}
    if isinstance(value, tuple | list | frozenset):
        return {name: tuple(str(each) for each in value)}
    return {name: (str(value),)}


def cell_name(line: int, column: Enum) -> str:
    """The name of the field for one cell of a file that is looked at before it is stored."""
    return f"cell-{line}-{column.name}"
