"""Charts: every value stands where its number says, on the page and on paper alike."""

import re
from datetime import date, timedelta
from xml.etree import ElementTree

import pytest

from squadwright.charts.draw import COLOURS, Look, drawn
from squadwright.charts.time_chart import At, Band, LimitLine, TimeChart
from squadwright.errors import InvalidInput

FIRST = date(2026, 3, 2)
SVG = {"svg": "http://www.w3.org/2000/svg"}


def days(*values: float) -> tuple[At, ...]:
    return tuple(At(FIRST + timedelta(days=n), value) for n, value in enumerate(values))


def places(picture: str, role: str) -> list[tuple[float, float]]:
    """Where the marks of a layer stand, in px, left to right."""
    moved = (path.get("transform", "") for path in paths(picture, role))
    found = [[float(number) for number in re.findall(r"[-\d.]+", text)] for text in moved]
    return sorted((x, y) for x, y in found)


def paths(picture: str, role: str) -> list[ElementTree.Element]:
    groups = ElementTree.fromstring(picture).iterfind(".//svg:g", SVG)
    return [
        path
        for group in groups
        if role in group.get("class", "")
        for path in group.iterfind("svg:path", SVG)
    ]


@pytest.mark.parametrize("look", Look)
def test_marks_stand_in_proportion_to_days_and_values(look: Look) -> None:
    chart = TimeChart("kg", marks=days(80.0, 79.0, 78.0), limits=(LimitLine("limit", 77.0),))
    first, second, third = places(drawn(chart, 320, look), "mark-symbol")
    assert second[0] - first[0] == pytest.approx(third[0] - second[0], abs=0.5)
    assert second[1] - first[1] == pytest.approx(third[1] - second[1], abs=0.5)
    assert second[1] > first[1]


def test_both_looks_differ_in_colour_alone() -> None:
    chart = TimeChart(
        "kg",
        marks=days(80.0, 79.0),
        hollow=days(78.5),
        line=days(80.1, 79.2),
        band=tuple(Band(at.day, at.value - 1, at.value + 1) for at in days(80.0, 79.0)),
    )
    page, paper = (drawn(chart, 320, look) for look in Look)
    for placeholder, colour in COLOURS[Look.PAGE].items():
        assert placeholder not in page
        page = page.replace(colour, COLOURS[Look.PAPER][placeholder])
    assert page == paper
    assert "style=" not in paper


def test_bars_begin_at_nothing() -> None:
    bars = paths(
        drawn(TimeChart("AU", bars=days(400, 200), begins_at_nothing=True), 320), "mark-rect"
    )
    heights = [float(re.findall(r"v([\d.]+)", bar.get("d", ""))[0]) for bar in bars]
    assert heights[0] == pytest.approx(2 * heights[1], rel=0.01)


def test_a_chart_is_as_wide_as_asked() -> None:
    tree = ElementTree.fromstring(drawn(TimeChart("kg", marks=days(80.0, 79.0)), 320))
    assert float(tree.get("width", "")) == pytest.approx(320, abs=1)


def test_nothing_known_is_no_picture_and_ten_years_are_too_many() -> None:
    assert drawn(TimeChart("kg"), 320) == ""
    with pytest.raises(InvalidInput, match="too many for one chart"):
        TimeChart("kg", marks=(At(FIRST, 80.0), At(FIRST + timedelta(days=4000), 80.0)))
