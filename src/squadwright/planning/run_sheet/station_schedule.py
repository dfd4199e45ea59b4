"""Schedule tasks of several groups under limited kit: the shortest order, with a proof.

A plain bound (the longest path, or a resource's work with the smallest heads and tails over its
capacity) is computed first. A quick dispatch often reaches it; where it does not, CP-SAT searches
with the bound as a constraint, because it would take long to find that bound by itself.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field


@dataclass(frozen=True)
class Task:
    """Work of one job (a group, a person) that cannot be interrupted.

    ``gap_s`` is kept free in the job after the task before its next one [s]. Tasks of a lower
    ``step`` come first in their job; ``chain`` numbers tasks that keep their order within a step.
    """

    job: int
    name: str
    duration_s: int
    gap_s: int = 0
    resources: tuple[str, ...] = ()
    step: int = 1
    chain: int = 0


@dataclass(frozen=True)
class ScheduleProblem:
    """Tasks and how many of each resource there are."""

    tasks: tuple[Task, ...]
    capacity: Mapping[str, int] = field(default_factory=dict)
    time_limit_s: float = 5.0


@dataclass(frozen=True)
class Schedule:
    """Start of each task [s], and a length no schedule can go below [s]."""

    starts_s: tuple[int, ...]
    makespan_s: int
    lower_bound_s: int

    @property
    def is_proven(self) -> bool:
        """Whether no schedule is shorter."""
        return self.makespan_s == self.lower_bound_s


def schedule(problem: ScheduleProblem) -> Schedule:
    """The shortest schedule found within the time limit, never worse than the quick dispatch."""
    bound = plain_bound(problem)
    starts = dispatch(problem)
    length = _length(problem.tasks, starts)
    if length > bound:
        from squadwright.planning.run_sheet.station_search import search

        found, bound = search(problem, starts, bound)
        if found is not None:
            starts, length = found, _length(problem.tasks, found)
    return Schedule(tuple(starts), length, bound)


def plain_bound(problem: ScheduleProblem) -> int:
    """Least length by the longest job and by the busiest resource [s]."""
    jobs = _by_job(problem.tasks)
    best = max((_path_s(tasks) for tasks in jobs.values()), default=0)
    for resource, capacity in problem.capacity.items():
        users = [task for task in problem.tasks if resource in task.resources]
        if not users:
            continue
        heads = sorted(_head_s(task, jobs[task.job]) for task in users)
        tails = sorted(_tail_s(task, jobs[task.job]) for task in users)
        lanes = min(capacity, len(users))
        ends = sum(heads[:lanes]) + sum(tails[:lanes])
        work = sum(task.duration_s for task in users)
        best = max(best, -(-(work + ends) // lanes), _rows_of_equals(users, lanes, heads, tails))
    return best


def _rows_of_equals(
    users: Sequence[Task], lanes: int, heads: Sequence[int], tails: Sequence[int]
) -> int:
    """Tasks that cannot be split fill rows: some place takes at least the rounded-up number."""
    shortest = min(task.duration_s for task in users)
    return heads[0] + -(-len(users) // lanes) * shortest + tails[0]


def dispatch(problem: ScheduleProblem) -> list[int]:
    """Start whatever can start, longest remaining path first."""
    tasks = problem.tasks
    jobs = _by_job(tasks)
    left = {job: _path_s(own) for job, own in jobs.items()}
    before, after = _order(tasks)
    ready = {place for place, count in enumerate(before) if count == 0}
    job_free: dict[int, int] = defaultdict(int)
    busy: dict[str, list[int]] = {name: [0] * count for name, count in problem.capacity.items()}
    starts = [0] * len(tasks)
    while ready:
        earliest = {
            place: max(
                [job_free[tasks[place].job]] + [min(busy[name]) for name in tasks[place].resources]
            )
            for place in ready
        }
        chosen = min(
            ready,
            key=lambda place: (
                earliest[place],
                -left[tasks[place].job],
                -tasks[place].duration_s,
                place,
            ),
        )
        task, begin = tasks[chosen], earliest[chosen]
        starts[chosen] = begin
        job_free[task.job] = begin + task.duration_s + task.gap_s
        left[task.job] -= task.duration_s + task.gap_s
        for name in task.resources:
            busy[name].remove(min(busy[name]))
            busy[name].append(begin + task.duration_s)
        ready.remove(chosen)
        for place in after[chosen]:
            before[place] -= 1
            if before[place] == 0:
                ready.add(place)
    return starts


def _order(tasks: Sequence[Task]) -> tuple[list[int], list[list[int]]]:
    """How many tasks come before each, and which come after each."""
    before = [0] * len(tasks)
    after: list[list[int]] = [[] for _ in tasks]
    places: dict[int, list[int]] = defaultdict(list)
    for place, task in enumerate(tasks):
        places[task.job].append(place)
    for own in places.values():
        for one in own:
            for other in own:
                if comes_before(tasks[one], tasks[other]):
                    before[other] += 1
                    after[one].append(other)
    return before, after


def comes_before(one: Task, other: Task) -> bool:
    """Whether a task must be finished before another of its job."""
    if one.job != other.job:
        return False
    same_chain = one.step == other.step and one.name == other.name
    return one.step < other.step or (same_chain and one.chain < other.chain)


def _by_job(tasks: Sequence[Task]) -> dict[int, list[Task]]:
    jobs: dict[int, list[Task]] = defaultdict(list)
    for task in tasks:
        jobs[task.job].append(task)
    return dict(jobs)


def _length(tasks: Sequence[Task], starts: Sequence[int]) -> int:
    return max(
        (start + task.duration_s for task, start in zip(tasks, starts, strict=True)), default=0
    )


def _path_s(tasks: Sequence[Task]) -> int:
    """Work and gaps of a job; the gap after its last task is not owed."""
    last_step = max(task.step for task in tasks)
    final = [task for task in tasks if task.step == last_step]
    last = [task for task in final if not any(comes_before(task, other) for other in final)]
    whole = sum(task.duration_s + task.gap_s for task in tasks)
    return whole - max(task.gap_s for task in last)


def _head_s(task: Task, own: Sequence[Task]) -> int:
    return sum(other.duration_s + other.gap_s for other in own if comes_before(other, task))


def _tail_s(task: Task, own: Sequence[Task]) -> int:
    after = [other for other in own if comes_before(task, other)]
    return task.gap_s + _path_s(after) if after else 0
