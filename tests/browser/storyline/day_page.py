"""The page that says what each day of the storyline takes a coach, from what was counted."""

from collections.abc import Iterable, Sequence
from itertools import groupby

from browser.hand import SLOW_KEY_S, SLOW_TAP_S
from browser.storyline.coach import Task

LONGEST_S = 180
HEAD = (
    "# What a day takes the coach\n\n"
    "Written by `make storyline`, which lives the storyline of the demo club on a phone of 360 px, "
    "every tap and key counted; D0 is its Monday. A test lives the same days and holds this page "
    "to what it counts.\n\n"
    f"Seconds are those of a hand that is not quick: {SLOW_TAP_S} s a tap, {SLOW_KEY_S} s a key "
    "(half as long again as Card, Moran and Newell 1980 give for a typist of average skill; from "
    "memory, not confirmed). Reading, and the wait for a plan, are not in them. Outside the "
    f"session itself no day may take more than {LONGEST_S} s.\n"
)


def outside_s(tasks: Iterable[Task]) -> float:
    """Seconds of a day outside the session itself."""
    return sum(task.slow_s for task in tasks if not task.in_session)


def coachs_day(tasks: Sequence[Task]) -> str:
    """The whole page."""
    days = [(day, list(of_day)) for day, of_day in groupby(tasks, key=lambda task: task.day)]
    lines = [HEAD, "## Day by day", "", "| Day | Actions | Seconds outside the session |"]
    lines.append("| --- | ---: | ---: |")
    for day, of_day in days:
        actions = sum(task.taps + task.keys for task in of_day if not task.in_session)
        lines.append(f"| D{day:+d} | {actions} | {outside_s(of_day):.0f} |")
    lines += ["", "## Thing by thing", "", "| Day | What | Taps | Keys | Seconds |"]
    lines.append("| --- | --- | ---: | ---: | ---: |")
    for day, of_day in days:
        for task in of_day:
            what = f"{task.what} (in the session)" if task.in_session else task.what
            lines.append(f"| D{day:+d} | {what} | {task.taps} | {task.keys} | {task.slow_s:.0f} |")
    return "\n".join(lines) + "\n"
