"""``squadwright serve``: the site on this machine."""

import errno
import socket
from typing import Annotated

import typer

from squadwright.commands.options import DatabaseOption, DemoOption
from squadwright.errors import Conflict, InvalidInput

LOOPBACK = "127.0.0.1"
USUAL_PORT = 8734
STOPPING_S = 3


def serve(
    port: Annotated[
        int,
        typer.Option(
            "--port", min=0, max=65535, help="Port on this machine; 0 takes one that is free."
        ),
    ] = USUAL_PORT,
    database: DatabaseOption = None,
    demo: DemoOption = False,
) -> None:
    """Serve the site on this machine only, and print its address; stop it with Ctrl-C."""
    with _listen(port) as listening:
        _serve(listening, database, demo=demo)


def _serve(listening: socket.socket, database: str | None, *, demo: bool) -> None:
    from datetime import date

    import uvicorn

    from squadwright.bootstrap import open_keeper
    from squadwright.services.opening import make_ready
    from squadwright.web.app import create_app

    keeper = open_keeper(database, demo=demo)
    make_ready(keeper)
    port = listening.getsockname()[1]
    hosts = [f"{name}:{port}" for name in (LOOPBACK, "localhost")]
    app = create_app(keeper, allowed_hosts=hosts, today=date.today)
    config = uvicorn.Config(
        app,
        lifespan="off",
        ws="none",
        log_level="warning",
        access_log=False,
        server_header=False,
        timeout_graceful_shutdown=STOPPING_S,
    )
    of_whom = "the demo club" if demo else keeper.shown
    print(f"http://{LOOPBACK}:{port}/ shows {of_whom}, on this machine only.", flush=True)
    print("Stop it with Ctrl-C.", flush=True)
    try:
        uvicorn.Server(config).run(sockets=[listening])
    except KeyboardInterrupt:
        print("Stopped.", flush=True)


def _listen(port: int) -> socket.socket:
    """A socket on the loopback address; a port in use is told before anything else is done."""
    listening = socket.socket()
    # A port that was in use a moment ago may be taken again; one that is in use now may not.
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((LOOPBACK, port))
        listening.listen()
    except OSError as error:
        listening.close()
        if error.errno == errno.EADDRINUSE:
            raise Conflict(
                f"port {port} is in use by another program. Stop it, or name another one: "
                f"`squadwright serve --port {port + 1 if port < 65535 else 0}`"
            ) from error
        raise InvalidInput(
            "--port", f"{port} cannot be used ({error.strerror})", "Name one from 1024 to 65535"
        ) from error
    return listening
