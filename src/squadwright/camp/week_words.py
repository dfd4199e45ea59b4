"""The week in words: clashes, moves, and the numbers behind monotony and strain."""

from datetime import time

from squadwright.camp.clashes import AT_ONCE, Clash, hours_text, taken_twice
from squadwright.camp.moves import Move
from squadwright.camp.week import DatedWork, GroupWeek
from squadwright.formulas.session_load import DAYS_IN_A_WEEK
from squadwright.words import weekday_and_day

FORMULA = (
    "Load = planned effort (0 to 10) x minutes, summed by day. Monotony = mean of the seven days "
    "/ their standard deviation (n - 1). Strain = load of the week x monotony (Foster 1998). A day "
    "without work is planned rest, 0. These numbers describe; they forecast no injury."
)


def clash_words(clash: Clash) -> str:
    """A clash as a sentence."""
    one, other = clash.earlier, clash.later
    if clash.rule is AT_ONCE:
        what = " and ".join(taken_twice(one, other))
        return f"{one.name} and {other.name} meet on {_at(other)}: both need {what}."
    number = len(clash.athletes)
    people = "1 athlete" if number == 1 else f"{number} athletes"
    load = f" and load {', '.join(clash.regions)}" if clash.regions else ""
    return (
        f"{one.name} ends {weekday_and_day(one.day)} at {one.ends_at:%H:%M}; {other.name} starts "
        f"{hours_text(clash.hours)} later, {_at(other)}. Both are for {people}{load}."
    )


def rule_words(clash: Clash) -> str:
    """What the rule asks for."""
    if clash.rule is AT_ONCE:
        return f"{clash.rule.words}."
    return f"{clash.rule.words}: {clash.limit_h} h or more."


def move_words(move: Move) -> str:
    """A move as the words on its button."""
    if move.is_easier:
        return f"{move.name} easier: planned effort {move.effort}"
    if move.is_off:
        return f"{move.name} off on {weekday_and_day(move.day)}"
    return f"{move.name} to {weekday_and_day(move.day)}, {_span(move.starts_at, move.ends_at)}"


def work_words(work: DatedWork) -> str:
    """Effort, minutes and load of a session, or why it is not held."""
    if work.lost_to:
        return f"lost: {work.lost_to}"
    if work.is_off:
        return "off"
    if work.load is None:
        return f"{work.minutes} min, no planned effort"
    hard = ", hard" if work.is_hard else ""
    return f"effort {work.effort} x {work.minutes} min = {work.load:g} AU{hard}"


def load_words(load: float | None) -> str:
    """A day's load; a day with work of unknown effort is not 0."""
    return "not known" if load is None else f"{load:g}"


def worked_words(group: GroupWeek) -> str:
    """Monotony and strain of a squad worked out, or why there is none."""
    summary = group.summary
    if summary.monotony is None or summary.strain is None:
        return f"{group.name}: monotony and strain {summary.why_not}."
    mean = summary.load / DAYS_IN_A_WEEK
    return (
        f"{group.name}: {mean:.1f} / {mean / summary.monotony:.1f} = {summary.monotony:.2f}; "
        f"{summary.load:g} x {summary.monotony:.2f} = {summary.strain:.0f}."
    )


def hours_words(work: DatedWork) -> str:
    """From when to when."""
    return _span(work.starts_at, work.ends_at)


def _span(first: time, last: time) -> str:
    return f"{first:%H:%M} to {last:%H:%M}"


def _at(work: DatedWork) -> str:
    return f"{weekday_and_day(work.day)} at {work.starts_at:%H:%M}"
