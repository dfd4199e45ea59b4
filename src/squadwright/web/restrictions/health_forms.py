"""The forms of what is known of an athlete's health: their fields, what stands, what was typed."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date

from squadwright.model.medical import (
    FirstWeeks,
    Medical,
    Outcome,
    PrivateLimit,
    Screening,
    TechniqueSeen,
)
from squadwright.planning.gates.activity import a_year_after
from squadwright.planning.gates.first_weeks import EMERGENCY
from squadwright.services.medical import NOT_STATED
from squadwright.web.forms import Form, FormView
from squadwright.web.restrictions.medical_contexts import Field
from squadwright.web.restrictions.medical_forms import LONGEST_NOTE
from squadwright.web.restrictions.rows import COACH

Change = Callable[[Medical], Medical]
Shape = tuple[str, str, tuple[Field, ...], str]
NOBODY_ASKED = "not asked"
ACTIVE = (
    (NOBODY_ASKED, "Nobody asked"),
    ("yes", "Yes: 30 minutes on 3 days a week, for 3 months"),
    ("no", "No"),
)
OUTCOMES = (
    (Outcome.CLEARED.value, "Nothing found: may train"),
    (Outcome.FOLLOW_UP.value, "To be looked at again"),
    (Outcome.REFER.value, "Sent to a doctor: out until a clearance is entered"),
)
WEEKS = (
    ("newcomer", "New to training: four weeks of less"),
    ("returner", "Back after a break: two weeks of less"),
)

SHAPES: dict[str, Shape] = {
    "technique": (
        "Technique seen",
        "Under 18 the bar stays bare until somebody qualified has seen the technique and found it "
        "good. Loads stay light after that as well.",
        (
            Field("text", "seen_by", "Who has seen it", is_required=False),
            Field(
                "day", "seen_on", "Day", "Empty name and day: not seen any more.",
                is_required=False,
            ),
            Field("day", "growth_checked_on", "Growth checked on", is_required=False),
        ),
        "Store it",
    ),
    "first-weeks": (
        "First weeks",
        "Work that is not usual yet breaks down muscle: fewer rounds and sets. "
        f"{EMERGENCY}.",
        (
            Field("day", "began_on", "First day"),
            Field("radio", "kind", "New, or back", options=WEEKS),
        ),
        "Store it",
    ),
    "health": (
        "Known disease, symptoms, heat",
        "As told by the athlete, or as medical staff wrote it. Symptoms mean no training. A "
        "disease, symptoms and an earlier heat illness are taken off after a written clearance "
        "alone.",
        (
            Field(
                "area", "known_disease", "Known disease", "Of heart, metabolism or kidneys.",
                is_required=False,
            ),
            Field(
                "check", "has_symptoms", "There are symptoms",
                "Chest pain, short breath, fainting, a racing heart, at rest or at work.",
            ),
            Field("radio", "is_active", "Active until now?", options=ACTIVE),
            Field(
                "check", "is_used_to_heat", "Used to heat", "After 10 to 14 days in it.",
            ),
            Field("check", "has_had_heat_illness", "Ill from heat before"),
        ),
        "Store it",
    ),
    "screening": (
        "Screening form",
        "The form itself is kept elsewhere; here stand its name, its day and what it came to.",
        (
            Field("text", "form_name", "Name of the form"),
            Field("number", "version_year", "Year of the form"),
            Field("day", "completed_on", "Filled in on"),
            Field("radio", "outcome", "What it came to", options=OUTCOMES),
            Field("day", "expires_on", "Last day it holds"),
            Field("text", "file_reference", "Where the paper lies", is_required=False),
        ),
        "Store it",
    ),
    "private": (
        "A private limit",
        "Declared by the athlete, or by medical staff in the athlete's name. Nobody is asked for "
        "it, and no reason is kept, whether it is a pregnancy, an operation or anything else. "
        "While it stands: no contact, nothing that may fall on the athlete, no work in heat, no "
        "plan to lose mass.",
        (
            Field("text", "author", "Who declares it"),
            Field(
                "text", "licence", "Licence", "Only where medical staff write it.",
                is_required=False,
            ),
            Field("day", "declared_on", "Since"),
            Field(
                "day", "stopped_on", "A sign came on",
                "One of those on the athlete's own sheet: no training until a written clearance.",
                is_required=False,
            ),
            Field("check", "is_over", "It is taken back: nothing of it holds any more"),
        ),
        "Store it",
    ),
}  # fmt: skip


def view_of(kind: str, medical: Medical, today: date) -> FormView:
    """The form as it stands for him; a new one is filled with what is likely."""
    seen, weeks, form = medical.technique, medical.first_weeks, medical.screening
    if kind == "technique":
        if seen is None:
            return FormView.of(seen_by=COACH, seen_on=today)
        return FormView.of(
            seen_by=seen.seen_by, seen_on=seen.seen_on, growth_checked_on=seen.growth_checked_on
        )
    if kind == "first-weeks":
        is_new = weeks is None or weeks.is_newcomer
        return FormView.of(
            began_on=today if weeks is None else weeks.began_on,
            kind="newcomer" if is_new else "returner",
        )
    if kind == "health":
        answers = {None: NOBODY_ASKED, True: "yes", False: "no"}
        return FormView.of(
            known_disease=medical.known_disease,
            has_symptoms=medical.has_symptoms,
            is_active=answers[medical.is_active],
            is_used_to_heat=medical.is_used_to_heat,
            has_had_heat_illness=medical.has_had_heat_illness,
        )
    if kind == "private":
        held = medical.private_limit
        if held is None:
            return FormView.of(declared_on=today)
        return FormView.of(
            author=held.author,
            licence="" if held.licence == NOT_STATED else held.licence,
            declared_on=held.declared_on,
            stopped_on=held.stopped_on,
        )
    if form is None:
        return FormView.of(completed_on=today, expires_on=a_year_after(today))
    return FormView.of(
        form_name=form.form_name,
        version_year=form.version_year,
        completed_on=form.completed_on,
        outcome=form.outcome,
        expires_on=form.expires_on,
        file_reference=form.file_reference,
    )


def read_technique(form: Form) -> Change:
    """Technique that was seen; both fields empty take it off, which bars more."""
    seen_by = form.text("seen_by", "Who has seen it", is_required=False)
    seen_on = form.maybe_day("seen_on", "Day")
    growth = form.maybe_day("growth_checked_on", "Growth checked on")
    is_off = not form.raw("seen_by") and not form.raw("seen_on") and growth is None
    if not is_off and not seen_by:
        form.refuse("seen_by", "Who has seen it", "is empty", "Write the name")
    if not is_off and seen_on is None:
        form.refuse("seen_on", "Day", "is empty", "Choose the day it was seen")
    form.done()
    seen = None if seen_on is None else TechniqueSeen(seen_on, seen_by, growth)
    return lambda medical: replace(medical, technique=seen)


def read_first_weeks(form: Form) -> Change:
    """Since when he trains, or trains again."""
    began_on = form.day("began_on", "First day")
    kind = form.choice("kind", "New, or back", [value for value, _ in WEEKS])
    form.done()
    weeks = FirstWeeks(began_on, kind == "newcomer")
    return lambda medical: replace(medical, first_weeks=weeks)


def read_health(form: Form) -> Change:
    """Known disease, symptoms, whether he is active, and heat."""
    disease = form.text("known_disease", "Known disease", is_required=False, longest=LONGEST_NOTE)
    answer = form.choice("is_active", "Active until now?", [value for value, _ in ACTIVE])
    form.done()
    return lambda medical: replace(
        medical,
        known_disease=disease,
        has_symptoms=form.flag("has_symptoms"),
        is_active=None if answer == NOBODY_ASKED else answer == "yes",
        is_used_to_heat=form.flag("is_used_to_heat"),
        has_had_heat_illness=form.flag("has_had_heat_illness"),
    )


def read_screening(form: Form) -> Change:
    """A screening form by name, year, day, outcome and last day."""
    name = form.text("form_name", "Name of the form")
    year = form.whole("version_year", "Year of the form", low=1950, high=2200)
    completed_on = form.day("completed_on", "Filled in on")
    outcome = form.member("outcome", "What it came to", Outcome)
    expires_on = form.day("expires_on", "Last day it holds")
    paper = form.text("file_reference", "Where the paper lies", is_required=False)
    if expires_on < completed_on:
        form.refuse(
            "expires_on", "Last day it holds", f"{expires_on} is before {completed_on}",
            "Give the day it was filled in or a later one",
        )  # fmt: skip
    if year > completed_on.year:
        form.refuse(
            "version_year", "Year of the form", f"{year} is after {completed_on}",
            "Write the year that is printed on the form",
        )  # fmt: skip
    form.done()
    written = Screening(name, year, completed_on, outcome, expires_on, paper or "not stated")
    return lambda medical: replace(medical, screening=written)


def read_private(form: Form) -> Change:
    """A private limit as declared, or taken back."""
    author = form.text("author", "Who declares it")
    licence = form.text("licence", "Licence", is_required=False)
    declared_on = form.day("declared_on", "Since")
    stopped_on = form.maybe_day("stopped_on", "A sign came on")
    if stopped_on is not None and stopped_on < declared_on:
        form.refuse(
            "stopped_on", "A sign came on", f"{stopped_on} is before {declared_on}",
            "Give the day it was declared or a later one",
        )  # fmt: skip
    form.done()
    if form.flag("is_over"):
        return lambda medical: replace(medical, private_limit=None)
    held = PrivateLimit(declared_on, author, licence or NOT_STATED, stopped_on)
    return lambda medical: replace(medical, private_limit=held)


READ: dict[str, Callable[[Form], Change]] = {
    "technique": read_technique,
    "first-weeks": read_first_weeks,
    "health": read_health,
    "screening": read_screening,
    "private": read_private,
}
