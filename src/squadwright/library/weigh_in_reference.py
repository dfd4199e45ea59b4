"""The reference page of the weigh-in rules, written from the library: ``python -m`` prints it."""

from squadwright.library.weigh_ins import weigh_in_rules
from squadwright.model.weigh_in import ClassGroup, WeighIn, WeighInRule

_INTRODUCTION = """\
# Weigh-ins

This page is generated from the library; change its files and write it again with `make docs`.

Class tables age. No rule here is confirmed for any event: look it up with the organiser, and
confirm it for the event with your name and the day. A mark of `memory` means recalled and not
confirmed, `second hand` seen on another page, `read` seen with the body itself. A class in bold is
recalled where its row is not.

A reading is judged in the unit of the rule, to the last digit; the limit itself belongs to the
class.
"""


def page() -> str:
    """The whole page as Markdown."""
    return "\n".join([_INTRODUCTION, *(_rule(rule) for rule in weigh_in_rules())])


def _rule(rule: WeighInRule) -> str:
    year = "year not stated" if rule.rule_year is None else f"rules of {rule.rule_year}"
    since = "" if rule.effective_from is None else f", in force from {rule.effective_from}"
    until = "" if rule.effective_until is None else f", up to {rule.effective_until}"
    again = "" if rule.recheck_from is None else f" Read again for events from {rule.recheck_from}."
    notes = "".join(f"\n- {note}" for note in rule.notes)
    day = rule.fight_day
    regain = (
        ""
        if day is None
        else f"\nOn the day of the bout: review above {day.review_above_percent} %, stop above "
        f"{day.stop_above_percent} % over the limit ({day.source}; {day.mark.value}).\n"
    )
    groups = "\n".join(_group(group) for group in rule.groups)
    weigh_ins = "\n".join(_weigh_in(item, rule) for item in rule.weigh_ins)
    return (
        f"## {rule.body}\n\n"
        f"`{rule.id}`, {rule.sport}, in {rule.unit.value}, {year}{since}{until}.{again}\n"
        f"\n| Group | Classes | Mark | Source |\n| --- | --- | --- | --- |\n{groups}\n"
        f"\n| Weigh-in | When | Above the limit | If missed | Mark | Source |\n"
        f"| --- | --- | --- | --- | --- | --- |\n{weigh_ins}\n{regain}"
        + (f"{notes}\n" if notes else "")
    )


def _group(group: ClassGroup) -> str:
    names = []
    for each in group.classes:
        low = f" (from {each.lower_limit})" if each.limit and each.lower_limit is not None else ""
        is_recalled = each.mark is not group.mark
        names.append(f"**{each.name}**{low}" if is_recalled else f"{each.name}{low}")
    return f"| {group.name} | {', '.join(names)} | {group.mark.value} | {group.source} |"


def _weigh_in(item: WeighIn, rule: WeighInRule) -> str:
    unit = rule.unit.value
    lasts = "" if item.lasts_minutes is None else f", {item.lasts_minutes} minutes"
    above = [
        words
        for is_so, words in (
            (item.allowance, f"{item.allowance} {unit}"),
            (item.ceiling_percent, f"{item.ceiling_percent} %"),
            (item.attire_allowance, f"{item.attire_allowance} {unit} for {item.attire}"),
            (item.allowance_a_day, f"{item.allowance_a_day} {unit} a later day"),
        )
        if is_so
    ]
    return (
        f"| {item.name} | {item.when}{lasts} | {', '.join(above) or 'nothing'} "
        f"| {item.on_missing} | {item.mark.value} | {item.source} |"
    )


if __name__ == "__main__":
    print(page(), end="")
