"""Use case: have a database ready before pages work on it."""

from squadwright.errors import NotFound
from squadwright.services.unit_of_work import Keeper


def make_ready(keeper: Keeper) -> bool:
    """Make a new database where there is none; True if it was made.

    One of an older version is left as it is, and its Conflict says to make a backup first.
    """
    try:
        with keeper.reading() as store:
            store.load_club()
    except NotFound:
        return keeper.initialise()
    return False
