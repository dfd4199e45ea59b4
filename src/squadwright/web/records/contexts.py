"""What the pages of Records show."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template


@dataclass(frozen=True)
class SessionRow:
    """A session of which something is noted."""

    path: str
    day: str
    name: str


@dataclass(frozen=True)
@template("records/overview.html")
class RecordsPage:
    """What there is to look back on; ``sessions`` are the latest ones."""

    line: str
    has_club: bool
    sessions: tuple[SessionRow, ...]
    more: int


@dataclass(frozen=True)
@template("records/athlete.html")
class AthleteRecordPage:
    """What is held of one athlete. ``consents`` are sentences."""

    name: str
    path: str
    athlete_path: str
    log_path: str
    consents: tuple[str, ...]
    view: FormView


@dataclass(frozen=True)
@template("records/choose.html")
class ChooseDataPage:
    """Choose a data file."""

    view: FormView


@dataclass(frozen=True)
@template("records/preview.html")
class DataPreviewPage:
    """What taking a data file in would do."""

    line: str
    new: tuple[str, ...]
    changed: tuple[str, ...]
    doubtful: tuple[str, ...]
    wrong: str
    is_nothing: bool
    packed: str
    file_name: str


@dataclass(frozen=True)
class LogLine:
    """One line of the log of health fields."""

    when: str
    who: str
    athlete: str
    field: str
    how: str


@dataclass(frozen=True)
@template("records/health_log.html")
class HealthLogPage:
    """Who touched which health field of whom, the newest first; ``people`` lead to one of them."""

    line: str
    lines: tuple[LogLine, ...]
    people: tuple[tuple[str, str], ...]
    asked: str
