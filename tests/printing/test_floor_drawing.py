"""The floor on the set-up sheet: to a round scale, measured on the finished page."""

import re
from dataclasses import replace
from datetime import date
from functools import cache

import pytest

from printing.overlaps import words_off_the_page
from printing.printed import POINTS_PER_MM, Word, pypdf_text, reader, words
from squadwright.demo import demo_club
from squadwright.model.plan import Plan
from squadwright.model.room import Room
from squadwright.model.session import FloorPart, FloorToday
from squadwright.planning.plan import make_plan
from squadwright.printing.choices import Sheet
from squadwright.printing.floor_drawing import floor_drawings, scale_for
from squadwright.printing.sheets import sheet_pdf

CLUB = demo_club(date(2026, 3, 2))
A4_MM = (210, 297)


@cache
def planned(index: int) -> Plan:
    return make_plan(CLUB, CLUB.sessions[index])


@cache
def sheet(index: int) -> bytes:
    return sheet_pdf(planned(index), CLUB, Sheet.SET_UP)


@pytest.mark.parametrize(("index", "scale", "far"), [(0, 75, 10), (1, 100, 14)])
def test_a_metre_on_the_page_is_as_long_as_the_scale_says(
    poppler: None, index: int, scale: int, far: int
) -> None:
    """The numbers along the lower edge stand every 2 m: 26.7 mm at 1:75, 20 mm at 1:100."""
    document = sheet(index)
    assert f"Scale 1:{scale}" in pypdf_text(document)
    numbers = [w for w in words(document) if w.text in {str(n) for n in range(0, far + 1, 2)}]
    rows: dict[int, list[Word]] = {}
    for word in numbers:
        rows.setdefault(round(word.top), []).append(word)
    edge = max(rows.values(), key=len)
    edge.sort(key=lambda word: word.left)
    assert [word.text for word in edge] == [str(n) for n in range(0, far + 1, 2)]
    first, last = ((word.left + word.right) / 2 for word in (edge[0], edge[-1]))
    assert (last - first) / POINTS_PER_MM == pytest.approx(1000 * far / scale, abs=0.5)


@pytest.mark.parametrize("index", [0, 1])
def test_the_sheet_with_its_floor_stays_on_two_a4_pages(poppler: None, index: int) -> None:
    document = sheet(index)
    pages = reader(document).pages
    assert len(pages) <= 2
    for page in pages:
        size = tuple(round(float(side) / POINTS_PER_MM) for side in page.mediabox[2:])
        assert size == A4_MM
    assert words_off_the_page(document) == []
    assert "Walking order from the door:" in pypdf_text(document)


@pytest.mark.parametrize(
    ("wide_m", "high_m", "scale"),
    [
        # 186 mm by 165 mm of paper: 9.3 m fit at 1:50, 13.95 m at 1:75, 18.6 m at 1:100.
        (9.25, 8.0, 50),
        (9.4, 8.0, 75),
        (15.8, 14.9, 100),
        (18.7, 10.0, 125),
        (10.0, 33.0, 200),
        (201.8, 60.0, 2000),
    ],
)
def test_the_scale_is_the_largest_round_one_that_fits(
    wide_m: float, high_m: float, scale: int
) -> None:
    assert scale_for(100 * wide_m, 100 * high_m) == scale


def test_the_drawing_is_black_on_white_and_its_letters_stay_large() -> None:
    """At 1:250 letters are drawn 2.5 times as large as at 1:100, so they are as large on paper."""

    def field(room: Room) -> Room:
        outline = ((0.0, 0.0), (42.0, 0.0), (42.0, 20.0), (0.0, 20.0))
        return replace(room, outline=outline, obstacles=(), ceiling_zones=(), doors=())

    rooms = tuple(field(r) if r.id == "weights-room" else r for r in CLUB.rooms)
    for club in (CLUB, replace(CLUB, rooms=rooms)):
        (drawn,) = floor_drawings(make_plan(club, club.sessions[0]), club)
        colours = set(re.findall(r'(?:fill|stroke)="([^"]+)"', drawn.svg))
        assert colours <= {"black", "white", "none", "url(#landing)"}
        sizes = [float(size) for size in re.findall(r'font-size="([\d.]+)"', drawn.svg)]
        assert min(sizes) * 10 / drawn.scale >= 2.5  # mm
    assert drawn.scale == 250


def test_less_floor_is_drawn_as_what_is_left_of_the_room() -> None:
    held = replace(CLUB.sessions[0], floor_today=FloorToday(part=FloorPart(0, 0, 8, 8)))
    club = replace(CLUB, sessions=(held, CLUB.sessions[1]))
    (drawn,) = floor_drawings(make_plan(club, held), club)
    assert drawn.scale == 75
    assert drawn.width_mm == pytest.approx((8 + 1.8) * 1000 / 75, abs=0.01)
    assert drawn.walk == ("bar 1", "bar 2", "bar 3", "bar 4")


def test_without_the_club_there_is_no_drawing() -> None:
    assert floor_drawings(planned(0), None) == ()
