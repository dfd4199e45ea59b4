"""What was measured of an athlete as parts of a page, and the form of one kind by itself."""

from datetime import date

from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.measured import EnergyDay
from squadwright.planning.gates.bars import subject_of
from squadwright.planning.gates.gate import settings_of
from squadwright.planning.gates.measures import findings_of_energy
from squadwright.services.measured import watched_pain
from squadwright.services.measured_words import (
    energy_words,
    newest,
    training_words,
    urine_words,
    watch_words,
)
from squadwright.units import Mass
from squadwright.web.body_mass.said import Said
from squadwright.web.body_mass.words import basis_words
from squadwright.web.forms import FormView
from squadwright.web.measured.contexts import MeasureForm, MeasurePage, MeasureSection, SaidPage
from squadwright.web.measured.forms import FIELDS, fresh
from squadwright.web.measured.paths import (
    ENERGY,
    PAIN,
    PAIN_READING,
    TRAINING,
    URINE,
    back_path,
    measure_path,
    pain_path,
)
from squadwright.web.wording import capital

HEADINGS = {
    TRAINING: "Before and after training",
    URINE: "First urine of the morning",
    PAIN: "A pain to watch",
    PAIN_READING: "How the pain was",
    ENERGY: "Energy and food",
}
BEFORE = {
    TRAINING: "Two weighings show what a session takes out, and what is drunk to make it "
    "up. It is a number for drinking enough and is never a way to a class.",
    URINE: "The specific gravity as the instrument says. Above {serious} hard work waits until "
    "the next reading, or the word of medical staff.",
    PAIN: "Only where a clinician guides the load of a tendon or the front of a knee. A fresh "
    "injury, or anything else that holds below, is for medical staff before any load.",
    PAIN_READING: "Up to {watch} the load goes on, up to {stop} it stays if the morning after is "
    "as usual. Worse the morning after takes volume down; more than {stop} stops it until medical "
    "staff say so.",
    ENERGY: "For medical staff or a sports dietitian alone. What it comes to is shown once, to "
    "whoever enters it; a coach sees no more than whether medical staff should see the athlete.",
}
NONE = {
    TRAINING: "Not weighed around a session yet.",
    URINE: "No reading yet.",
}
ENTER = {TRAINING: "Enter a session", URINE: "Enter a reading"}
ON_MEDICAL_PAGE = (PAIN, ENERGY)
"""Kinds that are entered from the page of medical entries."""


def sections(club: Club, athlete: Athlete, today: date) -> tuple[MeasureSection, ...]:
    """What stands on the page of his body mass: around training, and in the morning."""
    measured = athlete.measured
    kept: dict[str, list[tuple[str, ...]]] = {
        TRAINING: [training_words(each) for each in newest(measured.training)],
        URINE: [(urine_words(each),) for each in newest(measured.urine)],
    }
    return tuple(
        MeasureSection(
            id=kind,
            heading=HEADINGS[kind],
            kept=tuple(lines),
            none_words=NONE[kind],
            form=_form(kind, club, athlete, fresh(kind, club, athlete, today)),
        )
        for kind, lines in kept.items()
    )


def measure_page(
    kind: str,
    club: Club,
    athlete: Athlete,
    today: date,
    view: FormView | None = None,
    *,
    about: str = "",
    fat_free: Mass | None = None,
) -> MeasurePage:
    """The form of one kind by itself.

    ``about`` is the id of the pain a reading is of, ``fat_free`` that of the newest assessment.
    """
    heading = HEADINGS[kind]
    if kind == PAIN_READING:
        heading = capital(watched_pain(athlete, about).place)
    return MeasurePage(
        title=f"{heading}: {club.shown_names()[athlete.id]}",
        back=back_path(athlete.id, kind),
        form=_form(kind, club, athlete, view or fresh(kind, club, athlete, today, fat_free), about),
    )


def said_page(club: Club, athlete: Athlete, told: EnergyDay, step: str) -> SaidPage:
    """What energy and food come to, for whoever entered them; never scored."""
    who = subject_of(athlete, told.taken_on, club.shown_names()[athlete.id])
    found = findings_of_energy(who, told, settings=settings_of(club.gate_limits))
    return SaidPage(
        title=f"{HEADINGS[ENERGY]}: {who.shown_name}",
        back=back_path(athlete.id, ENERGY),
        line=f"Stored. {energy_words(told)}",
        said=tuple(Said(f.severity, f.sentence, f.advice, basis_words(f)) for f in found),
        undo_path=f"/undo/{step}",
    )


def _form(kind: str, club: Club, athlete: Athlete, view: FormView, about: str = "") -> MeasureForm:
    of = settings_of(club.gate_limits).of
    before = BEFORE[kind].format(
        serious=of("urine, serious").value,
        watch=of("pain, watch").value,
        stop=of("pain, stop").value,
    )
    path = measure_path(athlete.id, kind)
    if kind == PAIN_READING:
        before = f"{watch_words(watched_pain(athlete, about))} {before}"
        path = pain_path(athlete.id, about)
    return MeasureForm(ENTER.get(kind, ""), before, path, FIELDS[kind], view, "Store")
