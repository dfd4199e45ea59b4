"""Use cases: keep a copy of everything, and come back to it."""

from pathlib import Path

from squadwright.services.unit_of_work import Keeper


def backup(keeper: Keeper, target: Path) -> None:
    """Copy the whole database into a new file that holds nothing half-written."""
    keeper.back_up(target)


def restore(keeper: Keeper, source: Path) -> Path | None:
    """Come back to a backup that has been checked; gives the file the old data is kept in."""
    return keeper.restore(source)
