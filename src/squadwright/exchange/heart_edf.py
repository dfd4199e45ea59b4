"""Heart rate or RR intervals from an EDF or EDF+ file, its head checked before it is believed.

Read with a general library. The patient and recording fields of the file are never looked at.

References: B. Kemp, J. Olivan, European data format 'plus' (EDF+), Clin Neurophysiol 2003;114.
"""

import io
import math
import re
import warnings
from datetime import datetime
from itertools import pairwise
from typing import Any

from squadwright.errors import InvalidInput
from squadwright.exchange.heart_columns import (
    RATE_HEADS,
    RATE_UNITS,
    RR_HEADS,
    TO_MS,
    column_of,
)
from squadwright.exchange.heart_recording import (
    MOST_VALUES,
    HeartRecording,
    recording_of,
    refused,
)

HEAD_BYTES = 256
MOST_SIGNALS = 256
BEATS = re.compile(r"(r|n|qrs|r ?peak|r ?wave|beat|heart ?beat)", re.IGNORECASE)
EXPORT_AGAIN = "Export it again, or as CSV"


def is_edf(data: bytes) -> bool:
    """Whether bytes start as EDF does: version 0 and blanks."""
    return data[:8] == b"0       "


def read_heart_edf(data: bytes) -> HeartRecording:
    """A signal of RR intervals or heart rate, else RR intervals between marked beats."""
    _check_head(data)
    import edfio

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            edf = edfio.read_edf(io.BytesIO(data), lazy_load_data=False, header_encoding="latin-1")
            return _recording(edf)
    except InvalidInput:
        raise
    except Exception as error:  # whatever the library finds wrong with a broken file
        raise refused("is an EDF file that cannot be read", EXPORT_AGAIN) from error


def _check_head(data: bytes) -> None:
    """Sizes the head states, against the size the file has."""
    if len(data) < HEAD_BYTES:
        raise refused(f"is an EDF file of {len(data)} bytes, shorter than its head", EXPORT_AGAIN)
    signals = _stated(data, 252, 4, "signals")
    if not 1 <= signals <= MOST_SIGNALS:
        raise refused(f"states {signals} signals; 1 to {MOST_SIGNALS} are read", EXPORT_AGAIN)
    head = _stated(data, 184, 8, "bytes in its head")
    if head != HEAD_BYTES * (signals + 1) or len(data) < head:
        raise refused(
            f"states a head of {head} bytes; {signals} signals need {HEAD_BYTES * (signals + 1)}",
            EXPORT_AGAIN,
        )
    records = _stated(data, 236, 8, "records")
    at = HEAD_BYTES + signals * 216
    samples = [_stated(data, at + 8 * n, 8, "samples a record") for n in range(signals)]
    if min(samples) < 0 or sum(samples) > len(data):
        raise refused("states more samples than it has bytes", EXPORT_AGAIN)
    held = len(data) - head
    stated = max(records, 0) * sum(samples) * 2
    if records < 1 or held < stated:
        raise refused(
            f"states {records} records of {2 * sum(samples)} bytes and holds {held} bytes: it is "
            "cut off or was never closed",
            EXPORT_AGAIN,
        )


def _stated(data: bytes, start: int, length: int, what: str) -> int:
    text = data[start : start + length].decode("latin-1").strip()
    if re.fullmatch(r"-?\d{1,8}", text, re.ASCII) is None:
        raise refused(f"does not state the number of {what} ({text[:8]!r})", EXPORT_AGAIN)
    return int(text)


def _recording(edf: Any) -> HeartRecording:
    starts_at = _start(edf)
    for signal in edf.signals:
        head = column_of(signal.label, 0).head
        if head in RATE_HEADS | RR_HEADS:
            return _of_signal(signal, starts_at, is_rr=head in RR_HEADS)
    beats = [mark.onset for mark in edf.annotations if BEATS.fullmatch(mark.text.strip())]
    if len(beats) > MOST_VALUES:
        raise refused(f"marks {len(beats)} beats, more than {MOST_VALUES}", EXPORT_AGAIN)
    if len(beats) < 4:
        labels = ", ".join(signal.label for signal in edf.signals[:8]) or "none"
        raise refused(
            f"has no signal of RR intervals or heart rate, and no marked beats (signals: {labels})",
            "Find the beats with the program of the recorder first, and export RR intervals",
        )
    intervals = [(after - before) * 1000 for before, after in pairwise(beats)]
    places = [f"beat {number}" for number in range(2, len(beats) + 1)]
    seconds = [beat - beats[0] for beat in beats[1:]]
    notes = ("RR intervals are the times between the beats marked in the file.",)
    return recording_of("rr_ms", intervals, seconds, places, starts_at=starts_at, notes=notes)


def _of_signal(signal: Any, starts_at: datetime | None, *, is_rr: bool) -> HeartRecording:
    """Heart rate from a signal. One of RR intervals repeats them: no single beat is known."""
    unit = signal.physical_dimension.strip().casefold()
    rate = float(signal.sampling_frequency)
    if not (math.isfinite(rate) and 0 < rate <= 1000):
        raise refused(f"states {rate:g} samples a second", EXPORT_AGAIN)
    known = set(TO_MS) if is_rr else set(RATE_UNITS)
    if unit not in known:
        raise refused(
            f"has {signal.label!r} in {unit[:20]!r}, not in {' or '.join(sorted(known - {''}))}",
            EXPORT_AGAIN,
        )
    samples = [float(value) for value in signal.data[: MOST_VALUES + 1]]
    places = [f"sample {number}" for number in range(1, len(samples) + 1)]
    values: list[float | None] = [value if value > 0 else None for value in samples]
    notes: tuple[str, ...] = ()
    if is_rr:
        values = [60_000 / (value * TO_MS[unit]) if value else None for value in values]
        notes = ("A signal of RR intervals has no single beats: it is read as heart rate.",)
    seconds = [number / rate for number in range(len(samples))]
    return recording_of(
        "beats_per_minute", values, seconds, places, starts_at=starts_at, notes=notes
    )


def _start(edf: Any) -> datetime | None:
    try:
        return datetime.combine(edf.startdate, edf.starttime)
    except Exception:  # a file without a date, which EDF+ allows
        return None
