"""The page of one athlete, put together from what is stored."""

from datetime import date
from urllib.parse import quote

from squadwright.model.athlete import Athlete, Restriction
from squadwright.model.club import Club
from squadwright.model.plan import Plan, Severity
from squadwright.planning.gates.bars import in_force, subject_of
from squadwright.planning.gates.gate import settings_of
from squadwright.planning.gates.mass import GAINED, URINE
from squadwright.planning.gates.measures import findings_of_measures, is_watched
from squadwright.planning.mass_rate import needed_loss
from squadwright.planning.restriction_words import day_words
from squadwright.printing.people import dose_words, doses_by_athlete
from squadwright.services.body_mass import why_no_plan
from squadwright.services.squad_view import ShownAthlete
from squadwright.web.after_event.paths import event_links
from squadwright.web.body_mass.paths import mass_path
from squadwright.web.body_mass.words import basis_words
from squadwright.web.event_day.pages import event_day_path
from squadwright.web.load.paths import athlete_load_path
from squadwright.web.measured.paths import pain_path
from squadwright.web.right.paths import right_path
from squadwright.web.squad.capacity import capacity_view
from squadwright.web.squad.contexts import AthletePage, PlannedLine, Remark
from squadwright.web.squad.kinds import BODY_MASS, CONSENT, EVENT, JUMP, STRENGTH, section_of
from squadwright.web.squad.sessions_say import sessions_say
from squadwright.web.squad.words import (
    athlete_path,
    barred_words,
    days_words,
    guardian_words,
    incidents_path,
    next_event,
    record_path,
    who_words,
)
from squadwright.web.testing.paths import results_path
from squadwright.web.wording import capital
from squadwright.words import mass_words

OF_MASS = (GAINED, URINE)


def athlete_page(shown: ShownAthlete, *, today: date) -> AthletePage:
    """One athlete as he stands today."""
    athlete = shown.athlete
    kinds = (BODY_MASS, EVENT, STRENGTH, JUMP, CONSENT)
    return AthletePage(
        name=shown.club.shown_names()[athlete.id],
        line=who_words(athlete, today),
        path=athlete_path(athlete.id),
        incidents_path=incidents_path(athlete.id),
        record_path=record_path(athlete.id),
        right_path=right_path(athlete.id),
        load_path=athlete_load_path(athlete.id),
        tests_path=results_path(athlete.id),
        event_links=event_links(athlete, today),
        event_day_path=_event_day_path(athlete, today),
        note=athlete.note,
        remarks=tuple(_remarks(shown.club, athlete, today)),
        restrictions=tuple(_restriction(r) for r in in_force(athlete, today)),
        next_event=_next_event(athlete, today),
        mass_line=_mass_line(athlete, today),
        capacity=capacity_view(athlete),
        sessions_say=sessions_say(shown.fitted, today=today),
        sections=tuple(section_of(athlete, kind, today) for kind in kinds),
        planned=tuple(line for plan in shown.plans for line in _planned(plan, athlete.id)),
        guardian=guardian_words(athlete),
        is_minor=athlete.is_minor_on(today),
    )


def _remarks(club: Club, athlete: Athlete, today: date) -> list[Remark]:
    """What is amiss or special: a guest, a restriction that has ended, a measure, a minor."""
    return [
        *_of_guest(athlete, today),
        *_of_ended(athlete, today),
        *_of_measures(club, athlete, today),
        *(_of_minor(athlete, today) if athlete.is_minor_on(today) else ()),
    ]


def _of_guest(athlete: Athlete, today: date) -> list[Remark]:
    until = athlete.guest_until
    if until is None:
        return []
    words = f"A guest until {day_words(until)}."
    is_over = until <= today
    advice = "The time is over: a member now, or removed?" if is_over else ""
    severity = "warning" if is_over else "note"
    return [Remark(severity, words, advice, "/today/guests", "Look at the guests")]


def _of_ended(athlete: Athlete, today: date) -> list[Remark]:
    return [
        Remark(
            "warning",
            f"{barred_words(each)}: the time set by {each.author} is over.",
            "Ask whether it is really over; medical staff decide on what they set.",
            f"{athlete_path(athlete.id)}/restrictions",
            "Look at the restrictions",
        )
        for each in athlete.ended_restrictions_on(today)
    ]


