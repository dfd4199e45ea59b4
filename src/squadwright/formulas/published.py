"""How a formula is declared: its ranges guard every call, its docstring is its entry in the list.

``@published(load_kg=Range(...), ...)`` needs one rule per parameter. The first docstring line says
what the formula gives; units stand in square brackets; ``References`` holds keys of
``sources.toml``. A formula works on single numbers, not on arrays.
"""

import inspect
import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property, wraps
from numbers import Real
from typing import Any, ParamSpec, TypeVar

from squadwright.errors import InvalidInput, OutsidePublishedRange, range_text
from squadwright.formulas.sources import Source, find_source

_P = ParamSpec("_P")
_R = TypeVar("_R", bound=float)
_UNIT = re.compile(r"\[([^\]]+)\]")

PROGRAM_LIMIT = "a limit of this program, the source gives none"


@dataclass(frozen=True)
class Range:
    """The numbers a parameter may take.

    ``reason`` says why the range ends where it does. ``trusted_low`` and ``trusted_high`` mark
    the part beyond which ``caution`` is shown with the result.
    """

    low: float | None = None
    high: float | None = None
    is_low_open: bool = False
    is_high_open: bool = False
    is_whole: bool = False
    reason: str = ""
    trusted_low: float | None = None
    trusted_high: float | None = None
    caution: str = ""

    @property
    def text(self) -> str:
        """The range in words."""
        bounds = range_text(
            self.low, self.high, is_low_open=self.is_low_open, is_high_open=self.is_high_open
        )
        return f"whole, {bounds}" if self.is_whole else bounds

    def read(self, name: str, text: str) -> float:
        """The number written in ``text``; raise InvalidInput if there is none."""
        try:
            number = float(text)
        except ValueError:
            raise InvalidInput(
                name, f"{text!r} is not a number", f"Give a number without a unit, {self.text}"
            ) from None
        return int(number) if self.is_whole and number.is_integer() else number

    def check(self, name: str, value: object, source: Callable[[], str]) -> None:
        """Raise InvalidInput or OutsidePublishedRange unless ``value`` may be used."""
        if isinstance(value, bool) or not isinstance(value, Real) or not math.isfinite(value):
            raise InvalidInput(name, f"{value!r} is not a finite number", f"Give {self.text}")
        number = float(value)
        if self.is_whole and not number.is_integer():
            raise InvalidInput(name, f"{value!r} is not a whole number", f"Give {self.text}")
        too_low = self.low is not None and (
            number <= self.low if self.is_low_open else number < self.low
        )
        too_high = self.high is not None and (
            number >= self.high if self.is_high_open else number > self.high
        )
        if too_low or too_high:
            raise OutsidePublishedRange(
                name,
                number,
                self.low,
                self.high,
                self._ground(source()),
                is_low_open=self.is_low_open,
                is_high_open=self.is_high_open,
            )

    def _ground(self, source: str) -> str:
        if self.reason == PROGRAM_LIMIT:
            return PROGRAM_LIMIT
        return f"{source}: {self.reason}" if self.reason else source

    def warning(self, name: str, value: Any) -> str:
        """The caution that goes with a usable but less trusted value, or nothing."""
        below = self.trusted_low is not None and value < self.trusted_low
        above = self.trusted_high is not None and value > self.trusted_high
        return f"{name} {value:g}: {self.caution}" if below or above else ""

    def as_json(self) -> dict[str, Any]:
        """The range as plain values."""
        return {
            "low": self.low,
            "high": self.high,
            "is_low_open": self.is_low_open,
            "is_high_open": self.is_high_open,
            "is_whole": self.is_whole,
        }


@dataclass(frozen=True)
class Choice:
    """A parameter that is one of a few words.

    ``sources`` holds the keys of the sources behind a word, where words differ in source.
    """

    options: tuple[str, ...]
    sources: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def text(self) -> str:
        """The words, comma separated."""
        return "one of " + ", ".join(self.options)

    def read(self, name: str, text: str) -> str:
        """The word itself; whether it is allowed is checked by the formula."""
        return text

    def check(self, name: str, value: object, source: Callable[[], str]) -> None:
        """Raise InvalidInput unless ``value`` is one of the words."""
        if value not in self.options:
            raise InvalidInput(name, f"{value!r} is not known", f"Give {self.text}")

    def warning(self, name: str, value: Any) -> str:
        """No word needs a caution."""
        return ""

    def as_json(self) -> dict[str, Any]:
        """The words as plain values."""
        return {"options": list(self.options)}


@dataclass(frozen=True)
class Series:
    """A parameter that is a list of numbers, one per athlete, trial or day."""

    each: Range
    at_least: int = 2
    at_most: int | None = None

    @property
    def text(self) -> str:
        """The rule in words."""
        if self.at_most == self.at_least:
            return f"{self.at_least} numbers, each {self.each.text}"
        most = " or more" if self.at_most is None else f" to {self.at_most}"
        return f"{self.at_least}{most} numbers, each {self.each.text}"

    def read(self, name: str, text: str) -> tuple[float, ...]:
        """The comma-separated numbers in ``text``."""
        return tuple(
            self.each.read(f"{name}[{place}]", part.strip())
            for place, part in enumerate(text.split(","))
        )

    def check(self, name: str, value: Any, source: Callable[[], str]) -> None:
        """Raise InvalidInput or OutsidePublishedRange unless every number may be used."""
        if isinstance(value, str) or not hasattr(value, "__len__"):
            raise InvalidInput(name, f"{value!r} is not a list of numbers", f"Give {self.text}")
        if len(value) < self.at_least or (self.at_most and len(value) > self.at_most):
            raise InvalidInput(name, f"holds {len(value)} numbers", f"Give {self.text}")
        for place, number in enumerate(value):
            self.each.check(f"{name}[{place}]", number, source)

    def warning(self, name: str, value: Any) -> str:
        """No list needs a caution."""
        return ""

    def as_json(self) -> dict[str, Any]:
        """The rule as plain values."""
        return {
            "at_least": self.at_least,
            "at_most": self.at_most,
            "each": self.each.as_json(),
        }


