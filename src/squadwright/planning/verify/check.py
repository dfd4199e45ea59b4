"""Run every rule over a plan."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import Session
from squadwright.planning.verify import (
    amounts,
    document,
    floor,
    groups,
    kit,
    loads,
    movements,
    people,
    pieces,
    run_sheet,
    turns,
)
from squadwright.planning.verify.day import Day, Fault, read_day

Rule = Callable[[Day], Iterator[Fault]]

RULES: tuple[Rule, ...] = (
    *people.RULES,
    *loads.RULES,
    *amounts.RULES,
    *movements.RULES,
    *pieces.RULES,
    *kit.RULES,
    *groups.RULES,
    *run_sheet.RULES,
    *turns.RULES,
    *document.RULES,
    *floor.RULES,
)


@dataclass(frozen=True)
class Breach:
    """One rule that a plan breaks: which, where in the plan, and the sentence that says it."""

    constraint: str
    place: str
    sentence: str

    def __str__(self) -> str:
        return f"{self.constraint}, {self.place}: {self.sentence}"


def verify_plan(club: Club, session: Session, plan: Plan) -> tuple[Breach, ...]:
    """Every rule that a plan of a session breaks; empty when it keeps them all."""
    day = read_day(club, session, plan)
    return tuple(
        Breach(rule.__name__.replace("_", " "), fault.place, fault.sentence)
        for rule in RULES
        for fault in rule(day)
    )
