"""Readers of finished PDFs, none of them ours: pypdf, and poppler's programs where they are."""

import io
import re
import shutil
import subprocess
from dataclasses import dataclass
from functools import cache
from html import unescape
from pathlib import Path
from tempfile import TemporaryDirectory

from PIL import Image
from pypdf import PdfReader

from printing.sample_crowd import crowd
from printing.sample_lanes import tide_lanes
from printing.sample_plan import ropewalk
from squadwright.model.plan import Plan
from squadwright.printing.choices import PrintedUnit, Sheet
from squadwright.printing.sheets import sheet_pdf

POINTS_PER_MM = 72 / 25.4
PLANS: dict[str, Plan] = {
    "barbell": ropewalk(),
    "jumps": tide_lanes(),
    "forty": crowd(40),
    "six": crowd(6, long_names=False),
}
HAS_POPPLER = all(shutil.which(program) for program in ("pdftotext", "pdftoppm"))


@dataclass(frozen=True)
class Word:
    """One word where poppler finds it on a page (from 1), in points from the top left."""

    page: int
    text: str
    left: float
    top: float
    right: float
    bottom: float


@cache
def pdf(plan_name: str, sheet: Sheet, unit: PrintedUnit = PrintedUnit.KILOGRAM) -> bytes:
    """A sheet of a sample plan, set once for all tests."""
    return sheet_pdf(PLANS[plan_name], None, sheet, unit)


def reader(document: bytes) -> PdfReader:
    """A document opened by pypdf."""
    return PdfReader(io.BytesIO(document))


@cache
def pypdf_text(document: bytes) -> str:
    """All text as pypdf reads it, blanks run together."""
    return flat("\n".join(page.extract_text() for page in reader(document).pages))


@cache
def poppler_text(document: bytes) -> str:
    """All text as poppler reads it, blanks run together."""
    done = _run("pdftotext", document, "-raw", "{pdf}", "-")
    return flat(done.decode())


def flat(text: str) -> str:
    """Text without line breaks; a hyphen at the end of a line stays joined to what follows."""
    return " ".join(re.sub(r"-\n", "-", text).split())


@cache
def words(document: bytes) -> tuple[Word, ...]:
    """Every word with its box, by poppler."""
    found: list[Word] = []
    page = 0
    for line in _run("pdftotext", document, "-bbox", "{pdf}", "-").decode().splitlines():
        if "<page " in line:
            page += 1
        match = re.search(
            r'xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*)</word>', line
        )
        if match:
            left, top, right, bottom = (float(value) for value in match.groups()[:4])
            found.append(Word(page, unescape(match[5]), left, top, right, bottom))
    return tuple(found)


def grey_pages(document: bytes, dots_per_inch: int) -> list[Image.Image]:
    """Pages as a black-and-white printer would see them."""
    with TemporaryDirectory() as folder:
        source = Path(folder, "sheet.pdf")
        source.write_bytes(document)
        subprocess.run(
            ["pdftoppm", "-r", str(dots_per_inch), "-gray", source, Path(folder, "page")],
            check=True,
        )
        pages = []
        for path in sorted(Path(folder).glob("page-*.pgm")):
            with Image.open(path) as image:
                pages.append(image.copy())
        return pages


def _run(program: str, document: bytes, *arguments: str) -> bytes:
    with TemporaryDirectory() as folder:
        source = Path(folder, "sheet.pdf")
        source.write_bytes(document)
        command = [program, *(a.format(pdf=source) for a in arguments)]
        return subprocess.run(command, check=True, capture_output=True).stdout
