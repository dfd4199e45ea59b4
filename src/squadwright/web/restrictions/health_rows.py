"""What is known of an athlete's health, as rows of the page of his medical entries."""

from collections.abc import Iterator

from squadwright.model.medical import Medical
from squadwright.planning.restriction_words import day_words
from squadwright.web.restrictions.contexts import Choice
from squadwright.web.restrictions.health_forms import OUTCOMES
from squadwright.web.restrictions.medical_contexts import EntryRow


def health_rows(medical: Medical, path: str) -> Iterator[EntryRow]:
    """Each of them that stands; ``path`` is the one of his medical entries."""

    def change(kind: str) -> tuple[Choice, ...]:
        return (Choice("Change it", f"{path}/new/{kind}"),)

    seen, weeks, form = medical.technique, medical.first_weeks, medical.screening
    if seen is not None:
        lines = [f"By {seen.seen_by}, on {day_words(seen.seen_on)}."]
        if seen.growth_checked_on is not None:
            lines.append(f"Growth checked on {day_words(seen.growth_checked_on)}.")
        yield EntryRow("Technique seen", tuple(lines), change("technique"))
    if weeks is not None:
        who = "New to training" if weeks.is_newcomer else "Back after a break"
        yield EntryRow(
            "First weeks", (f"{who} since {day_words(weeks.began_on)}.",), change("first-weeks")
        )
    held = medical.private_limit
    if held is not None:
        lines = [f"Declared by {held.author}, since {day_words(held.declared_on)}."]
        if held.stopped_on is not None:
            lines.append(f"A sign came on {day_words(held.stopped_on)}.")
        lines.append("No reason is kept, and none is to be asked for.")
        yield EntryRow("Private limit", tuple(lines), change("private"))
    said = tuple(_health_lines(medical))
    if said:
        yield EntryRow("Known disease, symptoms, heat", said, change("health"))
    if form is not None:
        lines = [
            f"{form.form_name} of {form.version_year}, filled in on {day_words(form.completed_on)},"
            f" holds until {day_words(form.expires_on)}.",
            f"{dict(OUTCOMES)[form.outcome.value]}.",
        ]
        yield EntryRow("Screening form", tuple(lines), change("screening"))


def _health_lines(medical: Medical) -> Iterator[str]:
    if medical.known_disease:
        yield f"Known disease: {medical.known_disease}."
    if medical.has_symptoms:
        yield "There are symptoms."
    if medical.is_active is not None:
        yield "Active until now." if medical.is_active else "Not active until now."
    if medical.is_used_to_heat:
        yield "Used to heat."
    if medical.has_had_heat_illness:
        yield "Ill from heat before."
