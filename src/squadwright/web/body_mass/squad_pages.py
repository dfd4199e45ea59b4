"""The pages of everybody's weigh-in and of the scales, put together from what is stored."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from urllib.parse import quote

from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.planning.gates.mass import BELOW_MINIMUM
from squadwright.planning.restriction_words import day_words
from squadwright.services.body_mass import Coming, MassOf
from squadwright.services.body_mass_text import CAUTION, reading_text
from squadwright.units import Mass, MassUnit
from squadwright.web.body_mass.paths import mass_path
from squadwright.web.body_mass.squad_contexts import OnScales, ScalesPage, WeighInRow, WeighInsPage
from squadwright.web.body_mass.words import (
    rate_kind,
    rate_words,
    standing_words,
    when_words,
)
from squadwright.web.question import Question
from squadwright.web.squad.words import athlete_path, days_words
from squadwright.web.wording import capital, count_text
from squadwright.words import mass_in_both

STEPS_EACH_WAY = 7
STEP = {MassUnit.KILOGRAM: Decimal("0.1"), MassUnit.POUND: Decimal("0.2")}
MINOR_OVER = "above; a minor competes at the present mass"
BELOW = ": refused, below the minimum mass"
SCALES = "/weigh-in/scales"


def weigh_ins_page(found: Sequence[MassOf]) -> WeighInsPage:
    """Everybody with a weigh-in to come."""
    rows = tuple(_row(each, each.coming[0]) for each in found)
    red = sum(row.rate_kind == "red" for row in rows)
    unconfirmed = sum(not row.standing.startswith("Confirmed") for row in rows)
    return WeighInsPage(
        line=f"{count_text(len(rows), 'athlete')}. Red: {red}. Not confirmed: {unconfirmed}. "
        "For you alone."
        if rows
        else "Nobody has an event with a weight limit to come.",
        rows=rows,
        caution=f"{_limits_words(found)}{CAUTION}",
    )


def _next_day(found: MassOf, each: Coming) -> date:
    return each.event.weighs_next(found.day) or each.event.starts_on


def _limits_words(found: Sequence[MassOf]) -> str:
    if not found:
        return ""
    of = found[0].settings.of
    stop, caution = of("weekly loss, stop").value, of("weekly loss, caution").value
    return f"Red: more than {stop} % of the mass of today a week; amber: more than {caution} %. "


def _not_to_lose(found: MassOf) -> str:
    return MINOR_OVER if found.is_minor else f"above; {found.no_plan}"


def _row(found: MassOf, each: Coming) -> WeighInRow:
    event, loss = each.event, None if found.no_plan else each.loss
    over = "no reading yet" if found.now is None else "within the limit"
    if each.loss is not None:
        over = (
            _not_to_lose(found)
            if loss is None
            else f"{loss.over_kg:.1f} kg ({float(loss.percent):.1f} %)"
        )
    return WeighInRow(
        name=found.shown_name,
        path=mass_path(found.athlete.id),
        event=event.name,
        when=f"{when_words(event)}, {days_words(each.days)}",
        limit=mass_in_both(each.held.limit) + (BELOW if _is_refused(found, each) else ""),
        now=reading_text(found.now) if found.now else "",
        over=over,
        rate=f"{rate_words(loss, found.settings)} until {day_words(_next_day(found, each))}"
        if loss
        else "nothing to lose",
        rate_kind=rate_kind(loss, found.settings),
        standing=capital(standing_words(event)),
    )


def _is_refused(found: MassOf, each: Coming) -> bool:
    """Whether the class of an event is below the minimum mass of an assessment."""
    limit = each.event.mass_limit
    refused = [f.value for f in found.findings if f.rule == BELOW_MINIMUM]
    return limit is not None and limit.kg in refused


def scales_page(
    club: Club,
    squad: str,
    *,
    today: date,
    question: Question | None = None,
    question_action: str = "",
    problem: str = "",
) -> ScalesPage:
    """Everybody, or one squad, at the scales."""
    names = club.shown_names()
    wanted = squad if squad in club.squads else ""
    people = sorted(
        (a for a in club.athletes if not wanted or a.squad == wanted), key=lambda a: names[a.id]
    )
    done = sum(any(r.taken_on == today for r in a.body_mass) for a in people)
    return ScalesPage(
        line=f"{done} of {len(people)} weighed today. Open a name, tap what the scales say.",
        squads=tuple(
            (words, scales_path(name), name == wanted)
            for name, words in (("", "Everybody"), *((s, s) for s in club.squads))
        ),
        people=tuple(_on_scales(a, names[a.id], wanted, today) for a in people),
        question=question,
        question_action=question_action,
        problem=problem,
    )


def scales_path(squad: str) -> str:
    """Where a squad, or everybody, stands at the scales."""
    return f"{SCALES}?squad={quote(squad, safe='')}" if squad else SCALES


def action_of(athlete_id: str, squad: str) -> str:
    """Where the reading of an athlete is sent, so that the same squad is shown again."""
    own = f"{SCALES}/{quote(athlete_id, safe='')}"
    return f"{own}?squad={quote(squad, safe='')}" if squad else own


def anchor_of(athlete_id: str) -> str:
    """Where an athlete stands on the page of the scales."""
    return f"scales-{quote(athlete_id, safe='')}"


def _on_scales(athlete: Athlete, name: str, squad: str, today: date) -> OnScales:
    last = athlete.latest_body_mass(today)
    before = [r for r in athlete.body_mass if r.taken_on < today]
    near = max(reversed(before), key=lambda r: r.taken_on, default=last)
    is_today = last is not None and last.taken_on == today
    return OnScales(
        name=name,
        anchor=anchor_of(athlete.id),
        last="no reading yet" if near is None else reading_text(near),
        today=mass_in_both(last.reading) if last is not None and is_today else "",
        action=action_of(athlete.id, squad),
        values=() if near is None else values_near(near.reading),
        other_path=f"{athlete_path(athlete.id)}/body-mass/new",
    )


def values_near(mass: Mass) -> tuple[str, ...]:
    """Values around a mass in its own unit, the lightest first; only those above nothing."""
    step = STEP[mass.unit]
    middle = mass.amount.quantize(Decimal("0.1"))
    values = (middle + step * n for n in range(-STEPS_EACH_WAY, STEPS_EACH_WAY + 1))
    return tuple(f"{value} {mass.unit.value}" for value in values if value > 0)
