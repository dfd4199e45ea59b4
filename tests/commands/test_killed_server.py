"""The server dies in the middle of writing, again and again: nothing it acknowledged is lost."""

import json
import os
import re
import signal
import subprocess
import sys
import urllib.error
import urllib.request
from contextlib import suppress
from datetime import UTC, date, datetime
from http.client import HTTPException
from pathlib import Path
from random import Random
from threading import Timer

import pytest

from squadwright.bootstrap import open_demo
from squadwright.config import sqlite_url
from squadwright.storage.database import Database
from squadwright.storage.keeper import SqlKeeper

SESSION = "monday-barbell"
USUAL_KILLS, SOAK_KILLS = 4, 200
PATIENCE_S = 30


class Device:
    """A device that sends its events one by one and notes which were acknowledged."""

    def __init__(self) -> None:
        self.number = 0
        self.acknowledged: list[str] = []

    def send_until_it_fails(self, address: str) -> None:
        with urllib.request.urlopen(f"{address}patterns", timeout=PATIENCE_S) as page:
            cookie = page.headers["Set-Cookie"].partition(";")[0]
            found = re.search(r'name="_token" value="([0-9a-f]+)"', page.read().decode())
        assert found is not None
        for _ in range(2_000):
            self.number += 1
            event = {
                "id": f"d-{self.number}",
                "session": SESSION,
                "device": "d",
                "number": self.number,
                "at": datetime.now(UTC).isoformat(),
                "kind": "fault",
                "athlete": "A09",
                "round": 1,
                "words": "low back rounding",
            }
            request = urllib.request.Request(
                f"{address}live/{SESSION}/events",
                data=json.dumps({"after": 1000, "events": [event]}).encode(),
                headers={
                    "Content-Type": "application/json",
                    "Cookie": cookie,
                    "Origin": address.rstrip("/"),
                    "X-CSRF-Token": found[1],
                },
            )
            try:
                with urllib.request.urlopen(request, timeout=PATIENCE_S) as answer:
                    self.acknowledged += json.load(answer)["stored"]
            except (urllib.error.URLError, HTTPException, OSError):
                return


def killed_while_writing(path: Path, device: Device, after_s: float) -> None:
    program = Path(sys.executable).with_name("squadwright")
    command = [str(program), "serve", "--database", sqlite_url(path), "--port", "0"]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, text=True, env=os.environ | {"PYTHONUNBUFFERED": "1"}
    ) as server:
        assert server.stdout is not None
        found = re.match(r"(http://\S+/)", server.stdout.readline())
        assert found is not None
        killer = Timer(after_s, server.send_signal, [signal.SIGKILL])
        killer.start()
        # It may be killed before its first page.
        with suppress(urllib.error.URLError, HTTPException, OSError):
            device.send_until_it_fails(found[1])
        killer.join()
        assert server.wait(PATIENCE_S) == -signal.SIGKILL


def assert_nothing_is_lost(tmp_path: Path, kills: int) -> None:
    path = tmp_path / "club.sqlite3"
    open_demo(sqlite_url(path), today=date(2026, 3, 2))
    random = Random(1)
    device = Device()
    for _ in range(kills):
        killed_while_writing(path, device, 0.4 + random.random() * 0.6)
    keeper = SqlKeeper(Database(sqlite_url(path)))
    with keeper.reading() as store:
        record = [event.id for event in store.events_of(SESSION, after=0)[0]]
    assert len(device.acknowledged) >= kills
    assert len(record) == len(set(record))
    assert set(device.acknowledged) <= set(record)
    assert keeper.faults() == []


def test_a_killed_server_keeps_every_acknowledged_event(tmp_path: Path) -> None:
    assert_nothing_is_lost(tmp_path, USUAL_KILLS)


@pytest.mark.soak
def test_two_hundred_kills_lose_nothing(tmp_path: Path) -> None:
    assert_nothing_is_lost(tmp_path, SOAK_KILLS)
