"""Use case: look through a club file or a database and report all that is wrong at once."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from squadwright.errors import InvalidInput
from squadwright.exchange.attention import attention
from squadwright.exchange.club_file import examine_club, mistakes
from squadwright.exchange.complaint import Complaint
from squadwright.exchange.document import read_bytes
from squadwright.services.unit_of_work import Keeper


@dataclass(frozen=True)
class Report:
    """What is wrong (it cannot be used so), and what the coach should look at (it can)."""

    looked_at: str
    wrong: tuple[Complaint, ...] = ()
    attention: tuple[Complaint, ...] = ()

    @property
    def is_sound(self) -> bool:
        """Whether nothing is wrong."""
        return not self.wrong


def check_file(source: Path, *, today: date) -> Report:
    """Every mistake of a club file, or, if it has none, what to look at."""
    data = read_bytes(source)
    try:
        club, complaints = examine_club(data, today=today, file=str(source))
    except InvalidInput as error:
        return Report(str(source), (Complaint(error.place, error.problem, error.advice),))
    if club is None or complaints:
        return Report(str(source), tuple(complaints))
    return Report(str(source), attention=tuple(attention(club, today=today)))


def check_database(keeper: Keeper, *, today: date) -> Report:
    """Faults of the database itself, mistakes of the club in it, and what to look at."""
    advice = "Restore the last sound backup with `squadwright restore FILE`"
    faults = tuple(Complaint(keeper.shown, fault, advice) for fault in keeper.faults())
    if faults:
        return Report(keeper.shown, faults)
    with keeper.reading() as store:
        club = store.load_club()
    if club is None:
        nothing = Complaint(keeper.shown, "holds no club yet", "Run `squadwright import FILE`")
        return Report(keeper.shown, attention=(nothing,))
    return Report(
        keeper.shown,
        tuple(mistakes(club, today=today)),
        tuple(attention(club, today=today)),
    )
