"""The forms of what is measured: their fields, what is likely, and what was typed."""

from collections.abc import Callable
from datetime import date

from squadwright.errors import InvalidInput
from squadwright.model.athlete import Athlete, AuthorRole
from squadwright.model.club import Club
from squadwright.model.measured import (
    AroundTraining,
    EnergyDay,
    MorningUrine,
    NextMorning,
    NotForTheScale,
    PainReading,
    WatchedPain,
    WeekTrend,
)
from squadwright.model.muscles import BodyArea
from squadwright.services.measured import Entry, new_measure_id
from squadwright.units import Mass
from squadwright.web.forms import Form, FormRefused, FormView
from squadwright.web.measured.paths import ENERGY, PAIN, PAIN_READING, TRAINING, URINE
from squadwright.web.restrictions.medical_contexts import Field
from squadwright.web.today.forms import SIDES, WORST_PAIN
from squadwright.web.wording import capital

NOT_YET, DIETITIAN = "", "dietitian"
SCORES = tuple((str(score), str(score)) for score in range(WORST_PAIN + 1))
MORNINGS = (
    (NOT_YET, "Not known yet"),
    (NextMorning.SAME.value, "As usual"),
    (NextMorning.WORSE.value, "Worse than usual"),
)
WEEKS = (
    (NOT_YET, "Not known yet"),
    (WeekTrend.FLAT.value, "Level, or less"),
    (WeekTrend.RISING.value, "Growing"),
)
ROLES = (
    (AuthorRole.MEDICAL.value, "Medical staff"),
    (DIETITIAN, "Sports dietitian"),
    (AuthorRole.COACH.value, "Coach"),
)
FOODS = (
    ("carbohydrate_g", "Carbohydrate in a day"),
    ("protein_g", "Protein in a day"),
    ("fat_g", "Fat in a day"),
)
MOST_KCAL, MOST_GRAMS = 15_000, 3_000
DAYS = {
    TRAINING: ("training_day", "Day of the session"),
    URINE: ("urine_day", "Morning of"),
    PAIN: ("pain_day", "Watched since"),
    PAIN_READING: ("told_day", "Day of the session"),
    ENERGY: ("energy_day", "Day it is of"),
}
PLACES = {
    "before": ("before", "Before"),
    "after": ("after", "After"),
    "hours": ("hours", "Time between"),
    "licence": ("licence", "Licence"),
    "fat_free": ("fat_free", "Mass without fat"),
    "body_mass": ("body_mass", "Body mass"),
}
FIELDS: dict[str, tuple[Field, ...]] = {
    TRAINING: (
        Field("mass", "before", "Before", "In light clothing, after the toilet."),
        Field("mass", "after", "After", "In the same, towelled."),
        Field("number", "hours", "Time between", unit="h"),
        Field("number", "drunk_l", "Drunk in between", unit="L"),
        Field("number", "passed_l", "Urine passed in between", unit="L"),
        Field("day", *DAYS[TRAINING]),
    ),
    URINE: (
        Field("number", "gravity", "Specific gravity", "As read, with the 1: 1.015."),
        Field("day", *DAYS[URINE]),
    ),
    PAIN: (
        Field(
            "select", "area", "Where",
            options=tuple((area.value, capital(area.value)) for area in BodyArea),
        ),
        Field("radio", "side", "Side", options=tuple((side, capital(side)) for side in SIDES)),
        Field(
            "checks", "not_for", "What holds of it", "Any of these: no load until they say so.",
            options=tuple((each.value, capital(each.value)) for each in NotForTheScale),
        ),
        Field("text", "author", "Who guides the load", "A clinician, by name."),
        Field("text", "licence", "Licence", "Number and body, as it stands on the paper."),
        Field("day", *DAYS[PAIN]),
        Field("area", "note", "What they wrote", is_required=False),
    ),
    PAIN_READING: (
        Field("radio", "during", "Pain under load, 0 to 10", options=SCORES),
        Field(
            "radio", "after", "Pain after it, 0 to 10", options=((NOT_YET, "Not yet"), *SCORES),
        ),
        Field("radio", "next_morning", "The morning after", options=MORNINGS),
        Field("radio", "week", "From week to week", options=WEEKS),
        Field("day", *DAYS[PAIN_READING]),
        Field("text", "author", "Who tells it"),
    ),
    ENERGY: (
        Field("radio", "role", "Who enters it", options=ROLES),
        Field("text", "author", "Name"),
        Field("text", "licence", "Licence", "Number and body."),
        Field("number", "intake_kcal", "Energy eaten in a day", unit="kcal"),
        Field("number", "exercise_kcal", "Energy of the training that day", unit="kcal"),
        Field("mass", "fat_free", "Mass without fat", "From the newest body composition, if any."),
        *(Field("number", name, label, "", False, unit="g") for name, label in FOODS),
        Field("mass", "body_mass", "Body mass", "For the foods.", False),
        Field("day", *DAYS[ENERGY]),
    ),
}  # fmt: skip


def fresh(
    kind: str, club: Club, athlete: Athlete, today: date, fat_free: Mass | None = None
) -> FormView:
    """The form as it is likely to be filled in; ``fat_free`` by the newest assessment."""
    day = {DAYS[kind][0]: today}
    if kind == ENERGY:
        known = athlete.latest_body_mass(today)
        mass = None if known is None else known.reading
        return FormView.of(**day, fat_free=fat_free, body_mass=mass)
    if kind == PAIN:
        return FormView.of(**day, side=SIDES[-1])
    if kind == PAIN_READING:
        told = {"after": NOT_YET, "next_morning": NOT_YET, "week": NOT_YET}
        return FormView.of(**day, **told, author=athlete.name)
    if kind == URINE:
        return FormView.of(**day)
    last = athlete.latest_body_mass(today)
    is_of_today = last is not None and last.taken_on == today
    return FormView.of(
        **day,
        before=last.reading if last is not None and is_of_today else None,
        before_unit=None if last is None else last.reading.unit,
        after_unit=None if last is None else last.reading.unit,
        hours=_hours(club, athlete, today),
        drunk_l="0",
        passed_l="0",
    )


