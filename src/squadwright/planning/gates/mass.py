"""Gates on body mass: how fast, how much in the last days, how far from the class.

Percentages are exact fractions of the masses as typed, so that 10.0 % is never a hair more.
"""

from collections.abc import Sequence
from datetime import datetime, timedelta
from decimal import Decimal
from fractions import Fraction

from squadwright.errors import InvalidInput
from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates.limits import DEFAULT, Limit, Settings
from squadwright.planning.gates.subject import Subject, exact, found, instant, percent_of
from squadwright.units import Mass

WEEK_DAYS = 7
MOST_DECIMALS = 7
LEAST_DIFFERENCE_KG = 1e-6
REFER = "Refer to medical staff or a sports dietitian"

WEEKLY = "weekly loss"
LAST_DAYS = "loss in the last days"
SAME_DAY = "loss for a weigh-in of the same day"
OUT_OF_CAMP = "mass out of camp"
MORNING = "morning mass"
URINE = "urine"
GAINED = "heavier after training"
FLOOR = "floor of body fat"
REGAIN = "mass on the day of the bout"
MINOR = "no weight plan under 18"
BELOW_MINIMUM = "class below the minimum mass"


def needed_weekly_loss(
    who: Subject, now: Mass, limit: Mass, days: int, *, settings: Settings = DEFAULT
) -> Finding | None:
    """Loss a week still needed to reach a limit, of the mass of today."""
    if exact(now) <= exact(limit):
        return None
    if who.is_minor:
        return no_plan_for_a_minor(who)
    if days < 1:
        raise InvalidInput("days", f"is {days}", "Give 1 day or more")
    weekly = percent_of(exact(now) - exact(limit), now) * WEEK_DAYS / days
    return weekly_loss_of(who, weekly, "of the mass of today", settings=settings)


def weekly_loss_of(
    who: Subject, percent: Fraction | Decimal, base: str, *, settings: Settings = DEFAULT
) -> Finding | None:
    """Judge a rate that was worked out elsewhere, with the mass it is a percent of."""
    return first_above(
        WEEKLY,
        who,
        Fraction(percent),
        (
            (
                "weekly loss, stop",
                Severity.STOP,
                f"Stop the loss, choose a heavier class or a later event. {REFER}",
            ),
            (
                "weekly loss, caution",
                Severity.WARNING,
                "Slow down, and take volume off training while it lasts",
            ),
        ),
        f"{{}} % a week {base}, more than {{limit}} %",
        settings,
    )


def no_plan_for_a_minor(who: Subject) -> Finding:
    """Under 18 there is no weight plan at all."""
    limit = Limit("age", Decimal(18), "years", "minors_mass_recalled")
    return found(
        MINOR,
        Severity.STOP,
        who,
        f"is {who.age}: no plan to lose mass",
        value=float(who.age),
        limit=limit,
        advice="Compete at today's mass; tell the guardian and medical staff",
    )


def last_days_loss(
    who: Subject,
    now: Mass,
    limit: Mass,
    *,
    hours_to_weigh_in: int,
    hours_to_recover: int,
    settings: Settings = DEFAULT,
) -> Finding | None:
    """Loss still needed in the last three days: a line for referral, not a target."""
    over = exact(now) - exact(limit)
    if over <= 0 or not 0 <= hours_to_weigh_in <= 72:
        return None
    if who.is_minor:
        return no_plan_for_a_minor(who)
    if hours_to_recover < settings.of("recovery after weigh-in").value:
        return same_day_loss(who, now, limit, settings=settings)
    hours = next(h for h in (24, 48, 72) if hours_to_weigh_in <= h)
    line = settings.of(f"loss in the last {hours} h")
    percent = percent_of(over, now)
    if percent <= Fraction(line.value):
        return None
    return found(
        LAST_DAYS,
        Severity.STOP,
        who,
        f"{_shown(percent, line)} % above the limit with {hours_to_weigh_in} h left",
        value=percent,
        limit=line,
        advice=f"No further loss. {REFER}",
    )


def same_day_loss(
    who: Subject, now: Mass, limit: Mass, *, settings: Settings = DEFAULT
) -> Finding | None:
    """Loss still needed where too few hours are known from weigh-in to bout, as on one day."""
    over = exact(now) - exact(limit)
    if over <= 0:
        return None
    if who.is_minor:
        return no_plan_for_a_minor(who)
    percent = percent_of(over, now)
    hours = settings.of("recovery after weigh-in").value
    return first_above(
        SAME_DAY,
        who,
        percent,
        (
            ("same-day loss, refer", Severity.STOP, f"No further loss. {REFER}"),
            (
                "same-day loss, caution",
                Severity.WARNING,
                "Ask how it goes; choose the class above",
            ),
        ),
        f"{{}} % above the limit, and {hours} h from weigh-in to bout are not certain",
        settings,
    )


def mass_out_of_camp(
    who: Subject, usual: Mass, limit: Mass, *, settings: Settings = DEFAULT
) -> Finding | None:
    """Usual mass far above the limit of the class."""
    percent = percent_of(exact(usual) - exact(limit), limit)
    line = settings.of("mass out of camp")
    if percent <= Fraction(line.value):
        return None
    return found(
        OUT_OF_CAMP,
        Severity.WARNING,
        who,
        f"{_shown(percent, line)} % above the limit of the class out of camp",
        value=percent,
        limit=line,
        advice="Review the class with medical staff",
    )


