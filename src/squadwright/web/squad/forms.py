"""The forms of the squad, read into values of the model."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.exchange.doubtful import Doubt, doubt_of_length
from squadwright.exchange.plausible import JUMP_HEIGHT_M, TEST_REPETITIONS
from squadwright.formulas.one_rep_max import one_rep_max_brzycki, one_rep_max_epley
from squadwright.model.athlete import (
    Consent,
    Event,
    Guardian,
    JumpTest,
    Level,
    MassReading,
    Priority,
    Sex,
    StrengthTest,
)
from squadwright.model.exercise import ReferenceLift
from squadwright.services.asking import ask
from squadwright.services.squad import Person
from squadwright.web.forms import Form, FormRefused

STATURE_M = (0.91, 2.59)
LENGTH_UNITS = ("cm", "m")
LONGEST_NOTE = 1000
MOST_BOUTS, MOST_BOUT_MINUTES = 40, 60
NEW_SQUAD = "+"

PERSON_LABELS = {
    "name": "Name",
    "birth_date": "Birth date",
    "sport": "Sport",
    "squad": "Squad",
    "weight_class": "Class",
    "training_age_years": "Years of training",
    "stature_m": "Stature",
    "note": "Note",
}
ENTRY_LABELS = {
    "reading": "Body mass",
    "load": "Load",
    "repetitions": "Good repetitions",
    "method": "How",
    "taken_on": "Day",
    "height_m": "Height",
    "kind": "Jump",
    "name": "Name",
    "starts_on": "Day",
    "mass_limit": "Weight limit",
    "weigh_in_rule": "Weigh-in",
    "bouts_expected": "Bouts expected",
    "bout_minutes": "Minutes of a bout",
    "note": "Note",
    "purpose": "What for",
    "given_by": "Given by",
    "given_on": "Day",
}


@dataclass(frozen=True)
class _Length:
    """A length as read; its doubt where it cannot be as typed."""

    metres: float | None
    doubt: Doubt | None = None


def read_person(form: Form) -> Person:
    """What an athlete is."""
    name = form.text("name", "Name")
    birth_date = form.day("birth_date", "Birth date")
    sex = form.member("sex", "Sex", Sex)
    level = form.member("level", "Level", Level)
    sport = form.text("sport", "Sport")
    squad = form.text("squad", "Squad", is_required=False)
    if squad == NEW_SQUAD:
        squad = form.text("new_squad", "Another squad")
    weight_class = form.text("weight_class", "Class", is_required=False)
    years = form.maybe_number(
        "training_age_years", "Years of training", low=0, high=80, unit="years"
    )
    stature = _length(form, "stature_m", "Stature", STATURE_M)
    note = form.text("note", "Note", is_required=False, longest=LONGEST_NOTE)
    form.done()
    ask([stature.doubt])
    return Person(
        name=name,
        birth_date=birth_date,
        sex=sex,
        level=level,
        sport=sport,
        squad=squad,
        weight_class=weight_class,
        training_age_years=years or 0.0,
        stature_m=stature.metres,
        note=note,
    )


def read_mass(form: Form) -> MassReading:
    """A body mass as read on the scales."""
    reading = form.mass("reading", "Body mass")
    taken_on = form.day("taken_on", "Day")
    note = form.text("note", "Note", is_required=False, longest=LONGEST_NOTE)
    form.done()
    return MassReading(reading, taken_on, note)


def read_strength(form: Form) -> StrengthTest:
    """A set lifted as a test."""
    lift = form.member("lift", "Lift", ReferenceLift)
    load = form.mass("load", "Load")
    repetitions = form.whole("repetitions", "Good repetitions", low=1, high=TEST_REPETITIONS)
    taken_on = form.day("taken_on", "Day")
    method = form.text("method", "How", is_required=False) or "best set"
    form.done()
    _require_reach(load.kg, repetitions)
    return StrengthTest(lift, load, repetitions, taken_on, method)


def read_jump(form: Form) -> JumpTest:
    """A jump test."""
    kind = form.text("kind", "Jump")
    form.number("height_m", "Height")
    height = _length(form, "height_m", "Height", JUMP_HEIGHT_M)
    taken_on = form.day("taken_on", "Day")
    method = form.text("method", "How it was measured")
    form.done()
    ask([height.doubt])
    return JumpTest(kind, height.metres or 0.0, taken_on, method)


def read_event(form: Form) -> Event:
    """An event; its id is given by the use case."""
    name = form.text("name", "Name")
    starts_on = form.day("starts_on", "Day")
    priority = form.member("priority", "Kind", Priority)
    limit = form.maybe_mass("mass_limit", "Weight limit")
    rule = form.text("weigh_in_rule", "Weigh-in", is_required=False, longest=LONGEST_NOTE)
    bouts = form.maybe_whole("bouts_expected", "Bouts expected", low=0, high=MOST_BOUTS)
    minutes = form.maybe_whole(
        "bout_minutes", "Minutes of a bout", low=1, high=MOST_BOUT_MINUTES, unit="min"
    )
    form.done()
    return Event("new", name, starts_on, priority, limit, rule, bouts, bout_minutes=minutes)


def read_consent(form: Form) -> Consent:
    """What was agreed to, by whom, when."""
    purpose = form.text("purpose", "What for")
    given_by = form.text("given_by", "Given by")
    given_on = form.day("given_on", "Day")
    form.done()
    return Consent(purpose, given_by, given_on)


def read_guardian(form: Form) -> Guardian:
    """The adult who answers for a minor."""
    name = form.text("name", "Name")
    relation = form.text("relation", "Relation")
    telephone = form.text("telephone", "Telephone", is_required=False, longest=60)
    form.done()
    return Guardian(name, relation, telephone)


def beside_fields(error: InvalidInput, labels: dict[str, str]) -> InvalidInput:
    """A mistake found behind the form, told beside its field by the label the coach knows."""
    name = error.place.rpartition(".")[2]
    if isinstance(error, FormRefused) or name not in labels:
        return error
    return FormRefused({name: InvalidInput(labels[name], error.problem, error.advice)})


def as_day(day: date | None) -> str:
    """A day as a date field holds it."""
    return day.isoformat() if day else ""


def _length(form: Form, name: str, label: str, limits_m: tuple[float, float]) -> _Length:
    """A length in centimetres or metres; one that cannot be so becomes a doubt."""
    number = form.maybe_number(name, label)
    if number is None:
        return _Length(None)
    unit = form.choice(f"{name}_unit", f"Unit of {label}", LENGTH_UNITS)
    if unit not in LENGTH_UNITS:
        return _Length(None)
    typed = Decimal(form.raw(name))
    doubt = doubt_of_length(name, typed, unit, limits_m)
    if doubt is not None and not doubt.meanings:
        limits = f"{limits_m[0]:g} and {limits_m[1]:g} m"
        form.refuse(name, label, f"{typed} {unit} is outside {limits}", "Check the number")
    return _Length(float(typed / 100 if unit == "cm" else typed), doubt)


def _require_reach(load_kg: float, repetitions: int) -> None:
    """Refuse a set so long that no strength follows from it."""
    try:
        for equation in (one_rep_max_epley, one_rep_max_brzycki):
            equation(max(load_kg, 1.0), repetitions)
    except OutsidePublishedRange as error:
        raise InvalidInput(
            "repetitions",
            f"{repetitions} is more than the equations behind a load reach "
            f"({error.high:g}, {error.source})",
            "Enter a heavier set with fewer repetitions",
        ) from error
