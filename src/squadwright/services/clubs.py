"""Use cases of the club as a whole: make the database, take a club in, give it out."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from squadwright.errors import Conflict, NotFound
from squadwright.exchange.attention import attention
from squadwright.exchange.club_file import read_club_file, write_club
from squadwright.exchange.complaint import Complaint
from squadwright.model.club import Club
from squadwright.services.club_entries import differences
from squadwright.services.erasing import without_erased
from squadwright.services.health_log import log_entries
from squadwright.services.unit_of_work import Keeper


@dataclass(frozen=True)
class Imported:
    """A club taken in, and what the coach should look at."""

    club: Club
    took_the_place_of_another: bool
    attention: tuple[Complaint, ...]


def initialise(keeper: Keeper) -> bool:
    """Make the database or bring it up to date; True if there was something to do."""
    return keeper.initialise()


def import_club(
    keeper: Keeper, source: Path, *, today: date, replace_other_club: bool = False
) -> Imported:
    """Take in a club file: all of it, or nothing at all if anything in it is wrong."""
    club = read_club_file(source, today=today)
    keeper.initialise()
    with keeper.writing() as store:
        before = store.load_club()
        if before is not None and before.name != club.name and not replace_other_club:
            raise Conflict(
                f"{keeper.shown} holds the club {before.name!r}, not {club.name!r}. "
                "Name another --database, or add --replace to give up the stored club"
            )
        club, gone = without_erased(club, store.erasure.erased(), before)
        store.save_club(club)
        log_entries(store, differences(before or Club(club.name), club))
    told = [Complaint(each, "was erased for good", "It is left out") for each in gone]
    return Imported(club, before is not None, (*told, *attention(club, today=today)))


def present_club(keeper: Keeper) -> Club | None:
    """The stored club, or None on the first day."""
    with keeper.reading() as store:
        return store.load_club()


def load_club(keeper: Keeper) -> Club:
    """The stored club; raises NotFound where there is none."""
    club = present_club(keeper)
    if club is None:
        raise NotFound(
            f"{keeper.shown} holds no club yet. Run `squadwright import FILE`, or use --demo"
        )
    return club


def export_club(keeper: Keeper) -> str:
    """The stored club as a club file."""
    return write_club(load_club(keeper))
