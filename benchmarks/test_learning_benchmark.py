"""Time of the fit: one athlete with 20 sessions, and 10,000 over all processors.

Nothing is kept of a fit but the record it is made from, so each page and plan that goes by it
makes it anew: the limit of 50 ms for one athlete is what a page of one can bear unnoticed (half of
what is allowed for an answer of what-if). It is loose, since a slow or busy machine is no defect.
Held is a ratio within one run besides: 10,000 in processes take less than one by one.
"""

import os
from dataclasses import replace
from time import perf_counter

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from learning.training_squad import squad
from squadwright.learning.fit import fit
from squadwright.learning.many import fit_in_processes

SESSIONS = 20
LONGEST_FIT_S = 0.05
DIFFERENT, ATHLETES = 200, 10_000
SMALLEST_GAIN = 1.0  # one processor alone gains by batches; that more gain more is printed


@pytest.mark.benchmark(group="fit of one athlete")
def test_one_athlete_with_twenty_sessions(benchmark: BenchmarkFixture) -> None:
    (known,) = squad(1, SESSIONS)
    benchmark.pedantic(fit, (known,), rounds=40, warmup_rounds=2)
    median_s = benchmark.stats.stats.median
    print(f"fit of {SESSIONS} sessions: median {median_s * 1000:.1f} ms")
    assert median_s < LONGEST_FIT_S


@pytest.mark.benchmark(group="fit of ten thousand athletes")
def test_ten_thousand_athletes_in_processes(benchmark: BenchmarkFixture) -> None:
    """One by one is timed on 200 of them, half before and half after, and scaled."""
    different = squad(DIFFERENT, SESSIONS)
    everybody = [replace(different[n % DIFFERENT], athlete=f"P{n:05}") for n in range(ATHLETES)]
    fit(different[0])
    half = DIFFERENT // 2
    started = perf_counter()
    alone = [fit(known) for known in different[:half]]
    one_by_one_s = perf_counter() - started
    found = benchmark.pedantic(fit_in_processes, (everybody,), rounds=1)
    started = perf_counter()
    alone += [fit(known) for known in different[half:]]
    one_by_one_s += perf_counter() - started
    for n, each in enumerate(alone):
        np.testing.assert_allclose(found[ATHLETES - DIFFERENT + n].mean, each.mean, atol=1e-9)
    gain = one_by_one_s * ATHLETES / DIFFERENT / benchmark.stats.stats.median
    benchmark.extra_info["one by one to in processes"] = round(gain, 2)
    benchmark.extra_info["processors"] = os.cpu_count()
    print(
        f"{ATHLETES} athletes in processes: {benchmark.stats.stats.median:.0f} s, one by one "
        f"{gain:.2f} times as long, {os.cpu_count()} processors"
    )
    assert gain > SMALLEST_GAIN
