"""The program starts at once: what is slow to import waits until a command needs it."""

import subprocess
import sys

import pytest

SLOW_TO_IMPORT = (
    *("alembic", "highspy", "numpy", "ortools", "pandas"),
    *("jinja2", "psycopg", "pydantic", "scipy", "sqlalchemy", "starlette", "typst", "uvicorn"),
)


@pytest.fixture(scope="module")
def modules_after_start() -> set[str]:
    """Every module that importing the command line brings in."""
    code = "import sys, squadwright.cli; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(done.stdout.split())


@pytest.mark.parametrize("library", SLOW_TO_IMPORT)
def test_the_command_line_starts_without_a_slow_library(
    modules_after_start: set[str], library: str
) -> None:
    assert "squadwright.cli" in modules_after_start
    assert library not in modules_after_start
