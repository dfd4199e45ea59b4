"""The pages of heart recordings, put together."""

from datetime import date

from squadwright.exchange.club_file import write_document
from squadwright.exchange.heart_recording import HeartRecording
from squadwright.exchange.packed import pack
from squadwright.formulas.training_impulse import EDWARDS_LIMITS
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.diary import DiaryEntry, HeartSeries
from squadwright.services.heart import HeartSummary, Impulse, Recordings
from squadwright.web.forms import FormView
from squadwright.web.heart.contexts import (
    ImpulseRow,
    PreviewPage,
    RecordingPage,
    RecordingRow,
    RecordingsPage,
)
from squadwright.web.squad.words import athlete_path
from squadwright.web.wording import clock_text, count_text, day_text, number_text, short_day_text

HERE = "/records/heart"
MEASURE_WORDS = {"rr_ms": "RR intervals", "beats_per_minute": "heart rate"}


def recordings_page(found: Recordings, view: FormView | None = None) -> RecordingsPage:
    """All recordings, the latest first."""
    names = found.club.shown_names()
    rows = tuple(
        RecordingRow(
            path=recording_path(entry),
            day=short_day_text(entry.day),
            name=names.get(entry.athlete, "no more in the squad"),
            what=_what(entry.content),
            during=entry.content.during,
        )
        for entry in found.entries
        if isinstance(entry.content, HeartSeries) and entry.athlete in names
    )
    return RecordingsPage(view or FormView(), rows, bool(found.club.athletes))


def recording_path(entry: DiaryEntry) -> str:
    """The page of a recording."""
    return f"{HERE}/of/{entry.id}"


def series_of(recording: HeartRecording, file_name: str) -> HeartSeries:
    """A recording as the diary keeps it."""
    return HeartSeries(
        recording.measure,
        recording.values,
        recording.seconds,
        recording.starts_at,
        source_file=file_name,
    )


def packed_series(series: HeartSeries) -> str:
    """A recording as a preview carries it."""
    advice = "Export a shorter part, or one reading a second"
    return pack(write_document(HeartSeries, series), what="The recording", advice=advice)


def preview_page(
    club: Club,
    series: HeartSeries,
    *,
    today: date,
    notes: tuple[str, ...] = (),
    view: FormView | None = None,
) -> PreviewPage:
    """A recording as it was read."""
    names = club.shown_names()
    started = series.starts_at
    filled = FormView.of(
        day=started.date() if started else today, at=started.time() if started else None
    )
    low, high = min(series.values), max(series.values)
    unit = "ms" if series.measure == "rr_ms" else "beats/min"
    return PreviewPage(
        view=view or filled,
        line=f"{_what(series)} from {series.source_file or 'the file'}. Nothing is stored yet.",
        facts=(
            ("Readings", str(len(series.values))),
            ("From", f"{number_text(low)} {unit}"),
            ("To", f"{number_text(high)} {unit}"),
        ),
        notes=notes,
        athletes=(("", "choose"), *((a.id, names[a.id]) for a in club.athletes)),
        packed=packed_series(series),
    )


def recording_page(
    athlete: Athlete,
    name: str,
    entry: DiaryEntry,
    series: HeartSeries,
    found: HeartSummary,
    view: FormView,
) -> RecordingPage:
    """One recording and what it says."""
    during = f", {series.during}" if series.during else ""
    return RecordingPage(
        view=view,
        path=recording_path(entry),
        title=f"Heart of {name}",
        line=f"{day_text(entry.day)}{during}. {_what(series)}.",
        athlete_path=athlete_path(athlete.id),
        facts=_facts(found),
        zones=_zones(found),
        impulses=(
            _row("Banister", found.banister, "minutes, mean heart rate and sex"),
            _row("Edwards", found.edwards, "minutes in five zones of the greatest heart rate"),
            _row("Lucia", found.lucia, "minutes below, between and above two thresholds"),
        ),
        variability=_variability(found),
        note=series.note,
    )


def _what(content: object) -> str:
    assert isinstance(content, HeartSeries)
    span = content.seconds[-1] - content.seconds[0]
    return f"{MEASURE_WORDS[content.measure].capitalize()} over {clock_text(span)} min"


def _facts(found: HeartSummary) -> tuple[tuple[str, str], ...]:
    guessed = ", guessed from age by Tanaka" if found.is_maximum_guessed else ""
    facts = [
        ("Known", f"{number_text(found.minutes)} min"),
        ("Without a reading", f"{number_text(found.unknown_min)} min"),
    ]
    if found.mean_bpm is not None and found.greatest_bpm is not None:
        facts += [
            ("Mean", f"{number_text(found.mean_bpm)} beats/min"),
            ("Highest", f"{number_text(found.greatest_bpm)} beats/min"),
        ]
    facts.append(("Greatest heart rate", f"{number_text(found.maximum_bpm)} beats/min{guessed}"))
    facts.append(("First minute after", _recovery(found)))
    return tuple(facts)


def _recovery(found: HeartSummary) -> str:
    if found.recovery is None or found.recovery_bpm is None:
        return "not given: the recording does not hold both ends of that minute"
    at = found.recovery
    verb = "down" if found.recovery_bpm >= 0 else "up"
    return (
        f"{verb} {number_text(abs(found.recovery_bpm))} beats/min, from "
        f"{number_text(at.end_bpm)} at {clock_text(at.end_s)} min"
    )


def _zones(found: HeartSummary) -> tuple[tuple[str, str], ...]:
    if found.zones is None:
        return ()
    ends = [*(round(100 * limit) for limit in EDWARDS_LIMITS), 100]
    rows = [("under 50 %", found.zones.below_min)]
    rows += [
        (f"{low} to {high} %", minutes)
        for low, high, minutes in zip(ends, ends[1:], found.zones.zones_min, strict=False)
    ]
    if found.zones.above_maximum_min:
        rows.append(("above the greatest", found.zones.above_maximum_min))
    return tuple((words, f"{number_text(minutes)} min") for words, minutes in rows)


def _row(author: str, impulse: Impulse, how: str) -> ImpulseRow:
    value = "not given" if impulse.value is None else number_text(impulse.value)
    return ImpulseRow(author, value, impulse.why_not or f"From {how}.")


def _variability(found: HeartSummary) -> tuple[str, ...]:
    held = found.variability
    if held is None:
        return ("Heart rate has no single beats: variability needs RR intervals.",)
    left = f"{held.left_out} of {count_text(held.intervals, 'interval')} left out as artefacts."
    if held.rmssd_ms is None or held.sdnn_ms is None:
        return (f"RMSSD {held.why_not}.", left)
    return (
        f"RMSSD {number_text(held.rmssd_ms)} ms, SDNN {number_text(held.sdnn_ms)} ms.",
        left,
    )
