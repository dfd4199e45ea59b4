"""A text in a cell of a spreadsheet that no spreadsheet computes, and the text it was."""

import csv
import io
from collections.abc import Iterable, Sequence

# What a spreadsheet takes for the start of a formula, full width as well.
FORMULA_STARTS = (
    *("=", "+", "-", "@", "\t", "\r", "\n"),
    *("\uff1d", "\uff0b", "\uff0d", "\uff20"),
)
MARK = "'"


def guarded(text: str) -> str:
    """A mark stands before what would start a formula."""
    return f"{MARK}{text}" if text.startswith(FORMULA_STARTS) else text


def kept_text(text: str) -> str:
    """As ``guarded``, and so that ``read_text`` gives back every text."""
    return f"{MARK}{text}" if text.startswith((*FORMULA_STARTS, MARK)) else text


def read_text(cell: str) -> str:
    """The text that ``kept_text`` wrote; one that somebody typed without a mark stays."""
    return cell[1:] if cell.startswith(tuple(MARK + s for s in (*FORMULA_STARTS, MARK))) else cell


def csv_bytes(heads: Iterable[str], rows: Iterable[Sequence[str]]) -> bytes:
    """Lines as RFC 4180 has them, in UTF-8 with a mark at the head, as spreadsheets want it."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(heads)
    writer.writerows(rows)
    return out.getvalue().encode("utf-8-sig")
