"""The plain bound and the quick order of a schedule, worked out by hand."""

import pytest

from squadwright.planning.run_sheet.station_schedule import (
    ScheduleProblem,
    Task,
    comes_before,
    dispatch,
    plain_bound,
    schedule,
)
from squadwright.planning.run_sheet.station_search import search


def on(job: int, name: str, length: int, *resources: str, step: int = 1, gap: int = 0) -> Task:
    return Task(job, name, length, gap, resources, step)


@pytest.mark.parametrize(
    ("tasks", "capacity", "bound"),
    [
        ((), {}, 0),
        # One person: 10 + 5 s to walk + 10 s; the walk after the last is not owed.
        ((on(0, "a", 10, gap=5), on(0, "b", 10, gap=5, step=2)), {}, 25),
        # Whichever is last: the longer walk of the two is saved.
        ((on(0, "a", 10, gap=5), on(0, "b", 10, gap=9)), {}, 25),
        # Three at one place.
        (tuple(on(job, "a", 10, "r") for job in range(3)), {"r": 1}, 30),
        # Three tasks in two lanes: 15 s each, and yet two in a row.
        (tuple(on(job, "a", 10, "r") for job in range(3)), {"r": 2}, 20),
        # 4, 6 and 10 s fill two lanes of 10 s.
        ((on(0, "a", 4, "r"), on(1, "a", 6, "r"), on(2, "a", 10, "r")), {"r": 2}, 10),
        # 7 s of work over two lanes are 4 s, rounded up.
        ((on(0, "a", 3, "r"), on(1, "a", 2, "r"), on(2, "a", 2, "r")), {"r": 2}, 4),
        # More places than users count for nothing.
        ((on(0, "a", 10, "r"), on(1, "a", 7, "r")), {"r": 5}, 10),
        # Nobody comes to the place before 10 s, nobody leaves later than 5 s after it.
        (
            tuple(
                t
                for job in range(3)
                for t in (
                    on(job, "a", 8, gap=2),
                    on(job, "b", 6, "r", step=2, gap=1),
                    on(job, "c", 4, step=3),
                )
            ),
            {"r": 1},
            10 + 18 + 5,
        ),
        # Two lanes: the two quickest to come and to go, 0 and 10 s, 0 and 10 s.
        (
            (
                on(0, "a", 10, step=1),
                on(0, "b", 6, "r", step=2),
                on(1, "b", 6, "r", step=1),
                on(1, "c", 10, step=2),
                on(2, "b", 6, "r", step=1),
                on(3, "b", 6, "r", step=1),
            ),
            {"r": 2},
            16,
        ),
        ((on(0, "a", 10),), {"r": 1}, 10),
    ],
)
def test_no_schedule_is_shorter_than_its_longest_job_or_its_busiest_place(
    tasks: tuple[Task, ...], capacity: dict[str, int], bound: int
) -> None:
    assert plain_bound(ScheduleProblem(tasks, capacity)) == bound


def test_sets_of_one_drill_keep_their_order() -> None:
    first, second = Task(0, "a", 10, chain=1), Task(0, "a", 10, chain=2)
    assert comes_before(first, second)
    assert not comes_before(second, first)
    assert not comes_before(first, first)
    assert not comes_before(first, Task(0, "b", 10, chain=2))
    assert not comes_before(first, Task(1, "a", 10, chain=2))
    assert comes_before(first, Task(0, "b", 10, step=2))
    assert not comes_before(Task(0, "b", 10, step=2), first)
    assert not comes_before(first, Task(1, "b", 10, step=2))
    assert not comes_before(Task(0, "a", 10, step=2, chain=1), second)


@pytest.mark.parametrize(
    ("tasks", "capacity", "starts"),
    [
        # Who has more to do goes first, then the longer task, then the one named first.
        ((on(0, "a", 10, "r"), on(1, "a", 10, "r"), on(1, "b", 5)), {"r": 1}, [10, 0, 10]),
        ((on(0, "a", 10, "r"), on(0, "b", 10, "r")), {"r": 1}, [0, 10]),
        ((on(0, "a", 5, "r"), on(1, "a", 6, "r")), {"r": 1}, [6, 0]),
        # A walk between two tasks of one, none between two at one place.
        ((on(0, "a", 10, "r", gap=5), on(0, "b", 10, "s")), {"r": 1, "s": 1}, [0, 15]),
        ((on(0, "a", 10, "r", gap=5), on(1, "a", 10, "r", gap=5)), {"r": 1}, [0, 10]),
        # A lower step first, whatever is longer.
        ((on(0, "b", 20, step=2), on(0, "a", 5, step=1)), {}, [5, 0]),
        # Two pieces serve two at once, the third waits for the first that is free.
        (
            (on(0, "a", 10, "r"), on(1, "a", 8, "r"), on(2, "a", 6, "r")),
            {"r": 2},
            [0, 0, 8],
        ),
        # Two pieces of kit for one task: both have to be free.
        ((on(0, "a", 10, "r"), on(1, "a", 9, "r", "s"), on(2, "a", 4, "s")), {"r": 1, "s": 1},
         [0, 10, 0]),
    ],
)  # fmt: skip
def test_whatever_can_start_starts_the_longest_way_first(
    tasks: tuple[Task, ...], capacity: dict[str, int], starts: list[int]
) -> None:
    assert dispatch(ScheduleProblem(tasks, capacity)) == starts


def test_the_search_finds_what_the_quick_order_misses() -> None:
    """Two of one pair and three of another at two pieces: 6, 6 and 4, 4, 4 s fill 12 s."""
    tasks = tuple(on(job, "a", length, "r") for job, length in enumerate((6, 6, 4, 4, 4)))
    problem = ScheduleProblem(tasks, {"r": 2})
    quick = dispatch(problem)
    assert max(start + t.duration_s for start, t in zip(quick, tasks, strict=True)) == 14
    assert plain_bound(problem) == 12
    found = schedule(problem)
    assert (found.makespan_s, found.lower_bound_s, found.is_proven) == (12, 12, True)
    starts, bound = search(problem, quick, 12)
    assert starts is not None
    assert bound == 12
    assert sorted(starts) == [0, 0, 4, 6, 8]


def test_a_bound_that_cannot_be_reached_leaves_the_quick_order() -> None:
    """What asks for less than nothing has no schedule: the quick one stays, and says so."""
    tasks = (on(0, "a", 10, "r"), on(1, "a", 10, "r"))
    problem = ScheduleProblem(tasks, {"r": 1})
    none, bound = search(problem, [0, 10], 21)
    assert (none, bound) == (None, 21)
