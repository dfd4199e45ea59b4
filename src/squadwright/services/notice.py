"""Use case: whom to look at today, from what the diary, the records and the check-ins say."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, time

from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.diary import DiaryEntry, DiaryKind, PainTold
from squadwright.planning.exceptions import Notice, PainSaid, Watched, notice
from squadwright.planning.gates.bars import bars, in_force
from squadwright.planning.gates.gate import settings_of
from squadwright.services.diary import read_diary
from squadwright.services.load import load_histories
from squadwright.services.unit_of_work import Keeper
from squadwright.services.wellness import wellness_charts

NOON = time(12)
WEEKS = 12
"""Enough for eight weeks of his own before the last."""


@dataclass(frozen=True)
class NoticeToday:
    """The club, and who is named today; ``is_begun``: anything was ever told."""

    club: Club
    notice: Notice
    is_begun: bool


def notice_today(keeper: Keeper, *, today: date) -> NoticeToday:
    """At most three names, each with its evidence; nothing is stored."""
    found, histories = load_histories(keeper, today=today, weeks=WEEKS)
    club = found.club
    charts = wellness_charts(keeper, list(histories), today=today)
    told = read_diary(keeper, kinds=[DiaryKind.PAIN], until=today)
    people = {
        athlete.id: Watched(
            histories[athlete.id],
            charts[athlete.id],
            tuple(_pains(club, athlete.id, told, today)),
            is_restricted=_is_restricted(club, athlete, today),
            days_to_event=_days_to_event(athlete, today),
        )
        for athlete in club.athletes
    }
    is_begun = any(
        each.history.begun_on is not None or each.wellness.totals or each.pains
        for each in people.values()
    )
    return NoticeToday(club, notice(people, today=today), is_begun)


def _pains(club: Club, athlete: str, told: Iterable[DiaryEntry], today: date) -> Iterable[PainSaid]:
    for session in club.sessions:
        if session.held_on > today:
            continue
        for check_in in session.check_ins:
            if check_in.athlete == athlete:
                for pain in check_in.pains:
                    side = "" if pain.side == "not stated" else f"{pain.side} "
                    yield PainSaid(session.held_on, f"{side}{pain.area.value}", pain.score)
    for watched in club.athlete(athlete).measured.pains:
        for each in watched.readings:
            if each.taken_on <= today:
                worst = max(each.during, each.after or 0)
                yield PainSaid(each.taken_on, watched.place, worst)
    for entry in told:
        if entry.athlete == athlete and isinstance(entry.content, PainTold):
            side = f"{entry.content.side} " if entry.content.side else ""
            yield PainSaid(entry.day, f"{side}{entry.content.area.value}", entry.content.score)


def _is_restricted(club: Club, athlete: Athlete, today: date) -> bool:
    """Whether medical staff, an official or a gate bars something: it explains less load."""
    held = bars(athlete, today, NOON, settings=settings_of(club.gate_limits))
    return bool(held) or any(r.is_set_from_outside for r in in_force(athlete, today))


def _days_to_event(athlete: Athlete, today: date) -> int | None:
    coming = [(event.starts_on - today).days for event in athlete.events]
    return min((days for days in coming if days >= 0), default=None)
