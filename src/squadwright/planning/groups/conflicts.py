"""Say which rules make a division impossible: a smallest set that cannot hold together."""

import time
from collections.abc import Mapping
from dataclasses import replace

from squadwright.errors import NoSolution
from squadwright.planning.groups.problem import GroupProblem, MinorRule
from squadwright.planning.groups.rules import rule_tables
from squadwright.words import listed

SEARCH_S = 2.0


def refuse_plain_conflicts(problem: GroupProblem, shape: Mapping[int, int]) -> None:
    """Raise NoSolution for the conflicts that can be seen without a search."""
    tables = rule_tables(problem)
    ids = [member.id for member in problem.members]
    largest = max(shape)
    for needed in tables.must_sets:
        names = [ids[person] for person in sorted(needed)]
        if len(needed) > largest:
            raise NoSolution(
                f"{listed(names)} must be together ({len(needed)} people), and the largest "
                f"group of this division holds {largest}. Take one of these musts back, or "
                f"choose larger groups."
            )
        for one in names:
            for other in names:
                if (one, other) in problem.bans:
                    raise NoSolution(
                        f"{one} and {other} must be together and are banned from it. "
                        f"Take one of the two rules back."
                    )
    for person, name in enumerate(ids):
        if len(ids) > 1 and int(tables.banned[person].sum()) == len(ids) - 1 and 1 not in shape:
            raise NoSolution(
                f"{name} is banned from working with every other person present. "
                f"Lift one of these bans, or let the coach partner {name}."
            )


def conflict(problem: GroupProblem, shape: Mapping[int, int]) -> NoSolution:
    """The refusal for a division that is proven impossible, naming what conflicts."""
    from squadwright.planning.groups.assignment import can_divide

    deadline = time.monotonic() + SEARCH_S
    current = problem
    complete = True
    for name in ("minor_rule", "musts", "bans"):
        for without in _without_each(current, name):
            if time.monotonic() > deadline:
                complete = False
                break
            reduced = without(current)
            if can_divide(rule_tables(reduced), shape, 0.3) is False:
                current = reduced
    rules = [f"{one} and {other} are banned" for one, other in current.bans]
    rules += [f"{one} and {other} must be together" for one, other in current.musts]
    if current.minor_rule is MinorRule.NEVER:
        rules.append("no minor alone with an adult")
    groups = listed([f"{times} of {size}" for size, times in shape.items()])
    closing = "Take one of these rules back" if complete else "The conflict is among these rules"
    return NoSolution(
        f"{len(problem.members)} people cannot be divided into groups ({groups}) "
        f"while {'; '.join(rules)}. {closing}, or choose another kind of group."
    )


def _without_each(problem: GroupProblem, name: str) -> list["_Drop"]:
    if name == "minor_rule":
        return [_Drop(name, None)]
    return [_Drop(name, pair) for pair in getattr(problem, name)]


class _Drop:
    """Leave one rule out of a problem."""

    def __init__(self, name: str, pair: tuple[str, str] | None) -> None:
        self.name, self.pair = name, pair

    def __call__(self, problem: GroupProblem) -> GroupProblem:
        if self.pair is None:
            return replace(problem, minor_rule=MinorRule.ALLOWED)
        kept = tuple(pair for pair in getattr(problem, self.name) if pair != self.pair)
        if self.name == "bans":
            return replace(problem, bans=kept)
        return replace(problem, musts=kept)
