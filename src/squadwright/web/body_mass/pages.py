"""The page of one athlete's body mass, put together from what is stored."""

from datetime import date

from squadwright.model.athlete import WeightPlan
from squadwright.model.club import Club
from squadwright.planning.restriction_words import day_words
from squadwright.services.body_mass import Coming, MassOf
from squadwright.services.body_mass_text import (
    CAUTION,
    above_text,
    clinician_text,
    coach_text,
    expected_text,
    rate_text,
    reading_text,
    scale_text,
    trend_text,
)
from squadwright.web.body_mass.contexts import LoggedPlan, MassPage, WeighInCard
from squadwright.web.body_mass.paths import event_path, mass_path
from squadwright.web.body_mass.said import Said
from squadwright.web.body_mass.words import (
    basis_words,
    moment_words,
    papers_words,
    rate_kind,
    rate_words,
    rule_words,
    standing_words,
    when_words,
)
from squadwright.web.drawing.mass_line import draw_mass
from squadwright.web.forms import FormView
from squadwright.web.measured.pages import sections
from squadwright.web.squad.kinds import BODY_MASS, section_of
from squadwright.web.squad.words import athlete_path, days_words
from squadwright.web.wording import capital
from squadwright.words import mass_in_both

SHOWN_READINGS = 10
MINOR_WORDS = "A minor: competes at the present mass, or in a class above. No plan to lose mass."


def mass_page(club: Club, found: MassOf, view: FormView | None = None) -> MassPage:
    """One athlete's body mass on a day."""
    athlete = found.athlete
    losses = [each.loss for each in found.coming if each.loss is not None]
    loss = max(losses, key=lambda each: each.weekly_percent, default=None)
    loss = None if found.no_plan else loss
    limits = [each.held.limit.kg for each in found.coming]
    has_limit = bool(limits) and not found.no_plan
    trend = found.trend
    return MassPage(
        title=f"Body mass: {found.shown_name}",
        line="For you alone: it stands on no sheet and on no other device.",
        path=mass_path(athlete.id),
        back=athlete_path(athlete.id),
        now=reading_text(found.now) if found.now else "",
        rate=""
        if loss is None
        else f"{rate_words(loss, found.settings)} to lose for {loss.event.name}",
        rate_kind=rate_kind(loss, found.settings),
        is_minor=found.is_minor,
        no_plan=capital(found.no_plan),
        said=tuple(Said(f.severity, f.sentence, f.advice, basis_words(f)) for f in found.findings),
        picture=draw_mass(trend, limits[0] if has_limit else None)
        if trend is not None and trend.days[0] < trend.days[-1]
        else None,
        trend=trend_text(found),
        cards=tuple(_card(found, each) for each in found.coming),
        readings=section_of(athlete, BODY_MASS, found.day, most=SHOWN_READINGS),
        measures=sections(club, athlete, found.day),
        plans=tuple(_logged(plan) for plan in reversed(athlete.weight_plans)),
        view=view or FormView(),
        coach_text=coach_text(found),
        clinician_text=clinician_text(found),
        caution=CAUTION,
    )


def _card(found: MassOf, each: Coming) -> WeighInCard:
    event, known = each.event, each.event.weigh_in
    facts = [
        ("Event", f"{day_words(event.starts_on)}, {days_words(_days(event.starts_on, found.day))}"),
        ("Limit", f"{mass_in_both(each.held.limit)}: {each.held.words}"),
        ("Weigh-in", when_words(event)),
    ]
    if known is not None and known.second_at is not None:
        facts.append(("Second weigh-in", moment_words(known.second_at)))
    if known is not None and known.first_bout_at is not None:
        facts.append(("First bout", moment_words(known.first_bout_at)))
    expected = "" if found.no_plan else expected_text(found, each)
    facts += [("By the trend", expected)] if expected else []
    on_scale = scale_text(found, each)
    facts += [("On the scale", on_scale)] if on_scale else []
    facts += [
        ("Now", _now_words(found, each)),
        ("Rule", rule_words(event)),
        ("Standing", capital(standing_words(event))),
    ]
    papers = papers_words(event, found.athlete)
    facts += [("To be shown", f"{capital(papers)}.")] if papers else []
    return WeighInCard(
        heading=event.name,
        facts=tuple(facts),
        is_confirmed=known is not None and known.is_confirmed,
        change_path=event_path(found.athlete.id, event),
    )


def _now_words(found: MassOf, each: Coming) -> str:
    if each.loss is None or not found.no_plan:
        return rate_text(each)
    return MINOR_WORDS if found.is_minor else above_text(found)


def _days(day: date, today: date) -> int:
    return (day - today).days


def _logged(plan: WeightPlan) -> LoggedPlan:
    """What became of a plan; the words of a refused one are for medical staff alone."""
    day = day_words(plan.written_on)
    if not plan.refused:
        return LoggedPlan(day, f"Kept: {plan.kept_text}")
    told = f" To be told: {', '.join(plan.told)}." if plan.told else ""
    return LoggedPlan(day, f"Refused. {' '.join(plan.refused)}{told}")
