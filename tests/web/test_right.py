"""How often the forecast was right, in process: its numbers, its words, and what it never says."""

import re
from dataclasses import replace

import pytest
from lxml import html

from learning.test_calibration_words import TOO_MUCH
from learning.training_squad import squad
from read_pages import page_of, words_of
from site_server import Browse
from squadwright.learning.calibration import Calibration, calibrate
from squadwright.learning.history import History
from squadwright.services import calibration as kept
from squadwright.services import how_often_right as asked
from squadwright.services.calibration import calibration_of
from squadwright.web.drawing.shares import Share, draw_shares

PAGE = "/how-often-right"


@pytest.fixture(scope="module")
def people() -> dict[str, History]:
    """Invented histories under the ids of the demo club: six with 12 sessions, two with three."""
    made = [*squad(people=6, sessions=12), *squad(people=2, sessions=3, seed=7)]
    ids = [f"A{n:02d}" for n in range(1, 9)]
    return {a: replace(h, athlete=a) for a, h in zip(ids, made, strict=True)}


@pytest.fixture(scope="module")
def known(people: dict[str, History]) -> Calibration:
    return calibrate(people.values())


@pytest.fixture
def tried(
    browse: Browse,
    people: dict[str, History],
    known: Calibration,
    monkeypatch: pytest.MonkeyPatch,
) -> Browse:
    """The demo club as if these were its histories."""
    monkeypatch.setattr(asked, "histories", lambda keeper, club, *, before: people)
    monkeypatch.setattr(asked, "calibration_of", lambda keeper, histories: known)
    return browse


def table_of(page: html.HtmlElement, section: str) -> list[dict[str, str]]:
    """Rows of a section's table by the heads of its columns."""
    rows = page.get_element_by_id(section).getparent().findall(".//tbody/tr")
    return [{cell.get("data-head"): words_of(cell) for cell in row} for row in rows]


def test_the_bands_add_up_to_every_forecast(tried: Browse, known: Calibration) -> None:
    page = page_of(tried.get(PAGE))
    rows = table_of(page, "bands")
    assert sum(int(row["Forecasts"]) for row in rows) == known.club.count == 78
    assert sum(int(row["Done"]) for row in rows) == known.club.done
    expected = sum(float(row["To be expected"]) for row in rows)
    assert expected == pytest.approx(known.club.expected, abs=0.3)


def test_every_bar_of_the_picture_says_itself_in_words(tried: Browse, known: Calibration) -> None:
    page = page_of(tried.get(PAGE))
    shown = [band for band in known.club.bands if band.count >= 5]
    lines = page.xpath("//figure//svg[@role='img']/@aria-label")
    assert len(lines) == len(shown) > 0
    for band, words in zip(shown, lines, strict=True):
        low, high = band.interval
        assert f"came {100 * band.done / band.count:.0f} %" in words
        assert f"between {100 * low:.0f} and {100 * high:.0f} %" in words


def test_the_plain_rules_stand_beside_the_forecast_with_bounds(tried: Browse) -> None:
    rows = table_of(page_of(tried.get(PAGE)), "rules")
    assert [row["Rule"] for row in rows] == [
        "The forecast",
        "The last load",
        "A share of the weakest lift",
        "The same chance for everyone",
    ]
    for row in rows[1:]:
        told = row["Forecast less rule"].replace("\N{MINUS SIGN}", "-")
        mean, low, high = map(float, re.findall(r"[+-]\d\.\d+", told))
        numbers = [low, mean, high]
        assert numbers == sorted(numbers)
        is_told = row["What it shows"] != "Which is nearer cannot be told"
        assert is_told == (low > 0 or high < 0)


def test_every_athlete_has_a_page_and_three_forecasts_are_too_few(tried: Browse) -> None:
    club = page_of(tried.get(PAGE))
    links = club.get_element_by_id("athletes").getparent().xpath(".//a/@href")
    assert links
    assert len(links) == 8
    few = page_of(tried.get(f"{PAGE}/A07"))
    assert "too few to tell: 3 forecasts." in words_of(few.find_class("who-line")[0])
    for row in table_of(few, "rules")[1:]:
        assert row["Forecast less rule"] == "none"
        assert row["What it shows"] == "Too few to tell: 3 forecasts"
    assert not few.xpath("//figure")


def test_no_page_claims_more_than_the_numbers_show(tried: Browse) -> None:
    for path in (PAGE, *(f"{PAGE}/A{n:02d}" for n in range(1, 13))):
        main = page_of(tried.get(path)).get_element_by_id("content")
        assert not TOO_MUCH.search(words_of(main)), path


def test_without_a_forecast_nothing_is_told(browse: Browse) -> None:
    for path in (PAGE, f"{PAGE}/A04"):
        page = page_of(browse.get(path))
        assert "Nothing to tell yet: no forecast has been tried." in words_of(page)
        assert "Too few to compare with a plain rule: 0 forecasts." in words_of(page)
        assert not page.xpath("//main//table")


def test_squad_and_athlete_lead_to_it_and_an_unknown_one_is_told(tried: Browse) -> None:
    assert page_of(tried.get("/squad")).xpath(f"//a[@href='{PAGE}']")
    assert page_of(tried.get("/squad/athlete/A04")).xpath(f"//a[@href='{PAGE}/A04']")
    assert tried.get(f"{PAGE}/nobody").status_code == 404


def test_after_a_session_only_its_own_forecasts_are_new(
    browse: Browse, people: dict[str, History], monkeypatch: pytest.MonkeyPatch
) -> None:
    def cut(sessions: int) -> dict[str, History]:
        return {a: replace(h, trials=h.trials[:sessions]) for a, h in people.items() if a < "A05"}

    worked_out: list[int] = []
    real = kept.foretold

    def counted(asked_now: object) -> object:
        worked_out.append(len(asked_now))  # type: ignore[arg-type]
        return real(asked_now)  # type: ignore[arg-type]

    monkeypatch.setattr(kept, "foretold", counted)
    first = calibration_of(browse.keeper, cut(3))
    assert worked_out == [12]
    assert calibration_of(browse.keeper, cut(3)) is first
    second = calibration_of(browse.keeper, cut(4))
    assert worked_out == [12, 4]
    assert [j.chance for j in second.club.judged[:12]] == [j.chance for j in first.club.judged]


def test_a_share_is_drawn_from_nothing_to_all() -> None:
    (drawn,) = draw_shares([Share("Said 80 to 90 %", "9 of 12 done", 0.85, 0.75, 0.47, 0.91)])
    assert (drawn.said_percent, drawn.came_percent) == (85.0, 75.0)
    assert (drawn.low_percent, drawn.width_percent) == (47.0, 44.0)
    assert drawn.in_words == (
        "Said 80 to 90 %: said 85 %, came 75 %, in the long run between 47 and 91 %"
    )
