"""The squad as a CSV file that any spreadsheet opens, and that comes back in as it went out."""

import csv
import io
from datetime import date

from squadwright.exchange.roster import SHOWN
from squadwright.model.athlete import Athlete

# What a spreadsheet takes for the start of a formula.
_STARTS = ("=", "+", "-", "@", "\t", "\r")


def squad_csv(athletes: tuple[Athlete, ...], *, today: date) -> bytes:
    """One line for each athlete, in UTF-8 with a mark at its head, as spreadsheets want it."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([head.value for head in SHOWN])
    for athlete in athletes:
        writer.writerow([guarded(text) for text in _texts(athlete, today)])
    return out.getvalue().encode("utf-8-sig")


def guarded(text: str) -> str:
    """A text that no spreadsheet computes: a mark stands before what would start a formula."""
    return f"'{text}" if text.startswith(_STARTS) else text


def _texts(athlete: Athlete, today: date) -> tuple[str, ...]:
    last = athlete.latest_body_mass(today)
    stature = athlete.stature_m
    return (
        athlete.name,
        athlete.birth_date.isoformat(),
        athlete.sex.value,
        athlete.level.value,
        athlete.sport,
        athlete.squad,
        athlete.weight_class,
        str(last.reading) if last else "",
        "" if stature is None else f"{stature * 100:.10g} cm",
        f"{athlete.training_age_years:g}",
        " ".join(athlete.note.split()),
    )
