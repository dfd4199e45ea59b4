"""The first weeks of a newcomer or of one who comes back: less work, more rest, no punishing sets.

Unaccustomed hard work breaks down muscle. The numbers are from memory.
"""

from decimal import Decimal

from squadwright.errors import InvalidInput
from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates.limits import DEFAULT, Limit, Settings
from squadwright.planning.gates.subject import Subject, found

RULE = "first weeks"
SIGNS = "first weeks, signs"
RED_FLAGS = (
    "dark urine",
    "pain, swelling or weakness out of proportion",
    "being sick",
    "confusion",
)
"""Any of these after hard work is an emergency (from memory)."""
EMERGENCY = (
    f"After hard work {', '.join(RED_FLAGS[:-1])} or {RED_FLAGS[-1]}: emergency care at once"
)

_NEWCOMER = {1: Decimal("0.50"), 2: Decimal("0.70"), 3: Decimal("0.80"), 4: Decimal("0.90")}
_RETURNER = {1: Decimal("0.50"), 2: Decimal("0.70")}
WHOLE = Decimal(1)


def signs_to_watch(who: Subject, week: int, *, is_newcomer: bool) -> Finding | None:
    """The signs that are an emergency, in each week in which he gets less; None after them."""
    weeks = len(_NEWCOMER if is_newcomer else _RETURNER)
    if not 1 <= week <= weeks:
        return None
    return found(
        SIGNS,
        Severity.NOTE,
        who,
        f"week {week} of {weeks} of the first weeks, work is not usual yet",
        value=float(week),
        limit=Limit("first weeks", Decimal(weeks), "weeks", "first_weeks_recalled"),
        advice=EMERGENCY,
    )


def share_of_conditioning(week: int, *, is_newcomer: bool) -> Decimal:
    """Share of the usual conditioning in a week, from 1: 50, 30, 20, 10 % less at first."""
    if week < 1:
        raise InvalidInput("week", f"is {week}", "Count weeks from 1")
    return (_NEWCOMER if is_newcomer else _RETURNER).get(week, WHOLE)


def work_of_an_exercise(
    who: Subject,
    sets: int,
    repetitions: int,
    share_of_maximum: Decimal,
    *,
    settings: Settings = DEFAULT,
) -> Finding | None:
    """Sets times repetitions times share of the maximum of one exercise in the first weeks."""
    if sets < 1 or repetitions < 1 or not 0 < share_of_maximum <= 1:
        raise InvalidInput(
            "work", f"{sets} x {repetitions} at {share_of_maximum}", "Give sets, repetitions, share"
        )
    work = sets * repetitions * share_of_maximum
    limit = settings.of("sets x repetitions x share")
    if work <= limit.value:
        return None
    return found(
        RULE,
        Severity.WARNING,
        who,
        f"{sets} x {repetitions} at {share_of_maximum:.0%} is {work:f}, more than {limit.value}",
        value=float(work),
        limit=limit,
        advice=f"Take sets off. {EMERGENCY}",
    )


def sessions_of_a_week(
    who: Subject, week: int, sessions: int, *, settings: Settings = DEFAULT
) -> Finding | None:
    """Sessions in the first and second week."""
    if week not in (1, 2):
        return None
    limit = settings.of(f"sessions in week {week}")
    if sessions <= limit.value:
        return None
    return found(
        RULE,
        Severity.WARNING,
        who,
        f"{sessions} sessions in week {week}, more than {limit.value}",
        value=float(sessions),
        limit=limit,
        advice="Leave one out",
    )
