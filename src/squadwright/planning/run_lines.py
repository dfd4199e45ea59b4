"""The lines of the run sheet: what was timed, told for the athletes who do it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from squadwright.model.plan import RunLine
from squadwright.model.routine import Style
from squadwright.planning.block_plan import BlockPlan
from squadwright.planning.run_sheet import RunEntry, RunSheetSolution


@dataclass(frozen=True)
class TimedStep:
    """The step and the exercise behind a drill as it is timed."""

    block: str
    drill: str
    step: str
    exercise: str


@dataclass(frozen=True)
class OwnSets:
    """Sets of one athlete of one drill; after his own he only helps."""

    block: str
    drill: str
    athlete: str
    sets: int


@dataclass(frozen=True)
class OwnRounds:
    """Rounds of a circuit of one athlete, after which he only helps."""

    block: str
    athlete: str
    rounds: int


@dataclass(frozen=True)
class LineKeys:
    """What the lines need beside the times."""

    steps: tuple[TimedStep, ...] = ()
    own_sets: tuple[OwnSets, ...] = ()
    own_rounds: tuple[OwnRounds, ...] = ()


def line_keys(blocks: Sequence[BlockPlan]) -> LineKeys:
    """Whose step, sets and rounds stand behind what is timed of the planned blocks."""
    steps: list[TimedStep] = []
    own_sets: list[OwnSets] = []
    for plan in blocks:
        own = {
            (athlete, step.key): step for athlete, steps in plan.versions.items() for step in steps
        }
        written = {
            key: step.exercise for key, step in zip(plan.keys, plan.block.steps, strict=True)
        }
        for drill, key in plan.step_of.items():
            steps.append(TimedStep(plan.block.name, drill, key, written[key]))
            for athlete in plan.versions:
                step = own.get((athlete, key))
                sets = 0
                if step is not None:
                    sets = step.step.scheme.sets * plan.rounds[athlete].rounds
                turns = plan.turns_in_a_set(key) * plan.set_limit(drill, sets)
                own_sets.append(OwnSets(plan.block.name, drill, athlete, turns))
    own_rounds = tuple(
        OwnRounds(plan.block.name, athlete, rounds.rounds)
        for plan in blocks
        if plan.block.style is Style.CIRCUIT
        for athlete, rounds in plan.rounds.items()
    )
    return LineKeys(tuple(steps), tuple(own_sets), own_rounds)


def run_lines(solution: RunSheetSolution, keys: LineKeys) -> tuple[RunLine, ...]:
    """The sheet as lines of the plan."""
    step_of = {(s.block, s.drill): (s.step, s.exercise) for s in keys.steps}
    own_sets = {(s.block, s.drill, s.athlete): s.sets for s in keys.own_sets}
    last_round = {(r.block, r.athlete): r.rounds for r in keys.own_rounds}
    rests = {(rest.block, rest.who): rest.rest_s for rest in solution.rests}
    block_of = {id(entry): timing.name for timing in solution.blocks for entry in timing.entries}
    lines: list[RunLine] = []
    for entry in solution.entries:
        block = block_of.get(id(entry), "")
        lines += _own_work(_line(entry, block, step_of, rests), entry, own_sets, last_round)
    return tuple(sorted(_waves_together(lines), key=lambda line: (line.start_s, line.end_s)))


def _line(
    entry: RunEntry,
    block: str,
    step_of: Mapping[tuple[str, str], tuple[str, str]],
    rests: Mapping[tuple[str, str], int],
) -> RunLine:
    step, exercise = step_of.get((block, entry.exercise), ("", None))
    return RunLine(
        start_s=entry.start_s,
        end_s=entry.end_s,
        group=entry.group,
        station=entry.station,
        exercise=exercise,
        activity=entry.activity,
        round=entry.round,
        rest_s=rests.get((block, entry.role), rests.get((block, entry.group))),
        block=block,
        step=step,
        set=entry.set,
        role=entry.role,
        athletes=entry.athletes,
        kit=entry.kit,
    )


def _own_work(
    line: RunLine,
    entry: RunEntry,
    own_sets: Mapping[tuple[str, str, str], int],
    last_round: Mapping[tuple[str, str], int],
) -> list[RunLine]:
    """The line for those who still work, and one for those who have done theirs and help."""
    if not line.activity.startswith("work"):
        return [line]
    number, turn = line.set or 1, line.round or 1
    over = [
        athlete
        for athlete in line.athletes
        if number > own_sets.get((line.block, entry.exercise, athlete), number)
        or turn > last_round.get((line.block, athlete), turn)
    ]
    if not over:
        return [line]
    still = tuple(a for a in line.athletes if a not in over)
    rest = replace(line, activity="help and watch", athletes=tuple(over), set=None)
    return [rest] if not still else [replace(line, athletes=still), rest]


def _waves_together(lines: list[RunLine]) -> list[RunLine]:
    """The lifters of one wave who work at the same time become one line."""
    together: dict[tuple[int, int, str, int | None, str], RunLine] = {}
    others: list[RunLine] = []
    for line in lines:
        if line.activity != "work" or not line.role.startswith("wave "):
            others.append(line)
            continue
        key = (line.start_s, line.end_s, line.block, line.round, line.role)
        known = together.get(key)
        together[key] = (
            replace(line, group=line.role, station="bars")
            if known is None
            else replace(
                known,
                athletes=(*known.athletes, *line.athletes),
                kit=(*known.kit, *line.kit),
            )
        )
    return [*together.values(), *others]
