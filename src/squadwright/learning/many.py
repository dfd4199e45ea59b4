"""The fit of many athletes at once, over several processes.

Each process takes batches that are fitted as arrays, with one thread of linear algebra: its
matrices are small, and threads would only take the processors from the other processes.
"""

import os
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from datetime import date
from functools import partial
from math import ceil
from multiprocessing import get_context

from squadwright.learning.fit import MOST_TOGETHER, Fitted, fit_many
from squadwright.learning.history import History
from squadwright.learning.prior import prior_of
from squadwright.learning.world import World
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.fatigue import FatigueModel
from squadwright.planning.dose.limit import check_within

LARGEST_BATCH = 4 * MOST_TOGETHER  # about half a second of work, so that all end nearly together
ONE_THREAD = dict.fromkeys(("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"), "1")
MOST_PROCESSES = 61  # more cannot be waited for on Windows (Python's concurrent.futures)
Found = tuple[tuple[str, ...], tuple[date, ...], FloatArray, FloatArray]


def fit_in_processes(
    histories: Sequence[History],
    *,
    processes: int | None = None,
    model: FatigueModel | None = None,
    world: World | None = None,
) -> tuple[Fitted, ...]:
    """The posterior of each athlete, in the order given, the same as one by one.

    There is one process for each processor unless told otherwise. A process takes about a second
    to start, so for a squad ``fit_many`` is sooner done.
    """
    if processes is None:
        processes = min(os.cpu_count() or 1, MOST_PROCESSES)
    check_within("processes", processes, 1, MOST_PROCESSES, "")
    model, world = model or FatigueModel(), world or World()
    if processes == 1 or len(histories) < 2:
        return fit_many(histories, model=model, world=world)
    batches = _batches(histories, processes, world)
    asked = ([histories[place] for place in batch] for batch in batches)
    with one_thread_each(), ProcessPoolExecutor(processes, get_context("spawn")) as pool:
        answers = list(pool.map(partial(_fit_batch, model=model, world=world), asked))
    fitted = {
        place: Fitted(histories[place], *found, world)
        for batch, answer in zip(batches, answers, strict=True)
        for place, found in zip(batch, answer, strict=True)
    }
    return tuple(fitted[place] for place in range(len(histories)))


def _batches(histories: Sequence[History], processes: int, world: World) -> list[list[int]]:
    """Places of histories, those with the same unknowns and about as many sessions together."""
    likeness = [(prior_of(each, world).names, len(each.trials)) for each in histories]
    order = sorted(range(len(histories)), key=likeness.__getitem__)
    size = min(LARGEST_BATCH, ceil(len(order) / processes))
    return [order[start : start + size] for start in range(0, len(order), size)]


def _fit_batch(histories: Sequence[History], *, model: FatigueModel, world: World) -> list[Found]:
    """What a process sends back: all but the histories, which the asking one has."""
    fitted = fit_many(histories, model=model, world=world)
    return [(each.names, each.days, each.mean, each.covariance) for each in fitted]


@contextmanager
def one_thread_each() -> Iterator[None]:
    """Processes started within take one thread: linear algebra reads this as it is loaded."""
    before = {name: os.environ.get(name) for name in ONE_THREAD}
    os.environ.update(ONE_THREAD)
    try:
        yield
    finally:
        for name, value in before.items():
            if value is None:
                del os.environ[name]
            else:
                os.environ[name] = value
