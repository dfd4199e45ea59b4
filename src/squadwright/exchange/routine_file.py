"""The routine file: one routine as JSON, to be passed on from club to club."""

from dataclasses import dataclass
from typing import Literal

from squadwright.errors import InvalidInput
from squadwright.exchange.club_file import write_document
from squadwright.exchange.complaint import Complaint, as_error
from squadwright.exchange.document import text_of
from squadwright.exchange.reading import read_strictly
from squadwright.exchange.references import broken_references
from squadwright.model.club import Club
from squadwright.model.routine import Routine

PLACE = "the routine file"


@dataclass(frozen=True)
class RoutineFile:
    """One routine, to be shared. ``kind`` tells it from a club file."""

    routine: Routine
    kind: Literal["routine"] = "routine"
    format_version: Literal[1] = 1


def write_routine(routine: Routine) -> str:
    """A routine as a file."""
    return write_document(RoutineFile, RoutineFile(routine))


def read_routine(source: str | bytes, *, file: str | None = None) -> Routine:
    """The routine of a file; InvalidInput names the first mistake and counts the others."""
    routine, complaints = examine_routine(source)
    if routine is None or complaints:
        raise as_error(complaints, file=file or "FILE")
    return routine


def examine_routine(source: str | bytes) -> tuple[Routine | None, list[Complaint]]:
    """The routine of a file, if it has the right form, and all that is wrong with it."""
    text = source if isinstance(source, str) else text_of(source, place=PLACE)
    try:
        found, complaints = read_strictly(RoutineFile, text, place=PLACE)
    except InvalidInput as error:
        return None, [Complaint(error.place, error.problem, error.advice)]
    if found is None:
        return None, complaints
    return found.routine, [*_unknown_exercises(found.routine), *_cannot_be_counted(found.routine)]


def _unknown_exercises(routine: Routine) -> list[Complaint]:
    from squadwright.library.search import nearest_exercises

    club = Club(name="any", routines=(routine,))
    places = {c.place for c in broken_references(club)}
    found = []
    for number, block in enumerate(routine.blocks):
        for index, step in enumerate(block.steps):
            inner = f"blocks[{number}].steps[{index}].exercise"
            if f"routines[0].{inner}" in places:
                near = [f"{e.name} ({e.id})" for e in nearest_exercises(step.exercise)]
                advice = f"The nearest are {', '.join(near)}" if near else "Write one that is"
                found.append(
                    Complaint(
                        f"routine.{inner}",
                        f"{step.exercise!r} is not an exercise of the library",
                        advice,
                    )
                )
    return found


def _cannot_be_counted(routine: Routine) -> list[Complaint]:
    """Amounts that say nothing for their exercise: sides of what has none, passes without a row."""
    from squadwright.errors import NotFound
    from squadwright.library import exercise
    from squadwright.planning.contacts import count_step

    found = []
    for number, block in enumerate(routine.blocks):
        for index, step in enumerate(block.steps):
            try:
                count_step(exercise(step.exercise), step.scheme, lane=block.lane)
            except NotFound:
                continue
            except InvalidInput as error:
                place = f"routine.blocks[{number}].steps[{index}].scheme"
                found.append(Complaint(place, error.problem, error.advice))
    return found
