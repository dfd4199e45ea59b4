"""Use case of buying: which one piece helps this squad most; kept while its sessions are alike."""

from datetime import date

from squadwright.model.club import Club
from squadwright.model.kit import Kit
from squadwright.model.session import Session
from squadwright.planning.kit.measures import share_text
from squadwright.planning.needed import needed
from squadwright.planning.next_piece import (
    NextPieces,
    Reach,
    Worth,
    next_pieces,
    sessions_that_count,
)
from squadwright.services.clubs import load_club
from squadwright.services.in_mind import InMind
from squadwright.services.unit_of_work import Keeper

LEAST_MINUTES = 0.5
LEAST_KG = 0.05

_MadeFrom = tuple[Kit, tuple[Session, ...], tuple[Club, ...]]
_in_mind: InMind[tuple[str], _MadeFrom, NextPieces] = InMind(most_keys=4, most_of_a_key=2)


def next_pieces_in_mind(keeper: Keeper, *, today: date) -> NextPieces | None:
    """What was worked out for the store and the sessions as they are, or None."""
    return _in_mind.find((keeper.shown,), _made_from(load_club(keeper), today))


def work_out_next_pieces(keeper: Keeper, *, today: date) -> NextPieces:
    """Try every usual piece on the club's sessions."""
    club = load_club(keeper)
    made_from = _made_from(club, today)
    known = _in_mind.find((keeper.shown,), made_from)
    if known is not None:
        return known
    found = next_pieces(club, sessions_that_count(club, today=today))
    _in_mind.keep((keeper.shown,), made_from, found)
    return found


def _made_from(club: Club, today: date) -> _MadeFrom:
    sessions = sessions_that_count(club, today=today)
    return club.kit, sessions, tuple(needed(club, session) for session in sessions)


def effects_in_words(worth: Worth) -> tuple[str, ...]:
    """What a piece does in each session that it changes."""
    pairs = zip(worth.before, worth.after, strict=True)
    return tuple(filter(None, (_effect(before, after) for before, after in pairs)))


def reach_in_words(reach: Reach) -> str:
    """How well the kit serves a session as it is."""
    said = [f"takes {reach.minutes:.0f} minutes"]
    if reach.largest_shortfall_fraction is not None:
        said.insert(
            0,
            f"everyone is within {share_text(reach.largest_shortfall_fraction)} of the load "
            f"wanted, {reach.total_shortfall_kg:.1f} kg below it all together",
        )
    if reach.goes_without:
        said.insert(0, f"{_people(reach.goes_without)} out an exercise for want of kit")
    return f"{reach.session}: {'; '.join(said)}."


def _effect(before: Reach, after: Reach) -> str:
    said = []
    if after.goes_without < before.goes_without:
        fewer = before.goes_without - after.goes_without
        said.append(f"{fewer} fewer must leave out an exercise for want of kit")
    old, new = before.largest_shortfall_fraction, after.largest_shortfall_fraction
    if old is not None and new is not None and share_text(new) != share_text(old):
        said.append(f"brings everyone within {share_text(new)}; now {share_text(old)}")
    gained_kg = before.total_shortfall_kg - after.total_shortfall_kg
    if abs(gained_kg) >= LEAST_KG:
        more = "more" if gained_kg > 0 else "less"
        said.append(f"{abs(gained_kg):.1f} kg {more} on the bars, all together")
    saved = before.minutes - after.minutes
    if abs(saved) >= LEAST_MINUTES:
        said.append(f"{abs(saved):.0f} minutes {'saved' if saved > 0 else 'more'}")
    return f"{before.session}: {'; '.join(said)}." if said else ""


def _people(count: int) -> str:
    return f"{count} {'leaves' if count == 1 else 'leave'}"
