"""Pain watched on a scale of 10 while a clinician guides the load of a tendon or a front knee.

Not for a fresh injury, stress of bone, signs of a nerve, a joint that locks, the chest, the head
or the neck: those are for medical staff.
"""

from dataclasses import dataclass
from enum import StrEnum

from squadwright.errors import InvalidInput
from squadwright.model.measured import NextMorning, WeekTrend
from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates.limits import DEFAULT, Limit, Settings
from squadwright.planning.gates.subject import Subject, found

RULE = "pain under load"


class Action(StrEnum):
    """What becomes of the load."""

    KEEP_OR_RAISE = "keep, or raise a little"
    KEEP = "keep"
    REDUCE = "reduce"
    REDUCE_AND_REFER = "reduce, and refer"
    STOP_AND_REFER = "stop, and refer"


@dataclass(frozen=True)
class PainAnswer:
    """What becomes of the load, and the finding that says so."""

    action: Action
    finding: Finding | None


def pain_under_load(
    who: Subject,
    during: int,
    after: int | None = None,
    next_morning: NextMorning | None = None,
    week: WeekTrend | None = None,
    *,
    is_for_a_clinician: bool = False,
    place: str = "",
    settings: Settings = DEFAULT,
) -> PainAnswer:
    """Judge pain at a place. ``is_for_a_clinician`` is any of what the scale is not for."""
    for name, score in (("during", during), ("after", after)):
        if score is not None and not 0 <= score <= 10:
            raise InvalidInput(name, f"{score} is not 0 to 10", "Give 0 to 10")
    stop, watch = settings.of("pain, stop"), settings.of("pain, watch")
    worst = max(during, after or 0)
    refer = "See medical staff before the next load"
    at = f"{place}, " if place else ""
    if is_for_a_clinician or worst > stop.value:
        why = f"pain {worst} of 10" if worst > stop.value else "for medical staff, not for a scale"
        return _answer(Action.STOP_AND_REFER, who, Severity.STOP, f"{at}{why}", worst, stop, refer)
    if week is WeekTrend.RISING:
        sentence = f"{at}pain grows from week to week"
        return _answer(
            Action.REDUCE_AND_REFER, who, Severity.WARNING, sentence, worst, watch, refer
        )
    if next_morning is NextMorning.WORSE:
        sentence = f"{at}pain is up the morning after"
        less = "Take load off until the morning is as usual"
        return _answer(Action.REDUCE, who, Severity.WARNING, sentence, worst, watch, less)
    if worst > watch.value:
        sentence = f"{at}pain {worst} of 10, settled"
        keep = "Keep the load, and ask again tomorrow morning"
        return _answer(Action.KEEP, who, Severity.NOTE, sentence, worst, watch, keep)
    return PainAnswer(Action.KEEP_OR_RAISE, None)


def _answer(
    action: Action,
    who: Subject,
    severity: Severity,
    sentence: str,
    worst: int,
    limit: Limit,
    advice: str,
) -> PainAnswer:
    item = found(RULE, severity, who, sentence, value=float(worst), limit=limit, advice=advice)
    return PainAnswer(action, item)
