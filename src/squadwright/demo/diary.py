"""Six weeks of diary of the demo club: invented like its people, and the same on every machine.

Efforts lie around those planned, a little above them, as people tell them. Three athletes stand
out on purpose: one who did far more in the last week, one whose wellness went down, one whose load
went down before an event and is therefore not named.
"""

from datetime import UTC, date, datetime, time, timedelta
from random import Random

from squadwright.demo.athletes import demo_athletes
from squadwright.demo.calendar import WEEK
from squadwright.model.athlete import Athlete
from squadwright.model.club import Weekday, WeekSlot
from squadwright.model.diary import (
    Answer,
    Content,
    DiaryEntry,
    RestDay,
    SessionDone,
    WellnessAnswers,
)

AUTHOR = "Invented with the demo club"
DAYS = 42
LAST_WEEK = 7
MORE, LOWER, TAPER, KNOCKED = "A06", "A11", "A13", "A10"
KNOCKED_ON = -6
ITEMS = ("sleep", "freshness", "muscles", "calm", "mood")
LEFT_OUT_FRACTION = 0.15
SILENT_FRACTION = 0.02
MINUTE_S = 60


def demo_diary(monday: date) -> tuple[DiaryEntry, ...]:
    """What the athletes told in the six weeks before a Monday."""
    found: list[DiaryEntry] = []
    for athlete in demo_athletes(monday):
        draw = Random(f"diary of {athlete.id}")
        for back in range(DAYS, 0, -1):
            day = monday - timedelta(days=back)
            contents = [*_sessions(athlete, day, -back, draw), *_wellness(athlete, -back, draw)]
            found += [
                _entry(athlete.id, day, place, content)
                for place, content in enumerate(contents, start=1)
            ]
    return tuple(found)


def _entry(athlete: str, day: date, place: int, content: Content) -> DiaryEntry:
    written = datetime.combine(day, time(21, 0), UTC)
    return DiaryEntry(f"demo-{athlete}-{day}-{place}", athlete, day, content, AUTHOR, written)


def _sessions(athlete: Athlete, day: date, offset: int, draw: Random) -> list[Content]:
    on = [
        slot
        for slot in WEEK
        if list(Weekday)[day.weekday()] is slot.day and athlete.squad in slot.squads
    ]
    done: list[Content] = [_told(slot, athlete.id, offset, draw) for slot in on]
    if draw.random() < SILENT_FRACTION:
        return done[1:]
    return done or [RestDay()]


def _told(slot: WeekSlot, athlete: str, offset: int, draw: Random) -> SessionDone:
    minutes = (
        (slot.ends_at.hour - slot.starts_at.hour) * MINUTE_S
        + slot.ends_at.minute
        - slot.starts_at.minute
    )
    planned = slot.planned_effort or 5
    effort = planned + draw.choice((-1, 0, 0, 1, 1, 2))
    was_there = draw.random() >= LEFT_OUT_FRACTION
    if slot.id == "tue-early":
        was_there = draw.random() < LEFT_OUT_FRACTION
    longer = draw.choice((0, 0, 0, 5, 10))
    if offset >= -LAST_WEEK and athlete == MORE:
        was_there, effort, longer = True, effort + 2, 45
    if offset >= -LAST_WEEK and athlete == TAPER:
        effort, longer = effort - 2, -minutes // 2
    if athlete == KNOCKED and offset >= KNOCKED_ON:
        was_there = False
    return SessionDone(
        name=slot.name,
        activity=slot.work.value,
        minutes=minutes + longer if was_there else minutes,
        effort=float(min(10, max(1, effort))) if was_there else 0.0,
        starts_at=slot.starts_at,
        slot=slot.id,
        planned_minutes=minutes,
        planned_effort=float(planned),
        note="" if was_there else "was not there",
    )


def _wellness(athlete: Athlete, offset: int, draw: Random) -> list[Content]:
    """Most days as usual; asked on four days in five."""
    is_asked = draw.random() < 0.8
    steps = {item: 3 + draw.choice((0, 0, 0, 0, 0, 1, -1)) for item in ITEMS}
    if athlete.id == LOWER and offset >= -LAST_WEEK:
        is_asked, steps = True, dict.fromkeys(ITEMS, 2)
    if not is_asked:
        return []
    answers = tuple(Answer(item, step) for item, step in steps.items())
    return [WellnessAnswers("against his usual", answers, 1, 5, is_high_good=True)]
