"""The squad as a CSV file that any spreadsheet opens, and that comes back in as it went out."""

from datetime import date

from squadwright.exchange.roster import SHOWN
from squadwright.exchange.spreadsheet_cell import csv_bytes, guarded
from squadwright.model.athlete import Athlete


def squad_csv(athletes: tuple[Athlete, ...], *, today: date) -> bytes:
    """One line for each athlete, in UTF-8 with a mark at its head, as spreadsheets want it."""
    heads = [head.value for head in SHOWN]
    lines = ([guarded(text) for text in _texts(athlete, today)] for athlete in athletes)
    return csv_bytes(heads, lines)


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
