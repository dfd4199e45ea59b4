"""A roster as a preview: columns recognised by their heads, each cell read, each doubt told."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from hashlib import sha256

from squadwright.exchange.alike import alike
from squadwright.exchange.roster_cells import Around, Field, Reading, read_cell
from squadwright.exchange.roster_file import Table
from squadwright.model.athlete import Athlete
from squadwright.model.erased import Erased

HEAD_WORDS: Mapping[Field, tuple[str, ...]] = {
    Field.NAME: ("name", "athlete", "full name", "athlete name", "member"),
    Field.FIRST_NAME: ("first name", "first", "given name", "forename"),
    Field.LAST_NAME: ("last name", "last", "surname", "family name"),
    Field.BIRTH_DATE: ("birth date", "birthdate", "date of birth", "dob", "born", "birthday"),
    Field.SEX: ("sex", "gender", "m f", "f m"),
    Field.LEVEL: ("level", "experience level", "standard"),
    Field.SPORT: ("sport", "discipline", "style"),
    Field.SQUAD: ("squad", "group", "team", "squads"),
    Field.WEIGHT_CLASS: ("class", "weight class", "weight category", "category", "division"),
    Field.BODY_MASS: ("body mass", "weight", "mass", "body weight", "bodyweight"),
    Field.STATURE: ("stature", "height", "body height"),
    Field.TRAINING_YEARS: (
        "years of training",
        "training age",
        "training years",
        "years trained",
        "experience",
    ),
    Field.NOTE: ("note", "notes", "remark", "remarks", "comment", "comments"),
}
REQUIRED = (Field.NAME, Field.BIRTH_DATE, Field.SEX, Field.LEVEL, Field.SPORT)
UNIT_WORDS = frozenset({"kg", "kgs", "lb", "lbs", "cm", "m", "in", "inch", "inches", "years"})
# In the order in which a row is shown, and in which the squad is written to a file.
SHOWN = (
    Field.NAME,
    Field.BIRTH_DATE,
    Field.SEX,
    Field.LEVEL,
    Field.SPORT,
    Field.SQUAD,
    Field.WEIGHT_CLASS,
    Field.BODY_MASS,
    Field.STATURE,
    Field.TRAINING_YEARS,
    Field.NOTE,
)


@dataclass(frozen=True)
class Cell:
    """One cell of the preview. ``code`` confirms its doubt as it stands, and nothing else."""

    field: Field
    text: str
    reading: Reading
    code: str
    is_confirmed: bool

    @property
    def is_open(self) -> bool:
        """Whether it keeps its row from being taken in."""
        return bool(self.reading.doubt) and not (self.reading.stands and self.is_confirmed)


@dataclass(frozen=True)
class Row:
    """One athlete of the preview; ``number`` is the line under the head, from 1."""

    number: int
    cells: tuple[Cell, ...]
    is_left_out: bool

    def value(self, field: Field) -> object:
        """What a cell says; None where there is none."""
        return next((c.reading.value for c in self.cells if c.field is field), None)

    @property
    def name(self) -> str:
        """The name as typed."""
        return next((c.text for c in self.cells if c.field is Field.NAME), "")

    @property
    def open_cells(self) -> tuple[Cell, ...]:
        """The cells that are still in doubt."""
        return () if self.is_left_out else tuple(c for c in self.cells if c.is_open)


@dataclass(frozen=True)
class Answers:
    """What the coach has said to a preview so far.

    ``edited`` are texts by line and field, ``confirmed`` codes of doubts that are so, ``left_out``
    lines, ``for_all`` what stands in every cell of a field that is empty.
    """

    edited: Mapping[tuple[int, Field], str]
    confirmed: frozenset[str] = frozenset()
    left_out: frozenset[int] = frozenset()
    for_all: Mapping[Field, str] | None = None


@dataclass(frozen=True)
class _Known:
    """Whom a name may belong to: the squad, earlier lines, who was erased."""

    squad: Sequence[Athlete]
    earlier: Sequence["_Line"]
    erased: Sequence[Erased]


@dataclass(frozen=True)
class _Line:
    """The name in a line of the file."""

    number: int
    name: str


def recognised(heads: Sequence[str]) -> tuple[Field | None, ...]:
    """What each column holds by its head; a field is given to the first column that fits."""
    found: list[Field | None] = []
    for head in heads:
        words = re.findall(r"[a-z]+", head.casefold())
        ways = (" ".join(words), " ".join(w for w in words if w not in UNIT_WORDS))
        field = next((f for way in ways for f, known in HEAD_WORDS.items() if way in known), None)
        found.append(None if field in found else field)
    return tuple(found)


def preview(
    table: Table,
    columns: Sequence[Field | None],
    squad: Sequence[Athlete],
    answers: Answers,
    *,
    today: date,
    erased: Sequence[Erased] = (),
) -> tuple[Row, ...]:
    """Every line of a table read with its columns; nothing is stored.

    Who stands on the list of the erased is asked about before he comes back.
    """
    texts = [
        _texts(number, line, columns, answers) for number, line in enumerate(table.rows, start=1)
    ]
    heads = {field: head for field, head in zip(columns, table.heads, strict=True) if field}
    lines = [_Line(number, row[Field.NAME]) for number, row in enumerate(texts, start=1)]
    rows = []
    for number, row in enumerate(texts, start=1):
        others = _Known(squad, lines[: number - 1], erased)
        rows.append(
            Row(
                number,
                tuple(
                    _cell(field, row, heads.get(field, ""), others, answers, today)
                    for field in SHOWN
                    if field in row
                ),
                number in answers.left_out,
            )
        )
    return tuple(rows)


def _texts(
    number: int, line: Sequence[str], columns: Sequence[Field | None], answers: Answers
) -> dict[Field, str]:
    """The texts of a line by field: from the file, as edited, and for all where it is empty."""
    found = {field: text for field, text in zip(columns, line, strict=True) if field is not None}
    first, last = found.pop(Field.FIRST_NAME, ""), found.pop(Field.LAST_NAME, "")
    if not found.get(Field.NAME):
        found[Field.NAME] = " ".join(filter(None, (first, last)))
    for field in REQUIRED:
        found.setdefault(field, "")
    for field in SHOWN:
        edited = answers.edited.get((number, field))
        if edited is not None:
            found[field] = edited
    for field, text in (answers.for_all or {}).items():
        if text and not found.get(field):
            found[field] = text
    return {field: _without_guard(text) for field, text in found.items()}


def _without_guard(text: str) -> str:
    """A text without the mark that keeps a spreadsheet from computing it."""
    return text[1:] if text[:1] == "'" and text[1:2] in ("=", "+", "-", "@") else text


def _cell(
    field: Field,
    row: Mapping[Field, str],
    head: str,
    others: _Known,
    answers: Answers,
    today: date,
) -> Cell:
    text = row[field]
    reading = read_cell(field, text, Around(head, today, row))
    if field is Field.NAME and not reading.doubt:
        born = read_cell(Field.BIRTH_DATE, row[Field.BIRTH_DATE], Around(head, today, row)).value
        reading = _erased(text, born, others.erased) or _known_already(text, others)
    code = sha256(f"{field}\n{text}\n{reading.doubt}".encode()).hexdigest()[:16]
    return Cell(field, text, reading, code, code in answers.confirmed)


def _erased(name: str, born: object, erased: Sequence[Erased]) -> Reading | None:
    """Somebody of this name and birth date who was erased for good; None: nobody was."""
    if not isinstance(born, date):
        return None
    mark = next((each for each in erased if each.is_person(name, born)), None)
    if mark is None:
        return None
    question = (
        f"somebody of this name and birth date was erased for good on {mark.erased_on}. "
        "Take this athlete in again? Only on the wish of the athlete, or of a minor's guardian"
    )
    return Reading(name, question, stands=True)


def _known_already(name: str, others: _Known) -> Reading:
    """A name that looks like one of the squad, or like one of an earlier line."""
    near = alike(name, others.squad)
    if near:
        known = " and ".join(f"{a.name}, born {a.birth_date.year}" for a in near[:3])
        verb = "is" if len(near) == 1 else "are"
        return Reading(name, f"{known}, {verb} in the squad already. Another person?", True)
    twice = alike(name, others.earlier)
    if twice:
        question = f"{twice[0].name} stands in line {twice[0].number} too. Another person?"
        return Reading(name, question, stands=True)
    return Reading(name)
