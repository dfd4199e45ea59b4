"""A test that is left out counts as failed where every system part is required."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

TESTS = Path(__file__).parent

SKIPPED_WHEN_RUN = """
import pytest

def test_of_something_that_is_not_here():
    pytest.skip("no such program")
"""
SKIPPED_WHEN_COLLECTED = """
import pytest

pytest.importorskip("no_such_library", reason="no such library")
"""
EXPECTED_TO_FAIL = """
import pytest

@pytest.mark.xfail(reason="a known defect")
def test_of_a_known_defect():
    assert False
"""


def exit_code_and_output(folder: Path, source: str, *, required: bool) -> tuple[int, str]:
    """Run one test file on its own, under the project's conftest."""
    (folder / "test_alone.py").write_text(source, encoding="utf-8")
    environment = {**os.environ, "SQUADWRIGHT_REQUIRE_SYSTEM_PARTS": "01"[required]}
    environment["PYTHONPATH"] = str(TESTS)
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-p", "conftest", "-p", "no:cacheprovider", "-ra", "."],
        cwd=folder,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )
    return done.returncode, done.stdout


@pytest.mark.parametrize(
    ("source", "reason"),
    [(SKIPPED_WHEN_RUN, "no such program"), (SKIPPED_WHEN_COLLECTED, "no such library")],
)
def test_a_test_left_out_fails_the_run_where_all_parts_are_required(
    tmp_path: Path, source: str, reason: str
) -> None:
    code, output = exit_code_and_output(tmp_path, source, required=True)
    assert code != 0
    assert "left out" in output
    assert reason in output


def test_a_test_left_out_is_only_named_elsewhere(tmp_path: Path) -> None:
    code, output = exit_code_and_output(tmp_path, SKIPPED_WHEN_RUN, required=False)
    assert code == 0
    assert "1 skipped" in output


def test_a_defect_marked_as_known_is_not_a_test_left_out(tmp_path: Path) -> None:
    code, output = exit_code_and_output(tmp_path, EXPECTED_TO_FAIL, required=True)
    assert code == 0
    assert "1 xfailed" in output
