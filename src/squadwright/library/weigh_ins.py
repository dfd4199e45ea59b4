"""The weigh-in rules that come with the program; none of them is confirmed for any event."""

from difflib import get_close_matches
from functools import cache

from squadwright.errors import NotFound
from squadwright.library import values_of
from squadwright.model.weigh_in import WeighInRule


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
