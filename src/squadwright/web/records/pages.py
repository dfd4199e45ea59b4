"""The pages of Records, put together."""

from urllib.parse import quote

from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.services.data_in import LookedAt, named
from squadwright.services.health_log import HealthLog
from squadwright.web.done.paths import done_path
from squadwright.web.forms import FormView
from squadwright.web.records.contexts import (
    AthleteRecordPage,
    DataPreviewPage,
    HealthLogPage,
    LogLine,
    RecordsPage,
    SessionRow,
)
from squadwright.web.squad.words import athlete_path, record_path
from squadwright.web.wording import count_text, day_text

MOST_SESSIONS = 12
HEALTH_LOG = "/records/health-log"


def records_page(club: Club | None, recorded: frozenset[str]) -> RecordsPage:
    """The way to everything that was noted."""
    if club is None:
        return RecordsPage("Nothing is noted yet.", has_club=False, sessions=(), more=0)
    held = sorted((s for s in club.sessions if s.id in recorded), key=lambda s: s.held_on)
    rows = tuple(SessionRow(done_path(s.id), day_text(s.held_on), s.name) for s in reversed(held))
    return RecordsPage(
        line=f"{count_text(len(rows), 'session')} with a record.",
        has_club=True,
        sessions=rows[:MOST_SESSIONS],
        more=max(0, len(rows) - MOST_SESSIONS),
    )


def data_preview_page(found: LookedAt, packed: str, file_name: str) -> DataPreviewPage:
    """What a data file would bring."""
    same = f" {count_text(found.same, 'line')} of diary and records are here already."
    return DataPreviewPage(
        line=f"{file_name or 'The file'}. Nothing is stored yet.{same if found.same else ''}",
        new=named(found.new),
        changed=named(found.changed),
        doubtful=found.doubtful,
        wrong=found.wrong,
        is_nothing=found.is_nothing,
        packed=packed,
        file_name=file_name,
    )


def athlete_record_page(
    club: Club, athlete: Athlete, view: FormView | None = None
) -> AthleteRecordPage:
    """What is held of one athlete, and how it leaves."""
    return AthleteRecordPage(
        name=club.shown_names()[athlete.id],
        path=record_path(athlete.id),
        athlete_path=athlete_path(athlete.id),
        log_path=f"{HEALTH_LOG}?athlete={quote(athlete.id, safe='')}",
        consents=tuple(
            f"{each.given_by} agreed to {each.purpose} on {day_text(each.given_on)}"
            for each in athlete.consents
        ),
        view=view or FormView(),
    )


def health_log_page(found: HealthLog, asked: str) -> HealthLogPage:
    """The log of health fields, of everybody or of one."""
    names = found.club.shown_names()
    more = f" {count_text(found.more, 'older line')} not shown." if found.more else ""
    return HealthLogPage(
        line=f"{count_text(len(found.lines), 'line')}, the newest first.{more}",
        lines=tuple(
            LogLine(
                when=f"{each.at.astimezone():%Y-%m-%d %H:%M:%S}",
                who=each.who,
                athlete=names.get(each.athlete, "no more in the squad"),
                field=each.field,
                how=each.how.value,
            )
            for each in found.lines
        ),
        people=tuple(
            (name, f"{HEALTH_LOG}?athlete={quote(who, safe='')}")
            for who, name in sorted(names.items(), key=lambda each: each[1].casefold())
        ),
        asked=names.get(asked, ""),
    )
