"""Use case: write the results of a test for the squad, all of them or none."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.exchange.doubtful import Doubt, Meaning
from squadwright.library.test_columns import Column, in_unit, shown_unit, written
from squadwright.model.diary import TestResult
from squadwright.model.fitness_test import FitnessTest
from squadwright.planning.test_day.barred import barred_from
from squadwright.services.asking import ask
from squadwright.services.diary import Told, write_diary
from squadwright.services.test_results import Result, Results, results_of_tests
from squadwright.services.unit_of_work import Keeper
from squadwright.words import long_date

CHANGE_FRACTION = 0.25
"""A result further than this from the one before is asked about: our default."""
NO_CLUB = InvalidInput("The club", "is not there yet", "Name it first")


@dataclass(frozen=True)
class Cell:
    """One number as typed: digits and the unit they are in."""

    column: Column
    number: Decimal
    unit: str

    @property
    def value(self) -> float:
        """In the unit of its column."""
        return float(self.number) * self.column.units[self.unit]

    @property
    def text(self) -> str:
        """As typed, with its unit."""
        return f"{self.number} {self.unit}"


@dataclass(frozen=True)
class WrittenRow:
    """What was written for one athlete; ``place`` is which test of his day it was."""

    athlete: str
    cells: tuple[Cell, ...]
    place: int | None = None


@dataclass(frozen=True)
class WrittenSheet:
    """What was written for the squad at one test on one day."""

    test: FitnessTest
    method: str
    day: date
    rows: tuple[WrittenRow, ...]
    kit: str = ""
    note: str = ""


def cell_name(athlete: str, column: str) -> str:
    """The name of a field: one thing written for one athlete."""
    return f"cell-{athlete}-{column}"


def write_sheet(
    keeper: Keeper, sheet: WrittenSheet, *, author: str, today: date, now: datetime, answer: str
) -> str:
    """Store every row, or nothing; gives the mark of the step. Asked where one is doubtful."""
    known = results_of_tests(keeper)
    if known is None:
        raise NO_CLUB
    if not sheet.rows:
        raise InvalidInput("The results", "nothing was written", "Fill in at least one athlete")
    _refuse_barred(known, sheet)
    told = [Told(row.athlete, sheet.day, content_of(sheet, row)) for row in sheet.rows]
    ask(_doubts(known, sheet, told), answer)
    return write_diary(keeper, told, author=author, today=today, now=now)


def content_of(sheet: WrittenSheet, row: WrittenRow) -> TestResult:
    """A row as the diary keeps it: attempts as typed, the number that counts, its method."""
    plan = written(sheet.test)
    values = [cell.value for cell in row.cells]
    try:
        value = plan.number(values, sheet.method)
    except OutsidePublishedRange as error:
        raise InvalidInput(
            cell_name(row.athlete, row.cells[0].column.key), str(error), "Check the numbers"
        ) from error
    unit = row.cells[0].unit if plan.are_attempts else sheet.test.unit
    return TestResult(
        test=sheet.test.id,
        value=round(in_unit(sheet.test, value, sheet.test.unit, unit), 6),
        unit=unit,
        method=sheet.method,
        attempts=tuple(float(cell.number) for cell in row.cells),
        place=row.place,
        kit=sheet.kit,
        note=sheet.note,
    )


def _refuse_barred(known: Results, sheet: WrittenSheet) -> None:
    names = known.club.shown_names()
    for row in sheet.rows:
        athlete = known.club.athlete(row.athlete)
        reasons = barred_from(sheet.test, athlete, sheet.day, method=sheet.method)
        if reasons:
            raise InvalidInput(
                cell_name(row.athlete, row.cells[0].column.key),
                f"{names[row.athlete]} must not do this test: {'; '.join(reasons)}",
                "Leave the row empty; medical staff and local rules come first",
            )


def _doubts(known: Results, sheet: WrittenSheet, told: Sequence[Told]) -> Iterator[Doubt | None]:
    names = known.club.shown_names()
    for row, each in zip(sheet.rows, told, strict=True):
        name = names[row.athlete]
        unusual = [_unusual(name, row.athlete, cell) for cell in row.cells]
        yield from unusual
        assert isinstance(each.content, TestResult)
        yield _twice(name, row, sheet, known.by_athlete[row.athlete])
        if not any(unusual):
            yield _far(name, row, sheet, each.content, known.by_athlete[row.athlete])


def _unusual(name: str, athlete: str, cell: Cell) -> Doubt | None:
    """A number few people have; with the units and points that would make it usual."""
    low, high = cell.column.usual
    if low <= cell.value <= high:
        return None
    place = cell_name(athlete, cell.column.key)
    tries = [(cell.number, unit) for unit in cell.column.units if unit != cell.unit]
    tries += [(cell.number.scaleb(shift), cell.unit) for shift in (-1, 1, -2)]
    sound = [
        f"{number.normalize():f} {unit}"
        for number, unit in tries
        if low <= float(number) * cell.column.units[unit] <= high
    ]
    factor = cell.column.units[cell.unit]
    question = (
        f"{name}, {cell.column.label.lower()}: {cell.text}? "
        f"Usual is {low / factor:.3g} to {high / factor:.3g} {cell.unit}."
    )
    meanings = tuple(Meaning(words, ((place, words),)) for words in dict.fromkeys(sound))
    return Doubt(place, question, f"{name} {cell.text}", meanings)


def _twice(name: str, row: WrittenRow, sheet: WrittenSheet, own: Sequence[Result]) -> Doubt | None:
    same = [r for r in own if _is_same(r, sheet) and r.day == sheet.day]
    if not same:
        return None
    place = cell_name(row.athlete, row.cells[0].column.key)
    question = f"{name} has a result of that day already: {same[-1].typed}. Once more?"
    return Doubt(place, question, f"{name} once more")


def _far(
    name: str,
    row: WrittenRow,
    sheet: WrittenSheet,
    content: TestResult,
    own: Sequence[Result],
) -> Doubt | None:
    """A result far from the one before it by the same method."""
    before = [r for r in own if _is_same(r, sheet) and r.day < sheet.day]
    if not before or not before[-1].measured.value:
        return None
    last = before[-1]
    unit = shown_unit(sheet.test)
    value = in_unit(sheet.test, content.value, content.unit, unit)
    change = value / last.measured.value - 1
    if abs(change) <= CHANGE_FRACTION:
        return None
    question = (
        f"{name}: {value:.3g} {unit}? On {long_date(last.day)} it was "
        f"{last.measured.value:.3g} {unit}."
    )
    place = cell_name(row.athlete, row.cells[0].column.key)
    return Doubt(place, question, f"{name} {value:.3g} {unit}")


def _is_same(result: Result, sheet: WrittenSheet) -> bool:
    return (result.test, result.measured.method) == (sheet.test.id, sheet.method)
