"""An invented roster of twelve as files of several kinds, with five cells in doubt."""

import io

import openpyxl

HEADS = ("Name", "Born", "Sex", "Level", "Sport", "Squad", "Weight (kg)", "Height (cm)")
LINES = (
    ("Aurelio Tanhauser", "1999-05-14", "m", "advanced", "judo", "Ground", "81.2", "178"),
    ("Brisa Okonjo-Weld", "2001-11-02", "f", "intermediate", "judo", "Ground", "57,4", "165"),
    ("Casimir Lindqvarn", "23.04.2008", "m", "novice", "wrestling", "Mat", "66", "171"),
    # Two orders of day and month.
    ("Dagny Pereswold", "03/04/2007", "f", "novice", "wrestling", "Mat", "55.1", "163"),
    # Pounds in a column of kilograms.
    ("Emrys Fountayne", "12 Jul 1996", "m", "advanced", "grappling", "Cage", "170", "180"),
    ("Filippa Rosencrag", "1994-02-28", "f", "advanced", "MMA", "Cage", "61.0", "168"),
    # A level that is none of ours.
    ("Gwendal Astervik", "2000-09-09", "m", "black belt", "judo", "Ground", "73.5", "175"),
    # Metres and feet in a column of centimetres; the second cell needs no question.
    ("Hedda Moncrieffe", "2003-01-30", "f", "intermediate", "MMA", "Cage", "64.8", "1.70 m"),
    ("Ivo Castellane-Rask", "1998-06-17", "m", "intermediate", "MMA", "Cage", "84.4", "5'11\""),
    # In the squad already (the demo club has a Marisol Quenaya).
    ("Marisol Quenaya", "2008-07-19", "f", "intermediate", "wrestling", "Mat", "58.9", "163"),
    # Born in the future.
    ("Jorunn Ekwueme", "2097-03-03", "f", "novice", "judo", "Fry", "41.0", "150"),
    ("Kester Oyelaran", "2011-12-24", "m", "novice", "judo", "Fry", "44.2", "154"),
)
DOUBTFUL = 5


def csv_text(delimiter: str = ",") -> str:
    """The roster as text; a cell that holds the delimiter or a quote is quoted."""

    def cell(text: str) -> str:
        if delimiter in text or '"' in text:
            return '"' + text.replace('"', '""') + '"'
        return text

    lines = [HEADS, *LINES]
    return "".join(delimiter.join(map(cell, line)) + "\r\n" for line in lines)


def xlsx_bytes(lines: tuple[tuple[object, ...], ...] = (HEADS, *LINES)) -> bytes:
    """The roster as a workbook."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    for line in lines:
        sheet.append(line)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()
