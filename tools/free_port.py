"""Look whether a port of this machine is free, before anything is made for it.

    tools/free_port.py PORT

Where it is not, one line names a command that works, and the exit code is 1.
"""

import socket
import sys

LOOPBACK = "127.0.0.1"
LAST_PORT = 65535


def is_free(port: int) -> bool:
    """Whether the site could listen there now."""
    with socket.socket() as tried:
        tried.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            tried.bind((LOOPBACK, port))
        except OSError:
            return False
    return True


def main() -> None:
    """Look, and tell."""
    port = int(sys.argv[1])
    if is_free(port):
        return
    other = next((p for p in range(port + 1, LAST_PORT + 1) if is_free(p)), 0)
    sys.exit(
        f"port {port} is in use by another program. Stop it, or name another one: "
        f"`make demo PORT={other}`"
    )


if __name__ == "__main__":
    main()
