"""Athletes in words: who he is, what he weighs, what comes next, what he must not do."""

from datetime import date
from urllib.parse import quote

from squadwright.model.athlete import Athlete, Event, Restriction
from squadwright.planning.restriction_words import bars_words, day_words, term_words
from squadwright.web.wording import capital, count_text, number_text


def athlete_path(athlete_id: str) -> str:
    """Where the page of an athlete is."""
    return f"/squad/athlete/{quote(athlete_id, safe='')}"


def incidents_path(athlete_id: str) -> str:
    """Where the incidents of an athlete are."""
    return f"/incidents?athlete={quote(athlete_id, safe='')}"


def record_path(athlete_id: str) -> str:
    """Where all that is held of an athlete is."""
    return f"/records/athlete/{quote(athlete_id, safe='')}"


def next_event(athlete: Athlete, day: date) -> Event | None:
    """The next event from a day on."""
    coming = [event for event in athlete.events if event.starts_on >= day]
    return min(coming, key=lambda event: event.starts_on, default=None)


def days_words(days: int) -> str:
    """Days to go: "today", "tomorrow", "in 26 days", "3 days ago"."""
    if days in (0, 1):
        return ("today", "tomorrow")[days]
    if days < 0:
        return f"{count_text(-days, 'day')} ago"
    return f"in {days} days"


def barred_words(restriction: Restriction) -> str:
    """What must not be done, without the reason: "No overhead, until 20 Mar 2026"."""
    words = capital(bars_words(restriction))
    return words if restriction.until is None else f"{words}, {term_words(restriction)}"


def who_words(athlete: Athlete, day: date) -> str:
    """Who he is in one line: born, sport, squad, class, level, years of training."""
    parts = [
        f"Born {day_words(athlete.birth_date)}, {athlete.age_on(day)} years, {athlete.sex.value}",
        athlete.sport,
        f"squad {athlete.squad}" if athlete.squad else "",
        f"class {athlete.weight_class}" if athlete.weight_class else "",
        f"{athlete.level.value}, {number_text(athlete.training_age_years)} years of training",
        f"{athlete.stature_m * 100:.0f} cm" if athlete.stature_m is not None else "",
    ]
    return ". ".join(capital(part) for part in parts if part) + "."


def guardian_words(athlete: Athlete) -> str:
    """Who answers for him, and how to reach them; empty where nobody does."""
    guardian = athlete.guardian
    if guardian is None:
        return ""
    telephone = f", {guardian.telephone}" if guardian.telephone else ""
    return f"{guardian.name}, {guardian.relation}{telephone}"
