"""What the pages of sheets for others show."""

from dataclasses import dataclass

from squadwright.printing.role_words import RoleSheet
from squadwright.web.page import template


@dataclass(frozen=True)
class SheetLink:
    """A sheet: for whom, what stands on it, where it is."""

    name: str
    words: str
    path: str


@dataclass(frozen=True)
@template("sheets_out/choose.html")
class ChoosePage:
    """Which sheet."""

    title: str
    line: str
    back: str
    back_words: str
    links: tuple[SheetLink, ...]


@dataclass(frozen=True)
@template("sheets_out/sheet.html")
class SheetPage:
    """A sheet as it is printed."""

    sheet: RoleSheet
    print_path: str
    back: str
