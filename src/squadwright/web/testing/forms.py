"""A sheet of results as typed, cell by cell: a number, with its unit where it has another one."""

import re
from decimal import Decimal

from squadwright.library.test_columns import Column, methods_of, written
from squadwright.model.club import Club
from squadwright.model.fitness_test import FitnessTest
from squadwright.services.test_entry import Cell, WrittenRow, WrittenSheet, cell_name
from squadwright.web.forms import Form, cut

NO_ATTEMPT = ("-", "x", "X")
_CELL = re.compile(r"(?P<number>[0-9]{1,7}(?:\.[0-9]{1,4})?)\s*(?P<unit>[A-Za-z/]{1,12})?")
MOST_PLACES = 12


def who_of(form: Form, club: Club) -> dict[str, int | None]:
    """Athletes in the order of a day, each with which test of his day it is."""
    known = {athlete.id for athlete in club.athletes}
    found: dict[str, int | None] = {}
    for name, value in form.items():
        athlete, _, place = value.rpartition("~")
        if name == "who" and athlete in known and place.isdecimal() and place.isascii():
            number = int(place[:3])
            found[athlete] = number if 1 <= number <= MOST_PLACES else None
    return found


def read_sheet(form: Form, test: FitnessTest, club: Club) -> WrittenSheet:
    """What was written for everybody; empty rows are left out."""
    plan = written(test)
    places = who_of(form, club)
    method = form.choice("method", "Method", methods_of(test))
    day = form.day("day", "Day")
    unit = _unit_of_all(form, plan.columns)
    kit = form.text("kit", "Kit", is_required=False)
    note = form.text("note", "Note", is_required=False, longest=1000)
    names = club.shown_names()
    rows = []
    for athlete in club.athletes:
        cells = [
            _cell(form, athlete.id, names[athlete.id], column, unit) for column in plan.columns
        ]
        done = tuple(cell for cell in cells if cell is not None)
        if not done:
            continue
        if plan.are_attempts:
            _refuse_two_units(form, athlete.id, names[athlete.id], done)
        else:
            _refuse_missing(form, athlete.id, names[athlete.id], plan.columns)
        rows.append(WrittenRow(athlete.id, done, places.get(athlete.id)))
    _refuse_gone(form, names)
    form.done()
    return WrittenSheet(test, method, day, tuple(rows), kit, note)


def athlete_of_cell(field: str) -> str:
    """The id of the athlete a field is of; empty where it is no cell."""
    start, _, rest = field.partition("-")
    return rest.rpartition("-")[0] if start == "cell" else ""


def units_of(columns: tuple[Column, ...]) -> tuple[str, ...]:
    """Units to choose from for the whole sheet; none where columns have units of their own."""
    return tuple(columns[0].units) if len({c.unit for c in columns}) == 1 else ()


def _unit_of_all(form: Form, columns: tuple[Column, ...]) -> str:
    units = units_of(columns)
    return form.choice("unit", "Unit", units) if len(units) > 1 else ""


def _cell(form: Form, athlete: str, name: str, column: Column, unit: str) -> Cell | None:
    field, label = cell_name(athlete, column.key), f"{name}, {column.label.lower()}"
    typed = form.raw(field)
    if not typed or typed in NO_ATTEMPT:
        return None
    match = _CELL.fullmatch(typed)
    own = unit if unit in column.units else column.unit
    known = {each.casefold(): each for each in column.units}
    if match is None or (match["unit"] or own).casefold() not in known:
        words = " or ".join(f"32.5 {each}" for each in list(column.units)[:2])
        form.refuse(field, label, f"{cut(typed)!r} is no result", f"Write it like {words}")
        return None
    number = Decimal(match["number"])
    if not number:
        form.refuse(field, label, "0 is no result", "Write - for an attempt that failed")
        return None
    if column.is_whole and number != number.to_integral_value():
        form.refuse(field, label, f"{typed} is not a whole number", "Count whole ones")
        return None
    return Cell(column, number, known[(match["unit"] or own).casefold()])


def _refuse_two_units(form: Form, athlete: str, name: str, cells: tuple[Cell, ...]) -> None:
    other = next((cell for cell in cells if cell.unit != cells[0].unit), None)
    if other is not None:
        form.refuse(
            cell_name(athlete, other.column.key),
            name,
            f"one attempt is in {cells[0].unit} and another in {other.unit}",
            "Write all attempts of a row in one unit",
        )


def _refuse_missing(form: Form, athlete: str, name: str, columns: tuple[Column, ...]) -> None:
    for column in columns:
        field = cell_name(athlete, column.key)
        if form.raw(field) in ("", *NO_ATTEMPT):
            form.refuse(
                field,
                f"{name}, {column.label.lower()}",
                "is empty",
                "The number of this test needs every column; or empty the row",
            )


def _refuse_gone(form: Form, names: dict[str, str]) -> None:
    """Results of somebody who was removed meanwhile are not stored in silence."""
    for field, typed in form.items():
        athlete = athlete_of_cell(field)
        if athlete and athlete not in names and typed.strip():
            form.refuse(
                field,
                athlete,
                "is no more in the squad",
                "Empty the row, or take the athlete in again",
            )
