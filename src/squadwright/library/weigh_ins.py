"""The weigh-in rules that come with the program; none of them is confirmed for any event."""

from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache

from squadwright.errors import NotFound
from squadwright.library import values_of
from squadwright.model.athlete import Event
from squadwright.model.weigh_in import WeighInRule, WeightClass, limit_with_allowances
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
    if asked is None or not asked.is_confirmed or not asked.rule or not asked.weigh_in:
        return InForce(limit, "the limit of the class, without any allowance")
    try:
        rule = weigh_in_rule(asked.rule)
        weigh_in = rule.weigh_in(asked.weigh_in)
    except NotFound:
        return InForce(limit, f"the limit of the class; no rule {asked.rule!r} is in the library")
    if rule.unit is not limit.unit:
        return InForce(limit, f"the limit of the class; the rule is in {rule.unit.value}")
    bare = WeightClass(str(limit.amount), "", limit.amount, None, "", weigh_in.mark)
    most = limit_with_allowances(rule, bare, weigh_in)
    if most is None or most == limit.amount:
        return InForce(limit, "the limit of the class; the rule gives no allowance")
    return InForce(Mass(most, rule.unit), f"with the allowance: {weigh_in.allowance_reason}")
