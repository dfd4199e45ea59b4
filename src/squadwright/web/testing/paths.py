"""Where the pages of tests are."""

from urllib.parse import quote

TESTS = "/tests"
DAY = f"{TESTS}/day"
FORCE_FILE = f"{TESTS}/force-file"


def path_of_test(test_id: str) -> str:
    """The page of a test: how it is done, and the last results."""
    return f"{TESTS}/{quote(test_id, safe='')}"


def enter_path(test_id: str) -> str:
    """Where results of the squad are written down."""
    return f"{path_of_test(test_id)}/enter"


def results_path(athlete_id: str) -> str:
    """All results of an athlete."""
    return f"{TESTS}/athlete/{quote(athlete_id, safe='')}"
