"""What a coach keeps and what he hands to medical staff about a weigh-in: plain text, no advice on
how mass is lost.
"""

from squadwright.library.weigh_ins import verdict_on_scale
from squadwright.model.athlete import MassReading
from squadwright.planning.gates.trend import day_words as day_at_words
from squadwright.planning.restriction_words import day_words
from squadwright.services.body_mass import WINDOW_DAYS, Coming, MassOf
from squadwright.words import mass_in_both

CAUTION = (
    "This program proposes no way to lose mass. Medical staff, the rules of the organiser and "
    "licensed practice come first."
)
SHOWN_READINGS = 7


def reading_text(reading: MassReading) -> str:
    """A reading with its day."""
    return f"{mass_in_both(reading.reading)} on {day_words(reading.taken_on)}"


def rate_text(each: Coming) -> str:
    """What an event asks for in one sentence."""
    if each.loss is None:
        return "Within the limit."
    loss = each.loss
    return (
        f"{loss.over_kg:.1f} kg over, {float(loss.percent):.1f} % of the mass of today: "
        f"{float(loss.weekly_percent):.2f} % a week for {loss.days} days."
    )


def above_text(found: MassOf) -> str:
    """Above a limit where there is no plan to lose mass: no rate, and no days."""
    return f"Above it; {found.no_plan}."


def trend_text(found: MassOf) -> str:
    """The trend with its interval, or why there is none."""
    trend = found.trend
    if trend is None or trend.slope_kg_a_day is None or trend.half_width_kg_a_day is None:
        return "No trend: it takes 3 readings over 5 days, within the last 28 days."
    weekly, half = 7 * trend.slope_kg_a_day, 7 * trend.half_width_kg_a_day
    share = "" if trend.weekly_loss_of_mean is None else f", {-trend.weekly_loss_of_mean:+.1f} %"
    return (
        f"{weekly:+.2f} kg a week{share} of the mean, between {weekly - half:+.2f} and "
        f"{weekly + half:+.2f} (95 %), from {len(trend.days)} readings since "
        f"{day_words(trend.days[0])}."
    )


def expected_text(found: MassOf, each: Coming) -> str:
    """Where the trend would lead by the weigh-in, with its interval; empty without a trend."""
    trend, day = found.trend, each.event.weighs_next(found.day) or each.event.starts_on
    expected = None if trend is None or each.days > WINDOW_DAYS else trend.expected_on(day)
    if trend is None or expected is None:
        return ""
    low, high = expected
    return (
        f"{(low + high) / 2:.1f} kg on {day_words(day)} if the line goes on, between {low:.1f} and "
        f"{high:.1f} (95 %); at the limit: {day_at_words(trend, each.held.limit.kg)}."
    )


def scale_text(found: MassOf, each: Coming) -> str:
    """What the reading of a weighing day is worth; empty on any other day."""
    verdict = None if found.now is None else verdict_on_scale(each.event, found.now)
    if verdict is None:
        return ""
    parts = (verdict.sentence.rstrip("."), verdict.consequence, verdict.caution)
    return f"{'; '.join(part for part in parts if part)}."


def coach_text(found: MassOf) -> str:
    """For the coach alone: where he stands, what the gates say, what to do with the training."""
    lines = [f"{found.shown_name}, for the coach only."]
    lines += [f"Now {reading_text(found.now)}."] if found.now else ["No reading yet."]
    if not found.no_plan:
        lines += [
            f"{each.event.name}, {day_words(each.event.starts_on)}, "
            f"limit {mass_in_both(each.held.limit)}: {rate_text(each)}"
            for each in found.coming
        ]
        lines.append(trend_text(found))
    lines += [f"{item.sentence} {item.advice}" for item in found.findings]
    if found.is_stopped and not found.no_plan:
        lines.append("Half the rounds at the same load until the weigh-in; no work is added.")
    return "\n".join((*lines, CAUTION))


def clinician_text(found: MassOf) -> str:
    """For medical staff: readings, limits, rates, and plans that were refused with their words."""
    athlete = found.athlete
    lines = [
        f"{found.shown_name}, {athlete.age_on(found.day)} years, {athlete.sex.value}, "
        f"{athlete.sport}. Please look at this weigh-in.",
        "Readings as typed:",
        *(f"- {reading_text(r)}" for r in found.readings[:SHOWN_READINGS]),
        trend_text(found),
    ]
    lines += [
        f"{each.event.name}, {day_words(each.event.starts_on)}: limit "
        f"{mass_in_both(each.held.limit)}, {each.held.words}. "
        f"{above_text(found) if found.no_plan and each.loss else rate_text(each)}"
        for each in found.coming
    ]
    lines += [item.sentence for item in found.findings]
    refused = [plan for plan in athlete.weight_plans if plan.refused]
    lines += ["Plans that were refused, as typed:"] if refused else []
    lines += [f"- {day_words(p.written_on)}: {p.kept_text}" for p in refused]
    return "\n".join((*lines, CAUTION))
