"""What is typed on the pages of load."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.model.calendar import monday_of
from squadwright.model.diary import SessionDone
from squadwright.model.effort import EFFORTS
from squadwright.planning.occasions import Occasion
from squadwright.web.forms import Form

MOST_MINUTES = 720
REST_OF_THEM = "everybody else"
FARTHEST = timedelta(days=3650)


@dataclass(frozen=True)
class AtDoor:
    """Who, how hard it was (0: not there), and how long."""

    athletes: tuple[str, ...]
    effort: int
    minutes: int


def read_week(form: Form, *, today: date) -> date:
    """The Monday of the week that is asked for; this week where none is, or an odd one."""
    day = form.maybe_day("week", "Week")
    form.done()
    return monday_of(today if day is None or abs(day - today) > FARTHEST else day)


def read_at_door(form: Form, occasion: Occasion, missing: Iterable[str]) -> AtDoor:
    """One answer at the door, or that nobody else was there."""
    if form.raw("not_there") == REST_OF_THEM:
        return AtDoor(tuple(missing), 0, occasion.minutes)
    athlete = form.choice("athlete", "Athlete", occasion.athletes)
    effort = form.choice("effort", "Effort", [str(number) for number in EFFORTS])
    minutes = form.maybe_whole("minutes", "Minutes", low=1, high=MOST_MINUTES, unit="minutes")
    form.done()
    return AtDoor((athlete,), int(effort), occasion.minutes if minutes is None else minutes)


def read_session(form: Form, *, today: date) -> tuple[date, SessionDone]:
    """A session beside those of the week."""
    day = form.day("day", "Day")
    if not timedelta() <= today - day <= FARTHEST:
        form.refuse("day", "Day", f"{day} is not within the last ten years", "Give the day it was")
    name = form.text("name", "What it was")
    minutes = form.whole("minutes", "Minutes", low=1, high=MOST_MINUTES, unit="minutes")
    effort = form.choice("effort", "Effort", [str(number) for number in EFFORTS if number > 0])
    form.done()
    return day, SessionDone(name=name, activity="", minutes=minutes, effort=float(effort))


def read_resting(form: Form, people: Iterable[str]) -> tuple[str, ...]:
    """Who had a day without training."""
    chosen = form.choices("athletes", "Who", people)
    if not chosen:
        form.refuse("athletes", "Who", "nobody is marked", "Mark who had no training")
    form.done()
    return chosen
