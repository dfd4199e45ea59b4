"""A block looked back on, on one page: what was planned and done, what changed, what differs."""

from dataclasses import dataclass

from squadwright.printing.block_words import BlockRow, BlockWords, block_words
from squadwright.printing.typesetting import Heading, Settled, largest_size_on
from squadwright.services.block_review import BlockReview
from squadwright.words import long_date

SIZES_PT = (10.0, 9.5, 9.0, 8.5, 8.0, 7.5, 7.0, 6.6)
TEMPLATE = "block_sheet.typ"
MOST_SESSIONS = 20
CAUTION = (
    "Only what was recorded is counted. Numbers are estimates. Medical staff, local rules and "
    "licensed practice come first. It names people: give it only to whom they agreed to."
)


@dataclass(frozen=True)
class BlockSheet:
    """Context of ``block_sheet.typ``; ``sessions`` are the last ones where there are too many."""

    heading: Heading
    days: str
    words: BlockWords
    sessions: tuple[BlockRow, ...]
    earlier: int


def block_sheet(review: BlockReview) -> BlockSheet:
    """The context of the sheet."""
    words = block_words(review)
    wanted = review.wanted
    names = {routine.id: routine.name for routine in review.club.routines}
    return BlockSheet(
        heading=Heading(
            club=review.club.name,
            session="Review of a block",
            routine=names.get(wanted.routine, "every routine"),
            held_on=wanted.until.isoformat(),
            cautions=(CAUTION,),
        ),
        days=f"{long_date(wanted.since)} to {long_date(wanted.until)}",
        words=words,
        sessions=words.sessions[-MOST_SESSIONS:],
        earlier=max(0, len(words.sessions) - MOST_SESSIONS),
    )


def set_block_sheet(review: BlockReview) -> bytes:
    """The sheet as PDF, in the largest text that keeps it to one page."""
    document = Settled(TEMPLATE, block_sheet(review))
    return document.pdf(largest_size_on(document, SIZES_PT, most_pages=1))
