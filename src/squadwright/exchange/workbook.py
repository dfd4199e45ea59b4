"""A packed file opened with care: sizes and entities are looked at before anything is unpacked."""

import io
import re
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, datetime, time
from typing import Any

from squadwright.errors import InvalidInput

ZIP_START = b"PK\x03\x04"
OLD_EXCEL_START = b"\xd0\xcf\x11\xe0"
# In any letter case, and as UTF-16 as well, where a null stands between the letters.
_ENTITIES = re.compile(rb"<\x00?!\x00?(?:D|E)\x00?(?:O|N)\x00?(?:C|T)", re.IGNORECASE)


@contextmanager
def opened_package(
    data: bytes, *, most_parts: int, most_bytes: int, advice: str, what: str
) -> Iterator[zipfile.ZipFile]:
    """A packed file that unpacks to no more than it may; InvalidInput for anything else."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as package:
            parts = package.infolist()
            if len(parts) > most_parts or sum(part.file_size for part in parts) > most_bytes:
                raise _refused(
                    f"unpacks to more than {most_bytes / 1e6:.0f} MB or {most_parts} parts", advice
                )
            yield package
    except InvalidInput:
        raise
    except Exception as error:  # whatever unpacking finds wrong with a broken file
        raise _refused(f"is a {what} that cannot be opened", advice) from error


def require_workbook(data: bytes, *, most_parts: int, most_bytes: int, advice: str) -> None:
    """Refuse what unpacks to too much, is no XLSX file, or declares entities of its own."""
    with opened_package(
        data, most_parts=most_parts, most_bytes=most_bytes, advice=advice, what="packed file"
    ) as package:
        if "xl/workbook.xml" not in package.namelist():
            raise _refused("is a packed file, but no XLSX sheet", advice)
        for part in package.infolist():
            is_xml = part.filename.endswith((".xml", ".rels"))
            if is_xml and _ENTITIES.search(package.read(part)):
                raise _refused("declares entities, which no sheet needs", advice)


def cell_text(value: Any) -> str:
    """A cell as the coach sees it; a formula stays the text of the formula."""
    if value is None:
        return ""
    if isinstance(value, datetime):
        return value.date().isoformat()
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.10g}"
    if isinstance(value, time):
        return f"{value:%H:%M}"
    return str(value)


def _refused(problem: str, advice: str) -> InvalidInput:
    return InvalidInput("The file", problem, advice)
