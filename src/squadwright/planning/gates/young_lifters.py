"""Lifting under 18: consent, a named supervisor, technique first, and modest numbers.

Strength training of the young is safe and useful when it is planned and supervised by qualified
staff (read). The numbers are from memory. Nobody under 18 lifts his most once.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates.limits import DEFAULT, Limit, Settings
from squadwright.planning.gates.subject import Subject, found

RULE = "lifting under 18"
NO_CONSENT = "no consent of the guardian"
NO_TECHNIQUE = "technique is not ticked off"
NO_GROWTH_CHECK = "growth is not checked"


@dataclass(frozen=True)
class LiftingToday:
    """What a minor is to lift, and what stands on record about him.

    ``share_of_maximum`` is 0 with the bare bar; ``step_of_load`` how much more than last time, as
    a share of it.
    """

    share_of_maximum: Decimal
    sets: int
    days_this_week: int
    has_consent: bool
    supervisor: str
    has_technique: bool
    is_beginner: bool = True
    step_of_load: Decimal = Decimal(0)
    is_day_after_lifting: bool = False


def lifting_under_18(
    who: Subject, today: LiftingToday, *, settings: Settings = DEFAULT
) -> tuple[Finding, ...]:
    """Every reason against a minor's lifting today; nothing for a grown person."""
    if not who.is_minor:
        return ()
    return (*_asked_for(who, today), *_numbers(who, today, settings))


def why_no_load(*, has_consent: bool, has_technique: bool) -> str:
    """Why a minor has the bare bar, whatever he can lift; empty where he may have a load."""
    if not has_consent:
        return NO_CONSENT
    return "" if has_technique else NO_TECHNIQUE


def before_a_strength_test(
    *, has_consent: bool, has_technique: bool, is_growth_checked: bool
) -> tuple[str, ...]:
    """What comes first, before a minor is tested by a set of several good repetitions."""
    asked = (
        (has_consent, NO_CONSENT),
        (has_technique, NO_TECHNIQUE),
        (is_growth_checked, NO_GROWTH_CHECK),
    )
    return tuple(words for is_there, words in asked if not is_there)


def _asked_for(who: Subject, today: LiftingToday) -> Iterator[Finding]:
    age = Limit("age", Decimal(18), "years", "young_lifters_2014")
    has_load = today.share_of_maximum > 0
    years = float(who.age)
    if not today.has_consent:
        yield found(
            RULE,
            Severity.STOP if has_load else Severity.WARNING,
            who,
            f"{NO_CONSENT}: no load",
            value=years,
            limit=age,
            advice="Ask the guardian, and enter the consent on the athlete's page",
        )
    if not today.supervisor.strip():
        yield found(
            RULE,
            Severity.STOP,
            who,
            "lifts, and the session names no supervisor",
            value=years,
            limit=age,
            advice="Name among the staff of the session who watches",
        )
    if not today.has_technique:
        yield found(
            RULE,
            Severity.STOP if has_load else Severity.NOTE,
            who,
            f"{NO_TECHNIQUE}: no load",
            value=years,
            limit=age,
            advice="Have it seen, and tick it off among the medical entries",
        )
    if today.is_day_after_lifting:
        yield found(
            RULE,
            Severity.WARNING,
            who,
            "lifted yesterday",
            value=years,
            limit=age,
            advice="Leave a day between two days of lifting",
        )


def _numbers(who: Subject, today: LiftingToday, settings: Settings) -> Iterator[Finding]:
    beginner = today.is_beginner
    share = "share lifted by a beginner under 18" if beginner else "share lifted under 18"
    sets = "sets of a beginner under 18" if beginner else "sets under 18"
    told = (
        (share, today.share_of_maximum, "share of the maximum"),
        (sets, Decimal(today.sets), "sets of an exercise"),
        ("days a week under 18", Decimal(today.days_this_week), "days of lifting within a week"),
        ("step of load under 18", today.step_of_load, "step of load"),
    )
    for name, value, words in told:
        limit = settings.of(name)
        if value > limit.value:
            yield found(
                RULE,
                Severity.WARNING,
                who,
                f"{words}: {value}, more than {limit.value} {limit.unit}",
                value=float(value),
                limit=limit,
                advice="Plan less; heavy work with few repetitions only with proven technique",
            )
