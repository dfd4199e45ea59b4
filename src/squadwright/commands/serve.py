"""``squadwright serve``: the site on this machine, and for devices of the hall if asked."""

import asyncio
import errno
import shlex
import shutil
import socket
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from squadwright.commands.hall_doors import HallDoors, hall_doors, serve_together
from squadwright.commands.options import DatabaseOption, DemoOption
from squadwright.errors import Conflict, InvalidInput

if TYPE_CHECKING:
    import uvicorn
    from starlette.types import ASGIApp

PROGRAM = "squadwright"
LOOPBACK = "127.0.0.1"
USUAL_PORT = 8734
USUAL_LAN_PORT = 8735
STOPPING_S = 3


def serve(
    port: Annotated[
        int,
        typer.Option(
            "--port", min=0, max=65535, help="Port on this machine; 0 takes one that is free."
        ),
    ] = USUAL_PORT,
    lan: Annotated[
        bool,
        typer.Option(
            "--lan", help="Let devices of the hall's network join with a code, over https."
        ),
    ] = False,
    lan_address: Annotated[
        list[str] | None,
        typer.Option(
            "--lan-address",
            metavar="ADDRESS",
            help="With --lan: one private address of this machine, not all; may be repeated.",
        ),
    ] = None,
    lan_port: Annotated[
        int,
        typer.Option(
            "--lan-port",
            min=0,
            max=65534,
            help="With --lan: port for https; the one after it gives the certificate.",
        ),
    ] = USUAL_LAN_PORT,
    database: DatabaseOption = None,
    demo: DemoOption = False,
) -> None:
    """Serve the site on this machine only, and print its address; stop it with Ctrl-C."""
    if lan_address and not lan:
        raise InvalidInput("--lan-address", "needs --lan", "Add --lan, or leave it out")
    with _listen(LOOPBACK, port, whose=_whose(database, demo=demo)) as listening:
        if not lan:
            _serve(listening, database, demo=demo)
            return
        with hall_doors(lan_address or (), lan_port, _listen) as doors:
            _serve(listening, database, demo=demo, doors=doors)


def _serve(
    listening: socket.socket, database: str | None, *, demo: bool, doors: HallDoors | None = None
) -> None:
    from datetime import date

    from squadwright.bootstrap import open_keeper
    from squadwright.services.opening import make_ready
    from squadwright.web.app import create_app
    from squadwright.web.hall import Door, by_door

    keeper = open_keeper(database, demo=demo)
    make_ready(keeper)
    port = listening.getsockname()[1]
    hosts = [f"{name}:{port}" for name in (LOOPBACK, "localhost")]
    hall = doors.hall if doors is not None else None
    app = create_app(keeper, allowed_hosts=hosts, today=date.today, hall=hall)
    open_doors: list[tuple[uvicorn.Config, Sequence[socket.socket]]] = [(_config(app), [listening])]
    if doors is not None:
        files = {
            "ssl_certfile": str(doors.certificate.chain_file),
            "ssl_keyfile": str(doors.certificate.key_file),
        }
        open_doors.append((_config(by_door(app, Door.HALL), **files), doors.https))
        open_doors.append((_config(by_door(app, Door.TRUST)), doors.plain))
    of_whom = "the demo club" if demo else keeper.shown
    where = "here without a code" if doors is not None else "on this machine only"
    print(f"http://{LOOPBACK}:{port}/ shows {of_whom}, {where}.", flush=True)
    if doors is not None:
        _tell_doors(doors)
    print("Stop it with Ctrl-C.", flush=True)
    with keeper.staying_open():
        asyncio.run(serve_together(open_doors))
    print("Stopped.", flush=True)


def _tell_doors(doors: HallDoors) -> None:
    for address in doors.hall.addresses:
        print(f"{address}/ lets devices of the hall join with a code.", flush=True)
    print("Once on each new device, so that it trusts this machine:", flush=True)
    for address in doors.hall.trust_addresses:
        print(f"  {address}/trust", flush=True)
    print(f"  Fingerprint (SHA-256) {doors.hall.fingerprint}", flush=True)


def _config(app: "ASGIApp", **more: Any) -> "uvicorn.Config":
    import uvicorn

    return uvicorn.Config(
        app,
        lifespan="off",
        ws="none",
        log_level="warning",
        access_log=False,
        server_header=False,
        # There is no other server before this one: what a request says of its way is not believed.
        proxy_headers=False,
        timeout_graceful_shutdown=STOPPING_S,
        **more,
    )


def _whose(database: str | None, *, demo: bool) -> str:
    """Whose site it is, as it was typed."""
    return "--demo " if demo else f"--database {shlex.quote(database)} " if database else ""


def _program() -> str:
    """The program as it can be typed again: by its name where that is found, else as it was."""
    called = sys.argv[0]
    is_named = Path(called).name == PROGRAM and shutil.which(PROGRAM) is None
    return shlex.quote(called) if is_named else PROGRAM


def _listen(address: str, port: int, *, whose: str = "") -> socket.socket:
    """A socket on an address; a port in use is told before anything else is done."""
    # Named as TCP, so that asyncio lets small answers go at once (without it each took 40 ms more).
    listening = socket.socket(proto=socket.IPPROTO_TCP)
    # A port that was in use a moment ago may be taken again; one that is in use now may not.
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((address, port))
        listening.listen()
    except OSError as error:
        listening.close()
        raise _told(error, address, port, whose) from error
    return listening


def _told(error: OSError, address: str, port: int, whose: str) -> Conflict | InvalidInput:
    if error.errno == errno.EADDRINUSE:
        option = "--port" if address == LOOPBACK else "--lan --lan-port"
        return Conflict(
            f"port {port} is in use by another program. Stop it, or name another one: "
            f"`{_program()} serve {whose}{option} {port + 1 if port < 65535 else 0}`"
        )
    if error.errno == errno.EADDRNOTAVAIL:
        return InvalidInput(
            "--lan-address", f"{address} is no address of this machine", "Leave it out, or mend it"
        )
    return InvalidInput(
        "--port", f"{port} cannot be used ({error.strerror})", "Name one from 1024 to 65535"
    )
