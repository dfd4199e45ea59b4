"""A sheet for others as PDF: one page where it fits in text that can be read, else more."""

from dataclasses import dataclass

from squadwright.printing.role_words import RoleSheet
from squadwright.printing.typesetting import Heading, Settled, largest_size_on

SIZES_PT = (11.0, 10.5, 10.0, 9.5, 9.0, 8.5)
MOST_PAGES = 2


@dataclass(frozen=True)
class RoleDocument:
    """Context of ``role_sheet.typ``."""

    heading: Heading
    sheet: RoleSheet


def set_role_sheet(sheet: RoleSheet) -> bytes:
    """The sheet as PDF."""
    about = Heading(
        club=sheet.club,
        session=sheet.title,
        held_on=sheet.held_on,
        cautions=(sheet.caution,),
    )
    document = Settled("role_sheet.typ", RoleDocument(about, sheet))
    return document.pdf(largest_size_on(document, SIZES_PT, most_pages=MOST_PAGES))
