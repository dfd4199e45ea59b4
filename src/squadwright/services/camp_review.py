"""Use cases of a camp looked back on: what it came to, and the three lines the coach keeps."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.model.athlete import Athlete, Event
from squadwright.model.club import Club
from squadwright.model.diary import CampReviewed, DiaryEntry, DiaryKind
from squadwright.model.record import record_of_day
from squadwright.planning.camp_review import (
    LAST_WEEKS_DAYS,
    Camp,
    CampFigures,
    camps,
    taper_of,
)
from squadwright.planning.mat_record import bouts_fought
from squadwright.services.block_review import AthleteLine, BlockWanted, TestLine, block_review
from squadwright.services.clubs import load_club
from squadwright.services.diary import Told, read_diary, write_diary
from squadwright.services.load import squad_load
from squadwright.services.record import record_of
from squadwright.services.unit_of_work import Keeper

AUTHOR = "Coach"
MOST_EARLIER = 5


@dataclass(frozen=True)
class CampReview:
    """One camp of an athlete, those before it (the latest first), and what was kept of it."""

    club: Club
    athlete: Athlete
    name: str
    event: Event
    figures: CampFigures
    earlier: tuple[CampFigures, ...]
    strength: AthleteLine | None
    tests: tuple[TestLine, ...]
    kept: DiaryEntry | None

    @property
    def kept_lines(self) -> CampReviewed | None:
        """The three lines as they were kept, or None."""
        if self.kept is None or not isinstance(self.kept.content, CampReviewed):
            return None
        return self.kept.content


def camp_review(
    keeper: Keeper, athlete_id: str, event_id: str, *, today: date, now: datetime
) -> CampReview:
    """A camp looked back on.

    NotFound for an unknown athlete or event, Conflict where the event is still to come.
    """
    club = load_club(keeper)
    athlete = club.athlete(athlete_id)
    event = event_of(athlete, event_id)
    if event.starts_on > today:
        raise Conflict(
            f"{event.name} is on {event.starts_on}: a camp is looked back on when it is over"
        )
    every = camps(athlete.events)
    at = next(place for place, camp in enumerate(every) if camp.event is event)
    loads = _loads(keeper, athlete_id, every[max(0, at - MOST_EARLIER)].first, every[at].last)
    name = club.shown_names()[athlete_id]
    wanted = BlockWanted(every[at].first, every[at].last)
    whole = block_review(keeper, wanted, today=today, now=now)
    before = every[max(0, at - MOST_EARLIER) : at]
    return CampReview(
        club=club,
        athlete=athlete,
        name=name,
        event=event,
        figures=_figures(keeper, athlete_id, name, every[at], loads, today=today, now=now),
        earlier=tuple(
            _figures(keeper, athlete_id, name, camp, loads, today=today, now=now)
            for camp in reversed(before)
        ),
        strength=next((line for line in whole.athletes if line.name == name), None),
        tests=tuple(line for line in whole.tests if line.name == name),
        kept=_kept(keeper, athlete_id, event_id),
    )


def accept_camp_review(
    keeper: Keeper, athlete_id: str, lines: CampReviewed, *, today: date, now: datetime
) -> str:
    """Keep the three lines, in place of those kept before; gives the mark that takes it back."""
    event = event_of(load_club(keeper).athlete(athlete_id), lines.event)
    if not (lines.keep or lines.change or lines.first):
        raise InvalidInput("keep", "is empty, as are the others", "Write one line at least")
    former = _kept(keeper, athlete_id, event.id)
    return write_diary(
        keeper,
        [Told(athlete_id, event.starts_on, lines)],
        author=AUTHOR,
        today=today,
        now=now,
        in_place_of=[] if former is None else [former.id],
    )


def event_of(athlete: Athlete, event_id: str) -> Event:
    """The event of an athlete with an id; raises NotFound."""
    for event in athlete.events:
        if event.id == event_id:
            return event
    raise NotFound(f"{athlete.name} has no event {event_id!r}; it may have been taken out")


def _kept(keeper: Keeper, athlete: str, event: str) -> DiaryEntry | None:
    entries = read_diary(keeper, of=[athlete], kinds=[DiaryKind.CAMP_REVIEW])
    return next(
        (
            entry
            for entry in reversed(entries)
            if isinstance(entry.content, CampReviewed) and entry.content.event == event
        ),
        None,
    )


@dataclass(frozen=True)
class _Loads:
    told: Mapping[date, float | None]
    told_sum: Mapping[date, float]
    planned: Mapping[date, float | None]


def _loads(keeper: Keeper, athlete: str, first: date, last: date) -> _Loads:
    days = squad_load(keeper, first, last, of=[athlete]).days[athlete]
    return _Loads(
        {each.day: each.load for each in days},
        {each.day: each.told_load for each in days},
        {each.day: each.planned for each in days},
    )


def _figures(
    keeper: Keeper,
    athlete: str,
    name: str,
    camp: Camp,
    loads: _Loads,
    *,
    today: date,
    now: datetime,
) -> CampFigures:
    came, rounds = _of_days(keeper, name, camp.first, camp.last, today=today, now=now)
    noted = record_of(keeper, record_of_day(camp.event.starts_on))
    since = max(camp.first, camp.event.starts_on - timedelta(days=LAST_WEEKS_DAYS))
    last_weeks, _ = _of_days(keeper, name, since, camp.last, today=today, now=now)
    days = [camp.first + timedelta(days=n) for n in range((camp.last - camp.first).days + 1)]
    planned = [each for day in days if (each := loads.planned.get(day)) is not None]
    return CampFigures(
        camp=camp,
        came=came,
        came_last_weeks=last_weeks,
        rounds=rounds,
        taper=taper_of(loads.told, camp.event.starts_on),
        planned_load=sum(planned) if planned else None,
        told_load=sum(loads.told_sum.get(day, 0.0) for day in days),
        bouts=bouts_fought(noted, athlete, camp.event.id),
    )


def _of_days(
    keeper: Keeper, name: str, first: date, last: date, *, today: date, now: datetime
) -> tuple[tuple[int, int], tuple[int, int]]:
    """How often he came of those expected, and rounds done of those planned."""
    found = block_review(keeper, BlockWanted(first, last), today=today, now=now)
    line = next((each for each in found.athletes if each.name == name), None)
    if line is None:
        return (0, 0), (0, 0)
    return (line.came.done, line.came.planned), (line.rounds.done, line.rounds.planned)
