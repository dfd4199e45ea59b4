"""Cells of a roster: read where only one thing can be meant, else asked about with what may be."""

from datetime import date

import pytest

from roster_files import DOUBTFUL, csv_text
from squadwright.demo import demo_club
from squadwright.exchange.roster import Answers, preview, recognised
from squadwright.exchange.roster_cells import Around, Field, read_cell
from squadwright.exchange.roster_file import Table, read_roster_file
from squadwright.exchange.squad_csv import guarded, squad_csv
from squadwright.model.athlete import Level, Sex

TODAY = date(2026, 3, 2)


def read(field: Field, text: str, head: str = "", **row: str):  # type: ignore[no-untyped-def]
    others = {Field[name.upper()]: value for name, value in row.items()}
    return read_cell(field, text, Around(head, TODAY, others))


@pytest.mark.parametrize(
    ("heads", "fields"),
    [
        (("Athlete", "D.O.B.", "Gender"), (Field.NAME, None, Field.SEX)),
        (("Full Name", "Date of birth", "M/F"), (Field.NAME, Field.BIRTH_DATE, Field.SEX)),
        (("surname", "First name"), (Field.LAST_NAME, Field.FIRST_NAME)),
        (("Weight (lb)", "Height cm"), (Field.BODY_MASS, Field.STATURE)),
        (("Weight class", "Weight"), (Field.WEIGHT_CLASS, Field.BODY_MASS)),
        (("name", "Name", "shoe size"), (Field.NAME, None, None)),
    ],
)
def test_columns_are_known_by_their_heads(
    heads: tuple[str, ...], fields: tuple[Field | None, ...]
) -> None:
    assert recognised(heads) == fields


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2007-04-03", date(2007, 4, 3)),
        ("2007/4/3", date(2007, 4, 3)),
        ("3.4.2007", date(2007, 4, 3)),
        ("23/04/2007", date(2007, 4, 23)),
        ("04/23/2007", date(2007, 4, 23)),
        ("04/04/2007", date(2007, 4, 4)),
        ("3 Apr 2007", date(2007, 4, 3)),
        ("April 3rd, 2007", date(2007, 4, 3)),
        ("23.04.07", date(2007, 4, 23)),
    ],
)
def test_a_date_that_can_mean_one_day_only_is_read(text: str, day: date) -> None:
    assert read(Field.BIRTH_DATE, text).value == day
    assert read(Field.BIRTH_DATE, text).doubt == ""


@pytest.mark.parametrize(
    ("text", "told", "meanings"),
    [
        ("03/04/2007", "may be 3 April 2007 or 4 March 2007", {"2007-03-04", "2007-04-03"}),
        ("39175", "may be a day as spreadsheets count them", {"2007-04-03"}),
        ("2007", "is only a year", set()),
        ("31.02.2007", "is no day of the calendar", set()),
        ("yesterday", "is not a date", set()),
        ("", "there is no birth date", set()),
        ("2097-01-01", "lies in the future", set()),
        ("2024-01-01", "the limits are 5 and 90 years", set()),
        ("1920-01-01", "the limits are 5 and 90 years", set()),
    ],
)
def test_any_other_date_is_asked_about(text: str, told: str, meanings: set[str]) -> None:
    found = read(Field.BIRTH_DATE, text)
    assert told in found.doubt
    assert found.value is None
    assert not found.stands
    assert {way for way, _ in found.meanings} == meanings


def test_an_odd_age_may_stand() -> None:
    found = read(Field.BIRTH_DATE, "1953-01-01")
    assert (found.value, found.stands) == (date(1953, 1, 1), True)
    assert "73 years old?" in found.doubt


@pytest.mark.parametrize(
    ("text", "head", "mass"),
    [
        ("77.5", "Weight", "77.5 kg"),
        ("77,5 kg", "", "77.5 kg"),
        ("170", "Weight (lb)", "170 lb"),
        ("170 lbs", "Weight (kg)", "170 lb"),
    ],
)
def test_a_mass_with_its_unit_in_the_cell_or_the_head(text: str, head: str, mass: str) -> None:
    found = read(Field.BODY_MASS, text, head)
    assert str(found.value) == mass
    assert found.doubt == ""


@pytest.mark.parametrize(
    ("text", "others", "told", "meanings"),
    [
        # 170 lb is 77.1 kg: international pound of 1959, 0.45359237 kg.
        ("170", {}, "Few athletes weigh that", ["170 lb"]),
        ("170", {"weight_class": "-80"}, "Pounds? 170 lb is 77.1 kg.", ["170 lb"]),
        ("770", {"weight_class": "-80"}, "The limit of the class is 80.0 kg.", ["77 kg"]),
        ("heavy", {}, "is not a mass", []),
        ("12", {}, "Few athletes weigh that", []),
    ],
)
def test_a_mass_that_is_seldom_right_is_asked_about(
    text: str, others: dict[str, str], told: str, meanings: list[str]
) -> None:
    found = read(Field.BODY_MASS, text, **others)
    assert told in found.doubt
    assert [way for way, _ in found.meanings] == meanings