Rule = Range | Choice | Series


@dataclass(frozen=True)
class Parameter:
    """One input of a formula, ready to be shown."""

    name: str
    meaning: str
    unit: str
    rule: Rule
    default: Any = inspect.Parameter.empty

    @property
    def is_required(self) -> bool:
        """Whether a value must be given."""
        return self.default is inspect.Parameter.empty


@dataclass(frozen=True)
class Formula:
    """One entry of the list of formulas, taken from a function and its docstring.

    ``call`` is the function behind its range checks; ``standard_error`` is the published error of
    one estimate, in the unit of the result.
    """

    function: Callable[..., float]
    call: Callable[..., float]
    rules: Mapping[str, Rule]
    standard_error: float | None = None
    sections: Mapping[str, str] = field(default_factory=dict)

    @property
    def name(self) -> str:
        """The function's name."""
        return self.function.__name__

    @cached_property
    def summary(self) -> str:
        """What the formula gives."""
        return self.sections["Summary"].splitlines()[0].rstrip(".")

    @cached_property
    def unit(self) -> str:
        """Unit of the result ("1" for a plain number)."""
        return _unit_in(self.sections["Returns"], self.name)

    @cached_property
    def notes(self) -> str:
        """Equation, population and known error, on one line."""
        return " ".join(self.sections["Notes"].split())

    @cached_property
    def source_keys(self) -> tuple[str, ...]:
        """Keys of ``sources.toml``."""
        return tuple(self.sections["References"].split())

    @property
    def sources(self) -> tuple[Source, ...]:
        """The sources themselves."""
        return tuple(find_source(key) for key in self.source_keys)

    def sources_behind(self, inputs: Mapping[str, Any]) -> tuple[Source, ...]:
        """The sources of one result: those of the chosen words, where words differ in source."""
        keys = [
            key
            for parameter in self.parameters
            if isinstance(parameter.rule, Choice)
            for key in parameter.rule.sources.get(inputs.get(parameter.name, parameter.default), ())
        ]
        return tuple(find_source(key) for key in keys) or self.sources

    @property
    def source_label(self) -> str:
        """The sources in a sentence."""
        return "; ".join(source.label for source in self.sources)

    @cached_property
    def parameters(self) -> tuple[Parameter, ...]:
        """Every input in the order of the function."""
        described = parameter_texts(self.sections["Parameters"])
        return tuple(
            Parameter(
                name,
                described[name].partition(" [")[0],
                _unit_in(described[name], f"{self.name}.{name}"),
                self.rules[name],
                parameter.default,
            )
            for name, parameter in inspect.signature(self.function).parameters.items()
        )


def _unit_in(text: str, place: str) -> str:
    found = _UNIT.search(text)
    if found is None:
        raise ValueError(f"the docstring of {place} gives no [unit]")
    return found[1]


def parameter_texts(section: str) -> dict[str, str]:
    """What a docstring says of each parameter; indented lines continue the one above."""
    joined = re.sub(r"\n\s+", " ", section)
    return dict(line.split(" : ", 1) for line in joined.splitlines())


def docstring_sections(docstring: str) -> dict[str, str]:
    """Split a docstring at its underlined headings; the part above the first is "Summary"."""
    parts = re.split(r"^(\w+)\n-+\n", inspect.cleandoc(docstring), flags=re.MULTILINE)
    titles = ["Summary", *parts[1::2]]
    return {title: text.strip() for title, text in zip(titles, parts[::2], strict=True)}


DECLARED: dict[str, Formula] = {}


def source_keys_of(functions: Mapping[str, Callable[..., float]]) -> dict[str, tuple[str, ...]]:
    """The source keys of declared functions, by the word that chooses each."""
    return {word: DECLARED[function.__name__].source_keys for word, function in functions.items()}


def published(
    *, standard_error: float | None = None, **rules: Rule
) -> Callable[[Callable[_P, _R]], Callable[_P, _R]]:
    """Declare a formula: check every argument against its rule, and enter it in the list."""

    def declare(function: Callable[_P, _R]) -> Callable[_P, _R]:
        names = tuple(inspect.signature(function).parameters)
        if set(names) != set(rules):
            raise TypeError(f"{function.__name__} needs one rule for each of {names}")
        sections = docstring_sections(function.__doc__ or "")

        def source() -> str:
            return formula.source_label

        @wraps(function)
        def checked(*args: _P.args, **kwargs: _P.kwargs) -> _R:
            for name, value in (*zip(names, args, strict=False), *kwargs.items()):
                if name in rules:
                    rules[name].check(name, value, source)
            return function(*args, **kwargs)

        formula = Formula(function, checked, rules, standard_error, sections)
        DECLARED[formula.name] = formula
        return checked

    return declare
