"""What a device needs to run a session by itself: one document, taken along into flight mode."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import date
from typing import Any

from squadwright.model.club import Club
from squadwright.model.marks import wave_letter, wave_shape
from squadwright.model.plan import Plan, RunLine
from squadwright.model.session import Session
from squadwright.printing.masses import kilogram_text
from squadwright.printing.people import exercise_name, exercise_names
from squadwright.printing.run_words import EVERYONE
from squadwright.printing.wording import with_wave_letters

MOST_FAULTS = 6


@dataclass(frozen=True)
class FloorLine:
    """One line of the run sheet as the floor shows it.

    ``kind`` is work, change, late (somebody's own warm-up) or whole (everybody together).
    """

    start_s: int
    end_s: int
    kind: str
    title: str
    group: str
    block: str
    wave: int
    round: int
    set: int
    step: str
    exercise: str
    role: str
    who: tuple[str, ...]


@dataclass(frozen=True)
class FloorPerson:
    """One athlete as the floor shows him."""

    id: str
    name: str
    short: str
    load: str
    bar: int
    status: str
    may_not: tuple[str, ...]


@dataclass(frozen=True)
class FloorBlock:
    """A block: its rounds, and the faults to watch for, the commonest first."""

    name: str
    rounds: int
    faults: tuple[str, ...]


@dataclass(frozen=True)
class FloorSheet:
    """The whole document."""

    session: str
    name: str
    revision: str
    lines: tuple[FloorLine, ...]
    people: tuple[FloorPerson, ...]
    blocks: tuple[FloorBlock, ...]
    waves: tuple[tuple[str, str], ...]

    def as_json(self) -> dict[str, Any]:
        """The document as it is sent."""
        return asdict(self)


def floor_sheet(club: Club, session: Session, plan: Plan, *, revision: str) -> FloorSheet:
    """The document of a planned session."""
    names = exercise_names(plan)
    lines = tuple(_line(names, line) for line in plan.run_sheet if line.start_s >= 0)
    waves = max([user.wave for bar in plan.bars for user in bar.wave_users], default=0)
    return FloorSheet(
        session=session.id,
        name=session.name,
        revision=revision,
        lines=lines,
        people=tuple(_person(club, plan, a.athlete, session.held_on) for a in plan.attendance),
        blocks=tuple(_block(plan, name) for name in dict.fromkeys(x.block for x in lines) if name),
        waves=tuple((wave_letter(n), wave_shape(n)) for n in range(1, waves + 1)),
    )


def _line(names: dict[str, str], line: RunLine) -> FloorLine:
    is_work = line.activity == "work"
    is_change = line.activity == "change-over"
    kind = "late" if line.group == "late" else "work" if is_work else "whole"
    if line.block and not is_work:
        kind = "change" if is_change else "help"
    prefix = f"{line.block} "
    group = line.group.removeprefix(prefix) if line.block else line.group
    exercise = exercise_name(names, line.exercise) if line.exercise else ""
    return FloorLine(
        start_s=line.start_s,
        end_s=line.end_s,
        kind=kind,
        title=line.activity,
        group="" if line.group == EVERYONE else with_wave_letters(group),
        block=line.block,
        wave=_wave(line),
        round=line.round or 0,
        set=line.set or 0,
        step=line.step,
        exercise=exercise,
        role=line.role if line.role in ("work", "feed", "watch") else "",
        who=line.athletes,
    )


def _wave(line: RunLine) -> int:
    name, _, number = line.group.rpartition(" ")
    return int(number) if name == "wave" and number.isdecimal() else 0


def _person(club: Club, plan: Plan, athlete_id: str, day: date) -> FloorPerson:
    attendance = next(a for a in plan.attendance if a.athlete == athlete_id)
    dose = plan.dose_of(athlete_id)
    bar = next(
        (
            number
            for number, bar in enumerate(plan.bars, start=1)
            if any(user.athlete == athlete_id for user in bar.wave_users)
        ),
        0,
    )
    return FloorPerson(
        id=athlete_id,
        name=attendance.shown_name,
        short=_short(attendance.shown_name, [a.shown_name for a in plan.attendance]),
        load="" if dose is None or dose.load_kg is None else kilogram_text(dose.load_kg),
        bar=bar,
        status=attendance.status,
        may_not=tuple(
            r.instruction or r.reason or "see the register"
            for r in club.athlete(athlete_id).restrictions_on(day)
        ),
    )


def _short(name: str, all_names: Sequence[str]) -> str:
    """The first name where it is told apart by it, else with what comes last: "Sami '12"."""
    first, *rest = name.split(" ")
    if not rest or sum(other.split(" ")[0] == first for other in all_names) == 1:
        return first
    return f"{first} {rest[-1]}"


def _block(plan: Plan, name: str) -> FloorBlock:
    work = [line for line in plan.run_sheet if line.block == name and line.activity == "work"]
    faults = Counter(
        fault for exercise_faults in _faults(plan, name).values() for fault in exercise_faults
    )
    return FloorBlock(
        name=name,
        rounds=max([line.round or 0 for line in work], default=0),
        faults=tuple(fault for fault, _ in faults.most_common(MOST_FAULTS)),
    )


def _faults(plan: Plan, block: str) -> dict[str, tuple[str, ...]]:
    """The faults to watch for in each exercise that somebody does in a block."""
    return {
        e.exercise: e.faults
        for dose in plan.doses
        if dose.block in ("", block)
        for e in dose.exercises
        if e.block in ("", block)
    }
