"""A check of run sheets that shares no code with the planner."""

from collections import defaultdict
from collections.abc import Iterable
from itertools import pairwise

from squadwright.planning.run_sheet import RunEntry


def overlaps(entries: Iterable[RunEntry]) -> list[str]:
    """People in two places and kit used twice at the same time."""
    held: dict[str, list[tuple[int, int, RunEntry]]] = defaultdict(list)
    for entry in entries:
        for person in entry.athletes:
            held[f"person {person}"].append((entry.start_s, entry.end_s, entry))
        if entry.activity.startswith("work"):
            for piece in entry.kit:
                held[f"kit {piece}"].append((entry.start_s, entry.end_s, entry))
    found = []
    for name, stretches in held.items():
        stretches.sort(key=lambda stretch: (stretch[0], stretch[1]))
        for one, other in pairwise(stretches):
            same_use = name.startswith("kit") and one[2].group == other[2].group
            if other[0] < one[1] and not same_use:
                found.append(f"{name}: {one[:2]} and {other[:2]}")
    return found


def own_rests(entries: Iterable[RunEntry], person: str, exercise: str) -> list[int]:
    """Seconds between two own turns of one person at one exercise."""
    own = sorted(
        (entry.start_s, entry.end_s)
        for entry in entries
        if person in entry.athletes
        and entry.activity.startswith("work")
        and entry.exercise == exercise
    )
    return [later[0] - earlier[1] for earlier, later in pairwise(own)]
