"""Plan a session: attendance, own versions, dose, kit, groups, run sheet, set-up, audit.

The same club, session and seed give the same plan.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from squadwright.errors import NoSolution
from squadwright.library import exercise as library_exercise
from squadwright.model.club import Club
from squadwright.model.plan import (
    AttendanceLine,
    BarPlan,
    Dose,
    Plan,
    RunLine,
    SessionHead,
)
from squadwright.model.room import Room
from squadwright.model.routine import Block, Routine, Style
from squadwright.model.session import Session
from squadwright.planning.assumptions import assumptions
from squadwright.planning.attendance import PersonToday, people_today
from squadwright.planning.audit import audit
from squadwright.planning.audit.view import AuditView
from squadwright.planning.bar_flow import flow_breaks
from squadwright.planning.block_plan import (
    BlockPlan,
    BlockTask,
    as_worked,
    plan_block,
    sits_out_by_word,
)
from squadwright.planning.chosen_waves import in_chosen_waves
from squadwright.planning.dose.problem import ComplexDoseProblem
from squadwright.planning.dose_lines import dose_lines
from squadwright.planning.earlier_jumps import earlier_jumps
from squadwright.planning.floor_pieces import FloorTask
from squadwright.planning.floor_plan import LaidOut, floor_plan
from squadwright.planning.kit_bound import worst_bound
from squadwright.planning.kit_there import club_there
from squadwright.planning.less_floor import LessFloor, is_better, less_floor, places_that_fit
from squadwright.planning.own_version import VersionTask, own_versions
from squadwright.planning.restriction_words import barred_line, coach_line, pain_words
from squadwright.planning.run_lines import LineKeys, line_keys, run_lines
from squadwright.planning.run_sheet import (
    FixedPart,
    NotFitting,
    RunSheetProblem,
    RunSheetSolution,
    lay_out,
)
from squadwright.planning.run_sheet.late_arrival import ready_s
from squadwright.planning.session_time import (
    late_arrivals,
    least_warm_up_s,
    parts_after,
    parts_before,
    time_session,
)
from squadwright.planning.set_up import set_up_items
from squadwright.planning.slot_blocks import cut_sentences, ready_blocks, with_cuts

MOST_CUTS = 6
CAUTIONS = (
    "Stop on pain, dizziness, chest pain, breathlessness at rest, or when form is lost.",
    "Medical staff, local rules and licensed practice come before anything on this sheet.",
    "Loads are estimates with a margin. When in doubt, go lighter.",
)


@dataclass(frozen=True)
class _Scene:
    """What does not change while a session is planned."""

    club: Club
    session: Session
    routine: Routine
    room: Room
    people: tuple[PersonToday, ...]
    previous: Plan | None = None
    places: Mapping[str, int] = field(default_factory=dict)

    def training(self) -> tuple[PersonToday, ...]:
        return tuple(p for p in self.people if p.trains)


@dataclass(frozen=True)
class _Draft:
    """One pass: blocks as planned, and how they lie in the slot."""

    blocks: tuple[BlockPlan, ...]
    problem: RunSheetProblem
    timing: RunSheetSolution | NotFitting


@dataclass(frozen=True)
class _Fit:
    """What fits the slot, and what it took: minutes it would have needed, cuts, helpful kit."""

    draft: _Draft | None = None
    sentences: tuple[str, ...] = ()
    minutes_needed: float | None = None
    kit_gains: tuple[tuple[str, int, int], ...] = ()


@dataclass(frozen=True)
class _Laid:
    """The blocks as timed, with their run sheet and their floor."""

    lines: tuple[RunLine, ...]
    blocks: tuple[BlockPlan, ...]
    bars: tuple[BarPlan, ...]
    floor: LaidOut
    less: tuple[LessFloor, ...] = ()


@dataclass(frozen=True)
class Timed:
    """A plan with what its run sheet was timed from, so that it can be timed again from a place,
    and what each dose was worked out from, by athlete and block.
    """

    plan: Plan
    problem: RunSheetProblem
    keys: LineKeys
    doses: Mapping[tuple[str, str], ComplexDoseProblem] = field(default_factory=dict)


def make_plan(club: Club, session: Session, *, previous: Plan | None = None) -> Plan:
    """Plan one session of a club.

    Parameters
    ----------
    previous : an earlier plan of this session; whoever a late change does not touch keeps his
        group and his bar where that is still valid.

    Raises
    ------
    NotFound : the session names a room, a routine or an exercise that does not exist.
    NoSolution : nobody trains, no bar carries anybody, the groups' rules clash, or the slot is too
        short even with every cut allowed.
    """
    return make_timed(club, session, previous=previous).plan


def make_timed(club: Club, session: Session, *, previous: Plan | None = None) -> Timed:
    """As ``make_plan``, with the problem of time behind the plan."""
    session = session.as_held()
    scene = _Scene(
        club=club_there(club, session),
        session=session,
        routine=club.routine(session.routine, session.routine_version),
        room=club.room_of(session),
        people=people_today(club, session),
        previous=previous if previous is not None and previous.session.id == session.id else None,
    )
    if not scene.training():
        raise NoSolution(f"nobody trains in {session.name}. Check somebody in, or cancel it")
    blocks = in_chosen_waves(ready_blocks(scene.routine, library_exercise), session)
    fit = _fit(scene, blocks)
    laid = _laid_out(scene, fit)
    places = places_that_fit(laid.floor, laid.blocks)
    if places:
        fit, laid = _on_less_floor(replace(scene, places=places), blocks, fit, laid)
    assert fit.draft is not None
    plan = _document(scene, fit, laid)
    draft = fit.draft
    return Timed(plan, draft.problem, line_keys(draft.blocks), _dose_problems(draft.blocks))


def _dose_problems(
    blocks: Sequence[BlockPlan],
) -> dict[tuple[str, str], ComplexDoseProblem]:
    return {
        (athlete, plan.block.name): target.problem
        for plan in blocks
        for athlete, target in plan.targets.items()
        if target.problem is not None
    }


def _on_less_floor(
    scene: _Scene, blocks: tuple[Block, ...], fit: _Fit, laid: _Laid
) -> tuple[_Fit, _Laid]:
    """Plan again for the stations that fit: more waves, fewer and larger groups, if that helps."""
    try:
        again = _fit(scene, blocks)
    except NoSolution:
        return fit, laid
    now = _laid_out(scene, again)
    if not is_better(now.floor, laid.floor):
        return fit, laid
    return again, replace(now, less=less_floor(laid.blocks, now.blocks, laid.floor))


def _fit(scene: _Scene, written: tuple[Block, ...]) -> _Fit:
    """Plan, and where the slot is too short plan again with what fits."""
    parts = (parts_before(scene.session, scene.routine), parts_after(scene.session))
    blocks, now, fit = written, parts, _Fit()
    for _ in range(MOST_CUTS):
        draft = _draft(scene, blocks, now)
        if isinstance(draft.timing, RunSheetSolution):
            said = cut_sentences(written, blocks, parts, now, library_exercise)
            return replace(fit, draft=draft, sentences=said)
        fitting = draft.timing.problem
        if fitting is None:
            raise NoSolution(draft.timing.message)
        if fit.minutes_needed is None:
            fit = _Fit(
                minutes_needed=scene.session.minutes + draft.timing.over_by_s / 60,
                kit_gains=tuple((g.kit, g.more, g.gained_s) for g in draft.timing.kit_gains),
            )
        now = (fitting.before, fitting.after)
        steps_of = {plan.block.name: plan.step_of for plan in draft.blocks}
        blocks = with_cuts(blocks, fitting.blocks, steps_of, library_exercise)
    raise NoSolution(
        f"{scene.session.name} does not fit into {scene.session.minutes} minutes after "
        f"{MOST_CUTS} rounds of cuts. Take exercises out by hand, or find more minutes"
    )


def _draft(
    scene: _Scene,
    blocks: tuple[Block, ...],
    parts: tuple[tuple[FixedPart, ...], tuple[FixedPart, ...]],
) -> _Draft:
    session, routine = scene.session, scene.routine
    before, after = parts
    late = {a.athlete: ready_s(a, before) for a in late_arrivals(scene.people, session, routine)}
    plans: list[BlockPlan] = []
    for block in blocks:
        versions = own_versions(
            VersionTask(scene.club, session, scene.room, block, scene.training())
        )
        here = {
            p.id: p
            for p in scene.training()
            if versions.get(p.id) and not sits_out_by_word(session, p.id, block.name)
        }
        if not here:
            continue
        timed = tuple(plan.timed for plan in plans if plan.timed is not None)
        so_far = RunSheetProblem(
            session.minutes * 60,
            before,
            timed,
            (),
            least_warm_up_s=least_warm_up_s(session, before),
        )
        starts_s = lay_out(so_far).makespan_s
        plans.append(
            plan_block(
                BlockTask(
                    block=block,
                    club=scene.club,
                    session=session,
                    people=here,
                    versions={athlete: versions[athlete] for athlete in here},
                    lookup=library_exercise,
                    starts_s=starts_s,
                    ready_s=late,
                    previous=scene.previous,
                    places=scene.places.get(block.name),
                )
            )
        )
    timed = tuple(plan.timed for plan in plans if plan.timed is not None)
    if not timed:
        raise NoSolution(
            f"nobody can do any exercise of {routine.name} today. Choose another routine"
        )
    problem, timing = time_session(session, routine, scene.people, timed, (before, after))
    return _Draft(tuple(plans), problem, timing)


def _laid_out(scene: _Scene, fit: _Fit) -> _Laid:
    draft = fit.draft
    assert draft is not None
    assert isinstance(draft.timing, RunSheetSolution)
    lines = run_lines(draft.timing, line_keys(draft.blocks))
    blocks = tuple(_as_timed(plan, scene, lines) for plan in draft.blocks)
    bars = tuple(bar for plan in blocks for bar in plan.bars)
    return _Laid(lines, blocks, bars, floor_plan(FloorTask(scene.room, blocks, bars, lines)))


def _document(scene: _Scene, fit: _Fit, laid: _Laid) -> Plan:
    draft = fit.draft
    assert draft is not None
    assert isinstance(draft.timing, RunSheetSolution)
    lines, blocks, bars, floor = laid.lines, laid.blocks, laid.bars, laid.floor
    doses = dose_lines(scene.people, blocks)
    groups = tuple(group for plan in blocks for group in plan.groups)
    exercises = {e.exercise: library_exercise(e.exercise) for d in doses for e in d.exercises}
    view = AuditView(
        club=scene.club,
        session=scene.session,
        room=scene.room,
        routine=scene.routine,
        people=scene.people,
        doses=doses,
        bars=bars,
        run_sheet=lines,
        exercises=exercises,
        previous_jump_sessions=earlier_jumps(scene.club, scene.session),
        missing=tuple((a, key, plan.block.name) for plan in blocks for a, key in plan.missing),
        cuts=fit.sentences,
        minutes_needed=fit.minutes_needed,
        kit_advice=tuple(a for plan in blocks if plan.bound is not None for a in plan.bound.advice),
        flow_breaks=_flow_breaks(blocks),
        kit_that_saves_time=fit.kit_gains,
        floor=floor,
        less_floor=laid.less,
    )
    return Plan(
        session=_head(scene),
        attendance=tuple(_attendance(person, doses) for person in scene.people),
        doses=doses,
        bars=bars,
        kit_bound=worst_bound([plan.bound for plan in blocks if plan.bound is not None]),
        groups=groups,
        run_sheet=lines,
        floor=floor.plan,
        audit=audit(view),
        assumptions=assumptions(view, draft.timing.notes),
        set_up=set_up_items(
            scene.club.kit,
            bars,
            doses,
            groups,
            lines,
            {p.block.name: p.block.lane.boxes for p in blocks if p.block.lane is not None},
        ),
        cautions=(*CAUTIONS, *scene.routine.cautions),
        seed=scene.session.seed,
    )


def _flow_breaks(blocks: Sequence[BlockPlan]) -> tuple[tuple[str, str], ...]:
    return tuple(
        (athlete, broken.sentence)
        for plan in blocks
        if plan.block.style is Style.COMPLEX
        for athlete, steps in plan.versions.items()
        for broken in flow_breaks([step.step for step in steps], library_exercise)
    )


def _as_timed(plan: BlockPlan, scene: _Scene, lines: Sequence[RunLine]) -> BlockPlan:
    """A late athlete gets the sets or rounds that are left for him; others get all of theirs."""
    late = {p.id for p in scene.people if p.status == "late"} & set(plan.versions)
    if not late or plan.block.style is Style.COMPLEX:
        return plan
    turns: dict[tuple[str, str], tuple[int, ...]] = {}
    for line in lines:
        if line.block == plan.block.name and line.activity.startswith("work"):
            for athlete in line.athletes:
                of = (athlete, line.step)
                turns[of] = (*turns.get(of, ()), line.round or 1)
    return as_worked(plan, turns, late)


def _head(scene: _Scene) -> SessionHead:
    session, routine = scene.session, scene.routine
    return SessionHead(
        id=session.id,
        name=session.name,
        club=scene.club.name,
        held_on=session.held_on,
        starts_at=session.starts_at,
        minutes=session.minutes,
        routine=routine.id,
        routine_version=routine.version,
        routine_name=routine.name,
        style=" and ".join(dict.fromkeys(block.style.value for block in routine.blocks)),
        aim=routine.aim,
        staff=session.staff,
    )


def _attendance(person: PersonToday, doses: Sequence[Dose]) -> AttendanceLine:
    notes = [person.note] if person.note else []
    notes += map(pain_words, person.pains)
    if person.status == "not training":
        notes += [r.instruction for r in person.restrictions if r.all_training and r.instruction]
    if person.trains and not any(dose.athlete == person.id for dose in doses):
        notes.append("helps and watches")
    return AttendanceLine(
        athlete=person.id,
        shown_name=person.shown_name,
        status=person.status,
        late_minutes=person.late_minutes,
        restrictions=tuple(coach_line(r) for r in person.restrictions),
        note="; ".join(notes),
        barred=tuple(barred_line(r) for r in person.restrictions),
    )