def _of_measures(club: Club, athlete: Athlete, today: date) -> list[Remark]:
    """What the gates find in what was measured of him, with its limit and source."""
    who, path = subject_of(athlete, today), athlete_path(athlete.id)
    found = findings_of_measures(athlete, who, today, settings=settings_of(club.gate_limits))
    remarks = [
        Remark(
            item.severity,
            capital(item.sentence.partition(": ")[2]),
            f"{item.advice} {basis_words(item)}",
            mass_path(athlete.id) if item.rule in OF_MASS else f"{path}/restrictions/medical",
            "Look at it",
        )
        for item in found
    ]
    watched = [each for each in athlete.measured.pains if is_watched(athlete, each, today)]
    remarks += [
        Remark(
            Severity.NOTE,
            f"Load on the {each.place} is guided by {each.author}.",
            "",
            pain_path(athlete.id, each.id),
            f"Tell how the {each.place} was",
        )
        for each in watched
    ]
    return remarks


def _of_minor(athlete: Athlete, today: date) -> list[Remark]:
    path, found = athlete_path(athlete.id), []
    age = athlete.age_on(today)
    if athlete.guardian is None:
        found.append(
            Remark(
                "warning",
                f"{age} years, and no guardian is on file.",
                "Enter the adult who answers for the athlete.",
                f"{path}/guardian",
                "Enter the guardian",
            )
        )
    elif not athlete.has_consent_of_guardian:
        found.append(
            Remark(
                "warning",
                f"{age} years, and {athlete.guardian.name} has agreed to nothing yet.",
                "Ask, and enter what was agreed to.",
                f"{path}/{CONSENT.key}/new",
                "Enter a consent",
            )
        )
    found.append(
        Remark(
            "note",
            f"A minor of {age} years: no maximal tests, no weight loss.",
            "Common practice, no source; local rules come first.",
        )
    )
    return found


def _restriction(restriction: Restriction) -> str:
    """For the coach: what is barred, why, what to do instead, by whom."""
    parts = [
        f"{barred_words(restriction)}.",
        f"{capital(restriction.reason)}." if restriction.reason else "",
        f"{capital(restriction.instruction)}." if restriction.instruction else "",
        f"Set by {restriction.author} on {day_words(restriction.starts_on)}.",
    ]
    return " ".join(part for part in parts if part)


def _next_event(athlete: Athlete, today: date) -> str:
    event = next_event(athlete, today)
    if event is None:
        return ""
    days = (event.starts_on - today).days
    return f"{event.name} {days_words(days)}, {day_words(event.starts_on)}"


def _event_day_path(athlete: Athlete, today: date) -> str:
    event = next_event(athlete, today)
    return "" if event is None else event_day_path(event.starts_on)


def _mass_line(athlete: Athlete, today: date) -> str:
    """His mass, and how far it is from the limit of the next event."""
    reading = athlete.latest_body_mass(today)
    if reading is None:
        return ""
    words = f"{mass_words(reading.reading)} on {day_words(reading.taken_on)}"
    event = next_event(athlete, today)
    if event is None or event.mass_limit is None:
        return words
    loss = needed_loss(athlete, event, today)
    if loss is None:
        return f"{words}; within the limit of {mass_words(event.mass_limit)}"
    limit = mass_words(loss.limit)
    if athlete.is_minor_on(today):
        return (
            f"{words}; above the limit of {limit}. A minor loses no weight for it: a higher class"
        )
    no_plan = why_no_plan(athlete, today)
    if no_plan:
        return f"{words}; above the limit of {limit}: {no_plan}"
    share = f"{float(loss.percent):.1f}\N{NO-BREAK SPACE}% of it"
    return f"{words}; {loss.over_kg:.1f} kg ({share}) above the limit of {limit}"


def _planned(plan: Plan, athlete: str) -> tuple[PlannedLine, ...]:
    """What one kept plan held for him."""
    doses = doses_by_athlete(plan).get(athlete, ())
    status = next((a.status for a in plan.attendance if a.athlete == athlete), "")
    amounts = []
    for dose in doses:
        block = f"{dose.block}: " if dose.block and len(doses) > 1 else ""
        amounts.append(f"{block}{dose_words(dose) or 'as written'}")
    head = f"{day_words(plan.session.held_on)}, {plan.session.name}, {plan.session.routine_name}"
    if status in ("absent", "not training"):
        head += f": {'did not train' if status == 'not training' else 'absent'}"
    path = f"/today/{quote(plan.session.id, safe='')}"
    return (PlannedLine(head, tuple(amounts), path),)
