"""The record of a session as files: JSON for programs, CSV for spreadsheets."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from typing import Literal

from squadwright.exchange.club_file import write_document
from squadwright.exchange.spreadsheet_cell import csv_bytes, guarded
from squadwright.model.field import Identifier, Name
from squadwright.model.record import VALUE_OF, RecordEvent
from squadwright.planning.live.done import AthleteDone
from squadwright.planning.live.onset import fault_patterns

RECORD_VERSION: Literal[1] = 1
EVENT_HEADS = (
    *("time", "kind", "athlete", "name", "round", "exercise", "value", "unit", "words"),
    *("author", "device", "number", "id", "takes_back", "holds"),
)
DONE_HEADS = (
    *("athlete", "name", "planned_rounds", "rounds_done", "planned_sets", "sets_done"),
    *("planned_kg", "load_kg", "lost_repetitions", "lost_by_round", "faults", "swaps"),
    *("stops_asked", "stopped_in_round", "effort", "reserve_reps", "kit_limited", "was_there"),
)


@dataclass(frozen=True)
class RecordHead:
    """Which session a record is of."""

    id: Identifier
    name: Name
    club: Name
    held_on: date
    starts_at: time
    minutes: int


@dataclass(frozen=True)
class RecordFile:
    """Everything noted of a session, in the order of time, and what follows from it.

    ``taken_back`` are the ids of events that hold no more: they stay in ``events``.
    """

    session: RecordHead
    events: tuple[RecordEvent, ...]
    taken_back: tuple[Identifier, ...] = ()
    done: tuple[AthleteDone, ...] = ()
    format_version: Literal[1] = RECORD_VERSION


def write_record(record: RecordFile) -> str:
    """The record as JSON, every field written."""
    return write_document(RecordFile, record, leave_out_empty=False)


def record_csv(record: RecordFile, names: dict[str, str]) -> bytes:
    """One line for each event, in the order of time."""
    gone = set(record.taken_back)
    return _csv(
        EVENT_HEADS,
        (
            (
                _instant(event.at),
                event.kind.value,
                event.athlete,
                names.get(event.athlete, event.athlete),
                event.round or None,
                event.exercise,
                event.value,
                VALUE_OF[event.kind][0] if event.kind in VALUE_OF else "",
                event.words,
                event.author,
                event.device,
                event.number,
                event.id,
                event.takes_back,
                "no" if event.id in gone else "yes",
            )
            for event in record.events
        ),
    )


def done_csv(record: RecordFile, names: dict[str, str]) -> bytes:
    """One line for each athlete."""
    return _csv(
        DONE_HEADS,
        (
            (
                row.athlete,
                names.get(row.athlete, row.athlete),
                row.planned_rounds,
                row.rounds_done,
                row.planned_sets,
                row.sets_done,
                row.planned_kg,
                row.load_kg,
                sum(count for _, count in row.lost),
                "; ".join(f"round {number}: {count}" for number, count in row.lost),
                "; ".join(
                    f"{pattern.words} x {pattern.count} {pattern.since}".strip()
                    for pattern in fault_patterns(row)
                ),
                "; ".join(swap.words for swap in row.swaps),
                "; ".join(asked.words for asked in row.stops_asked),
                row.stopped_in_round,
                row.effort,
                row.reserve,
                "yes" if row.kit_limited else "no",
                "yes" if row.was_there else "no",
            )
            for row in record.done
        ),
    )


def _csv(heads: Sequence[str], rows: Iterable[Sequence[str | float | None]]) -> bytes:
    """Lines as RFC 4180 has them, in UTF-8 with a mark at the head, as spreadsheets want it."""
    return csv_bytes(heads, ([_cell(value) for value in row] for row in rows))


def _cell(value: str | float | None) -> str:
    """A number as it is; a text so that no spreadsheet takes it for a formula."""
    if value is None:
        return ""
    return guarded(value) if isinstance(value, str) else f"{value:.10g}"


def _instant(at: datetime) -> str:
    """An instant in UTC, to the millisecond."""
    return at.astimezone(UTC).isoformat(timespec="milliseconds")
