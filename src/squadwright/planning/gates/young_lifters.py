"""Lifting under 18: consent, a named supervisor, technique first, no test by itself.

Strength training of the young is safe and useful when it is planned and supervised by qualified
staff (read). The numbers are from memory.
"""

from dataclasses import dataclass
from decimal import Decimal

from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates.limits import DEFAULT, Limit, Settings
from squadwright.planning.gates.subject import Subject, found

RULE = "lifting under 18"


@dataclass(frozen=True)
class LiftingToday:
    """What a minor is to lift, and what stands on record about him."""

    share_of_maximum: Decimal
    sets: int
    days_this_week: int
    has_consent: bool
    supervisor: str
    has_technique: bool
    is_beginner: bool = True
    is_maximal_test: bool = False
    is_growth_checked: bool = False
    step_of_load: Decimal = Decimal(0)
    is_day_after_lifting: bool = False


def lifting_under_18(
    who: Subject, today: LiftingToday, *, settings: Settings = DEFAULT
) -> tuple[Finding, ...]:
    """Every reason against a minor's lifting today; nothing for a grown person."""
    if not who.is_minor:
        return ()
    age = Limit("age", Decimal(18), "years", "young_lifters_2014")
    findings = [
        found(RULE, Severity.STOP, who, words, value=float(who.age), limit=age, advice=advice)
        for is_so, words, advice in _asked_for(today)
        if is_so
    ]
    for name, value, words in _numbers(today):
        limit = settings.of(name)
        if value > limit.value:
            advice = "Plan less; heavy work with few repetitions only with proven technique"
            sentence = f"{words} {value}, more than {limit.value} {limit.unit}"
            findings.append(
                found(
                    RULE,
                    Severity.WARNING,
                    who,
                    sentence,
                    value=float(value),
                    limit=limit,
                    advice=advice,
                )
            )
    return tuple(findings)


def too_many_sets(
    who: Subject, sets: int, *, is_beginner: bool, settings: Settings = DEFAULT
) -> Finding | None:
    """More sets of one exercise than the young begin with, or go on to."""
    limit = settings.of("sets of a beginner under 18" if is_beginner else "sets under 18")
    if sets <= limit.value:
        return None
    return found(
        RULE,
        Severity.WARNING,
        who,
        f"{sets} sets of an exercise, more than {limit.value}",
        value=float(sets),
        limit=limit,
        advice="Plan less",
    )


def _asked_for(today: LiftingToday) -> tuple[tuple[bool, str, str], ...]:
    ready = today.has_technique and bool(today.supervisor.strip()) and today.is_growth_checked
    return (
        (not today.has_consent, "no consent of the guardian", "Ask the guardian first"),
        (not today.supervisor.strip(), "no supervisor named", "Name who watches him"),
        (
            not today.has_technique and today.share_of_maximum > 0,
            "technique is not ticked off",
            "No load before his technique is seen and ticked",
        ),
        (
            today.is_maximal_test and not ready,
            "no maximal test",
            "Technique, a named supervisor and a check of growth come first",
        ),
        (
            today.is_day_after_lifting,
            "lifted yesterday",
            "Leave a day between two days of lifting",
        ),
    )


def _numbers(today: LiftingToday) -> tuple[tuple[str, Decimal, str], ...]:
    beginner = today.is_beginner
    share = "share lifted by a beginner under 18" if beginner else "share lifted under 18"
    sets = "sets of a beginner under 18" if beginner else "sets under 18"
    lifted = Decimal(0) if today.is_maximal_test else today.share_of_maximum
    return (
        (share, lifted, "share of the maximum"),
        (sets, Decimal(today.sets), "sets"),
        ("days a week under 18", Decimal(today.days_this_week), "days this week"),
        ("step of load under 18", today.step_of_load, "step of load"),
    )
