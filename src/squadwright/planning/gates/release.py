"""Whether a written word of medical staff lifts a rule."""

from datetime import date

from squadwright.model.athlete import Athlete


def is_released(athlete: Athlete, rule: str, since: date, day: date) -> bool:
    """Whether a medical entry that is not older than a day lifts a rule."""
    return any(
        rule in each.lifts and since <= each.given_on and each.holds_on(day)
        for each in athlete.medical.clearances
    )