def morning_mass(
    who: Subject, today: Mass, last_week: Sequence[Mass], *, settings: Settings = DEFAULT
) -> Finding | None:
    """Mass before training below the mean of the last seven days."""
    if not last_week:
        raise InvalidInput("last_week", "holds no reading", "Give the readings of the last 7 days")
    mean = sum((exact(mass) for mass in last_week), Fraction(0)) / len(last_week)
    percent = 100 * (mean - exact(today)) / mean
    return first_above(
        MORNING,
        who,
        percent,
        (
            (
                "morning mass, hold",
                Severity.STOP,
                "No training. Refer to medical staff",
            ),
            ("morning mass, caution", Severity.WARNING, "Drink and weigh again; easy work"),
        ),
        f"{{}} % below the mean of {len(last_week)} readings",
        settings,
    )


def urine_gravity(
    who: Subject, specific_gravity: Decimal, *, settings: Settings = DEFAULT
) -> Finding | None:
    """Specific gravity of the first urine of the morning."""
    value = _specific_gravity(specific_gravity)
    for name, words, advice in (
        ("urine, serious", "serious", "Hold hard work. Refer to medical staff"),
        ("urine, caution", "significant", "Water before training, and test tomorrow"),
    ):
        line = settings.of(name)
        if value > line.value:
            return found(
                URINE,
                Severity.WARNING,
                who,
                f"urine of {value}: {words}",
                value=float(value),
                limit=line,
                advice=advice,
            )
    return None


def assessment_refused_until(
    specific_gravity: Decimal, body: str, taken_at: datetime, *, settings: Settings = DEFAULT
) -> datetime | None:
    """When urine may be tested again before body fat is assessed; None if it may go on now."""
    line = settings.of(f"urine before an assessment, {body}")
    if _specific_gravity(specific_gravity) <= line.value:
        return None
    hours = int(settings.of("hours until the next urine").value)
    return instant("taken_at", taken_at) + timedelta(hours=hours)


def heavier_after_training(who: Subject, before: Mass, after: Mass) -> Finding | None:
    """More mass after training than before: more was drunk than lost."""
    gained = exact(after) - exact(before)
    if gained <= 0:
        return None
    return found(
        GAINED,
        Severity.WARNING,
        who,
        f"{float(gained):.2f} kg heavier after training than before",
        value=gained,
        limit=Limit("gain", Decimal(0), "kg", "nata_hydration_page"),
        advice="Headache, sickness, confusion or swelling: medical help at once",
    )


def floor_of_fat(
    who: Subject, fat_percent: Decimal, floor_percent: Decimal, *, source_key: str
) -> Finding | None:
    """At or below the floor of body fat nothing more is lost."""
    if fat_percent > floor_percent:
        return None
    return found(
        FLOOR,
        Severity.STOP,
        who,
        f"body fat {fat_percent} % is at or below the floor of {floor_percent} %",
        value=float(fat_percent),
        limit=Limit("floor", floor_percent, "% fat", source_key),
        advice=f"No further loss. {REFER}",
    )


def class_below_minimum(
    who: Subject, limit: Mass, minimum_kg: float, words: str, *, source_key: str
) -> Finding | None:
    """A class under the minimum mass is refused; exactly the minimum is not under it."""
    if float(limit.exact_kg) >= minimum_kg - LEAST_DIFFERENCE_KG:
        return None
    advice = "Enter a heavier class" if who.is_minor else "Enter a heavier class or a later event"
    return found(
        BELOW_MINIMUM,
        Severity.STOP,
        who,
        f"the class of {limit} is below the athlete's minimum of {words}",
        value=limit.kg,
        limit=Limit("minimum", Decimal(f"{minimum_kg:.3f}"), "kg", source_key),
        advice=f"{advice}. {REFER}",
    )


def fight_day_regain(
    who: Subject, limit: Mass, on_the_day: Mass, *, settings: Settings = DEFAULT
) -> Finding | None:
    """Mass on the day of the bout above the limit; exactly at a line is not above it."""
    percent = percent_of(exact(on_the_day) - exact(limit), limit)
    return first_above(
        REGAIN,
        who,
        percent,
        (
            (
                "regain, stop",
                Severity.STOP,
                "Tell the commission's doctor: the bout may be called off",
            ),
            (
                "regain, review",
                Severity.WARNING,
                "Review the class with medical staff after the bout",
            ),
        ),
        f"{{}} % above the limit of {limit} on the day of the bout",
        settings,
    )


def first_above(
    rule: str,
    who: Subject,
    percent: Fraction,
    lines: tuple[tuple[str, Severity, str], ...],
    sentence: str,
    settings: Settings,
) -> Finding | None:
    """What the first limit that a percent is above says, the gravest first; None at or below all.

    ``lines`` holds the name of each limit, how grave it is, and the advice; ``sentence`` has a
    place for the percent and one, ``limit``, for the limit.
    """
    for name, severity, advice in lines:
        line = settings.of(name)
        if percent > Fraction(line.value):
            words = sentence.format(_shown(percent, line), limit=line.value)
            return found(rule, severity, who, words, value=percent, limit=line, advice=advice)
    return None


def _specific_gravity(value: Decimal) -> Decimal:
    if not Decimal("1.000") <= value <= Decimal("1.060"):
        raise InvalidInput(
            "specific_gravity",
            f"{value} is not between 1.000 and 1.060",
            "Read the instrument again; 1.025 is written with the 1",
        )
    return value


def _shown(percent: Fraction, line: Limit) -> str:
    """Two decimals, or as many as it takes to be seen above the line."""
    texts = (f"{float(percent):.{places}f}" for places in range(2, MOST_DECIMALS))
    return next((text for text in texts if Decimal(text) > line.value), f"{float(percent):.6g}")
