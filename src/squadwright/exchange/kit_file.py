"""A bare plate problem as a JSON file: bars, pairs of plates, targets, who shares.

Masses are text with a unit ("20 kg", "45 lb") or plain numbers in kilograms. They are turned
into whole grams on the safe side: bars and plates up, targets and limits down, so that rounding
never puts anybody above a target.
"""

import re
from collections.abc import Callable, Mapping
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from difflib import get_close_matches
from fractions import Fraction
from pathlib import Path
from typing import Any, TypeVar

from squadwright.errors import InvalidInput
from squadwright.exchange.complaint import dotted, one_line, shown
from squadwright.exchange.document import parse_object, read_bytes, text_of
from squadwright.planning.kit.problem import KitBar, KitProblem, KitUser, PlateSize
from squadwright.units import Mass

_T = TypeVar("_T")

Place = tuple[str | int, ...]

WRITE_MASS = 'Write "20 kg" or "45 lb", or a plain number of kilograms'
WRITE_SHARE = 'Write "10%" or a number from 0 up to 1, for example 0.1'
_SHARE = re.compile(r"^\s*(\d{1,2}(?:\.\d{1,4})?)\s*%\s*$")
_LARGEST_KG = Decimal(1000)

_FIELDS = {
    "this file": (
        ("bars", "plates", "users"),
        ("waves", "shared", "tolerance", "plates_stay_with_bar"),
    ),
    "a bar": (("id", "mass"), ("kind", "maximum_plates")),
    "a size of plate": (("mass", "pairs"), ()),
    "a user": (("id", "target"), ("wave", "bar", "bars", "bare_bar", "kept_bar")),
}


def read_kit_file(path: Path) -> KitProblem:
    """Read a plate problem; one clear error when anything is wrong with it."""
    place = one_line(str(path))
    return kit_problem(parse_object(text_of(read_bytes(path), place=place), place=place))


def kit_problem(document: Mapping[str, Any]) -> KitProblem:
    """The problem in a JSON object."""
    _check_fields(document, (), "this file")
    tolerance = document.get("tolerance")
    return KitProblem(
        bars=tuple(_each(document, "bars", _bar)),
        plates=tuple(_each(document, "plates", _size)),
        users=tuple(_each(document, "users", _user)),
        waves=_whole(document.get("waves", 2), ("waves",)),
        shared=tuple(
            tuple(_texts(group, ("shared", index)))
            for index, group in enumerate(_list(document.get("shared", []), ("shared",)))
        ),
        tolerance=None if tolerance is None else share_of(tolerance, "tolerance"),
        plates_stay_with_bar=_yes_or_no(document, "plates_stay_with_bar", ()),
    )


def share_of(value: object, place: str) -> Fraction:
    """A share from "10%" or 0.1."""
    if isinstance(value, str) and (match := _SHARE.match(value)):
        return Fraction(match[1]) / 100
    if isinstance(value, str) and re.fullmatch(r"0?\.\d{1,6}|0", value.strip()):
        return Fraction(value.strip())
    if isinstance(value, int | float) and not isinstance(value, bool) and 0 <= value < 1:
        return Fraction(str(value))
    raise InvalidInput(place, f"{shown(value)} is not a share from 0 % up to 100 %", WRITE_SHARE)


def _bar(item: Mapping[str, Any], at: Place) -> KitBar:
    _check_fields(item, at, "a bar")
    most = item.get("maximum_plates")
    return KitBar(
        id=_text(item["id"], (*at, "id")),
        mass_g=_grams(item["mass"], (*at, "mass"), up=True),
        kind=_text(item.get("kind", "bar"), (*at, "kind")),
        maximum_plates_g=None
        if most is None
        else _grams(most, (*at, "maximum_plates"), up=False, least=Decimal(0)),
    )


def _size(item: Mapping[str, Any], at: Place) -> PlateSize:
    _check_fields(item, at, "a size of plate")
    return PlateSize(
        _grams(item["mass"], (*at, "mass"), up=True), _whole(item["pairs"], (*at, "pairs"))
    )


