"""A routine tried with so many invented athletes: its time, its kit and its floor, without loads.

Nobody in the trial is restricted, late or near an event, so what it says is about the routine, the
store and the room. Loads need people, so they are left to the plan of a session.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, time
from functools import lru_cache
from statistics import median

from squadwright.errors import InvalidInput, NoSolution, SquadwrightError
from squadwright.library import exercise as library_exercise
from squadwright.model.athlete import Athlete, Level, MassReading, Sex
from squadwright.model.club import Club
from squadwright.model.exercise import Exercise
from squadwright.model.kit import Kit
from squadwright.model.plan import BarPlan, RunLine
from squadwright.model.plan import BarUser as PlannedUser
from squadwright.model.room import Room
from squadwright.model.routine import Block, Routine, Style
from squadwright.model.session import Session
from squadwright.planning.attendance import PersonToday
from squadwright.planning.ball import ball_band, suits
from squadwright.planning.bar_sharing import waves_needed
from squadwright.planning.block_plan import BlockPlan, BlockTask, plan_block
from squadwright.planning.box import box_for
from squadwright.planning.drill_groups import Fitting
from squadwright.planning.floor_pieces import FloorTask
from squadwright.planning.floor_plan import LaidOut, floor_plan
from squadwright.planning.kit_in_service import usable_bars
from squadwright.planning.personal import unswapped
from squadwright.planning.rounds import Rounds
from squadwright.planning.run_lines import LineKeys, line_keys, run_lines
from squadwright.planning.run_sheet import (
    NotFitting,
    RunSheetProblem,
    RunSheetSolution,
    lay_out,
    solve_run_sheet,
)
from squadwright.planning.run_sheet.blocks import BarUser
from squadwright.planning.session_time import (
    complex_block,
    least_warm_up_s,
    parts_after,
    parts_before,
    usual_parts,
)
from squadwright.planning.slot_blocks import ready_blocks
from squadwright.units import Mass

MOST_ATHLETES = 60
MOST_FOR_CUTS = 16
"""With more, every cut is timed anew for too long."""
USUAL_MASS_KG = 70.0
BORN_YEARS_BEFORE = 24
ANY_DAY = date(2026, 1, 5)
TIME_LIMIT_S = 0.3
"""A page that answers while the coach types cannot wait for the last proof."""


@dataclass(frozen=True)
class Trial:
    """What is tried: the routine, so many athletes of one level and size, store, room and slot.

    ``session`` gives the length of the slot and of its fixed parts.
    """

    routine: Routine
    athletes: int
    level: Level
    kit: Kit
    session: Session
    room: Room | None = None
    body_mass_kg: float = USUAL_MASS_KG

    def __post_init__(self) -> None:
        if not 1 <= self.athletes <= MOST_ATHLETES:
            raise InvalidInput(
                "athletes",
                f"{self.athletes} is outside 1 to {MOST_ATHLETES} athletes",
                "Try it with fewer, and split a larger squad",
            )


@dataclass(frozen=True)
class Tried:
    """What came of it.

    ``over_s`` is how much it is too long for the slot [s], ``cuts`` what would make it fit; for
    large squads that is not looked for. ``trouble`` says why time or floor are missing;
    ``no_kit_for`` names blocks of which nothing can be done with what is in the store.
    """

    blocks: tuple[BlockPlan, ...] = ()
    laid_out: RunSheetSolution | None = None
    over_s: int = 0
    cuts: tuple[str, ...] = ()
    floor: LaidOut | None = None
    trouble: str = ""
    no_kit_for: tuple[str, ...] = ()


def slot_of(minutes: int, like: Session | None = None) -> Session:
    """A slot of so many minutes with the usual fixed parts, or those of a session."""
    if like is not None:
        return replace(like, minutes=minutes, check_ins=(), overrides=(), athletes=())
    return Session(
        id="trial",
        name="Trial",
        held_on=ANY_DAY,
        starts_at=time(18, 0),
        minutes=minutes,
        room="room",
        routine="routine",
        routine_version=1,
        athletes=(),
        **usual_parts(minutes),
    )


def usual_mass_kg(athletes: tuple[Athlete, ...]) -> float:
    """The middle body mass of a squad [kg]; 70 kg where nobody has a reading."""
    masses = [a.body_mass[-1].reading.kg for a in athletes if a.body_mass]
    return round(median(masses)) if masses else USUAL_MASS_KG


@lru_cache(maxsize=64)
def try_routine(trial: Trial) -> Tried:
    """Try a routine. What cannot be done at all is told in ``trouble``, not raised."""
    tried = _without_a_floor(replace(trial, room=None))
    if trial.room is None or tried.laid_out is None:
        return tried
    try:
        return replace(tried, floor=_floor(trial.room, tried.blocks, tried.laid_out))
    except NoSolution as error:
        return replace(tried, trouble=str(error))
    except SquadwrightError as error:
        return Tried(trouble=str(error))


@lru_cache(maxsize=64)
def _without_a_floor(trial: Trial) -> Tried:
    """Time and kit, which are the same in every room."""
    people = {person.id: person for person in _people(trial)}
    try:
        ready = ready_blocks(trial.routine, library_exercise)
        idle = tuple(block.name for block in ready if not _can_be_done(trial, block, people))
        blocks = tuple(_try_block(trial, b, people) for b in ready if b.name not in idle)
        if not blocks:
            return Tried(no_kit_for=idle, trouble="the store has nothing that fits for any of it")
        return replace(_timed(trial, blocks), no_kit_for=idle)
    except SquadwrightError as error:
        return Tried(trouble=str(error))


def _people(trial: Trial) -> tuple[PersonToday, ...]:
    day = trial.session.held_on
    mass = Mass.parse(f"{trial.body_mass_kg:g} kg", place="body mass")
    athletes = [
        Athlete(
            id=f"{number}",
            name=f"Athlete {number}",
            birth_date=date(day.year - BORN_YEARS_BEFORE, 1, 1),
            sex=Sex.FEMALE,
            level=trial.level,
            sport="any",
            body_mass=(MassReading(mass, day),),
        )
        for number in range(1, trial.athletes + 1)
    ]
    return tuple(PersonToday(a, a.name, "present", day) for a in athletes)


def _can_be_done(trial: Trial, block: Block, people: Mapping[str, PersonToday]) -> bool:
    """Whether the store has a ball or box that fits for one exercise of a block at least."""
    person = next(iter(people.values()))
    band = ball_band(person.body_mass_kg, person.age)

    def fits(exercise: Exercise) -> bool:
        needs = exercise.needs
        balls = [b for b in trial.kit.balls if suits(b, exercise)]
        if needs.ball and not any(b.mass.kg <= band.heaviest_kg for b in balls):
            return False
        wants_box = bool(needs.boxes or needs.box_row)
        return not wants_box or box_for(person, trial.kit.boxes, drops=False) is not None

    return any(fits(library_exercise(step.exercise)) for step in block.steps)


def _try_block(trial: Trial, block: Block, people: Mapping[str, PersonToday]) -> BlockPlan:
    if block.style is Style.COMPLEX:
        return _complex(trial, block, people)
    steps = unswapped(block, library_exercise)
    return plan_block(
        BlockTask(
            block=block,
            club=Club(name="Trial", kit=trial.kit),
            session=trial.session,
            people=people,
            versions=dict.fromkeys(people, steps),
            lookup=library_exercise,
            starts_s=0,
            ready_s={},
        )
    )


def _complex(trial: Trial, block: Block, people: Mapping[str, PersonToday]) -> BlockPlan:
    """A complex with somebody on each bar in each wave, in the order of the bars."""
    waves = waves_needed(len(people), trial.kit, block.waves)
    bars = usable_bars(trial.kit)[: -(-len(people) // waves)]
    seats = [
        (athlete, bars[place // waves], place % waves + 1) for place, athlete in enumerate(people)
    ]
    users = tuple(BarUser(a, f"{bar.id} {block.name}", bar.id, wave) for a, bar, wave in seats)
    steps = unswapped(block, library_exercise)
    boxes = {
        (athlete, step.key): Fitting(box=choice)
        for athlete, person in people.items()
        for step in steps
        if step.exercise.needs.boxes
        and (choice := box_for(person, trial.kit.boxes, drops=False)) is not None
    }
    lacks_box = {step.key for step in steps if step.exercise.needs.boxes and not boxes}
    return BlockPlan(
        block=block,
        timed=complex_block(block, users, library_exercise),
        step_of={},
        versions=dict.fromkeys(people, steps),
        rounds=dict.fromkeys(people, Rounds(block.rounds, 1, "")),
        targets={},
        fittings=boxes,
        missing=tuple((athlete, key) for athlete in people for key in sorted(lacks_box)),
        bars=tuple(
            BarPlan(
                bar.id,
                bar.name,
                bar.mass.kg,
                tuple(PlannedUser(a, w, 0.0, 0.0, ()) for a, b, w in seats if b is bar),
                block.name,
            )
            for bar in bars
        ),
        bound=None,
        groups=(),
    )


def _timed(trial: Trial, blocks: tuple[BlockPlan, ...]) -> Tried:
    session, routine = trial.session, trial.routine
    before = parts_before(session, routine)
    problem = RunSheetProblem(
        slot_s=session.minutes * 60,
        before=before,
        blocks=tuple(plan.timed for plan in blocks if plan.timed is not None),
        after=parts_after(session),
        least_warm_up_s=least_warm_up_s(session, before),
        time_limit_s=TIME_LIMIT_S,
    )
    laid = lay_out(problem)
    tried = Tried(blocks, laid, max(0, laid.makespan_s - problem.slot_s))
    if tried.over_s and trial.athletes <= MOST_FOR_CUTS:
        cut = solve_run_sheet(problem)
        if isinstance(cut, NotFitting):
            tried = replace(tried, cuts=tuple(each.what for each in cut.cuts))
    return tried


def _floor(room: Room, blocks: tuple[BlockPlan, ...], laid: RunSheetSolution) -> LaidOut:
    bars = tuple(bar for plan in blocks for bar in plan.bars)
    return floor_plan(FloorTask(room, blocks, bars, _lines(blocks, laid)))


def _lines(blocks: tuple[BlockPlan, ...], laid: RunSheetSolution) -> tuple[RunLine, ...]:
    """The run sheet as the floor reads it: who works where at the same time."""
    return run_lines(laid, LineKeys(steps=line_keys(blocks).steps))