@pytest.mark.parametrize(
    ("text", "head", "metres"),
    [
        ("172", "", 1.72),
        ("1.72", "", 1.72),
        ("1,72 m", "", 1.72),
        ("172 cm", "Height (in)", 1.72),
        # 68 in and 5 ft 8 in are 1.7272 m: 0.0254 m to the inch since 1959.
        ("68", "Height (in)", 1.727),
        ("5'8\"", "", 1.727),
        ("5 ft 8 in", "", 1.727),
    ],
)
def test_stature_in_the_units_people_write(text: str, head: str, metres: float) -> None:
    found = read(Field.STATURE, text, head)
    assert found.value == pytest.approx(metres, abs=0.0005)
    assert found.doubt == ""


def test_a_bare_number_that_fits_inches_only_is_asked_about() -> None:
    found = read(Field.STATURE, "68")
    assert "in which unit?" in found.doubt
    assert found.meanings == (("173 cm", "68 in"),)


@pytest.mark.parametrize("text", ["=1+1", "@x", "+cmd", "a\u202eb"])
@pytest.mark.parametrize("field", list(Field))
def test_formulas_and_unseen_characters_never_pass(field: Field, text: str) -> None:
    assert read(field, text).doubt
    assert not read(field, text).stands


@pytest.mark.parametrize(
    ("field", "text", "value"),
    [
        (Field.SEX, "F", Sex.FEMALE),
        (Field.SEX, "man", Sex.MALE),
        (Field.LEVEL, "Beginner", Level.NOVICE),
        (Field.TRAINING_YEARS, "2,5", 2.5),
        (Field.TRAINING_YEARS, "3 years", 3.0),
        (Field.WEIGHT_CLASS, "-74", "-74"),
    ],
)
def test_plain_cells(field: Field, text: str, value: object) -> None:
    assert read(field, text).value == value
    assert read(field, text).doubt == ""


def test_more_training_than_life_is_asked_about() -> None:
    found = read(Field.TRAINING_YEARS, "20", birth_date="2010-01-01")
    assert "20 years of training at an age of 16" in found.doubt


def test_the_file_of_twelve_has_five_cells_in_doubt() -> None:
    table = read_roster_file("squad.csv", csv_text().encode())
    squad = demo_club(TODAY).athletes
    rows = preview(table, recognised(table.heads), squad, Answers({}), today=TODAY)
    assert [(r.name, [c.field for c in r.open_cells]) for r in rows if r.open_cells] == [
        ("Dagny Pereswold", [Field.BIRTH_DATE]),
        ("Emrys Fountayne", [Field.BODY_MASS]),
        ("Gwendal Astervik", [Field.LEVEL]),
        ("Marisol Quenaya", [Field.NAME]),
        ("Jorunn Ekwueme", [Field.BIRTH_DATE]),
    ]
    assert sum(len(r.open_cells) for r in rows) == DOUBTFUL
    assert rows[8].value(Field.STATURE) == pytest.approx(1.803, abs=0.0005)


def test_the_same_name_twice_in_a_file_is_asked_about() -> None:
    table = Table(("Name",), (("Ann Example",), ("",), ("ann  éxample",)))
    rows = preview(table, (Field.NAME,), (), Answers({}), today=TODAY)
    doubt = next(c for c in rows[2].cells if c.field is Field.NAME).reading
    assert "Ann Example stands in line 1 too" in doubt.doubt
    assert doubt.stands


@pytest.mark.parametrize("text", ["=1+1", "+1", "-74", "@a", "\tx", "\rx"])
def test_no_spreadsheet_computes_what_goes_out(text: str) -> None:
    assert guarded(text) == f"'{text}"


def test_what_goes_out_comes_back_in() -> None:
    squad = demo_club(TODAY).athletes
    table = read_roster_file("squad.csv", squad_csv(squad, today=TODAY))
    rows = preview(table, recognised(table.heads), (), Answers({}), today=TODAY)
    for athlete, row in zip(squad, rows, strict=True):
        open_fields = {c.field for c in row.open_cells}
        # The demo club's A06 has a mass typed in pounds, and two are called Sami Darwazin.
        assert open_fields <= {Field.NAME}
        assert row.value(Field.BIRTH_DATE) == athlete.birth_date
        assert row.value(Field.LEVEL) is athlete.level
        assert row.value(Field.WEIGHT_CLASS) == athlete.weight_class
        assert row.value(Field.STATURE) == athlete.stature_m
