"""``squadwright serve --lan`` as a program of its own, with 127.0.0.2 as the hall's network."""

import os
import re
import signal
import socket
import ssl
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import httpx2

PROGRAM = (sys.executable, "-c", "from squadwright.cli import main; main()")
HALL = "127.0.0.2"
TOKEN = re.compile(r'name="_token" value="([0-9a-f]+)"')


@dataclass
class Running:
    """The program, its three addresses and the fingerprint it printed."""

    program: subprocess.Popen[str]
    own: str
    hall: str
    trust: str
    fingerprint: str


@contextmanager
def started(folder: Path, *arguments: str) -> Iterator[Running]:
    program = subprocess.Popen(
        [
            *(*PROGRAM, "serve", "--demo", "--port", "0"),
            *("--lan", "--lan-address", HALL, "--lan-port", "0", *arguments),
        ],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "XDG_DATA_HOME": str(folder), "HOME": str(folder)},
    )
    try:
        assert program.stdout is not None
        lines: list[str] = []
        while not lines or not lines[-1].startswith("Stop it"):
            line = program.stdout.readline()
            assert line, program.stderr.read() if program.stderr else ""
            lines.append(line)
        told = "".join(lines)
        addresses = re.findall(r"https?://[0-9.:]+", told)
        fingerprint = re.search(r"[0-9A-F]{2}(:[0-9A-F]{2}){31}", told)
        assert fingerprint is not None
        own, hall, trust = addresses
        yield Running(program, own, hall, trust, fingerprint[0])
    finally:
        if program.poll() is None:
            program.kill()
        program.communicate()


def test_a_device_trusts_joins_and_sees_its_session_alone(tmp_path: Path) -> None:
    with started(tmp_path) as site:
        assert site.own.startswith("http://127.0.0.1:")
        assert site.hall.startswith(f"https://{HALL}:")
        authority = httpx2.get(f"{site.trust}/trust/certificate", timeout=60).content
        assert site.fingerprint in httpx2.get(f"{site.trust}/trust", timeout=60).text
        trusting = ssl.create_default_context(cadata=authority)
        with (
            httpx2.Client(base_url=site.own, timeout=60, follow_redirects=True) as coach,
            httpx2.Client(
                base_url=site.hall, verify=trusting, timeout=60, follow_redirects=True
            ) as phone,
        ):
            assert phone.get("/squad").status_code == 403
            devices = "/devices/monday-barbell"
            found = TOKEN.search(coach.get(devices).text)
            assert found is not None
            shown = coach.post(
                devices,
                data={"_token": found[1], "role": "assistant"},
                headers={"Origin": site.own},
            ).text
            code = re.search(r'join-digits">(\d{3} \d{3})<', shown)
            assert code is not None
            page = phone.get("/")
            found = TOKEN.search(page.text)
            assert found is not None
            joined = phone.post(
                "/join",
                data={"_token": found[1], "code": code[1], "name": "Anna"},
                headers={"Origin": site.hall},
            )
            assert joined.url.path == "/live/monday-barbell"
            assert joined.status_code == 200
            assert phone.get("/squad").status_code == 403
            assert "Anna" in coach.get(devices).text
        site.program.send_signal(signal.SIGINT)
        rest, complaints = site.program.communicate(timeout=30)
        assert site.program.returncode == 0
        assert rest.endswith("Stopped.\n")
        assert complaints == ""


def test_the_certificate_stays_the_same_after_a_restart(tmp_path: Path) -> None:
    with started(tmp_path) as site:
        first = site.fingerprint
    with started(tmp_path) as site:
        assert site.fingerprint == first


def refused(folder: Path, *arguments: str) -> tuple[int, str]:
    done = subprocess.run(
        [*PROGRAM, "serve", "--demo", "--port", "0", *arguments],
        capture_output=True,
        text=True,
        env={**os.environ, "XDG_DATA_HOME": str(folder), "HOME": str(folder)},
    )
    assert done.stdout == ""
    (line,) = done.stderr.splitlines()
    return done.returncode, line


def test_wrong_addresses_and_ports_are_told_in_one_line(tmp_path: Path) -> None:
    code, line = refused(tmp_path, "--lan-address", HALL)
    assert (code, "needs --lan" in line) == (2, True)
    code, line = refused(tmp_path, "--lan", "--lan-address", "8.8.8.8")
    assert (code, "not a private IPv4 address" in line) == (2, True)
    # Private (RFC 1918), and hardly an address of a machine that runs tests.
    code, line = refused(tmp_path, "--lan", "--lan-address", "10.255.255.254", "--lan-port", "0")
    assert (code, "no address of this machine" in line) == (2, True)
    with socket.socket() as taken:
        taken.bind((HALL, 0))
        taken.listen()
        port = taken.getsockname()[1]
        code, line = refused(tmp_path, "--lan", "--lan-address", HALL, "--lan-port", str(port))
    assert code == 5
    assert f"port {port} is in use" in line
    assert f"--lan-port {port + 1}" in line
