"""The sheets as pictures: nothing clipped, nothing on top of something else, black enough, and
the wall sheet large enough to be read from 3 m."""

import math
import re
from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from pypdf import PageObject

from printing.overlaps import clashes, overlap, words_off_the_page
from printing.printed import PLANS, POINTS_PER_MM, Word, grey_pages, pdf, reader, words
from squadwright.printing.choices import PrintedUnit, Sheet

every_plan = pytest.mark.parametrize("name", PLANS)
every_sheet = pytest.mark.parametrize("sheet", list(Sheet))

# 22 minutes of arc at 3 m; 20 to 22 are preferred by ISO 9241-3 (quoted second hand).
LEAST_WALL_HEIGHT_MM = 2 * 3000 * math.tan(math.radians(22 / 60) / 2)
# Web Content Accessibility Guidelines 2.2, success criterion 1.4.6 (from memory, not confirmed).
LEAST_CONTRAST = 7.0
LEAST_TEXT_PT = 6.59
LARGE_PT = 40.0


def test_the_height_for_three_metres_is_19_2_mm() -> None:
    assert round(LEAST_WALL_HEIGHT_MM, 1) == 19.2


@every_plan
@every_sheet
def test_no_word_leaves_the_page(poppler: None, name: str, sheet: Sheet) -> None:
    assert words_off_the_page(pdf(name, sheet, PrintedUnit.BOTH)) == []


@every_plan
@every_sheet
@pytest.mark.parametrize("unit", [PrintedUnit.KILOGRAM, PrintedUnit.BOTH])
def test_no_word_stands_on_another(
    poppler: None, name: str, sheet: Sheet, unit: PrintedUnit
) -> None:
    assert clashes(pdf(name, sheet, unit)) == []


def test_the_overlap_check_sees_an_overlap() -> None:
    assert overlap(Word(1, "one", 10, 10, 40, 22), Word(1, "other", 30, 14, 60, 26))
    assert not overlap(Word(1, "one", 10, 10, 40, 22), Word(1, "below", 10, 20, 40, 32))


@cache
def sizes_in(document: bytes) -> tuple[tuple[tuple[str, float, float], ...], ...]:
    """For each page its text runs, with size [pt] and cap height of the font [em]."""
    return tuple(tuple(font_sizes(page)) for page in reader(document).pages)


def font_sizes(page: PageObject) -> list[tuple[str, float, float]]:
    """Text runs of a page with their size [pt] and the cap height of their font [em]."""
    runs: list[tuple[str, float, float]] = []

    def visit(text: str, cm: list[float], tm: list[float], font: dict | None, size: float) -> None:
        if not text.strip() or font is None:
            return
        scale = abs(tm[3] * cm[3])
        descendant = font["/DescendantFonts"][0].get_object()
        cap_height = float(descendant["/FontDescriptor"].get_object()["/CapHeight"]) / 1000
        runs.append((text.strip(), size * scale, cap_height))

    page.extract_text(visitor_text=visit)
    return runs


@every_plan
def test_names_and_digits_on_the_wall_are_high_enough_by_their_fonts(name: str) -> None:
    large = 0
    for page in sizes_in(pdf(name, Sheet.WALL)):
        for text, size, cap_height in page:
            is_small_print = size < LARGE_PT
            if is_small_print:
                # foot of the page, units, the word "wave": none of them a name or a load
                assert re.fullmatch(r"\d+(\.\d+)?", text) is None
                continue
            large += 1
            assert size * cap_height / POINTS_PER_MM >= LEAST_WALL_HEIGHT_MM
    assert large > 0


@every_plan
def test_every_name_on_the_wall_is_set_large(name: str) -> None:
    plan = PLANS[name]
    large = "".join(
        text
        for page in sizes_in(pdf(name, Sheet.WALL))
        for text, size, _ in page
        if size >= LARGE_PT
    )
    read = re.sub(r"[\s\-\N{HYPHEN}\xad]", "", large)
    for dose in plan.doses:
        # the load stands after the first word of a name
        for part in plan.shown_name(dose.athlete).split(" ", 1):
            assert re.sub(r"[\s\-]", "", part) in read


@every_plan
@pytest.mark.parametrize("unit", list(PrintedUnit))
def test_digits_on_the_wall_are_high_enough_in_ink(
    poppler: None, name: str, unit: PrintedUnit
) -> None:
    """Measured on the picture: rows of black between top and foot of each number."""
    dots_per_inch = 100
    document = pdf(name, Sheet.WALL, unit)
    pages = grey_pages(document, dots_per_inch)
    scale = dots_per_inch / 72
    measured = 0
    for word in words(document):
        if not re.fullmatch(r"\d+(\.\d+)?", word.text) or word.bottom - word.top < LARGE_PT:
            continue
        box = [round(edge * scale) for edge in (word.left, word.top, word.right, word.bottom)]
        picture = pages[word.page - 1].crop(tuple(box))
        is_dark = (np.asarray(picture) < 128).any(axis=1)
        runs = longest_run([int(row) for row in np.flatnonzero(is_dark)])
        measured += 1
        assert (runs + 1) / dots_per_inch * 25.4 >= LEAST_WALL_HEIGHT_MM  # 1 dot of blur
    assert measured >= len([d for d in PLANS[name].doses if d.load_kg is not None])


def longest_run(rows: list[int]) -> int:
    """Length of the longest run of neighbouring rows."""
    longest = run = 1
    for above, below in pairwise(rows):
        run = run + 1 if below == above + 1 else 1
        longest = max(longest, run)
    return longest


@every_plan
@every_sheet
def test_no_text_is_smaller_than_can_be_read_in_the_hand(name: str, sheet: Sheet) -> None:
    """6.6 pt capitals are 1.6 mm high: 16 minutes of arc at 0.35 m, the least for any text."""
    smallest = min(
        size for page in sizes_in(pdf(name, sheet, PrintedUnit.BOTH)) for _, size, _ in page
    )
    assert smallest >= LEAST_TEXT_PT


@pytest.mark.parametrize("name", ["barbell", "jumps"])
@every_sheet
def test_words_keep_their_contrast_in_black_and_white(
    poppler: None, name: str, sheet: Sheet
) -> None:
    """Darkest against lightest dot around each word, as a grey printer would lay them down."""
    dots_per_inch = 200
    document = pdf(name, sheet)
    pages = grey_pages(document, dots_per_inch)
    scale = dots_per_inch / 72
    weak = []
    for word in words(document):
        if not any(character.isalnum() for character in word.text):
            continue
        box = [round(edge * scale) for edge in (word.left, word.top, word.right, word.bottom)]
        low, high = pages[word.page - 1].crop(tuple(box)).getextrema()
        if contrast(low, high) < LEAST_CONTRAST:
            weak.append((word.page, word.text, low, high))
    assert weak == []


def contrast(dark: int, light: int) -> float:
    """Contrast of two greys (0 to 255) as the accessibility guidelines define it."""

    def luminance(grey: int) -> float:
        share = grey / 255
        return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4

    return (luminance(light) + 0.05) / (luminance(dark) + 0.05)


def test_contrast_of_black_on_white_is_21() -> None:
    # Web Content Accessibility Guidelines 2.2, definition of contrast ratio: 1 to 21
    assert contrast(0, 255) == pytest.approx(21.0)
