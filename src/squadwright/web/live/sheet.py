"""What a device needs to run a session by itself: one document, taken along into flight mode."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from squadwright.model.marks import wave_letter, wave_shape
from squadwright.model.plan import BarPlan, Plan, RunLine, exercise_names
from squadwright.planning.gates.heat_stop import stops_from_c
from squadwright.planning.kit_there import kit_there
from squadwright.planning.live.course import BarOfBlock
from squadwright.planning.live.instead import Instead, instead_of
from squadwright.planning.live.lighter import LighterLoad, free_plates, lighter
from squadwright.planning.restriction_words import coach_line, says_more
from squadwright.printing.people import exercise_name
from squadwright.printing.run_words import EVERYONE
from squadwright.printing.wording import with_wave_letters
from squadwright.services.running import Running, held_in
from squadwright.words import kilogram_text

MOST_FAULTS = 6


@dataclass(frozen=True)
class FloorLine:
    """One line of the run sheet as the floor shows it.

    ``kind`` is work, change, late (somebody's own warm-up), help or whole (everybody together).
    ``lane`` is the number of a lane down which one starts after the other, else 0.
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
    lane: int


@dataclass(frozen=True)
class FloorLoad:
    """Bar and load of an athlete in a block, from a place on; a change waits for the next round.

    ``lighter_kg`` is what he has when plates are taken off, None where there are none;
    ``lighter_put_on`` are plates that go on for them, where the step would be too large.
    """

    from_s: int
    block: str
    bar: int
    load: str
    lighter_kg: float | None
    lighter_put_on: str = ""


@dataclass(frozen=True)
class FloorPerson:
    """One athlete as the floor shows him; ``swaps`` are places in the list of the sheet.

    ``heat_stop_c`` is the reading from which on the gate stops him in heat, None where none does.
    """

    id: str
    name: str
    short: str
    loads: tuple[FloorLoad, ...]
    status: str
    may_not: tuple[str, ...]
    swaps: tuple[int, ...]
    heat_stop_c: float | None


@dataclass(frozen=True)
class FloorBlock:
    """A block: its rounds, and the faults to watch for, the commonest first."""

    name: str
    rounds: int
    faults: tuple[str, ...]


@dataclass(frozen=True)
class FloorBar:
    """A bar in use, by the number the floor knows it by."""

    id: str
    name: str
    number: int


@dataclass(frozen=True)
class FloorSheet:
    """The whole document.

    ``number`` counts the changes since the session was pinned, so that the newer of two kept
    sheets is known without a server; ``told`` says what each change has done. So many taps of one
    fault in a round as ``stop_after`` says ask to stop.
    """

    session: str
    name: str
    revision: str
    number: int
    told: tuple[str, ...]
    lines: tuple[FloorLine, ...]
    people: tuple[FloorPerson, ...]
    blocks: tuple[FloorBlock, ...]
    waves: tuple[tuple[str, str], ...]
    bars: tuple[FloorBar, ...]
    swaps: tuple[Instead, ...]
    stop_after: int

    def as_json(self) -> dict[str, Any]:
        """The document as it is sent."""
        return asdict(self)


def floor_sheet(run: Running) -> FloorSheet:
    """The document of a session as it runs, or as it would be started now."""
    session, plan = run.session, run.plan
    names = exercise_names(plan)
    lanes = {(group.block, group.name): group.lane or 0 for group in plan.groups}
    lines = tuple(
        _line(names, line, lanes.get((line.block, line.group), 0))
        for line in plan.run_sheet
        if line.start_s >= 0
    )
    instead = instead_of(run.club, session, plan)
    swaps = tuple(dict.fromkeys(each for own in instead.values() for each in own))
    place_of = {each: place for place, each in enumerate(swaps)}
    waves = max([user.wave for bar in plan.bars for user in bar.wave_users], default=0)
    return FloorSheet(
        session=session.id,
        name=session.name,
        revision=run.revision,
        number=run.number,
        told=run.told,
        lines=lines,
        people=tuple(
            _person(run, a.athlete, tuple(place_of[s] for s in instead.get(a.athlete, ())))
            for a in plan.attendance
        ),
        blocks=tuple(_block(plan, name) for name in dict.fromkeys(x.block for x in lines) if name),
        waves=tuple((wave_letter(n), wave_shape(n)) for n in range(1, waves + 1)),
        bars=tuple(FloorBar(bar.bar, bar.name, _number(run, bar)) for bar in plan.bars),
        swaps=swaps,
        stop_after=session.settings.stop_after_faults,
    )


def _line(names: dict[str, str], line: RunLine, lane: int) -> FloorLine:
    is_work = line.activity.startswith("work")
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
        lane=lane,
    )


def _wave(line: RunLine) -> int:
    name, _, number = line.group.rpartition(" ")
    return int(number) if name == "wave" and number.isdecimal() else 0


def _person(run: Running, athlete_id: str, swaps: tuple[int, ...]) -> FloorPerson:
    plan = run.plan
    attendance = next(a for a in plan.attendance if a.athlete == athlete_id)
    return FloorPerson(
        id=athlete_id,
        name=attendance.shown_name,
        short=_short(attendance.shown_name, [a.shown_name for a in plan.attendance]),
        loads=tuple(_loads(run, athlete_id)),
        status=attendance.status,
        may_not=tuple(
            f"{coach_line(r)}; {r.instruction}" if says_more(r) else coach_line(r)
            for r in held_in(run, athlete_id)
        ),
        swaps=swaps,
        heat_stop_c=stops_from_c(run.club, run.club.athlete(athlete_id), run.session),
    )


def _loads(run: Running, athlete: str) -> Iterator[FloorLoad]:
    """His bars one after another: those of a round under way stay until it is over."""
    begins = 0
    kit = kit_there(run.club.kit, run.session.missing)
    for bars, until_s in (
        *((former.bars, former.until_s) for former in run.former),
        (run.plan.bars, 0),
    ):
        for bar in bars:
            for user in bar.wave_users:
                if user.athlete == athlete:
                    load = kilogram_text(user.load_kg)
                    found = lighter(user, free_plates(kit, bars))
                    less = None if found is None else found.load_kg
                    put_on = _put_on(found)
                    yield FloorLoad(begins, bar.block, _number(run, bar), load, less, put_on)
        begins = until_s


def _put_on(found: LighterLoad | None) -> str:
    """Plates of one end that come from the store: "5 + 2.5"."""
    return " + ".join(f"{kg:g}" for kg in found.fetched_kg) if found else ""


def _number(run: Running, bar: BarPlan) -> int:
    """The number of a bar on the floor, which it keeps for the whole session."""
    return run.bar_order.index(BarOfBlock(bar.block, bar.bar)) + 1


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
