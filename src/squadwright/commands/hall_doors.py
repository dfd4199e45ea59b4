"""The doors of ``serve --lan``: which addresses, which sockets, one server for each door."""

import asyncio
import signal
import socket
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from squadwright.config import data_folder
from squadwright.errors import InvalidInput

if TYPE_CHECKING:
    import uvicorn

    from squadwright.services.hall_certificate import HallCertificate
    from squadwright.web.hall import Hall


@dataclass(frozen=True)
class HallDoors:
    """The sockets of the hall's network with the certificate, and what the site tells of them."""

    https: tuple[socket.socket, ...]
    plain: tuple[socket.socket, ...]
    certificate: "HallCertificate"
    hall: "Hall"


def own_addresses() -> tuple[str, ...]:
    """The private IPv4 addresses of this machine's networks, the loopback left out."""
    import ifaddr

    from squadwright.services.hall_certificate import private_address

    found = []
    for adapter in ifaddr.get_adapters():
        for each in adapter.ips:
            address = each.ip
            if not isinstance(address, str) or address.startswith(("127.", "169.254.")):
                continue
            try:
                private_address(address)
            except InvalidInput:
                continue
            found.append(address)
    return tuple(found)


@contextmanager
def hall_doors(addresses: Sequence[str], port: int, listen: Any) -> Iterator[HallDoors]:
    """Listen at the doors of the hall; ``listen`` gives a socket for an address and a port."""
    from squadwright.services.hall_certificate import hall_certificate
    from squadwright.web.hall import Hall

    named = tuple(dict.fromkeys(addresses or own_addresses()))
    if not named:
        raise InvalidInput(
            "--lan",
            "this machine is in no network with a private IPv4 address",
            "Join the hall's network first, or name an address with --lan-address",
        )
    certificate = hall_certificate(data_folder() / "hall", named, now=datetime.now(UTC))
    sockets: list[socket.socket] = []
    try:
        for address in named:
            sockets.append(listen(address, port))
            sockets.append(listen(address, port and port + 1))
        https, plain = tuple(sockets[::2]), tuple(sockets[1::2])
        hall = Hall(
            tuple(f"https://{_shown(each)}" for each in https),
            tuple(f"http://{_shown(each)}" for each in plain),
            certificate.authority,
            certificate.fingerprint,
        )
        yield HallDoors(https, plain, certificate, hall)
    finally:
        for each in sockets:
            each.close()


async def serve_together(doors: Sequence[tuple["uvicorn.Config", Sequence[socket.socket]]]) -> None:
    """Run a server for each door until Ctrl-C or the end of the terminal; all stop together."""
    import uvicorn

    servers = [uvicorn.Server(config) for config, _ in doors]

    def stop(*_: object) -> None:
        for server in servers:
            server.should_exit = True

    former = {number: signal.signal(number, stop) for number in (signal.SIGINT, signal.SIGTERM)}
    try:
        for server in servers:
            # Each would take the signals for itself, and one door alone would close.
            server.capture_signals = nullcontext  # type: ignore[assignment, method-assign]
        await asyncio.gather(
            *(
                server.serve(list(sockets))
                for server, (_, sockets) in zip(servers, doors, strict=True)
            )
        )
    finally:
        for number, handler in former.items():
            signal.signal(number, handler)


def _shown(listening: socket.socket) -> str:
    address, port = listening.getsockname()
    return f"{address}:{port}"
