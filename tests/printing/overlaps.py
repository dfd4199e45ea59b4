"""Words that leave their page or stand on one another, found from the boxes poppler reports."""

from printing.printed import POINTS_PER_MM, Word, reader, words

LEAST_MARGIN_MM = 4


def words_off_the_page(document: bytes) -> list[Word]:
    """Words nearer to an edge than a printer reaches."""
    width, height = (float(side) for side in reader(document).pages[0].mediabox[2:])
    margin = LEAST_MARGIN_MM * POINTS_PER_MM
    return [
        word
        for word in words(document)
        if word.left < margin
        or word.right > width - margin
        or word.top < 0
        or word.bottom > height - margin
    ]


def clashes(document: bytes) -> list[tuple[Word, Word]]:
    """Pairs of words of one page that stand on one another."""
    by_page: dict[int, list[Word]] = {}
    for word in words(document):
        by_page.setdefault(word.page, []).append(word)
    found: list[tuple[Word, Word]] = []
    for on_page in by_page.values():
        # In order of their tops a word can only meet those that begin above its foot.
        in_order = sorted(on_page, key=lambda word: word.top)
        for index, one in enumerate(in_order):
            for other in in_order[index + 1 :]:
                if other.top >= one.bottom:
                    break
                if overlap(one, other):
                    found.append((one, other))
    return found


def core(word: Word) -> tuple[float, float, float, float]:
    """The box of the small letters: without the room a font leaves above and below."""
    height = word.bottom - word.top
    return (
        word.left + 0.3,
        word.top + 0.32 * height,
        word.right - 0.3,
        word.bottom - 0.25 * height,
    )


def overlap(one: Word, other: Word) -> bool:
    left, top, right, bottom = core(one)
    left_2, top_2, right_2, bottom_2 = core(other)
    return left < right_2 and left_2 < right and top < bottom_2 and top_2 < bottom
