"""Use cases: keep a copy of everything, and come back to it."""

from contextlib import suppress
from pathlib import Path

from squadwright.errors import SquadwrightError
from squadwright.model.erased import Erased
from squadwright.services.erasing import replay_erased
from squadwright.services.unit_of_work import Keeper


def backup(keeper: Keeper, target: Path) -> None:
    """Copy the whole database into a new file that holds nothing half-written."""
    keeper.back_up(target)


def restore(keeper: Keeper, source: Path) -> Path | None:
    """Come back to a backup that has been checked; gives the file the old data is kept in.

    Who was erased since the backup was made is erased again.
    """
    erased: tuple[Erased, ...] = ()
    with suppress(SquadwrightError), keeper.reading() as store:
        erased = store.erasure.erased()
    kept = keeper.restore(source)
    replay_erased(keeper, erased)
    return kept
