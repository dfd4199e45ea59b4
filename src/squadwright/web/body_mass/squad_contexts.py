"""What the pages of everybody's weigh-in and of the scales show."""

from dataclasses import dataclass

from squadwright.web.page import template
from squadwright.web.question import Question


@dataclass(frozen=True)
class WeighInRow:
    """Who weighs in when, by how much over, how fast, by which day, and whether it is confirmed."""

    name: str
    path: str
    event: str
    when: str
    limit: str
    now: str
    over: str
    rate: str
    rate_kind: str
    standing: str


@dataclass(frozen=True)
@template("body_mass/squad.html")
class WeighInsPage:
    """Everybody with a weigh-in to come, the next one first."""

    line: str
    rows: tuple[WeighInRow, ...]
    caution: str


@dataclass(frozen=True)
class OnScales:
    """One athlete at the scales: his last reading, what stands for today, and values to tap."""

    name: str
    anchor: str
    last: str
    today: str
    action: str
    values: tuple[str, ...]
    other_path: str


@dataclass(frozen=True)
@template("body_mass/scales.html")
class ScalesPage:
    """Everybody at the scales: a tap opens the name, a tap stores the value."""

    line: str
    squads: tuple[tuple[str, str, bool], ...]
    people: tuple[OnScales, ...]
    question: Question | None
    question_action: str
    problem: str