def _hours(club: Club, athlete: Athlete, today: date) -> float | None:
    """The length of his session of today [h], else what was typed last."""
    here = [s for s in club.sessions if s.held_on == today and athlete.id in s.athletes]
    if here:
        return round(here[-1].minutes / 60, 2)
    typed = athlete.measured.training
    return typed[-1].hours if typed else None


def _read_training(form: Form, athlete_id: str) -> AroundTraining:
    before, after = form.mass("before", "Before"), form.mass("after", "After")
    hours = form.number("hours", "Time between")
    drunk = form.number("drunk_l", "Drunk in between", low=0, high=15, unit="L")
    passed = form.number("passed_l", "Urine passed in between", low=0, high=15, unit="L")
    day = form.day(*DAYS[TRAINING])
    form.done()
    return AroundTraining(new_measure_id(athlete_id), day, before, after, hours, drunk, passed)


def _read_urine(form: Form, athlete_id: str) -> MorningUrine:
    gravity = form.number("gravity", "Specific gravity", low=1, high=1.06)
    day = form.day(*DAYS[URINE])
    form.done()
    return MorningUrine(new_measure_id(athlete_id), day, gravity)


def _read_pain(form: Form, athlete_id: str) -> WatchedPain:
    area = form.member("area", "Where", BodyArea)
    side = form.choice("side", "Side", SIDES)
    not_for = form.choices("not_for", "What holds of it", [each.value for each in NotForTheScale])
    author, licence = form.text("author", "Who guides the load"), form.text("licence", "Licence")
    day = form.day(*DAYS[PAIN])
    note = form.text("note", "What they wrote", is_required=False, longest=1000)
    form.done()
    return WatchedPain(
        id=new_measure_id(athlete_id),
        taken_on=day,
        area=area,
        author=author,
        licence=licence,
        side="" if side == SIDES[-1] else side,
        not_for=tuple(map(NotForTheScale, not_for)),
        note=note,
    )


READ: dict[str, Callable[[Form, str], Entry]] = {
    TRAINING: _read_training,
    URINE: _read_urine,
    PAIN: _read_pain,
}
"""Kinds that are entered by themselves; a reading of a pain belongs to one of them."""


def read_pain_told(form: Form) -> PainReading:
    """A reading of a watched pain; what is not known yet is left open."""
    scores = [value for value, _ in SCORES]
    during = form.choice("during", "Pain under load", scores)
    after = form.choice("after", "Pain after it", [NOT_YET, *scores]) if form.raw("after") else ""
    known = {
        name: form.choice(name, label, [value for value, _ in options]) if form.raw(name) else ""
        for name, label, options in (
            ("next_morning", "The morning after", MORNINGS),
            ("week", "From week to week", WEEKS),
        )
    }
    day, author = form.day(*DAYS[PAIN_READING]), form.text("author", "Who tells it")
    form.done()
    return PainReading(
        taken_on=day,
        during=int(during),
        after=int(after) if after else None,
        next_morning=NextMorning(known["next_morning"]) if known["next_morning"] else None,
        week=WeekTrend(known["week"]) if known["week"] else None,
        author=author,
    )


def read_energy(form: Form, athlete_id: str) -> tuple[EnergyDay, AuthorRole]:
    """Energy and food of a day, and whose word it is: a coach's is refused."""
    role = form.choice("role", "Who enters it", [value for value, _ in ROLES])
    if role == AuthorRole.COACH.value:
        form.refuse(
            "role",
            "Who enters it",
            "a coach does not enter energy and food",
            "Let medical staff or a sports dietitian do it; a coach sees the status alone",
        )
    author, licence = form.text("author", "Name"), form.text("licence", "Licence")
    intake = form.number("intake_kcal", "Energy eaten in a day", low=0, high=MOST_KCAL, unit="kcal")
    spent = form.number(
        "exercise_kcal", "Energy of the training that day", low=0, high=MOST_KCAL, unit="kcal"
    )
    fat_free = form.mass("fat_free", "Mass without fat")
    mass = form.maybe_mass("body_mass", "Body mass")
    carbohydrate, protein, fat = (
        form.maybe_number(name, label, low=0, high=MOST_GRAMS, unit="g") for name, label in FOODS
    )
    day = form.day(*DAYS[ENERGY])
    form.done()
    entry = EnergyDay(
        id=new_measure_id(athlete_id),
        taken_on=day,
        intake_kcal=intake,
        exercise_kcal=spent,
        fat_free=fat_free,
        author=author,
        licence=licence,
        body_mass=mass,
        carbohydrate_g=carbohydrate,
        protein_g=protein,
        fat_g=fat,
    )
    return entry, AuthorRole.MEDICAL


def beside(kind: str, form: Form, error: InvalidInput) -> FormView:
    """The form as typed, a mistake of the whole beside the field it is about."""
    place = DAYS[kind] if error.place == "taken_on" else PLACES.get(error.place)
    if isinstance(error, FormRefused) or place is None:
        return form.refused(error)
    field, label = place
    return form.refused(FormRefused({field: InvalidInput(label, error.problem, error.advice)}))
