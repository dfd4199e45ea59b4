"""What the pages of body mass and weigh-in show."""

from dataclasses import dataclass

from squadwright.web.body_mass.said import Said
from squadwright.web.drawing.mass_line import MassPicture
from squadwright.web.forms import FormView
from squadwright.web.measured.contexts import MeasureSection
from squadwright.web.page import template
from squadwright.web.squad.contexts import EntrySection

Options = tuple[tuple[str, str], ...]
Facts = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class WeighInCard:
    """One weigh-in to come: what is known of it, and whether somebody has asked the organiser."""

    heading: str
    facts: Facts
    is_confirmed: bool
    change_path: str


@dataclass(frozen=True)
class LoggedPlan:
    """A plan that was written down: when, what became of it, who has to be told."""

    day: str
    words: str


@dataclass(frozen=True)
@template("body_mass/athlete.html")
class MassPage:
    """One athlete's body mass. ``rate`` is the rate in words, empty where nothing has to go."""

    title: str
    line: str
    path: str
    back: str
    now: str
    rate: str
    rate_kind: str
    is_minor: bool
    no_plan: str
    said: tuple[Said, ...]
    picture: MassPicture | None
    trend: str
    cards: tuple[WeighInCard, ...]
    readings: EntrySection
    measures: tuple[MeasureSection, ...]
    plans: tuple[LoggedPlan, ...]
    view: FormView
    coach_text: str
    clinician_text: str
    caution: str


@dataclass(frozen=True)
@template("body_mass/weigh_in.html")
class WeighInPage:
    """The form of the weigh-in of one event; ``others`` go to the same one."""

    title: str
    line: str
    action: str
    back: str
    view: FormView
    shown: str
    rules: Options
    others: Options
