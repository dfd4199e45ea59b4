"""``squadwright serve`` as a program of its own: its address, its errors, how it stops."""

import os
import re
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx2

STARTS_WITHIN_S = 60
PROGRAM = (sys.executable, "-c", "from squadwright.cli import main; main()")


@contextmanager
def started(folder: Path, *arguments: str) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """The program, running, and the address it printed."""
    program = subprocess.Popen(
        [*PROGRAM, "serve", "--port", "0", *arguments],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "XDG_DATA_HOME": str(folder), "HOME": str(folder)},
    )
    try:
        assert program.stdout is not None
        first = program.stdout.readline()
        found = re.match(r"(http://127\.0\.0\.1:\d+/) shows ", first)
        assert found is not None, first + (program.stderr.read() if program.stderr else "")
        yield program, found[1]
    finally:
        if program.poll() is None:
            program.kill()
        program.communicate()


def test_it_prints_its_address_answers_there_and_stops_on_an_interrupt(tmp_path: Path) -> None:
    with started(tmp_path, "--demo") as (program, address):
        answer = httpx2.get(f"{address}patterns", timeout=STARTS_WITHIN_S)
        assert answer.status_code == 200
        assert "Patterns" in answer.text
        program.send_signal(signal.SIGINT)
        rest, complaints = program.communicate(timeout=30)
        assert program.returncode == 0
        assert rest.endswith("Stopped.\n")
        assert complaints == ""


def test_a_new_database_is_made_where_there_is_none(tmp_path: Path) -> None:
    file = tmp_path / "mine.sqlite3"
    with started(tmp_path, "--database", str(file)) as (_, address):
        assert httpx2.get(f"{address}patterns", timeout=STARTS_WITHIN_S).status_code == 200
    assert file.exists()


def test_it_is_not_reached_under_another_name(tmp_path: Path) -> None:
    with started(tmp_path, "--demo") as (_, address):
        answer = httpx2.get(f"{address}patterns", headers={"Host": "gym.example"}, timeout=30)
        assert answer.status_code == 400


def test_a_port_in_use_is_told_in_one_line(tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        done = subprocess.run(
            [*PROGRAM, "serve", "--port", str(port), "--demo"],
            capture_output=True,
            text=True,
            env={**os.environ, "XDG_DATA_HOME": str(tmp_path), "HOME": str(tmp_path)},
        )
    assert done.returncode == 5
    assert done.stderr.splitlines() == [
        f"squadwright: port {port} is in use by another program. Stop it, or name another one: "
        f"`squadwright serve --demo --port {port + 1}`"
    ]
    assert done.stdout == ""
    assert not list(tmp_path.iterdir())


def test_the_demo_looks_at_its_port_before_it_makes_anything(tmp_path: Path) -> None:
    here = Path(__file__).parents[2]
    look = (sys.executable, str(here / "tools" / "free_port.py"))
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        done = subprocess.run([*look, str(port)], capture_output=True, text=True)
        assert done.returncode == 1
        told = re.fullmatch(r"port (\d+) is in use .*: `make demo PORT=(\d+)`\n", done.stderr)
        assert told is not None
        assert int(told[1]) == port
        assert subprocess.run([*look, told[2]]).returncode == 0
    asked = subprocess.run(["make", "-n", "demo"], cwd=here, capture_output=True, text=True).stdout
    assert "tools/free_port.py 8734" in asked
    assert asked.index("tools/free_port.py") < asked.index("squadwright plan --demo")
