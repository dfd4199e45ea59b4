"""Use cases of restrictions: enter, change, lengthen, lift, clear; what waits for an answer.

What medical staff or officials set, and whatever is about the head, only ever gets stricter here;
a written clearance alone ends it.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from secrets import token_hex

from squadwright.errors import Conflict, InvalidInput, NotAllowed, NotFound
from squadwright.model.athlete import Athlete, Clearance, Restriction
from squadwright.model.club import Club
from squadwright.model.muscles import BodyArea
from squadwright.planning.gates.bars import in_force
from squadwright.planning.restriction_words import ROLE_WORDS, bars_words, day_words, term_words
from squadwright.services.club_changes import Changed, change_club, require_unchanged
from squadwright.services.squad import with_athlete
from squadwright.services.unit_of_work import Keeper

LONGEST_REASON = 1000
NOT_STATED = "not stated"


@dataclass(frozen=True)
class Entry:
    """One restriction of one athlete, as it stands on a day; ``days_left`` None: no end."""

    athlete: Athlete
    shown_name: str
    restriction: Restriction
    days_left: int | None


@dataclass(frozen=True)
class Register:
    """All restrictions that matter on a day: asked about, in force, coming."""

    asked: tuple[Entry, ...]
    in_force: tuple[Entry, ...]
    coming: tuple[Entry, ...]


def register(club: Club, *, today: date, of: str | None = None) -> Register:
    """The register of a day: those waiting longest first, then those that end soonest.

    ``of`` is the id of the one athlete it is about; without it, of everybody.
    """
    athletes = club.athletes if of is None else (club.athlete(of),)
    names = club.shown_names()

    def entries(kept: Callable[[Athlete], tuple[Restriction, ...]]) -> tuple[Entry, ...]:
        found = [as_entry(a, names[a.id], r, today) for a in athletes for r in kept(a)]
        return tuple(sorted(found, key=lambda e: (e.days_left is None, e.days_left or 0)))

    return Register(
        asked=entries(lambda a: a.ended_restrictions_on(today)),
        in_force=entries(lambda a: in_force(a, today)),
        coming=entries(lambda a: tuple(r for r in _open(a) if r.starts_on > today)),
    )


def as_entry(athlete: Athlete, shown_name: str, restriction: Restriction, today: date) -> Entry:
    """One restriction with the days it still has."""
    until = restriction.until
    return Entry(athlete, shown_name, restriction, None if until is None else (until - today).days)


def add_restriction(
    keeper: Keeper, athlete_id: str, new: Restriction, *, today: date
) -> tuple[Changed, Restriction]:
    """Enter a restriction; its id is given here."""
    made = replace(new, id=f"{athlete_id[:40]}-{token_hex(4)}")
    return (_change(keeper, athlete_id, lambda a: with_restriction(a, made), today=today), made)


def with_restriction(athlete: Athlete, new: Restriction) -> Athlete:
    """An athlete with one restriction more; refused where it is about the head and has an end."""
    _require_no_end_for_the_head(new)
    return _with(athlete, (*athlete.restrictions, new))


def change_restriction(
    keeper: Keeper, athlete_id: str, new: Restriction, shown: str, *, today: date
) -> Changed:
    """Change what a restriction says; one that needs a clearance may only get stricter."""

    def change(athlete: Athlete) -> Athlete:
        old = restriction_of(athlete, new.id)
        _require_open(athlete, old.id)
        require_unchanged(old, shown, "restrictions")
        if old.needs_clearance:
            _require_stricter(old, new)
        _require_no_end_for_the_head(new)
        return _put(athlete, new)

    return _change(keeper, athlete_id, change, today=today)


def lengthen(
    keeper: Keeper, athlete_id: str, restriction_id: str, until: date, by: str, *, today: date
) -> Changed:
    """It goes on until a later day; who said so is added to the reason."""

    def change(athlete: Athlete) -> Athlete:
        old = restriction_of(athlete, restriction_id)
        _require_open(athlete, old.id)
        if old.until is None or until <= max(old.until, today):
            after = today if old.until is None else max(old.until, today)
            raise InvalidInput(
                "goes_on_until",
                f"{day_words(until)} is not after {day_words(after)}"
                if old.until is not None
                else "it has no end, so it goes on already",
                "Give a later day, or lift it where that is allowed",
            )
        said = f"until {day_words(old.until)} at first, lengthened on {day_words(today)} by {by}"
        reason = f"{old.reason}; {said}" if old.reason else said
        if len(reason) > LONGEST_REASON:
            reason = reason[: LONGEST_REASON - 1] + "\N{HORIZONTAL ELLIPSIS}"
        return _put(athlete, replace(old, until=until, reason=reason))

    return _change(keeper, athlete_id, change, today=today)


def lift(keeper: Keeper, athlete_id: str, restriction_id: str, by: str, *, today: date) -> Changed:
    """It is over, by the word of a coach; refused where a clearance is needed."""

    def change(athlete: Athlete) -> Athlete:
        old = restriction_of(athlete, restriction_id)
        if old.needs_clearance:
            raise NotAllowed(
                f"This restriction by {old.author} ({ROLE_WORDS[old.author_role]}) is not lifted "
                "by a coach. Enter the written clearance: who gave it, with which licence, when"
            )
        note = f"{by} says that it is over"
        return _cleared(athlete, old, Clearance(_new_id(), old.id, by, today, NOT_STATED, note))

    return _change(keeper, athlete_id, change, today=today)


def clear(keeper: Keeper, athlete_id: str, written: Clearance, *, today: date) -> Changed:
    """Take in a written clearance: it ends one restriction from its day on."""

    def change(athlete: Athlete) -> Athlete:
        old = restriction_of(athlete, written.restriction)
        if written.given_on > today or written.given_on < old.starts_on:
            raise InvalidInput(
                "given_on",
                f"{day_words(written.given_on)} is outside {day_words(old.starts_on)}, when the "
                f"restriction began, to {day_words(today)}, today",
                "Write the date that stands on the clearance",
            )
        return _cleared(athlete, old, replace(written, id=_new_id()))

    return _change(keeper, athlete_id, change, today=today)


def restriction_of(athlete: Athlete, restriction_id: str) -> Restriction:
    """A restriction as written; NotFound, or NotAllowed where it rests on a medical entry."""
    for restriction in athlete.restrictions:
        if restriction.id == restriction_id:
            return restriction
    if restriction_id in athlete.medical.ids | athlete.measured.ids:
        raise NotAllowed(
            "This rests on a medical entry, which no coach changes or lifts. Enter the written "
            "clearance under the medical entries: who gave it, with which licence, when"
        )
    raise NotFound(f"{athlete.name} has no restriction {restriction_id!r}; see the list")


def clearance_of(athlete: Athlete, restriction_id: str) -> Clearance | None:
    """What lifted a restriction, or None."""
    return next((c for c in athlete.clearances if c.restriction == restriction_id), None)


def _require_stricter(old: Restriction, new: Restriction) -> None:
    looser = [
        *(["who set it"] if (old.author, old.author_role) != (new.author, new.author_role) else []),
        *(["a later start"] if new.starts_on > old.starts_on else []),
        *(["an earlier end"] if _ends(new) < _ends(old) else []),
        *(["training again"] if old.all_training and not new.all_training else []),
        *(
            f"{gone.value} again"
            for gone in (
                *(d for d in old.demands if d not in new.demands),
                *(a for a in old.body_areas if a not in new.body_areas),
            )
            if not new.all_training or gone is BodyArea.HEAD
        ),
        *(["another instruction"] if old.instruction != new.instruction else []),
    ]
    if looser:
        raise InvalidInput(
            "restrictions",
            f"{old.author} ({ROLE_WORDS[old.author_role]}) set this: {bars_words(old)}, "
            f"{term_words(old)}. A coach may make it stricter or longer, not looser "
            f"({', '.join(looser)})",
            "Enter the written clearance, then the next restriction as medical staff write it",
        )


def _ends(restriction: Restriction) -> date:
    return restriction.until or date.max


def _require_no_end_for_the_head(restriction: Restriction) -> None:
    if BodyArea.HEAD in restriction.body_areas and restriction.until is not None:
        raise InvalidInput(
            "restrictions.until",
            f"{day_words(restriction.until)} would end a restriction after a head knock by date",
            "Leave the end empty: only a written clearance ends it",
        )


def _open(athlete: Athlete) -> tuple[Restriction, ...]:
    lifted = {c.restriction for c in athlete.clearances}
    return tuple(r for r in athlete.restrictions if r.id not in lifted)


def _cleared(athlete: Athlete, old: Restriction, clearance: Clearance) -> Athlete:
    _require_open(athlete, old.id)
    return replace(athlete, clearances=(*athlete.clearances, clearance))


def _require_open(athlete: Athlete, restriction_id: str) -> None:
    written = clearance_of(athlete, restriction_id)
    if written is not None:
        raise Conflict(
            f"This restriction was lifted already by {written.author} on "
            f"{day_words(written.given_on)}. Enter a new one if something is to be held back again"
        )


def open_restriction(club: Club, athlete_id: str, restriction_id: str) -> Restriction:
    """A restriction that nothing has lifted yet; raises Conflict where something has."""
    athlete = club.athlete(athlete_id)
    _require_open(athlete, restriction_id)
    return restriction_of(athlete, restriction_id)


def _put(athlete: Athlete, new: Restriction) -> Athlete:
    return _with(athlete, tuple(new if r.id == new.id else r for r in athlete.restrictions))


def _with(athlete: Athlete, restrictions: tuple[Restriction, ...]) -> Athlete:
    return replace(athlete, restrictions=restrictions)


def _new_id() -> str:
    return f"clearance-{token_hex(4)}"


def _change(
    keeper: Keeper, athlete_id: str, change: Callable[[Athlete], Athlete], *, today: date
) -> Changed:
    def on_club(club: Club) -> Club:
        return with_athlete(club, change(club.athlete(athlete_id)))

    return change_club(keeper, on_club, today=today)
