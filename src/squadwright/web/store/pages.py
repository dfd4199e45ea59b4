"""The pages of the store, put together from the club."""

from urllib.parse import quote

from squadwright.model.club import Club
from squadwright.model.kit import Ball, Bar, Box, CollarPairs, OtherKit, PlatePair, SinglePlate
from squadwright.model.session import Session
from squadwright.model.shelf import (
    Piece,
    Shelf,
    called,
    is_in_service,
    number_of,
    pieces_on,
    walk,
)
from squadwright.services.club_changes import fingerprint
from squadwright.services.store import missing_of
from squadwright.web.forms import FormView
from squadwright.web.question import Question
from squadwright.web.store.contexts import (
    PiecePage,
    PieceRow,
    ShelfView,
    StoreLink,
    StorePage,
)
from squadwright.web.wording import capital, count_text, short_day_text
from squadwright.words import mass_words

NAMES = {
    Shelf.BARS: ("Bars", "bar"),
    Shelf.PLATES: ("Plates in pairs", "pair of plates"),
    Shelf.SINGLE_PLATES: ("Single plates", "single plate"),
    Shelf.COLLARS: ("Collars", "pair of collars"),
    Shelf.BALLS: ("Balls", "ball"),
    Shelf.BOXES: ("Boxes", "box"),
    Shelf.OTHER: ("Other", "other thing"),
}
LINES = {
    Shelf.PLATES: "Write what is stamped on one plate, in its own unit. A plate of 45 lb stays "
    "one of 45 lb: 20.41 kg.",
    Shelf.BOXES: "A box is one piece, with each height it can stand at.",
}
COUNTED = (PlatePair, CollarPairs, Ball)


def store_page(club: Club, session: Session | None, *, wrong: str = "") -> StorePage:
    """Everything in store-walk order; ``session`` is the next one, ``wrong`` refuses a tap."""
    links = [StoreLink("What to buy next", "/store/next"), StoreLink("Rooms", "/store/rooms")]
    if session is not None:
        links.insert(0, StoreLink(f"Fetch for {session.name}", missing_path(session)))
    return StorePage(
        title="Store",
        line="One tap takes a piece out of service, and the next session is planned anew.",
        wrong=wrong,
        links=tuple(links),
        shelves=tuple(
            ShelfView(
                name=NAMES[shelf][0],
                value=shelf.value,
                rows=tuple(_row(piece, session) for piece in pieces_on(club.kit, shelf)),
                add_words=f"Add a {NAMES[shelf][1]}"
                if shelf is not Shelf.OTHER
                else "Add another thing",
            )
            for shelf in walk(club.kit)
        ),
        today_word=f"for {session.name}, {short_day_text(session.held_on)}" if session else "",
    )


def new_piece_page(shelf: Shelf, view: FormView, question: Question | None = None) -> PiecePage:
    """The form of a piece that is to be added."""
    return PiecePage(
        title=f"Add a {NAMES[shelf][1]}" if shelf is not Shelf.OTHER else "Add another thing",
        line=LINES.get(shelf, ""),
        shelf=shelf.value,
        action=f"/store/add/{shelf.value}",
        view=view,
        question=question,
        shown="",
        remove="",
        back="/store",
    )


def piece_page(
    shelf: Shelf,
    piece: Piece,
    view: FormView,
    question: Question | None = None,
    *,
    shown: str = "",
    line: str = "",
) -> PiecePage:
    """The form of a piece of the store."""
    path = piece_path(piece)
    words = called(piece)
    return PiecePage(
        title=capital(words),
        line=line or LINES.get(shelf, ""),
        shelf=shelf.value,
        action=f"{path}/change",
        view=view,
        question=question,
        shown=shown or fingerprint(piece),
        remove=f"{path}/remove",
        back="/store",
    )


def piece_path(piece: Piece) -> str:
    """Where a piece is."""
    return f"/store/piece/{quote(piece.id, safe='')}"


def missing_path(session: Session) -> str:
    """Where the list of a session is."""
    return f"/missing/{quote(session.id, safe='')}"


def _row(piece: Piece, session: Session | None) -> PieceRow:
    words = called(piece)
    missing = missing_of(session, piece.id) if session else 0
    is_counted = isinstance(piece, COUNTED) and is_in_service(piece)
    unit = "pair" if isinstance(piece, PlatePair | CollarPairs) else ""
    gone = count_text(missing, unit) if unit else str(missing)
    return PieceRow(
        name=capital(words),
        facts=facts(piece),
        note=piece.note,
        path=piece_path(piece),
        has_service=not isinstance(piece, SinglePlate),
        is_in_service=is_in_service(piece),
        missing=f"{gone} not there" if missing else "",
        can_miss=session is not None and is_counted and missing < number_of(piece),
        can_find=session is not None and missing > 0,
    )


def facts(piece: Piece) -> tuple[str, ...]:
    """What is told of a piece in its row."""
    match piece:
        case Bar():
            facts = [mass_words(piece.mass, 2)]
            if piece.maximum_load:
                facts.append(f"carries {mass_words(piece.maximum_load, 2)} at most")
            facts += ["technique bar"] if piece.is_technique_bar else []
        case PlatePair():
            facts = [count_text(piece.pairs, "pair")]
            facts.append(f"stamped {mass_words(piece.stamped or piece.plate, 2)}")
            if piece.stamped:
                facts.append(f"weighed {mass_words(piece.plate, 2)}")
        case SinglePlate():
            facts = [f"{piece.count} \N{MULTIPLICATION SIGN} {mass_words(piece.plate, 2)}"]
        case CollarPairs():
            facts = [count_text(piece.pairs, "pair")]
            facts += [f"{mass_words(piece.pair_mass, 2)} a pair"] if piece.pair_mass else []
        case Ball():
            facts = [f"{piece.count} \N{MULTIPLICATION SIGN} {mass_words(piece.mass, 2)}"]
            facts += [] if piece.fit_for_walls else ["not for walls"]
        case Box():
            width, depth = (f"{m * 100:.10g}" for m in (piece.top_width_m, piece.top_depth_m))
            facts = [f"top {width} \N{MULTIPLICATION SIGN} {depth} cm"]
            facts += [] if piece.fit_for_landing else ["not for landings"]
            if piece.maximum_body_mass:
                facts.append(f"for athletes up to {mass_words(piece.maximum_body_mass, 2)}")
        case OtherKit():
            facts = [str(piece.count)]
            facts += [f"{piece.height_m * 100:.10g} cm high"] if piece.height_m else []
    return tuple(facts)
