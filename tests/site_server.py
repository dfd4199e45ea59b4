"""The site on the demo club, whose Monday is 2 March 2026: in process, and on a port of its own."""

import re
import shutil
import socket
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

import uvicorn
from httpx2 import Response
from starlette.testclient import TestClient
from starlette.types import ASGIApp
from uvicorn.protocols.http.h11_impl import H11Protocol

from squadwright.bootstrap import open_demo
from squadwright.config import sqlite_url
from squadwright.demo import demo_club
from squadwright.services.unit_of_work import Keeper
from squadwright.storage.database import Database
from squadwright.storage.keeper import SqlKeeper
from squadwright.web.app import create_app
from squadwright.web.security import TOKEN_COOKIE

MONDAY = date(2026, 3, 2)
TEST_HOST = "testserver"
_TOKEN = re.compile(r'name="_token" value="([0-9a-f]+)"')


def make_demo_file(path: Path) -> Path:
    """A database file that holds the demo club, nobody having told anything yet.

    Tests work on copies of it, and tell what they need.
    """
    keeper = open_demo(sqlite_url(path), today=MONDAY)
    with keeper.writing() as store:
        for athlete in demo_club(MONDAY).athletes:
            store.diary.erase(athlete.id)
    return path


def keeper_on_copy(template: Path, folder: Path) -> Keeper:
    """A database of one test's own."""
    own = folder / "club.sqlite3"
    shutil.copyfile(template, own)
    return SqlKeeper(Database(sqlite_url(own)))


def empty_keeper(folder: Path) -> Keeper:
    """A database with tables and no club, as on the first day."""
    keeper = SqlKeeper(Database(sqlite_url(folder / "empty.sqlite3")))
    keeper.initialise()
    return keeper


@dataclass
class Browse:
    """A browser without a screen: it keeps cookies and sends token and origin with each POST."""

    client: TestClient
    keeper: Keeper
    tokens: dict[str | None, str] = field(default_factory=dict)

    def get(self, path: str, **more: Any) -> Response:
        """Ask for a page; a redirect is followed."""
        return self.client.get(path, **more)

    def post(self, path: str, data: dict[str, Any] | None = None, **more: Any) -> Response:
        """Send a form as a page of the site would; the redirect after it is followed."""
        headers = {"Origin": f"http://{TEST_HOST}", **more.pop("headers", {})}
        known = self.client.cookies.get(TOKEN_COOKIE)
        if known is None or known not in self.tokens:
            token = self.token()
            self.tokens = {self.client.cookies.get(TOKEN_COOKIE): token}
        sent = {"_token": next(iter(self.tokens.values())), **(data or {})}
        return self.client.post(path, data=sent, headers=headers, **more)

    def token(self) -> str:
        """The token of this browser, as pages carry it."""
        found = _TOKEN.search(self.client.get("/patterns").text)
        assert found is not None
        return found[1]


def browse_on(keeper: Keeper, **more: Any) -> Browse:
    """A browser at the site of a database."""
    app = create_app(keeper, allowed_hosts=[TEST_HOST], today=lambda: MONDAY, **more)
    return Browse(TestClient(app), keeper)


class Wire(threading.Event):
    """What the site hangs on: once set, every connection that brings a request is dropped.

    A browser's own flight mode now and then lets a page opened anew through to the server.
    """

    def protocol(self) -> type[H11Protocol]:
        """The protocol of a server on this wire."""
        wire = self

        class OnTheWire(H11Protocol):
            def data_received(self, data: bytes) -> None:
                if wire.is_set():
                    self.transport.abort()
                else:
                    super().data_received(data)

        return OnTheWire


@dataclass(frozen=True)
class RunningSite:
    """A site that answers on a port of this machine while its wire is not cut."""

    url: str
    keeper: Keeper
    cut: Wire = field(default_factory=Wire)


@contextmanager
def running(
    keeper: Keeper, port: int = 0, *, today: Callable[[], date] = lambda: MONDAY
) -> Iterator[RunningSite]:
    """Start the site on a free port, or on one it had before; hand it out, stop it."""
    listening = socket.socket()
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    listening.bind(("127.0.0.1", port))
    port = listening.getsockname()[1]
    app = create_app(keeper, allowed_hosts=[f"127.0.0.1:{port}"], today=today)
    site = RunningSite(f"http://127.0.0.1:{port}", keeper)
    with serving(app, listening, site.cut):
        yield site


@contextmanager
def serving(app: ASGIApp, listening: socket.socket, wire: Wire | None = None) -> Iterator[None]:
    """Serve on a socket as long as the block runs."""
    protocol = (wire or Wire()).protocol()
    config = uvicorn.Config(app, http=protocol, log_level="warning", lifespan="off", ws="none")
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, args=([listening],), daemon=True)
    thread.start()
    for _ in range(200):
        if server.started:
            break
        time.sleep(0.02)
    else:
        raise RuntimeError("the site did not start in 4 s")
    try:
        yield
    finally:
        server.should_exit = True
        thread.join(timeout=10)
        listening.close()
