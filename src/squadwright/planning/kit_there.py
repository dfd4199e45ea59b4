"""The store as it is for one session: what is missing for it is taken off."""

from collections import Counter
from dataclasses import replace

from squadwright.model.club import Club
from squadwright.model.kit import Kit
from squadwright.model.session import MissingKit, Session
from squadwright.model.shelf import Shelf, pieces_on, with_fewer, with_shelf


def club_there(club: Club, session: Session) -> Club:
    """The club with the kit that is there for a session."""
    if not session.missing:
        return club
    return replace(club, kit=kit_there(club.kit, session.missing))


def kit_there(kit: Kit, missing: tuple[MissingKit, ...]) -> Kit:
    """The kit without what is missing; more cannot be missing than there is."""
    gone: Counter[str] = Counter()
    for each in missing:
        gone[each.piece] += each.count
    for shelf in Shelf:
        pieces = pieces_on(kit, shelf)
        left = (with_fewer(p, gone[p.id]) if gone[p.id] else p for p in pieces)
        kit = with_shelf(kit, shelf, tuple(piece for piece in left if piece is not None))
    return kit
