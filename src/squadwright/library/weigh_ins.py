"""The weigh-in rules that come with the program; none of them is confirmed for any event."""

from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache

from squadwright.errors import NotFound
from squadwright.library import values_of
from squadwright.model.athlete import Event, MassReading
from squadwright.model.weigh_in import (
    OnTheScale,
    WeighIn,
    WeighInRule,
    WeightClass,
    limit_with_allowances,
    on_the_scale,
)
from squadwright.units import Mass


@cache
def weigh_in_rules() -> tuple[WeighInRule, ...]:
    """Every rule, in the order of its files."""
    return values_of(WeighInRule, "data/weigh_ins", "rule")


def weigh_in_rule(rule_id: str) -> WeighInRule:
    """The rule with an id; raises NotFound with the nearest ids."""
    known = {rule.id: rule for rule in weigh_in_rules()}
    if rule_id not in known:
        near = get_close_matches(rule_id, known, n=3, cutoff=0.4) or list(known)
        raise NotFound(f"no weigh-in rule has the id {rule_id!r}. Nearest: {', '.join(near)}.")
    return known[rule_id]


@dataclass(frozen=True)
class InForce:
    """The limit that holds for an event, and what it rests on."""

    limit: Mass
    words: str


def limit_in_force(event: Event) -> InForce | None:
    """The limit of an event with the allowance of its rule; None where it has no limit.

    An allowance counts only once the coach has confirmed the weigh-in for this event, and only in
    the unit of the rule: what nobody has looked up makes nobody's limit higher.
    """
    limit, asked = event.mass_limit, event.weigh_in
    if limit is None:
        return None
    found = _confirmed_rule(event)
    if found is None:
        known = asked is not None and asked.is_confirmed and asked.rule
        why = f"no rule {asked.rule!r} is in the library" if asked and known else "no allowance"
        return InForce(limit, f"the limit of the class, {why}")
    rule, weigh_in = found
    if rule.unit is not limit.unit:
        return InForce(limit, f"the limit of the class; the rule is in {rule.unit.value}")
    most = limit_with_allowances(rule, _bare_class(limit, weigh_in), weigh_in)
    if most is None or most == limit.amount:
        return InForce(limit, "the limit of the class; the rule gives no allowance")
    why = weigh_in.allowance_reason or weigh_in.attire
    return InForce(Mass(most, rule.unit), f"with the allowance: {why}")


def verdict_on_scale(event: Event, reading: MassReading) -> OnTheScale | None:
    """What a reading of a weighing day is worth under the confirmed rule, the second day's own.

    None on another day, without a confirmed rule, or where limit, rule and reading are not in one
    unit: a converted figure may fall on the wrong side.
    """
    found, limit, asked = _confirmed_rule(event), event.mass_limit, event.weigh_in
    if found is None or limit is None or asked is None:
        return None
    rule, weigh_in = found
    if asked.second_at is not None and reading.taken_on == asked.second_at.date():
        weigh_in = next((each for each in rule.weigh_ins if each.is_second), weigh_in)
    elif reading.taken_on != event.weighs_on:
        return None
    if {rule.unit, limit.unit, reading.reading.unit} != {rule.unit}:
        return None
    return on_the_scale(rule, _bare_class(limit, weigh_in), weigh_in, reading.reading)


def _confirmed_rule(event: Event) -> tuple[WeighInRule, WeighIn] | None:
    """The rule and the weigh-in of an event, if it is confirmed and the library has them."""
    asked = event.weigh_in
    if asked is None or not asked.is_confirmed:
        return None
    try:
        rule = weigh_in_rule(asked.rule)
        return rule, rule.weigh_in(asked.weigh_in)
    except NotFound:
        return None


def _bare_class(limit: Mass, weigh_in: WeighIn) -> WeightClass:
    """A class that is known by its limit alone, as the coach entered it."""
    return WeightClass(str(limit.amount), "", limit.amount, None, "limit as entered", weigh_in.mark)
