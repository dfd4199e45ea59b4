"""What was measured of an athlete and holds something, as rows of the page of medical entries."""

from collections.abc import Iterator
from datetime import date

from squadwright.model.athlete import Athlete
from squadwright.model.measured import WatchedPain
from squadwright.planning.gates.bars import subject_of
from squadwright.planning.gates.limits import Settings
from squadwright.planning.gates.measures import (
    answer_of_pain,
    hard_work_waits,
    is_watched,
    status_of_energy,
)
from squadwright.services.measured_words import pain_reading_words, urine_words, watch_words
from squadwright.web.body_mass.words import basis_words
from squadwright.web.measured.paths import URINE, measure_path, pain_path
from squadwright.web.restrictions.contexts import Choice
from squadwright.web.restrictions.medical_contexts import EntryRow
from squadwright.words import capital, day_words

MOST_READINGS = 3


def measured_rows(athlete: Athlete, today: date, settings: Settings) -> Iterator[EntryRow]:
    """The reading of the morning that holds hard work, and every pain that is watched."""
    who = subject_of(athlete, today)
    reading = hard_work_waits(athlete, today, settings=settings)
    if reading is not None:
        yield EntryRow(
            "First urine of the morning",
            (
                urine_words(reading),
                "Hard work waits until the next reading, or the word of medical staff.",
            ),
            (Choice("Enter the next reading", measure_path(athlete.id, URINE)),),
        )
    for watched in athlete.measured.pains:
        yield _pain_row(athlete, watched, today, settings)
    told = athlete.measured.latest_energy(today)
    if told is not None:
        waits = any(True for _ in status_of_energy(athlete, who, today, settings=settings))
        status = "See medical staff." if waits else "Nothing to see them for."
        by = f"Entered by {told.author}, licence {told.licence}, of {day_words(told.taken_on)}."
        yield EntryRow("Energy and food", (by, f"Status: {status} The numbers are for them."))


def _pain_row(athlete: Athlete, watched: WatchedPain, today: date, settings: Settings) -> EntryRow:
    """Who guides it, what he told last, what follows from it, and the way to tell the next."""
    newest = sorted(watched.readings, key=lambda each: each.taken_on)[-MOST_READINGS:]
    return EntryRow(
        f"Watched pain: {watched.place}",
        (
            watch_words(watched),
            *([watched.note] if watched.note else []),
            *(pain_reading_words(each) for each in reversed(newest)),
            _what_follows(athlete, watched, today, settings),
        ),
        (Choice(f"Tell how the {watched.place} was", pain_path(athlete.id, watched.id)),),
    )


def _what_follows(athlete: Athlete, watched: WatchedPain, today: date, settings: Settings) -> str:
    if not is_watched(athlete, watched, today):
        return "Cleared in writing since."
    who = subject_of(athlete, today)
    answer = answer_of_pain(athlete, who, watched, today, settings=settings)
    if answer is None:
        return "Nothing is told yet."
    load = f"Load of the next session: {answer.action.value}."
    item = answer.finding
    if item is None:
        return load
    sentence = capital(item.sentence.partition(": ")[2])
    return f"{load} {sentence} {item.advice} {basis_words(item)}"
