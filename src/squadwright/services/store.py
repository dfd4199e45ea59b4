"""Use cases of the store: each says what the next plan makes of the change."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date

from squadwright.errors import InvalidInput, NotFound
from squadwright.exchange.doubtful_kit import doubts_of_piece
from squadwright.model.club import Club
from squadwright.model.kit import SinglePlate
from squadwright.model.session import MissingKit, Session
from squadwright.model.shelf import (
    Piece,
    Shelf,
    called,
    find_piece,
    number_of,
    pieces_on,
    with_piece,
    with_shelf,
)
from squadwright.services.asking import ask
from squadwright.services.club_changes import change_club, require_unchanged
from squadwright.services.clubs import load_club
from squadwright.services.kit_words import kit_words
from squadwright.services.session_changes import Replanned, change_and_plan, with_session
from squadwright.services.unit_of_work import Keeper
from squadwright.words import capital


def add_piece(
    keeper: Keeper, shelf: Shelf, piece: Piece, *, answer: str = "", today: date
) -> Replanned:
    """A new piece at the end of its shelf, under an id of its own; Asked where it is doubtful."""
    ask(doubts_of_piece(piece), answer)

    def change(club: Club) -> Club:
        own = replace(piece, id=_free_id(club, shelf))
        return _with_kit(club, shelf, (*pieces_on(club.kit, shelf), own))

    return _change(keeper, change, f"{capital(called(piece))} is in the store.", today=today)


def change_piece(
    keeper: Keeper, piece: Piece, shown: str, *, answer: str = "", today: date
) -> Replanned:
    """A piece as the form has it; ``shown`` is the fingerprint of what the form showed."""
    _, before = find_piece(load_club(keeper).kit, piece.id)
    known = doubts_of_piece(before)
    ask((doubt for doubt in doubts_of_piece(piece) if doubt not in known), answer)

    def change(club: Club) -> Club:
        _, now = find_piece(club.kit, piece.id)
        require_unchanged(now, shown, "piece")
        return replace(club, kit=with_piece(club.kit, piece))

    return _change(keeper, change, f"{capital(called(piece))} is changed.", today=today)


def remove_piece(keeper: Keeper, piece_id: str, *, today: date) -> Replanned:
    """A piece is no more; sessions for which it was missing no longer miss it."""
    shelf, piece = find_piece(load_club(keeper).kit, piece_id)

    def change(club: Club) -> Club:
        find_piece(club.kit, piece_id)
        kept = tuple(p for p in pieces_on(club.kit, shelf) if p.id != piece_id)
        sessions = tuple(
            replace(s, missing=tuple(m for m in s.missing if m.piece != piece_id))
            if any(m.piece == piece_id for m in s.missing)
            else s
            for s in club.sessions
        )
        return replace(_with_kit(club, shelf, kept), sessions=sessions)

    return _change(keeper, change, f"{capital(called(piece))} is taken out.", today=today)


def set_service(keeper: Keeper, piece_id: str, is_in_service: bool, *, today: date) -> Replanned:
    """A piece goes out of service, or comes back."""
    _, piece = find_piece(load_club(keeper).kit, piece_id)

    def change(club: Club) -> Club:
        _, now = find_piece(club.kit, piece_id)
        if isinstance(now, SinglePlate):
            raise InvalidInput(
                "service",
                f"{called(now)} never goes on a bar, so it is in no service",
                "Take it out of the store if it is gone",
            )
        return replace(club, kit=with_piece(club.kit, replace(now, in_service=is_in_service)))

    state = "back in service" if is_in_service else "out of service"
    return _change(keeper, change, f"{capital(called(piece))} is {state}.", today=today)


def report_missing(
    keeper: Keeper, session_id: str, pieces: tuple[str, ...], count: int, *, today: date
) -> Replanned:
    """So many more of these pieces are not there for a session; any of them is as good."""
    club = load_club(keeper)
    named = [find_piece(club.kit, piece)[1] for piece in pieces]
    if not named:
        raise NotFound("no piece is named. Look through the store")

    def change(now: Club) -> Club:
        return with_session(now, _more_missing(now, now.session(session_id), pieces, count))

    there = club.session(session_id)
    said = f"{capital(called(named[0]))}: {count} not there for {there.name}."
    return _change(keeper, change, said, today=today, session_id=session_id)


def found_again(
    keeper: Keeper, session_id: str, piece_id: str, count: int, *, today: date
) -> Replanned:
    """So many of what was missing for a session are there after all."""
    club = load_club(keeper)
    session = club.session(session_id)
    _, piece = find_piece(club.kit, piece_id)

    def change(now: Club) -> Club:
        return with_session(now, _less_missing(now.session(session_id), piece_id, count))

    said = f"{capital(called(piece))}: {count} found again for {session.name}."
    return _change(keeper, change, said, today=today, session_id=session_id)


def next_session(club: Club, *, today: date) -> Session | None:
    """The session a change of the store meets first: the one today, else the next."""
    coming = [s for s in club.sessions if s.held_on >= today]
    return min(coming, key=lambda s: (s.held_on, s.starts_at, s.id), default=None)


def missing_of(session: Session, piece_id: str) -> int:
    """How many of a piece are missing for a session."""
    return sum(each.count for each in session.missing if each.piece == piece_id)


def _change(
    keeper: Keeper,
    change: Callable[[Club], Club],
    said: str,
    *,
    today: date,
    session_id: str = "",
) -> Replanned:
    """Store a change, and say what the plan of the session that meets it makes of it."""
    club = load_club(keeper)
    named = next_session(club, today=today) if not session_id else club.session(session_id)
    if named is None:
        return Replanned(said, change_club(keeper, change, today=today).step)
    lead = said if session_id else f"{said} {named.name}:"
    done = change_and_plan(keeper, named.id, change, today=today, said=lambda *_: lead)
    more = kit_words(done.former, done.plan) if done.former and done.plan else ""
    return replace(done, words=f"{done.words} {more}".strip())


def _more_missing(club: Club, session: Session, pieces: tuple[str, ...], count: int) -> Session:
    left = {p: number_of(find_piece(club.kit, p)[1]) - missing_of(session, p) for p in pieces}
    if not 1 <= count <= sum(left.values()):
        _, piece = find_piece(club.kit, pieces[0])
        raise InvalidInput(
            "count",
            f"{count} of {called(piece)} cannot be missing: {sum(left.values())} are there",
            "Choose from 1 to what is there, or change the store",
        )
    for piece_id, there in left.items():
        gone = min(count, there)
        session = _with_missing(session, piece_id, missing_of(session, piece_id) + gone)
        count -= gone
    return session


def _less_missing(session: Session, piece_id: str, count: int) -> Session:
    gone = missing_of(session, piece_id)
    if not 1 <= count <= gone:
        raise InvalidInput(
            "count", f"{count} found again, and {gone} are missing", "Look at the list as it is now"
        )
    return _with_missing(session, piece_id, gone - count)


def _with_missing(session: Session, piece_id: str, count: int) -> Session:
    others = tuple(each for each in session.missing if each.piece != piece_id)
    own = (MissingKit(piece_id, count),) if count else ()
    return replace(session, missing=(*others, *own))


def _with_kit(club: Club, shelf: Shelf, pieces: tuple[Piece, ...]) -> Club:
    return replace(club, kit=with_shelf(club.kit, shelf, pieces))


def _free_id(club: Club, shelf: Shelf) -> str:
    """The first id of the shelf that no piece has, and that no session remembers as missing."""
    taken = {piece.id for each in Shelf for piece in pieces_on(club.kit, each)}
    taken |= {each.piece for session in club.sessions for each in session.missing}
    number = 1
    while f"{shelf.value}-{number}" in taken:
        number += 1
    return f"{shelf.value}-{number}"
