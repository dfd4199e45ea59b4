"""Weigh-ins in words."""

from datetime import datetime
from fractions import Fraction

from squadwright.errors import NotFound
from squadwright.library.weigh_ins import weigh_in_rule
from squadwright.model.athlete import Athlete, Event, Sex
from squadwright.model.plan import Finding
from squadwright.model.weigh_in import NOT_CONFIRMED, WeighInRule, papers_needed
from squadwright.planning.gates.limits import Settings
from squadwright.planning.mass_rate import NeededLoss
from squadwright.planning.restriction_words import day_words

RED, AMBER, QUIET = "red", "amber", "quiet"


def rate_kind(loss: NeededLoss | None, settings: Settings) -> str:
    """Red above the weekly limit, amber above the caution, else quiet; a word, never a colour."""
    if loss is None:
        return QUIET
    for kind, name in ((RED, "weekly loss, stop"), (AMBER, "weekly loss, caution")):
        if loss.weekly_percent > Fraction(settings.of(name).value):
            return kind
    return QUIET


def rate_words(loss: NeededLoss, settings: Settings) -> str:
    """The rate with its word: "Red: 2.4 % a week"."""
    kind = rate_kind(loss, settings)
    words = f"{float(loss.weekly_percent):.1f} % a week"
    return words if kind == QUIET else f"{kind.capitalize()}: {words}"


def basis_words(item: Finding) -> str:
    """What a finding rests on: the limit with its unit, and where it is from."""
    if item.limit is None:
        return item.source
    return f"Limit {item.limit:.10g} {item.unit}. {item.source}"


def moment_words(moment: datetime) -> str:
    """A day with its time of day."""
    return f"{day_words(moment.date())}, {moment:%H:%M}"


def rule_of(event: Event) -> WeighInRule | None:
    """The rule an event names, None where it names none that the library has."""
    if event.weigh_in is None or not event.weigh_in.rule:
        return None
    try:
        return weigh_in_rule(event.weigh_in.rule)
    except NotFound:
        return None


def standing_words(event: Event) -> str:
    """Whether it is confirmed for this event, and what makes the rule doubtful."""
    known = event.weigh_in
    if known is None:
        return NOT_CONFIRMED
    if known.is_confirmed:
        return known.standing
    rule = rule_of(event)
    return NOT_CONFIRMED if rule is None else rule.standing(event.id, event.starts_on)


def papers_words(event: Event, athlete: Athlete) -> str:
    """What the youngest of a group of the rule have to show; empty where he is none of them.

    Some organisers count the age on the day and some the age reached that year: either is told.
    """
    rule = rule_of(event)
    if rule is None:
        return ""
    day = event.starts_on
    ages = {athlete.age_on(day), day.year - athlete.birth_date.year}
    others = ("boys", "men") if athlete.sex is Sex.FEMALE else ("girls", "women")
    asked = [
        f"{' and '.join(papers)} at {age} in {group.name}"
        for group in rule.groups
        for age in sorted(ages)
        if age == group.youngest_with_papers
        and not set(others) & set(group.name.replace(",", "").split())
        and (papers := papers_needed(group, age))
    ]
    return f"{'; '.join(asked)}. Ask the organiser" if asked else ""


def when_words(event: Event) -> str:
    """When he stands on the scales, with the zone; the day of the event where no time is known."""
    known = event.weigh_in
    if known is None or known.opens_at is None:
        return f"{day_words(event.starts_on)}, hour not known: counted to the day of the event"
    closes = "" if known.closes_at is None else f" to {known.closes_at:%H:%M}"
    return f"{moment_words(known.opens_at)}{closes} ({known.zone})"


def rule_words(event: Event) -> str:
    """The rule with its year, which of its weigh-ins, and how it got here."""
    rule = rule_of(event)
    if rule is None:
        return event.weigh_in_rule or "none named"
    year = "" if rule.rule_year is None else f", rules of {rule.rule_year}"
    asked = event.weigh_in
    try:
        item = rule.weigh_in(asked.weigh_in if asked else "")
    except NotFound:
        return f"{rule.body}{year}"
    return f"{rule.body}{year}: {item.name}, {item.when}. {item.source} ({item.mark.value})"
