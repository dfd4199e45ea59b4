"""Sheets for others in words: sections of sentences, the same on the page and on paper."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import timedelta

from squadwright.formulas.sources import find_source
from squadwright.model.athlete import Athlete, Event, MassReading
from squadwright.model.diary import DiaryEntry, PainTold, SessionDone, TestResult, WellnessAnswers
from squadwright.model.role import Private, Role, may_see
from squadwright.planning.gates.bars import in_force, subject_of
from squadwright.planning.gates.gate import settings_of
from squadwright.planning.gates.private_limit import SOURCE_KEY, WARNING_SIGNS
from squadwright.planning.restriction_words import barred_line, coach_line, day_words, pain_words
from squadwright.printing.people import dose_words
from squadwright.printing.wording import as_sentence
from squadwright.services.body_composition import composition_of
from squadwright.services.body_composition_words import assessment_lines
from squadwright.services.measured_words import measured_lines
from squadwright.services.role_sheets import PlannedFor, SeenPerson, SheetOfOne, SheetOfSquad
from squadwright.words import plain_number

MOST_LINES = 14
WEEK_DAYS = 7
CAUTION = (
    "Stop on pain, dizziness or loss of form. Medical staff, local rules and licensed practice "
    "come first. Loads are estimates. Give this sheet only to the person it is for."
)
FOR_PARENTS = (
    "No maximal tests and no weight loss for anybody under 18 (common practice, no source).",
    "Loads start light and rise by small steps, and only with clean technique.",
    "Pain, illness, a knock to the head, or a worry: tell the coach, and ask a doctor first.",
)


@dataclass(frozen=True)
class SheetSection:
    """One section: its heading and its lines; ``none`` stands where there are no lines."""

    head: str
    lines: tuple[str, ...]
    none: str = ""


@dataclass(frozen=True)
class RoleSheet:
    """A sheet for a role: title, one line under it, sections, and whom it is for."""

    club: str
    title: str
    line: str
    held_on: str
    sections: tuple[SheetSection, ...]
    caution: str = CAUTION


def words_of_one(sheet: SheetOfOne) -> RoleSheet:
    """The sheet of one athlete."""
    person = sheet.person
    sections = {
        Role.ATHLETE: _for_athlete,
        Role.PARENT: _for_parent,
        Role.CLINICIAN: _for_clinician,
    }[sheet.role](sheet)
    titles = {
        Role.ATHLETE: f"{person.shown_name}: own card",
        Role.PARENT: f"{person.shown_name}: for parents",
        Role.CLINICIAN: f"{person.shown_name}: summary for medical staff",
    }
    return RoleSheet(
        club=sheet.club.name,
        title=titles[sheet.role],
        line=_who(person.athlete, sheet),
        held_on=sheet.today.isoformat(),
        sections=sections,
    )


def words_of_squad(sheet: SheetOfSquad) -> RoleSheet:
    """The brief of the squad."""
    is_head = sheet.role is Role.HEAD_COACH
    sections = [
        SheetSection(
            "Must not do",
            tuple(
                f"{person.shown_name}: {'; '.join(_barred(person, sheet))}."
                for person in sheet.people
                if _barred(person, sheet)
            ),
            "Nobody is held back today.",
        ),
        SheetSection(
            "Who does what next",
            tuple(
                as_sentence(f"{person.shown_name}: {'; '.join(map(_planned, person.coming))}")
                for person in sheet.people
                if person.coming
            ),
            "No session is planned in the next 14 days.",
        ),
    ]
    if is_head:
        sections += [
            SheetSection("Events ahead", _squad_events(sheet), "None is entered."),
            SheetSection("Load told, last 7 days", _squad_load(sheet), "Nothing was told."),
        ]
    else:
        sections += [_cues(sheet), _emergency(sheet)]
    return RoleSheet(
        club=sheet.club.name,
        title="Brief for the head coach" if is_head else "Card for an assistant",
        line="What each must not do is said, and never why. Ask the coach.",
        held_on=sheet.today.isoformat(),
        sections=tuple(sections),
    )


def _for_athlete(sheet: SheetOfOne) -> tuple[SheetSection, ...]:
    person = sheet.person
    return (
        SheetSection("Coming sessions", _coming(person), "None is planned yet."),
        SheetSection("What you leave out", _reasons(sheet), "Nothing is barred."),
        *_private(sheet),
        SheetSection("Events", _events(person.athlete, sheet), "None is entered."),
        SheetSection("Body mass as read", _masses(person.athlete), "Not read yet."),
        *_composition(sheet),
        *_measured(sheet),
        SheetSection("Tests", _tests(person), "None yet."),
        SheetSection("Pain told", _pain_lines(person), "None in the last 28 days."),
        SheetSection("Told in the last 28 days", _told(person.diary), "Nothing was told."),
    )


def _for_parent(sheet: SheetOfOne) -> tuple[SheetSection, ...]:
    person = sheet.person
    consents = tuple(
        f"{each.purpose}: {each.given_by}, {day_words(each.given_on)}."
        for each in person.athlete.consents
    )
    return (
        SheetSection("Coming sessions", _coming(person), "None is planned yet."),
        SheetSection("What is left out", _reasons(sheet), "Nothing is barred."),
        SheetSection("Pain told", _pain_lines(person), "None in the last 28 days."),
        SheetSection("Events", _events(person.athlete, sheet), "None is entered."),
        SheetSection("What was agreed to", consents, "Nothing yet: please ask the coach."),
        SheetSection("How young athletes train here", FOR_PARENTS),
    )


def _for_clinician(sheet: SheetOfOne) -> tuple[SheetSection, ...]:
    person, athlete = sheet.person, sheet.person.athlete
    clearances = tuple(
        f"{day_words(each.given_on)}: {each.author} ({each.licence}) on {each.restriction}. "
        f"{each.note}".strip()
        for each in athlete.clearances
    )
    knocks = tuple(
        f"{day_words(each.at.date())}: {as_sentence(each.words or 'taken out, no note')}"
        for each in person.incidents
        if not each.is_taken_back
    )
    return (
        SheetSection("In force today", _reasons(sheet), "Nothing is barred."),
        *_private(sheet),
        SheetSection("Clearances", clearances, "None on file."),
        SheetSection("Incidents", knocks, "None noted."),
        SheetSection("Pain told", _pain_lines(person), "None in the last 28 days."),
        SheetSection("Training told", _told(person.diary), "Nothing was told."),
        SheetSection("Body mass as read", _masses(athlete), "Not read yet."),
        *_composition(sheet),
        *_measured(sheet),
        SheetSection("Events", _events(athlete, sheet), "None is entered."),
        SheetSection("Coming sessions", _coming(person), "None is planned yet."),
        SheetSection(
            "What this is",
            ("Kept by a coach as it was told; it diagnoses nothing. What you write, holds.",),
        ),
    )


def _who(athlete: Athlete, sheet: SheetOfOne) -> str:
    age = f"{athlete.age_on(sheet.today)} years"
    parts = [athlete.sport, f"squad {athlete.squad}" if athlete.squad else ""]
    if sheet.role is Role.CLINICIAN:
        parts = [f"born {day_words(athlete.birth_date)}", age, athlete.sex.value, *parts]
    return as_sentence(", ".join(filter(None, parts)))


def _coming(person: SeenPerson) -> tuple[str, ...]:
    return tuple(as_sentence(_planned(each)) for each in person.coming)


def _planned(planned: PlannedFor) -> str:
    """A coming session: "2 Mar 2026, Monday barbell: 18.5 kg, 4 rounds"."""
    head = f"{day_words(planned.session.held_on)} {planned.session.name}"
    if planned.status in ("absent", "not training"):
        return f"{head}: does not train" if planned.status != "absent" else f"{head}: absent"
    amounts = map(dose_words, planned.doses)
    return f"{head}: {'; '.join(filter(None, amounts)) or 'as written'}"


def _barred(person: SeenPerson, sheet: SheetOfSquad) -> list[str]:
    return [barred_line(each) for each in in_force(person.athlete, sheet.today)]


def _reasons(sheet: SheetOfOne) -> tuple[str, ...]:
    return tuple(
        as_sentence(f"{coach_line(each)}. {each.instruction}".strip(". "))
        for each in in_force(sheet.person.athlete, sheet.today)
    )


def _private(sheet: SheetOfOne) -> tuple[SheetSection, ...]:
    """The signs under a private limit, for whom they are; no section where none stands."""
    held = sheet.person.athlete.medical.private_on(sheet.today)
    if held is None or not may_see(sheet.role, Private.PRIVATE_LIMIT):
        return ()
    source = find_source(SOURCE_KEY)
    return (
        SheetSection(
            "Private",
            (
                f"Stop, and a doctor or midwife at once: {', '.join(WARNING_SIGNS)} (from memory).",
                "Exercise is encouraged after a look by a doctor or midwife "
                f"({source.label}, {source.provenance.value}).",
            ),
        ),
    )


def _events(athlete: Athlete, sheet: SheetOfOne) -> tuple[str, ...]:
    coming = sorted(
        (event for event in athlete.events if event.starts_on >= sheet.today),
        key=lambda event: event.starts_on,
    )
    return tuple(_event(event) for event in coming[:MOST_LINES])


def _event(event: Event) -> str:
    limit = f", limit {event.mass_limit}" if event.mass_limit is not None else ""
    return f"{day_words(event.starts_on)}: {event.name}{limit}."


def _masses(athlete: Athlete) -> tuple[str, ...]:
    newest = sorted(athlete.body_mass, key=lambda each: each.taken_on, reverse=True)
    return tuple(_mass(each) for each in newest[:MOST_LINES])


def _composition(sheet: SheetOfOne) -> tuple[SheetSection, ...]:
    """Body composition as assessed; no section where nobody has assessed it."""
    person = sheet.person
    if not person.composition:
        return ()
    found = composition_of(sheet.club, person.athlete, person.composition, today=sheet.today)
    return (SheetSection("Body composition as assessed", assessment_lines(found)[:MOST_LINES]),)


def _measured(sheet: SheetOfOne) -> tuple[SheetSection, ...]:
    """What was measured beside the sessions; no section where nothing was."""
    athlete, settings = sheet.person.athlete, settings_of(sheet.club.gate_limits)
    who = subject_of(athlete, sheet.today, sheet.person.shown_name)
    lines = measured_lines(athlete.measured, who, settings)
    return (SheetSection("Measured beside the sessions", lines),) if lines else ()


def _mass(reading: MassReading) -> str:
    return f"{day_words(reading.taken_on)}: {reading.reading}."


def _tests(person: SeenPerson) -> tuple[str, ...]:
    athlete = person.athlete
    strength = [
        (t.taken_on, f"{t.lift.value.replace('_', ' ')}: {t.load} for {t.repetitions}, {t.method}")
        for t in athlete.tests
    ]
    jumps = [
        (t.taken_on, f"{t.kind}: {plain_number(100 * t.height_m, 1)} cm, {t.method}")
        for t in athlete.jump_tests
    ]
    results = [
        (
            entry.day,
            f"{entry.content.test.replace('_', ' ')}: "
            f"{plain_number(entry.content.value, 3)} {entry.content.unit}, {entry.content.method}",
        )
        for entry in person.diary
        if isinstance(entry.content, TestResult)
    ]
    newest = sorted([*strength, *jumps, *results], reverse=True)
    return tuple(f"{day_words(day)}: {words}." for day, words in newest[:MOST_LINES])


def _pain_lines(person: SeenPerson) -> tuple[str, ...]:
    checked = [(each.day, pain_words(each.pain)) for each in person.pains]
    told = [
        (
            entry.day,
            f"{entry.content.side} {entry.content.area.value} pain".strip()
            + f" {entry.content.score} of 10",
        )
        for entry in person.diary
        if isinstance(entry.content, PainTold)
    ]
    newest = sorted([*checked, *told], reverse=True)
    return tuple(f"{day_words(day)}: {words}." for day, words in newest[:MOST_LINES])


def _told(diary: Sequence[DiaryEntry]) -> tuple[str, ...]:
    """Sessions and wellness as told, the newest first."""
    lines = []
    for entry in reversed(diary):
        told = entry.content
        if isinstance(told, SessionDone):
            effort = "effort not told" if told.effort is None else f"effort {told.effort:g} of 10"
            lines.append(f"{day_words(entry.day)}: {told.name}, {told.minutes} min, {effort}.")
        elif isinstance(told, WellnessAnswers):
            answers = ", ".join(f"{each.item} {each.value}" for each in told.answers)
            good = told.highest if told.is_high_good else told.lowest
            lines.append(f"{day_words(entry.day)}: {answers} ({good} is best).")
    return tuple(lines[:MOST_LINES])


def _squad_events(sheet: SheetOfSquad) -> tuple[str, ...]:
    found = sorted(
        (event.starts_on, person.shown_name, event)
        for person in sheet.people
        for event in person.athlete.events
        if event.starts_on >= sheet.today
    )
    return tuple(
        f"In {(day - sheet.today).days} days, {day_words(day)}: {name}, {event.name}."
        for day, name, event in found[: 2 * MOST_LINES]
    )


def _squad_load(sheet: SheetOfSquad) -> tuple[str, ...]:
    """Effort times minutes of what was told; a day of silence is not counted as rest."""
    since = sheet.today - timedelta(days=WEEK_DAYS - 1)
    lines = []
    for person in sheet.people:
        week = [
            (entry.day, entry.content.minutes * entry.content.effort)
            for entry in person.diary
            if entry.day >= since
            and isinstance(entry.content, SessionDone)
            and entry.content.effort is not None
        ]
        if week:
            days = len({day for day, _ in week})
            load = plain_number(sum(load for _, load in week), 0)
            lines.append(f"{person.shown_name}: {load} AU, told on {days} of {WEEK_DAYS} days.")
    return tuple(lines)


def _cues(sheet: SheetOfSquad) -> SheetSection:
    """Faults to watch for in the next session, exercise by exercise."""
    faults: dict[str, tuple[str, ...]] = {}
    for plan in sheet.plans[:1]:
        for dose in plan.doses:
            faults.update({each.name: each.faults for each in dose.exercises if each.faults})
    lines = tuple(f"{name}: {', '.join(found)}." for name, found in faults.items())
    return SheetSection("Watch for, next session", lines, "No session is planned.")


def _emergency(sheet: SheetOfSquad) -> SheetSection:
    card = sheet.club.emergency
    lines = (
        f"Where we are: {card.address}" if card.address else "",
        f"Way in: {card.access}" if card.access else "",
        f"Defibrillator: {card.defibrillator}" if card.defibrillator else "",
        f"Call: {'; '.join(card.contacts)}" if card.contacts else "",
    )
    kept = tuple(as_sentence(line) for line in lines if line)
    return SheetSection("Emergency", kept, "No emergency card is written yet.")
