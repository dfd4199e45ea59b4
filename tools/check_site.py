"""Start the site of the demo club as a stranger would, look at it, and stop it."""

import re
import signal
import subprocess
import sys
import urllib.request
from pathlib import Path

PROGRAM = Path(sys.executable).with_name("squadwright")
PAGES = ("", "patterns")
PATIENCE_S = 60


def main() -> None:
    """Exit with 1 and a line that says why if anything is not as it should be."""
    command = [str(PROGRAM), "serve", "--demo", "--port", "0"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as program:
        try:
            assert program.stdout is not None
            first = program.stdout.readline()
            found = re.match(r"(http://127\.0\.0\.1:\d+/) shows the demo club", first)
            if found is None:
                sys.exit(f"tools/check_site.py: serve printed {first!r} and no address")
            for page in PAGES:
                _look_at(found[1] + page)
            program.send_signal(signal.SIGINT)
            status = program.wait(PATIENCE_S)
        finally:
            program.kill()
    if status != 0:
        sys.exit(f"tools/check_site.py: serve stopped with {status} on an interrupt")
    print("The site starts, answers and stops")


def _look_at(address: str) -> None:
    with urllib.request.urlopen(address, timeout=PATIENCE_S) as answer:
        text = answer.read().decode()
    title = re.search(r"<title>(.*?)</title>", text)
    if title is None:
        sys.exit(f"tools/check_site.py: {address} is no page")
    print(f"{address}: {title[1]}")


if __name__ == "__main__":
    main()
