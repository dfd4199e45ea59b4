"""The way every write to the club goes: load, change, check, store, remember what stood before."""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from secrets import token_hex

from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.exchange.club_file import mistakes
from squadwright.model.club import Club
from squadwright.model.step import Step
from squadwright.services.club_entries import called, differences, put_back
from squadwright.services.health_log import log_entries
from squadwright.services.unit_of_work import Keeper, Store


@dataclass(frozen=True)
class Changed:
    """The club as stored now, and the name of the step that takes the change back."""

    club: Club
    step: str


@dataclass(frozen=True)
class TakenBack:
    """A step taken back; ``step`` does it again. ``gone`` are the keys of what is no more there."""

    club: Club
    step: str
    names: tuple[str, ...]
    gone: tuple[str, ...]


def change_club(keeper: Keeper, change: Callable[[Club], Club], *, today: date) -> Changed:
    """Change the club in one unit of work: all of it is stored, or nothing.

    ``change`` may raise InvalidInput, Conflict or NotFound; so does this, where the changed club
    has a mistake that the present one has not. NotFound where there is no club.
    """
    with keeper.writing() as store:
        return change_within(store, change, today=today)


def change_within(store: Store, change: Callable[[Club], Club], *, today: date) -> Changed:
    """As ``change_club``, as a part of a unit of work that stores more than the club."""
    before = _present(store)
    after = change(before)
    _require_sound(before, after, today)
    return Changed(after, _store(store, before, after, today))


def take_back(keeper: Keeper, step_id: str, *, today: date) -> TakenBack:
    """Put back what a step changed; Conflict where it was changed again, NotFound if unknown."""
    with keeper.writing() as store:
        return take_back_within(store, step_id, today=today)


def take_back_within(store: Store, step_id: str, *, today: date) -> TakenBack:
    """As ``take_back``, as a part of a unit of work that takes back more than the club."""
    step = store.load_step(step_id)
    before = _present(store)
    after = put_back(before, step)
    try:
        _require_sound(before, after, today)
    except InvalidInput as error:
        raise Conflict(f"This step cannot be taken back any more: {error}") from error
    names = tuple(dict.fromkeys(called(entry) for entry in step.entries))
    gone = tuple(entry.key.split(" ")[0] for entry in step.entries if entry.before is None)
    return TakenBack(after, _store(store, before, after, today), names, gone)


def fingerprint(value: object) -> str:
    """A short mark of a value: a form carries it, to notice that the value has changed since."""
    return sha256(repr(value).encode()).hexdigest()[:24]


def require_unchanged(now: object, shown: str, place: str) -> None:
    """Refuse a form that was filled in over something else than what is stored now."""
    if shown != fingerprint(now):
        raise InvalidInput(
            place,
            "was changed somewhere else since this page was opened",
            "What you typed is still here: compare it with the page as it is now, then store it",
        )


def _present(store: Store) -> Club:
    club = store.load_club()
    if club is None:
        raise NotFound("There is no club yet. Name it first, or run `squadwright import FILE`")
    return club


def _require_sound(before: Club, after: Club, today: date) -> None:
    """Refuse a mistake the change brings in; one that was there before is let stand."""
    found = mistakes(after, today=today)
    if not found:
        return
    known = Counter(complaint.problem for complaint in mistakes(before, today=today))
    for complaint in found:
        if known[complaint.problem] == 0:
            raise InvalidInput(complaint.place, complaint.problem, complaint.advice)
        known[complaint.problem] -= 1


def _store(store: Store, before: Club, after: Club, today: date) -> str:
    step = Step(token_hex(12), today, differences(before, after))
    store.save_club(after)
    store.keep_step(step)
    log_entries(store, step.entries)
    return step.id
