"""The form of a weigh-in, read into a value of the model."""

from datetime import date, datetime, time

from squadwright.library.weigh_ins import weigh_in_rule, weigh_in_rules
from squadwright.model.athlete import Event
from squadwright.model.calendar import time_zones
from squadwright.model.event_weigh_in import EventWeighIn
from squadwright.web.body_mass.contexts import Options
from squadwright.web.forms import Form, FormView

LABELS = {
    "opens": "Weigh-in opens",
    "closes": "Weigh-in closes",
    "second": "Second weigh-in",
    "first_bout": "First bout",
}
NO_RULE = ""


def rule_options() -> Options:
    """Every weigh-in of every rule of the library, by its body."""
    found = [(NO_RULE, "None of these")]
    for rule in weigh_in_rules():
        year = "" if rule.rule_year is None else f" ({rule.rule_year})"
        found += [(f"{rule.id} {w.id}", f"{rule.body}{year}: {w.name}") for w in rule.weigh_ins]
    return tuple(found)


def filled(event: Event, home_zone: str, also: tuple[str, ...] = ()) -> FormView:
    """The form as the weigh-in is kept; the day of the event and the zone at home where unknown.

    ``also`` are the others of the event who have no other answer yet.
    """
    known = event.weigh_in or EventWeighIn()
    values: dict[str, object] = {
        "rule": f"{known.rule} {known.weigh_in}" if known.rule else NO_RULE,
        "zone": known.zone or home_zone,
        "confirmed_by": known.confirmed_by,
        "also": also,
    }
    for name in LABELS:
        moment: datetime | None = getattr(known, f"{name}_at")
        values[f"{name}_day"] = event.starts_on if moment is None else moment.date()
        values[f"{name}_time"] = "" if moment is None else f"{moment:%H:%M}"
    return FormView.of(**values)


def read_weigh_in(
    form: Form, event: Event, others: Options = (), *, today: date
) -> tuple[EventWeighIn, tuple[str, ...]]:
    """What is known of a weigh-in, and for whom of the others as well.

    It is confirmed today where somebody is named and was not before.
    """
    chosen = form.choice("rule", "Rule", [value for value, _ in rule_options()])
    moments = {name: _moment(form, name) for name in LABELS}
    zone = form.text("zone", "Time zone", is_required=False, longest=60)
    has_time = any(moments.values())
    if has_time and zone not in time_zones():
        said = f"{zone!r} is no time zone" if zone else "is empty, and an hour is given"
        form.refuse("zone", "Time zone", said, "Write one like Europe/Lisbon")
    opens = moments["opens"]
    for name in ("closes", "second", "first_bout"):
        moment = moments[name]
        if moment is not None and (opens is None or moment <= opens):
            form.refuse(
                f"{name}_time",
                LABELS[name],
                "is not after the weigh-in opens",
                "Check both, and give the hour at which it opens",
            )
    by = form.text("confirmed_by", "Who asked the organiser", is_required=False)
    also = form.choices("also", "Also for", [value for value, _ in others])
    form.done()
    rule, _, weigh_in = chosen.partition(" ")
    known = EventWeighIn(
        rule=rule,
        rule_year=weigh_in_rule(rule).rule_year if rule else None,
        weigh_in=weigh_in,
        zone=zone if has_time else "",
        opens_at=opens,
        closes_at=moments["closes"],
        second_at=moments["second"],
        first_bout_at=moments["first_bout"],
        confirmed_by=by,
        confirmed_on=_confirmed_on(event, by, today),
    )
    return known, also


def _confirmed_on(event: Event, by: str, today: date) -> date | None:
    if not by:
        return None
    known = event.weigh_in
    was_same = known is not None and known.confirmed_by == by and known.confirmed_on is not None
    return known.confirmed_on if known is not None and was_same else today


def _moment(form: Form, name: str) -> datetime | None:
    """A day and an hour; None where no hour was typed."""
    if not form.raw(f"{name}_time"):
        return None
    clock: time = form.clock(f"{name}_time", f"{LABELS[name]}, hour")
    day: date = form.day(f"{name}_day", f"{LABELS[name]}, day")
    return datetime.combine(day, clock)
