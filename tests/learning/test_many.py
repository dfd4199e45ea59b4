"""Many athletes, fitted over several processes."""

import os
import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest

from learning.histories import history, trial
from learning.training_squad import squad
from squadwright.errors import InvalidInput
from squadwright.learning.fit import Fitted, fit
from squadwright.learning.history import History
from squadwright.learning.many import ONE_THREAD, fit_in_processes, one_thread_each
from squadwright.learning.world import World

WORLD = World(day_sd=0.04)


@pytest.fixture(scope="module")
def histories() -> list[History]:
    """Twelve of unlike lengths, with one of another work and one of no sessions among them."""
    people = [replace(h, trials=h.trials[: 3 + n % 4]) for n, h in enumerate(squad(10, 6))]
    return [*people[:3], history(trial(3, 36, reserve=2)), *people[3:8], history(), *people[8:]]


@pytest.fixture(scope="module")
def fitted(histories: list[History]) -> tuple[Fitted, ...]:
    return fit_in_processes(histories, processes=2, world=WORLD)


def test_everybody_is_fitted_as_he_is_alone_and_stays_in_his_place(
    histories: list[History], fitted: tuple[Fitted, ...]
) -> None:
    assert len(fitted) == len(histories) == 12
    for known, found in zip(histories, fitted, strict=True):
        alone = fit(known, world=WORLD)
        assert found.history is known
        assert (found.names, found.days, found.world) == (alone.names, alone.days, WORLD)
        np.testing.assert_allclose(found.mean, alone.mean, atol=1e-9)
        np.testing.assert_allclose(found.covariance, alone.covariance, atol=1e-9)


def test_a_second_time_gives_the_very_same_numbers(
    histories: list[History], fitted: tuple[Fitted, ...]
) -> None:
    for found, again in zip(
        fitted, fit_in_processes(histories, processes=2, world=WORLD), strict=True
    ):
        np.testing.assert_array_equal(found.mean, again.mean)
        np.testing.assert_array_equal(found.covariance, again.covariance)


def test_a_process_started_within_takes_one_thread_and_the_own_stay_as_they_were(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    one, other, *_ = ONE_THREAD
    monkeypatch.setenv(one, "7")
    monkeypatch.delenv(other, raising=False)
    show = f"import os; print(os.environ[{one!r}], os.environ[{other!r}])"
    with one_thread_each():
        told = subprocess.run([sys.executable, "-c", show], capture_output=True, check=True)
    assert told.stdout.split() == [b"1", b"1"]
    assert os.environ[one] == "7"
    assert other not in os.environ


def test_nobody_and_one_process_need_no_other_process() -> None:
    assert fit_in_processes([]) == ()
    (alone,) = fit_in_processes([history(trial(3, 36))], processes=1)
    np.testing.assert_array_equal(alone.mean, fit(history(trial(3, 36))).mean)


@pytest.mark.parametrize("processes", [0, 62])
def test_a_number_of_processes_outside_the_limits_is_refused(processes: int) -> None:
    with pytest.raises(InvalidInput, match=f"processes: is {processes}; the limits are 1 and 61"):
        fit_in_processes([], processes=processes)
