"""The exercise library and the routines that come with it, read from TOML into the model.

Reading is cached: every call gives the same frozen values. Pydantic is imported only when the
library is first read, so that starting the command line stays quick.
"""

import tomllib
from collections.abc import Iterable, Iterator, Mapping
from difflib import get_close_matches
from functools import cache
from graphlib import CycleError, TopologicalSorter
from importlib.resources import files
from typing import TYPE_CHECKING, Any, TypeVar

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.exercise import Exercise
from squadwright.model.routine import Routine

if TYPE_CHECKING:
    from pydantic import TypeAdapter

_T = TypeVar("_T")


@cache
def exercises() -> tuple[Exercise, ...]:
    """Every exercise of the library, in the order of its files."""
    return read_exercises(_texts("data/exercises"))


@cache
def routines() -> tuple[Routine, ...]:
    """The routines that come with the program."""
    known = {e.id for e in exercises()}
    found: list[Routine] = []
    for file_name, text in _texts("data/routines"):
        routine = _validated(Routine, _parsed(file_name, text), file_name)
        for block in routine.blocks:
            for step in block.steps:
                if step.exercise not in known:
                    raise InvalidInput(
                        f"{file_name}: {block.name} {step.label}",
                        f"{step.exercise!r} is not in the library",
                        _nearest_advice(step.exercise, known),
                    )
        found.append(routine)
    return tuple(found)


def exercise(exercise_id: str) -> Exercise:
    """The exercise with an id; raises NotFound with the nearest names."""
    found = _by_id().get(exercise_id)
    if found is None:
        raise NotFound(
            f"no exercise has the id {exercise_id!r}. {_nearest_advice(exercise_id, _by_id())}"
        )
    return found


def routine(routine_id: str) -> Routine:
    """The routine with an id; raises NotFound with the nearest names."""
    known = {r.id: r for r in routines()}
    if routine_id not in known:
        raise NotFound(
            f"no routine has the id {routine_id!r}. {_nearest_advice(routine_id, known)}"
        )
    return known[routine_id]


def values_of(kind: type[_T], folder: str, table: str) -> tuple[_T, ...]:
    """Every ``[[table]]`` of the TOML files in a folder of this package, as frozen values."""
    return tuple(
        _validated(kind, row, f"{file_name}: {table}[{index}]")
        for file_name, text in _texts(folder)
        for index, row in enumerate(_parsed(file_name, text)[table])
    )


def read_exercises(texts: Iterable[tuple[str, str]]) -> tuple[Exercise, ...]:
    """Read exercises from TOML texts, each with its name.

    A text holds ``[[exercise]]`` tables. Its ``[defaults]`` fill what an exercise leaves out; the
    keys of ``needs`` are merged. ``easier`` is written by hand and ``harder`` follows from it.
    """
    rows: dict[str, dict[str, Any]] = {}
    for file_name, text in texts:
        for place, row in _rows(file_name, text):
            if row.get("id") in rows:
                raise InvalidInput(place, f"the id {row['id']!r} is used twice", "Give it its own")
            rows[row.get("id", place)] = row
    for row in rows.values():
        for easier in row.get("easier", ()):
            if easier not in rows:
                raise InvalidInput(
                    f"{row['id']}.easier",
                    f"{easier!r} is not in the library",
                    _nearest_advice(easier, rows),
                )
    _refuse_circles(rows)
    for exercise_id, row in rows.items():
        row["harder"] = [key for key, r in rows.items() if exercise_id in r.get("easier", ())]
    return tuple(_validated(Exercise, row, key) for key, row in rows.items())


@cache
def _by_id() -> Mapping[str, Exercise]:
    return {e.id: e for e in exercises()}


def _texts(folder: str) -> Iterator[tuple[str, str]]:
    """Name and text of every TOML file in a folder of this package, in order of name."""
    found = [f for f in files(__name__).joinpath(folder).iterdir() if f.name.endswith(".toml")]
    for entry in sorted(found, key=lambda f: f.name):
        yield entry.name, entry.read_text(encoding="utf-8")


def _parsed(file_name: str, text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InvalidInput(file_name, f"it is not TOML: {error}", "Mend that line") from error


def _rows(file_name: str, text: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Place and fields of every exercise of a text, its defaults filled in."""
    document = _parsed(file_name, text)
    defaults = document.get("defaults", {})
    for index, row in enumerate(document.get("exercise", ())):
        filled = {**defaults, **row}
        if "needs" in defaults and "needs" in row:
            filled["needs"] = {**defaults["needs"], **row["needs"]}
        yield f"{file_name}: exercise[{index}]", filled


def _refuse_circles(rows: Mapping[str, Mapping[str, Any]]) -> None:
    """Easier and harder must be a partial order: nothing is easier than itself."""
    try:
        tuple(TopologicalSorter({k: r.get("easier", ()) for k, r in rows.items()}).static_order())
    except CycleError as error:
        circle = " is easier than ".join(error.args[1])
        raise InvalidInput("easier", f"it goes round in a circle: {circle}", "Cut it") from error


@cache
def _adapter(kind: Any) -> "TypeAdapter[Any]":
    """What turns fields into a value; a stray key is refused.

    Pydantic hands that rule down only from a container, so a value travels as a tuple of one.
    """
    from pydantic import ConfigDict, TypeAdapter

    return TypeAdapter(tuple[kind], config=ConfigDict(extra="forbid"))


def _validated(kind: type[_T], fields: Mapping[str, Any], place: str) -> _T:
    """Fields as a frozen value of the model; an unknown or wrong field names its place."""
    from pydantic import ValidationError

    adapter = _adapter(kind)  # type: ignore[arg-type]  # a class is hashable
    try:
        value: _T = adapter.validate_python((fields,))[0]
    except ValidationError as error:
        first = error.errors()[0]
        path = ".".join(str(part) for part in first["loc"][1:])
        raise InvalidInput(
            f"{place}: {path}", f"{first['msg']} (found {first['input']!r})", "Mend the library"
        ) from error
    return value


def _nearest_advice(name: str, known: Iterable[str]) -> str:
    nearest = get_close_matches(name, list(known), n=3, cutoff=0.4)
    if not nearest:
        return "See the list in docs/reference/exercises.md"
    return "The nearest are " + ", ".join(nearest)
