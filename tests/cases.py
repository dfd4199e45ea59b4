"""How many random cases a test draws: some on every run, the whole number and more when soaking."""

import os

SOAK = os.environ.get("SQUADWRIGHT_SOAK") == "1"
SOAK_FACTOR = 10
EVERY_RUN_FRACTION = 0.27
FEWEST = 5


def cases(whole: int) -> int:
    """Ten times ``whole`` under ``make soak``; on every run a share of it that is done sooner."""
    return whole * SOAK_FACTOR if SOAK else max(FEWEST, round(whole * EVERY_RUN_FRACTION))
