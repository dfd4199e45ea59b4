"""Any file gives a table or one clear sentence: encodings, delimiters, workbooks, hostile files."""

import io
import zipfile
from datetime import date, datetime

import pytest

from hostile_files import with_part
from roster_files import HEADS, LINES, csv_text, xlsx_bytes
from squadwright.errors import InvalidInput
from squadwright.exchange.roster_file import MOST_BYTES, MOST_COLUMNS, MOST_ROWS, read_roster_file


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "cp1252", "utf-16", "utf-16-le", "utf-16-be"]
)
def test_common_delimiters_and_encodings_give_the_same_table(delimiter: str, encoding: str) -> None:
    text = csv_text(delimiter).replace("Okonjo", "Ökönjö")
    table = read_roster_file("squad.csv", text.encode(encoding))
    assert table.heads == HEADS
    assert table.rows[1][0] == "Brisa Ökönjö-Weld"
    assert table.rows[8][7] == "5'11\""
    assert len(table.rows) == len(LINES)


def test_a_workbook_gives_the_same_table_whatever_its_name() -> None:
    assert read_roster_file("squad.csv", xlsx_bytes()).rows == LINES


def test_numbers_and_dates_of_a_workbook_are_read_as_shown() -> None:
    lines = (("Name", "Born", "Weight"), ("A B", datetime(2001, 2, 3), 77.0), ("C", date.min, 5))
    table = read_roster_file("x.xlsx", xlsx_bytes(lines[:2]))
    assert table.rows == (("A B", "2001-02-03", "77"),)


def test_a_formula_stays_the_text_of_the_formula() -> None:
    lines = (("Name", "Weight"), ("A B", '=HYPERLINK("http://example.org","x")'), ("C D", "=1+1"))
    table = read_roster_file("x.xlsx", xlsx_bytes(lines))
    assert table.rows[1] == ("C D", "=1+1")


def bomb(size: int) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        package.writestr("xl/workbook.xml", b" " * size)
    return out.getvalue()


ENTITIES = b'<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b "ha">]><a>&b;</a>'
HOSTILE = {
    "nothing": (b"", "is empty"),
    "blanks": (b" \r\n \n", "is empty"),
    "one line": (b"Name,Born\r\n", "has no line under its head"),
    "only commas": (b",,,\r\n,,,\r\n", "holds nothing that can be read"),
    "too large": (b"a,b\n" * (MOST_BYTES // 3), "more than 1 MB"),
    "too many lines": (b"Name,Born\n" + b"A,2000\n" * (MOST_ROWS + 1), f"more than {MOST_ROWS}"),
    "too many columns": (
        b",".join(b"c%d" % i for i in range(60_000)) + b"\n" + b"x,y\n",
        f"{MOST_COLUMNS} are the most",
    ),
    "an old workbook": (b"\xd0\xcf\x11\xe0" + b"\x00" * 600, "old or locked kind"),
    "a picture": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "is no text and no XLSX file"),
    "nulls": (b"\x00" * 500, "is no text and no XLSX file"),
    "half a package": (xlsx_bytes()[:900], "cannot be opened"),
    "a package of another kind": (bomb(10), "cannot be read"),
    "a bomb": (bomb(300_000_000), "unpacks to more than 12 MB"),
    "entities": (with_part("xl/sharedStrings.xml", ENTITIES), "declares entities"),
    "entities in UTF-16": (
        with_part("xl/sharedStrings.xml", ENTITIES.decode().encode("utf-16")),
        "declares entities",
    ),
    "a broken sheet": (with_part("xl/worksheets/sheet1.xml", b"<worksheet><"), "cannot be read"),
    "no workbook": (with_part("xl/workbook.xml", b""), "cannot be read"),
}


@pytest.mark.parametrize("kind", HOSTILE)
def test_a_hostile_file_gives_one_clear_sentence(kind: str) -> None:
    data, told = HOSTILE[kind]
    with pytest.raises(InvalidInput, match=told) as refused:
        read_roster_file("squad.csv", data)
    assert "\n" not in str(refused.value)
    assert len(str(refused.value)) < 200


def test_a_million_columns_in_a_workbook_are_refused_at_once() -> None:
    row = b"".join(b'<c r="%s1" t="n"><v>1</v></c>' % name for name in (b"A", b"B", b"XFD"))
    sheet = (
        b'<?xml version="1.0"?><worksheet xmlns="http://schemas.openxmlformats.org/'
        b'spreadsheetml/2006/main"><dimension ref="A1:XFD1048576"/><sheetData>'
        b'<row r="1">' + row + b'</row><row r="2">' + row.replace(b'1"', b'2"') + b"</row>"
        b"</sheetData></worksheet>"
    )
    # Cells so far out are not even looked at: two columns are left.
    table = read_roster_file("x.xlsx", with_part("xl/worksheets/sheet1.xml", sheet))
    assert table.heads == ("1", "1")
    wide = (tuple(f"c{i}" for i in range(50)), tuple(range(50)))
    with pytest.raises(InvalidInput, match=f"{MOST_COLUMNS} are the most"):
        read_roster_file("x.xlsx", xlsx_bytes(wide))


def test_a_cell_that_is_too_long_is_cut_where_it_can_be_seen() -> None:
    table = read_roster_file("x.csv", b"Name,Note\nA," + b"x" * 900 + b"\n")
    assert table.rows[0][1].endswith("x\N{HORIZONTAL ELLIPSIS}")
    assert len(table.rows[0][1]) == 300
