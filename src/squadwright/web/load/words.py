"""Loads in words: days, weeks, and the formulas with their numbers in them."""

import math
from datetime import date
from statistics import stdev

from squadwright.formulas.session_load import DAYS_IN_A_WEEK, WeekSummary
from squadwright.formulas.sources import find_source
from squadwright.planning.daily_load import LoadDay
from squadwright.planning.load_history import LoadWeek, is_told
from squadwright.web.load.contexts import DayCell, WeekRow
from squadwright.web.today.contexts import Rests
from squadwright.web.wording import number_text, short_day_text

NOT_TOLD = "not told"
OURS = "our judgement"
NOT_PLANNED = "not said"


def load_text(load: float) -> str:
    """A load in whole arbitrary units: "1,290"."""
    return f"{load:,.0f}"


def day_cell(day: LoadDay, today: date) -> DayCell:
    """One day of the week table."""
    planned = "plan not said" if day.planned is None else f"plan {load_text(day.planned)}"
    if day.planned == 0 and not day.missing:
        planned = "no plan"
    return DayCell(short_day_text(day.day), _told(day, today), planned)


def _told(day: LoadDay, today: date) -> str:
    if day.load is not None:
        return load_text(day.load) if day.load else "0, rest" if day.rest_entry else "0, not there"
    if is_told(day):
        return f"{load_text(day.told_load)} and more"
    return "to come" if day.day > today else NOT_TOLD


def week_row(week: LoadWeek, name: str, path: str, today: date) -> WeekRow:
    """One week as a row."""
    summary = week.summary
    return WeekRow(
        name=name,
        path=path,
        cells=tuple(day_cell(day, today) for day in week.days),
        told=load_text(week.told),
        planned=NOT_PLANNED if week.planned is None else load_text(week.planned),
        known=f"{summary.known_days} of {DAYS_IN_A_WEEK}",
        monotony="" if summary.monotony is None else f"{summary.monotony:.2f}",
        strain="" if summary.strain is None else load_text(summary.strain),
        formula=formula_text(week),
    )


def formula_text(week: LoadWeek) -> str:
    """How monotony and strain of a week come about; why there are none."""
    summary: WeekSummary = week.summary
    loads = [day.load for day in week.days if day.load is not None]
    if summary.monotony is None or summary.strain is None:
        return f"Monotony and strain: {summary.why_not}."
    mean, spread = math.fsum(loads) / len(loads), stdev(loads)
    return (
        f"Monotony = mean of the days / their standard deviation (n \N{MINUS SIGN} 1) = "
        f"{number_text(mean)} / {number_text(spread)} = {summary.monotony:.2f}. "
        f"Strain = load of the week \N{MULTIPLICATION SIGN} monotony = "
        f"{load_text(summary.load)} \N{MULTIPLICATION SIGN} {summary.monotony:.2f} = "
        f"{load_text(summary.strain)}."
    )


def load_rests() -> tuple[Rests, ...]:
    """What the numbers of load rest on."""
    foster = find_source("foster_1998").label
    return (
        Rests(
            "Load",
            "effort of the whole session, 0 to 10, times its minutes, in arbitrary units (AU); a "
            "day is the sum of its sessions",
            foster,
        ),
        Rests(
            "Planned and told",
            "stand side by side and are never mixed: judo athletes told every session harder than "
            "it was planned",
            find_source("judo_planned_effort").label,
        ),
        Rests(
            "Not told",
            "is not rest. A day counts as known when everything expected of it was told, or when "
            "it was said that there was no training. Minutes of a session of the club are those of "
            "its slot, less those somebody came late",
            OURS,
        ),
        Rests(
            "Monotony and strain",
            "mean of seven days over their standard deviation with n \N{MINUS SIGN} 1 (the "
            "abstract does not say which); load of the week times monotony. Seven days known or "
            "none. Illness went with limits of each athlete's own in 25 people: there is no common "
            "limit, and the numbers forecast neither injury nor illness",
            foster,
        ),
    )
