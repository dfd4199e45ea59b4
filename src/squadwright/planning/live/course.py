"""The course of a running session: the plan it was started with, and what was changed since.

A change is worked out from the place on the sheet at which it happens. What lies before stays as
it was, what is under way is finished, and the clock does not stop.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from squadwright.errors import InvalidInput
from squadwright.model.plan import BarPlan, Dose, Plan, RunLine
from squadwright.planning.live.joined_lines import joined
from squadwright.planning.live.taken_over import arrival_now, taken_over
from squadwright.planning.plan import Timed
from squadwright.planning.run_lines import LineKeys, run_lines
from squadwright.planning.run_sheet import (
    DrillBlock,
    NotFitting,
    PartKind,
    RunSheetProblem,
    clock,
    solve_run_sheet,
)
from squadwright.planning.run_sheet.retime import remaining


@dataclass(frozen=True)
class RoundsBefore:
    """Rounds of a block that lie before the origin of a course."""

    block: str
    rounds: int


@dataclass(frozen=True)
class BarOfBlock:
    """A bar as it is used in a block."""

    block: str
    bar: str


@dataclass(frozen=True)
class FormerBars:
    """Bars with their users as they were until a place [s]: a round under way goes on with them."""

    until_s: int
    bars: tuple[BarPlan, ...]


@dataclass(frozen=True)
class Course:
    """A session as it runs.

    ``problem`` is what is left to do from ``origin_s``, a place on the run sheet [s].
    ``changes`` are the ids of the events it follows, ``told`` a sentence for each of them.
    ``bar_order`` gives each bar of a block its number for good, whatever bars go and come.
    """

    plan: Plan
    problem: RunSheetProblem
    keys: LineKeys
    origin_s: int = 0
    rounds_before: tuple[RoundsBefore, ...] = ()
    changes: tuple[str, ...] = ()
    told: tuple[str, ...] = ()
    bar_order: tuple[BarOfBlock, ...] = ()
    former: tuple[FormerBars, ...] = ()


def started(timed: Timed) -> Course:
    """The course of a session that begins as it was planned."""
    order = bars_in_order(timed.plan)
    return Course(timed.plan, timed.problem, timed.keys, bar_order=order)


def bars_in_order(plan: Plan, known: Sequence[BarOfBlock] = ()) -> tuple[BarOfBlock, ...]:
    """The bars as they are numbered: those known first, then the others of a plan."""
    return tuple(dict.fromkeys((*known, *(BarOfBlock(bar.block, bar.bar) for bar in plan.bars))))


def with_time_left(course: Course, place_s: float, left_s: int) -> Course:
    """Only so many seconds are left: what is under way is finished, then the rest is cut to fit.

    Raises
    ------
    InvalidInput : everything planned is over, or even the least that is left does not fit.
    """
    here = _place(course, place_s)
    ahead = max(0, round(course.origin_s + here - place_s))
    left = remaining(course.problem, now_s=here, left_s=max(1, left_s - ahead))
    minutes = round(left_s / 60)
    return _solved(course, left, course.keys, here, f"{minutes} min left")


def with_new_plan(
    course: Course, place_s: float, timed: Timed, *, words: str, late: str = ""
) -> Course:
    """What is left is done as another plan of the same session has it: its people, bars, groups.

    Parameters
    ----------
    words : what has happened, at the head of the sentence that is told.
    late : an athlete who comes now; he warms up by himself and joins at the next boundary.

    Raises
    ------
    InvalidInput : the slot is over, or what is left does not fit with these people and bars.
    """
    here = _place(course, place_s)
    end_s = course.problem.slot_s
    if here >= end_s:
        raise InvalidInput("the place", "the slot is over", "End the session")
    left = remaining(course.problem, now_s=here, left_s=end_s - here)
    arrivals = left.late
    if late:
        arrivals = (
            *(a for a in arrivals if a.athlete != late),
            arrival_now(late, timed.problem, left),
        )
    blocks = tuple(taken_over(block, timed.problem) for block in left.blocks)
    former = replace(
        course, plan=replace(course.plan, run_sheet=_without(course.plan.run_sheet, late))
    )
    solved = _solved(former, replace(left, blocks=blocks, late=arrivals), timed.keys, here, words)
    lines = solved.plan.run_sheet
    plan = replace(
        timed.plan,
        session=course.plan.session,
        doses=_doses(course.plan, timed.plan, lines, late),
        run_sheet=lines,
        seed=course.plan.seed,
    )
    order = bars_in_order(plan, course.bar_order)
    until_s = solved.origin_s + _finish_s(left)
    now = replace(
        solved,
        plan=plan,
        bar_order=order,
        former=(*course.former, FormerBars(until_s, course.plan.bars)),
    )
    if not late:
        return now
    told = f"{now.told[-1]} {_joining(now, late)}"
    return replace(now, told=(*course.told, told))


def _finish_s(left: RunSheetProblem) -> int:
    """How long what is under way goes on [s]."""
    return sum(part.duration_s for part in left.before if part.kind is PartKind.FINISH)


def _without(lines: Sequence[RunLine], athlete: str) -> tuple[RunLine, ...]:
    """The lines without somebody who was not there."""
    return tuple(
        replace(line, athletes=tuple(each for each in line.athletes if each != athlete))
        for line in lines
        if line.athletes != (athlete,)
    )


def _place(course: Course, place_s: float) -> int:
    """The place within what is left, in whole seconds; nothing is planned again before it."""
    return max(0, -int(-(place_s - course.origin_s) // 1))


def _solved(course: Course, left: RunSheetProblem, keys: LineKeys, here: int, words: str) -> Course:
    """Time what is left, put it behind what was, and say what had to be cut."""
    before = _rounds_before(course, left)
    answer = solve_run_sheet(left)
    cuts = "nothing is cut"
    if isinstance(answer, NotFitting):
        if answer.fit is None:
            raise InvalidInput(
                words, f"even the least that is left takes {clock(answer.least_s)}", "End by hand"
            )
        cuts = "cut to fit: " + "; ".join(cut.what for cut in answer.fit.cuts)
        left, answer = answer.fit.problem, answer.fit.solution
    origin = course.origin_s + here
    lines = [_moved(line, origin, before) for line in run_lines(answer, _shifted(keys, before))]
    drills = {block.name for block in course.problem.blocks if isinstance(block, DrillBlock)}
    return replace(
        course,
        plan=replace(course.plan, run_sheet=joined(course.plan.run_sheet, lines, origin, drills)),
        problem=left,
        keys=keys,
        origin_s=origin,
        rounds_before=tuple(RoundsBefore(name, rounds) for name, rounds in before.items()),
        told=(*course.told, f"{words}: {cuts}."),
    )


def _rounds_before(course: Course, left: RunSheetProblem) -> dict[str, int]:
    """Rounds of each block that are done or under way, by the block's name."""
    before = {each.block: each.rounds for each in course.rounds_before}
    planned = {block.name: block for block in course.problem.blocks}
    for block in left.blocks:
        was = planned[block.name]
        if isinstance(block, DrillBlock) or isinstance(was, DrillBlock):
            continue
        before[block.name] = before.get(block.name, 0) + was.rounds - block.rounds
    return before


