"""The browser that the tests and the pictures use."""

import shutil

# The one without windows, where Debian has it, starts and draws in half the time.
NAMES = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")


def find_chromium() -> str | None:
    """Where a Chromium of this computer is; None where there is none."""
    return next(filter(None, map(shutil.which, NAMES)), None)
