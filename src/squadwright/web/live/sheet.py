"""What a device needs to run a session by itself: one document, taken along into flight mode."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import date
from typing import Any

from squadwright.library import exercise as library_exercise
from squadwright.model.club import Club
from squadwright.model.marks import wave_letter, wave_shape
from squadwright.model.plan import Dose, Plan, RunLine
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
    rest_s: int


@dataclass(frozen=True)
class FloorPerson:
    """One athlete as the floor shows him."""

    id: str
    name: str
    short: str
    load: str
    load_kg: float | None
    bar: int
    wave: int
    rounds: int
    first_round: int
    status: str
    late_minutes: int
    may_not: tuple[str, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class FloorBlock:
    """A block: its rounds, its waves, and the faults to watch for, the commonest first."""

    name: str
    rounds: int
    waves: int
    exercises: tuple[str, ...]
    faults: tuple[str, ...]


@dataclass(frozen=True)
class FloorSheet:
    """The whole document."""

    session: str
    name: str
    starts_at: str
    minutes: int
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
    lines = tuple(_line(plan, line) for line in plan.run_sheet if line.start_s >= 0)
    waves = max([user.wave for bar in plan.bars for user in bar.wave_users], default=0)
    return FloorSheet(
        session=session.id,
        name=session.name,
        starts_at=f"{session.held_on.isoformat()}T{session.starts_at:%H:%M:%S}",
        minutes=session.minutes,
        revision=revision,
        lines=lines,
        people=tuple(_person(club, plan, a.athlete, session.held_on) for a in plan.attendance),
        blocks=tuple(_block(plan, name) for name in dict.fromkeys(x.block for x in lines) if name),
        waves=tuple((wave_letter(n), wave_shape(n)) for n in range(1, waves + 1)),
    )


def _line(plan: Plan, line: RunLine) -> FloorLine:
    names = exercise_names(plan)
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
        rest_s=line.rest_s or 0,
    )


def _wave(line: RunLine) -> int:
    name, _, number = line.group.rpartition(" ")
    return int(number) if name == "wave" and number.isdecimal() else 0


def _person(club: Club, plan: Plan, athlete_id: str, day: date) -> FloorPerson:
    athlete = club.athlete(athlete_id)
    attendance = next(a for a in plan.attendance if a.athlete == athlete_id)
    dose = plan.dose_of(athlete_id)
    bar, wave = next(
        (
            (index, user.wave)
            for index, bar in enumerate(plan.bars)
            for user in bar.wave_users
            if user.athlete == athlete_id
        ),
        (-1, 0),
    )
    return FloorPerson(
        id=athlete_id,
        name=attendance.shown_name,
        short=_short(attendance.shown_name, [a.shown_name for a in plan.attendance]),
        load="" if dose is None or dose.load_kg is None else kilogram_text(dose.load_kg),
        load_kg=None if dose is None else dose.load_kg,
        bar=bar + 1,
        wave=wave,
        rounds=0 if dose is None else dose.rounds,
        first_round=0 if dose is None else dose.first_round,
        status=attendance.status,
        late_minutes=attendance.late_minutes,
        may_not=tuple(
            r.instruction or r.reason or "see the register" for r in athlete.restrictions_on(day)
        ),
        cautions=() if dose is None else dose.cautions,
    )


def _short(name: str, all_names: Sequence[str]) -> str:
    """The first name where it is told apart by it, else with what comes last: "Sami '12"."""
    first, *rest = name.split(" ")
    if not rest or sum(other.split(" ")[0] == first for other in all_names) == 1:
        return first
    return f"{first} {rest[-1]}"


def _block(plan: Plan, name: str) -> FloorBlock:
    work = [line for line in plan.run_sheet if line.block == name and line.activity == "work"]
    ids = list(dict.fromkeys(_exercises_of(plan, name)))
    faults: dict[str, int] = {}
    for exercise_id in ids:
        for fault in library_exercise(exercise_id).faults:
            faults[fault] = faults.get(fault, 0) + 1
    names = exercise_names(plan)
    return FloorBlock(
        name=name,
        rounds=max([line.round or 0 for line in work], default=0),
        waves=len({line.group for line in work if _wave(line)}),
        exercises=tuple(exercise_name(names, each) for each in ids),
        faults=tuple(sorted(faults, key=lambda f: -faults[f])[:MOST_FAULTS]),
    )


def _exercises_of(plan: Plan, block: str) -> list[str]:
    doses: list[Dose] = [d for d in plan.doses if d.block in ("", block)]
    return [e.exercise for d in doses for e in d.exercises if e.block in ("", block)]
