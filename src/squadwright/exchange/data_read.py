"""Everything from a file of any of the three kinds, seen from its content."""

from squadwright.errors import InvalidInput
from squadwright.exchange.data_codes import EXPLAINING, explaining_tables, health_log_table
from squadwright.exchange.data_csv import read_zip, write_zip
from squadwright.exchange.data_file import DataFile, read_data_json, write_data
from squadwright.exchange.data_rows import data_of, tables_of
from squadwright.exchange.data_xlsx import read_workbook, write_workbook
from squadwright.exchange.workbook import OLD_EXCEL_START, ZIP_START
from squadwright.model.health_log import HealthTouch

KINDS = ("json", "xlsx", "zip")
WRITE = "Choose a data file: JSON, XLSX, or a zip of CSV files"
MEDIA_TYPES = {
    "json": "application/json",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "zip": "application/zip",
}


def read_data(data: bytes, *, place: str = "the data file") -> DataFile:
    """Everything in a file; InvalidInput says where it is wrong and what to do."""
    if not data.strip():
        raise InvalidInput("The file", "is empty", WRITE)
    if data.startswith(OLD_EXCEL_START):
        raise InvalidInput("The file", "is of an old or locked kind of spreadsheet", WRITE)
    if not data.startswith(ZIP_START):
        return read_data_json(data, place=place)
    is_workbook = b"xl/workbook.xml" in data
    read = read_workbook if is_workbook else read_zip
    return data_of(read(data, leave_out=EXPLAINING), place=place)


def is_data_file(data: bytes) -> bool:
    """Whether a file holds more than a club: a workbook, a zip, or JSON with a version of it."""
    return data.startswith(ZIP_START) or b'"data_version"' in data


def write_as(kind: str, data: DataFile, log: tuple[HealthTouch, ...] = ()) -> bytes:
    """Everything as a file of one of ``KINDS``; tables hold the log of health fields as well."""
    if kind == "json":
        return write_data(data).encode()
    logged = (health_log_table(log),) if log else ()
    tables = (*explaining_tables(data.club, data.events), *logged, *tables_of(data))
    return write_zip(tables) if kind == "zip" else write_workbook(tables)
