"""Weigh-ins of the demo club's events: a rule by sport; one is confirmed, the others are not."""

from datetime import date, datetime, time, timedelta

from squadwright.demo.calendar import TIME_ZONE
from squadwright.library.weigh_ins import weigh_in_rule
from squadwright.model.event_weigh_in import EventWeighIn

RULES = {
    "mixed martial arts": ("unified_rules_2017", "bout"),
    "submission grappling": ("grappling", "before_first_match"),
    "wrestling": ("uww_senior_2018", "day_1"),
    "freestyle wrestling": ("uww_senior_2018", "day_1"),
    "Greco-Roman wrestling": ("uww_senior_2018", "day_1"),
    "judo": ("ijf", "official"),
}
OPENS, CLOSES, FIRST_BOUT = time(8, 0), time(8, 30), time(10, 0)
CONFIRMED_BEFORE_DAYS = 20


def demo_weigh_in(
    sport: str, weight_class: str, day: date, *, monday: date, knows_hours: bool
) -> EventWeighIn:
    """The rule of a sport; with hours of the morning, and confirmed, where they are known."""
    rule, weigh_in = RULES[sport]
    if weight_class.startswith("U15"):
        rule = "uww_youth_2019"
    year = weigh_in_rule(rule).rule_year
    if not knows_hours:
        return EventWeighIn(rule, year, weigh_in)
    has_second = sport == "freestyle wrestling"
    return EventWeighIn(
        rule,
        year,
        weigh_in,
        zone=TIME_ZONE,
        opens_at=datetime.combine(day, OPENS),
        closes_at=datetime.combine(day, CLOSES),
        second_at=datetime.combine(day + timedelta(days=1), OPENS) if has_second else None,
        first_bout_at=datetime.combine(day, FIRST_BOUT),
        confirmed_by="Head coach",
        confirmed_on=monday - timedelta(days=CONFIRMED_BEFORE_DAYS),
    )
