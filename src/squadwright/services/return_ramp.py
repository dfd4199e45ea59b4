"""Query: the week after an event, as it stands today; nothing is kept."""

from dataclasses import dataclass
from datetime import date

from squadwright.model.athlete import Athlete, Event
from squadwright.model.diary import DiaryKind, PainTold
from squadwright.planning.return_ramp import PainNow, Ramp, pains_at_the_door, ramp
from squadwright.services.camp_review import event_of
from squadwright.services.clubs import load_club
from squadwright.services.diary import read_diary
from squadwright.services.unit_of_work import Keeper


@dataclass(frozen=True)
class Return:
    """The way back of one athlete after one event."""

    club_name: str
    athlete: Athlete
    name: str
    event: Event
    ramp: Ramp


def return_ramp(keeper: Keeper, athlete_id: str, event_id: str, *, today: date) -> Return:
    """The ramp after an event, from check-ins, the diary and readings; NotFound if unknown."""
    club = load_club(keeper)
    athlete = club.athlete(athlete_id)
    event = event_of(athlete, event_id)
    pains = [
        *pains_at_the_door(club.sessions, athlete_id, event.starts_on, today=today),
        *_told(keeper, athlete_id, event.starts_on, today),
    ]
    latest: dict[str, PainNow] = {}
    for pain in sorted(pains, key=lambda each: each.told_on):
        latest[pain.area.value] = pain
    found = ramp(athlete, event.starts_on, latest.values(), bouts=event.bouts_expected, today=today)
    return Return(club.name, athlete, club.shown_names()[athlete_id], event, found)


def _told(keeper: Keeper, athlete: str, event_day: date, today: date) -> list[PainNow]:
    entries = read_diary(keeper, of=[athlete], kinds=[DiaryKind.PAIN], since=event_day, until=today)
    return [
        PainNow(entry.content.area, entry.content.score, entry.day)
        for entry in entries
        if isinstance(entry.content, PainTold)
    ]
