"""The wall sheet: who lifts what in which wave, and the order of exercises, read from 3 m.

Capitals and digits are at least 19.2 mm high: 22 minutes of arc at 3 m (20 to 22 minutes are
preferred by ISO 9241-3, as quoted second hand; 2 x 3 m x tan(11') = 19.2 mm is arithmetic). The
sheet hangs where everybody reads it, so it says what is done and never why. Who must not do what
stands on a page of its own, in letters for whoever steps up to it.
"""

from collections import Counter
from dataclasses import dataclass

from squadwright.model.club import Club
from squadwright.model.marks import bar_number
from squadwright.model.plan import Plan
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.masses import mass_lines
from squadwright.printing.people import (
    MustNot,
    WaveMark,
    must_not,
    rounds_of_session,
    wave_mark,
)
from squadwright.printing.squad_groups import group_rows
from squadwright.printing.typesetting import Heading, Settled, heading

# At 3 m a figure wants 19.2 mm. The lowest one, a tabular 1, is 0.674 em: 82 pt make it 19.5 mm.
SIZE_PT = 82.0


@dataclass(frozen=True)
class WallLine:
    """One athlete: the first word of his name beside the load, the rest below."""

    bar: str
    first: str
    rest: str
    loads: tuple[str, ...]


@dataclass(frozen=True)
class WallWave:
    """The athletes of one wave."""

    wave: WaveMark
    lines: tuple[WallLine, ...]


@dataclass(frozen=True)
class WallGroup:
    """The athletes of one group."""

    name: str
    lines: tuple[WallLine, ...]


@dataclass(frozen=True)
class WallExercise:
    """One exercise in order."""

    step: str
    name: str
    amount: str
    sets: int


@dataclass(frozen=True)
class WallSheet:
    """Context of ``wall_sheet.typ``."""

    heading: Heading
    rounds: int
    waves: tuple[WallWave, ...]
    groups: tuple[WallGroup, ...]
    exercises: tuple[WallExercise, ...]
    must_not: tuple[MustNot, ...]


def wall_sheet(plan: Plan, club: Club | None, unit: PrintedUnit) -> WallSheet:
    """The context of the wall sheet of a plan."""
    del club
    waves = _waves(plan, unit)
    return WallSheet(
        heading=heading(plan),
        rounds=rounds_of_session(plan),
        waves=waves,
        groups=() if waves else _groups(plan, unit),
        exercises=_exercises(plan),
        must_not=must_not(plan),
    )


def set_wall_sheet(plan: Plan, club: Club | None, unit: PrintedUnit) -> bytes:
    """The wall sheet as PDF: as many landscape pages as the size of its letters asks for."""
    return Settled("wall_sheet.typ", wall_sheet(plan, club, unit)).pdf(SIZE_PT)


def _waves(plan: Plan, unit: PrintedUnit) -> tuple[WallWave, ...]:
    lines: dict[int, list[WallLine]] = {}
    for index, bar in enumerate(plan.bars):
        for user in bar.wave_users:
            name = plan.shown_name(user.athlete)
            lines.setdefault(user.wave, []).append(
                _line(name, bar_number(index), mass_lines(user.load_kg, unit))
            )
    return tuple(WallWave(wave_mark(wave), tuple(lines[wave])) for wave in sorted(lines))


def _groups(plan: Plan, unit: PrintedUnit) -> tuple[WallGroup, ...]:
    """Groups in plan order; one that comes back unchanged in a later block is shown once."""
    ids = {plan.shown_name(d.athlete): d.athlete for d in plan.doses}
    return tuple(
        WallGroup(
            row.full_name,
            tuple(
                _line(name, "", _masses(plan, ids[name], unit) if name in ids else ())
                for name in row.athletes
            ),
        )
        for row in group_rows(plan)
    )


def _masses(plan: Plan, athlete: str, unit: PrintedUnit) -> tuple[str, ...]:
    """The masses an athlete needs to know: his loads, else his balls."""
    doses = [dose for dose in plan.doses if dose.athlete == athlete]
    loads = [dose.load_kg for dose in doses if dose.load_kg is not None]
    balls = [e.ball_kg for dose in doses for e in dose.exercises if e.ball_kg is not None]
    return tuple(line for kg in dict.fromkeys(loads or balls) for line in mass_lines(kg, unit))


def _line(name: str, bar: str, loads: tuple[str, ...]) -> WallLine:
    first, _, rest = name.partition(" ")
    return WallLine(bar, first, rest, loads)


def _exercises(plan: Plan) -> tuple[WallExercise, ...]:
    """The exercise most athletes do at each step, steps in the order of whoever has most."""
    order: dict[str, None] = {}
    for dose in sorted(plan.doses, key=lambda dose: -len(dose.exercises)):
        order.update(dict.fromkeys(exercise.step for exercise in dose.exercises))
    done: dict[str, Counter[tuple[str, str, int]]] = {step: Counter() for step in order}
    for dose in plan.doses:
        for exercise in dose.exercises:
            done[exercise.step][(exercise.name, exercise.amount, exercise.sets)] += 1
    return tuple(
        WallExercise(step, *counted.most_common(1)[0][0]) for step, counted in done.items()
    )