def _moved(line: RunLine, origin_s: int, before: Mapping[str, int]) -> RunLine:
    number = None if line.round is None else line.round + before.get(line.block, 0)
    return replace(line, start_s=line.start_s + origin_s, end_s=line.end_s + origin_s, round=number)


def _shifted(keys: LineKeys, before: Mapping[str, int]) -> LineKeys:
    """Own rounds of a circuit count what is done already; what is left has fewer."""
    own = tuple(
        replace(each, rounds=max(0, each.rounds - before.get(each.block, 0)))
        for each in keys.own_rounds
    )
    return replace(keys, own_rounds=own)


def _doses(former: Plan, plan: Plan, lines: Sequence[RunLine], late: str) -> tuple[Dose, ...]:
    """The doses as they are now; who has stopped keeps his, who comes late has the rounds left."""
    doses = []
    for dose in plan.doses:
        rounds = _own_rounds(lines, dose) if dose.athlete == late else set()
        joins = replace(dose, rounds=len(rounds), first_round=min(rounds)) if rounds else dose
        doses.append(joins)
    here = {dose.athlete for dose in doses}
    return (*doses, *(dose for dose in former.doses if dose.athlete not in here))


def _own_rounds(lines: Sequence[RunLine], dose: Dose) -> set[int]:
    return {
        line.round
        for line in lines
        if line.round is not None
        and line.activity.startswith("work")
        and dose.athlete in line.athletes
        and dose.block in ("", line.block)
    }


def _joining(course: Course, athlete: str) -> str:
    """When and where somebody who comes late begins to work."""
    name = course.plan.shown_name(athlete)
    works = [
        line
        for line in course.plan.run_sheet
        if athlete in line.athletes and line.activity.startswith("work")
    ]
    if not works:
        return f"{name} is ready after the last start: helps and watches."
    first = works[0]
    bar = next(
        (
            BarOfBlock(line.block, line.bar)
            for line in course.plan.bars
            if line.block == first.block and any(u.athlete == athlete for u in line.wave_users)
        ),
        None,
    )
    where = f" with {first.group}" if first.group else ""
    if bar is not None:
        where = f" on bar {course.bar_order.index(bar) + 1}"
    rounds = f"round {first.round} of " if first.round else ""
    at = clock(first.start_s)
    return f"{name} warms up and joins {rounds}{first.block} at {at}{where}."
