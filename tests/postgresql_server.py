"""A PostgreSQL server for one test run, in a folder of its own and on a socket only."""

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Self

import psycopg
from psycopg import sql

# The port only names the socket in the run's own folder; nothing listens on the network.
PORT = 5432


def find_initdb() -> Path | None:
    """Where the newest server's initdb is: Debian keeps it off the PATH, in a folder a version."""
    debian = sorted(
        Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: int(path.parts[-3])
    )
    if debian:
        return debian[-1]
    on_path = shutil.which("initdb")
    return Path(on_path).resolve() if on_path else None


@dataclass(frozen=True)
class PostgresqlServer:
    """A running server; ``folder`` holds its data and its socket."""

    folder: Path

    @classmethod
    @contextmanager
    def running(cls, initdb: Path) -> Iterator[Self]:
        """Start a server, hand it out, stop it and remove its folder."""
        # A socket's path may have 107 characters at most, so the folder is not under tmp_path.
        folder = Path(tempfile.mkdtemp(prefix="squadwright-pg-"))
        data = folder / "data"
        pg_ctl = initdb.with_name("pg_ctl")
        options = f"-k {folder} -p {PORT} -c listen_addresses= -c fsync=off"
        log = str(folder / "log")
        try:
            if os.geteuid() == 0:
                shutil.chown(folder, "postgres", "postgres")
            _run_as_server_user(
                folder, initdb, "--no-sync", "-A", "trust", "-U", "app", "-E", "UTF8", "-D", data
            )
            _run_as_server_user(folder, pg_ctl, "-w", "-D", data, "-l", log, "-o", options, "start")
            try:
                yield cls(folder)
            finally:
                _run_as_server_user(folder, pg_ctl, "-w", "-D", data, "-m", "immediate", "stop")
        finally:
            shutil.rmtree(folder)

    def url(self, database: str) -> str:
        """The address of a database on this server, as SQLAlchemy writes it."""
        return f"postgresql+psycopg://app@/{database}?host={self.folder}&port={PORT}"

    def create_database(self, name: str, *, template: str = "template1") -> None:
        """Make a database as a copy of another, which nobody may be using."""
        self._execute(
            sql.SQL("CREATE DATABASE {} TEMPLATE {}").format(
                sql.Identifier(name), sql.Identifier(template)
            )
        )

    def drop_database(self, name: str) -> None:
        """Remove a database, and whoever is still connected to it."""
        self._execute(sql.SQL("DROP DATABASE {} WITH (FORCE)").format(sql.Identifier(name)))

    def _execute(self, statement: sql.Composed) -> None:
        with psycopg.connect(
            host=str(self.folder), port=PORT, user="app", dbname="postgres", autocommit=True
        ) as connection:
            connection.execute(statement)


def _run_as_server_user(folder: Path, *command: str | Path) -> None:
    """Run a server program; PostgreSQL refuses root, so root hands over to its user."""
    prefix = ["runuser", "-u", "postgres", "--"] if os.geteuid() == 0 else []
    words = [*prefix, *(str(word) for word in command)]
    done = subprocess.run(
        words,
        cwd=folder,
        env={**os.environ, "LC_ALL": "C.UTF-8"},
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        check=False,
    )
    if done.returncode != 0:
        raise RuntimeError(f"{' '.join(words)} failed with {done.returncode}:\n{done.stdout}")
