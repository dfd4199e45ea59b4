"""Who needs a clearance before he trains, by activity, known disease, symptoms and hardness.

The answers come from the athlete's own form; its text belongs to its owners and is not kept here,
only its name, year, day and outcome. The table is from memory; its three questions were read.
"""

from calendar import monthrange
from datetime import date

from squadwright.errors import InvalidInput
from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates.limits import DEFAULT, Settings
from squadwright.planning.gates.subject import Subject, found

RULE = "clearance before training"


def a_year_after(day: date, *, months: int = 12) -> date:
    """The same day so many months later; the end of the month where there is no such day."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


def stops(found: Finding) -> bool:
    """Whether it keeps him from the session."""
    return found.severity is Severity.STOP


def clearance_needed(
    who: Subject,
    day: date,
    *,
    is_active: bool,
    has_disease: bool,
    has_symptoms: bool,
    is_hard: bool,
    cleared_on: date | None = None,
    settings: Settings = DEFAULT,
) -> Finding | None:
    """What stands between an athlete and a session; None where nothing does.

    Active means 30 minutes of moderate work on 3 days a week for 3 months. Disease means of heart,
    metabolism or kidneys.
    """
    limit = settings.of("clearance for hard work")
    if cleared_on is not None and cleared_on > day:
        raise InvalidInput(
            "cleared_on", f"{cleared_on} is after {day}", "Give the day it was given"
        )
    is_cleared = cleared_on is not None and day <= a_year_after(cleared_on, months=int(limit.value))

    def answer(severity: Severity, sentence: str, advice: str) -> Finding:
        return found(RULE, severity, who, sentence, value=None, limit=limit, advice=advice)

    doctor = "Ask a doctor for a written clearance"
    if has_symptoms:
        sentence = "has symptoms: stop until cleared" if is_active else "has symptoms: not to start"
        return answer(Severity.STOP, sentence, doctor)
    if not is_active and not has_disease:
        return answer(Severity.NOTE, "is not active yet", "Start with light to moderate work")
    if not has_disease or is_cleared:
        return None
    if not is_active:
        return answer(Severity.STOP, "has a known disease and is not active: not to start", doctor)
    if is_hard:
        sentence = f"has a known disease: hard work needs a clearance within {limit.value} months"
        return answer(Severity.STOP, sentence, f"{doctor}, or keep the work moderate")
    return None
