"""What the pages around and after an event show."""

from dataclasses import dataclass

from squadwright.printing.camp_review_words import CampReviewWords
from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.today.contexts import Rests


@dataclass(frozen=True)
class CloseDay:
    """One day from the first event to the second."""

    day: str
    name: str
    words: str


@dataclass(frozen=True)
@template("after_event/close.html")
class ClosePage:
    """Two events close together."""

    title: str
    line: str
    path: str
    athlete_path: str
    view: FormView
    peaks: tuple[tuple[str, str], ...]
    days: tuple[CloseDay, ...]
    volume: tuple[str, ...]
    sessions: tuple[tuple[str, str, str], ...]
    weigh_in: str
    rests: tuple[Rests, ...]


@dataclass(frozen=True)
class BackDay:
    """One day of the way back."""

    day: str
    name: str
    words: str
    held: str


@dataclass(frozen=True)
@template("after_event/back.html")
class BackPage:
    """The week after an event."""

    title: str
    line: str
    athlete_path: str
    review_path: str
    medical: tuple[str, ...]
    held: tuple[str, ...]
    days: tuple[BackDay, ...]
    rests: tuple[Rests, ...]


@dataclass(frozen=True)
@template("after_event/review.html")
class ReviewPage:
    """A camp looked back on, with three lines to accept."""

    title: str
    line: str
    path: str
    athlete_path: str
    back_path: str
    view: FormView
    words: CampReviewWords
    is_kept: bool
    rests: tuple[Rests, ...]