def _user(item: Mapping[str, Any], at: Place) -> KitUser:
    _check_fields(item, at, "a user")
    if "bar" in item and "bars" in item:
        raise InvalidInput(
            dotted((*at, "bars")), '"bar" is given too', 'Give "bar" for one, "bars" for several'
        )
    bars = item.get("bars")
    if item.get("bar") is not None:
        bars = [item["bar"]]
    wave, kept = item.get("wave"), item.get("kept_bar")
    return KitUser(
        id=_text(item["id"], (*at, "id")),
        target_g=_grams(item["target"], (*at, "target"), up=False),
        wave=None if wave is None else _whole(wave, (*at, "wave")),
        bars=None if bars is None else tuple(_texts(bars, (*at, "bars"))),
        bare_bar=_yes_or_no(item, "bare_bar", at),
        kept_bar=None if kept is None else _text(kept, (*at, "kept_bar")),
    )


def _each(
    document: Mapping[str, Any], key: str, read: Callable[[Mapping[str, Any], Place], _T]
) -> list[_T]:
    return [
        read(_object(item, (key, index)), (key, index))
        for index, item in enumerate(_list(document[key], (key,)))
    ]


def _grams(value: object, at: Place, *, up: bool, least: Decimal | None = None) -> int:
    place = dotted(at)
    if isinstance(value, str):
        kg = Mass.parse(value, place=place).exact_kg
    elif isinstance(value, int | float) and not isinstance(value, bool):
        kg = Decimal(str(value))
    else:
        raise InvalidInput(place, f"{shown(value)} is not a mass", WRITE_MASS)
    is_low = kg <= 0 if least is None else kg < least
    if is_low or kg > _LARGEST_KG:
        side = "above 0" if least is None else "at least 0"
        raise InvalidInput(
            place,
            f"{shown(value)} is outside the limits ({side}, at most {_LARGEST_KG} kg)",
            WRITE_MASS,
        )
    grams = int((kg * 1000).to_integral_value(ROUND_CEILING if up else ROUND_FLOOR))
    if grams == 0 and least is None:
        raise InvalidInput(place, f"{shown(value)} is less than 1 g", WRITE_MASS)
    return grams


def _whole(value: object, at: Place) -> int:
    if isinstance(value, int) and not isinstance(value, bool):
        return value
    raise InvalidInput(
        dotted(at), f"{shown(value)} is not a whole number", "Write it without quotes or point"
    )


def _text(value: object, at: Place) -> str:
    if isinstance(value, str) and value.strip():
        return value
    raise InvalidInput(dotted(at), f"{shown(value)} is not a text", "Write a text in quotes")


def _texts(value: object, at: Place) -> list[str]:
    return [_text(item, (*at, index)) for index, item in enumerate(_list(value, at))]


def _list(value: object, at: Place) -> list[Any]:
    if isinstance(value, list):
        return value
    raise InvalidInput(dotted(at), f"{shown(value)} is not a list", "Write it in square brackets")


def _object(value: object, at: Place) -> Mapping[str, Any]:
    if isinstance(value, dict):
        return value
    raise InvalidInput(dotted(at), f"{shown(value)} is not an object", "Write it in curly brackets")


def _yes_or_no(item: Mapping[str, Any], key: str, at: Place) -> bool:
    value = item.get(key, False)
    if isinstance(value, bool):
        return value
    raise InvalidInput(
        dotted((*at, key)), f"{shown(value)} is neither true nor false", "Write true or false"
    )


def _check_fields(item: Mapping[str, Any], at: Place, name: str) -> None:
    needed, allowed = _FIELDS[name]
    for key in item:
        if key not in (*needed, *allowed):
            near = get_close_matches(key, [*needed, *allowed], n=1, cutoff=0.5)
            advice = f"Did you mean {near[0]!r}? Else take it out" if near else "Take it out"
            raise InvalidInput(dotted((*at, key)), f"is not a field of {name}", advice)
    for key in needed:
        if key not in item:
            raise InvalidInput(dotted((*at, key)), "is missing", f"Add it; {name} needs it")
