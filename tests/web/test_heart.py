"""Heart recordings on the site: looked at first, kept with an undo, and read by author."""

import pytest
from lxml import html

from heart_files import edf_bytes, rr_csv
from read_pages import changed, page_of, words_of
from site_server import Browse
from squadwright.model.diary import HeartSeries
from squadwright.services.diary import read_diary

HERE = "/records/heart"


def hour_at_150() -> bytes:
    """Sixty minutes at 150 beats a minute, one reading a second, then a minute at 110."""
    rates = [150] * 3600 + [110] * 61
    return ("t,hr\n" + "".join(f"{s},{rate}\n" for s, rate in enumerate(rates))).encode()


def upload(browse: Browse, data: bytes, name: str = "x.csv", **more: str) -> html.HtmlElement:
    return page_of(browse.post(HERE, more, files={"recording": (name, data)}))


def kept(browse: Browse, data: bytes, athlete: str = "A01") -> str:
    """The path of a recording taken in."""
    packed = upload(browse, data).xpath("//input[@name='series']/@value")[0]
    sent = {"series": packed, "athlete": athlete, "day": "2026-03-02", "during": "live rounds"}
    page = page_of(browse.post(f"{HERE}/keep", sent))
    assert "is in the diary of" in changed(page)
    return str(page.xpath("//tbody//a/@href")[0])


def words(browse: Browse, path: str) -> str:
    return words_of(page_of(browse.get(path)).find(".//main"))


def test_a_preview_stores_nothing_and_says_what_was_read(browse: Browse) -> None:
    page = upload(browse, edf_bytes(), "x.edf")
    assert "Heart rate over 0:59 min from x.edf. Nothing is stored yet." in words_of(page)
    assert read_diary(browse.keeper) == ()


def test_it_is_kept_whole_and_taken_back_in_one_step(browse: Browse) -> None:
    kept(browse, rr_csv())
    (entry,) = read_diary(browse.keeper)
    assert isinstance(entry.content, HeartSeries)
    assert entry.content.values[:2] == (800, 810)
    assert (entry.athlete, entry.content.during) == ("A01", "live rounds")
    page = page_of(browse.get(HERE))
    undo = page.xpath("//form[contains(@action, '/undo/')]/@action")
    page = page_of(browse.post(f"{browse_path(entry.id)}/remove"))
    assert read_diary(browse.keeper) == ()
    undo = page.xpath("//form[contains(@action, '/undo/')]/@action")[0]
    browse.post(undo, {"back": HERE})
    assert read_diary(browse.keeper) == (entry,)


def browse_path(entry_id: str) -> str:
    return f"{HERE}/of/{entry_id}"


@pytest.mark.parametrize(
    ("athlete", "banister"),
    [("A02", "100.4"), ("A01", "113.5")],
)
def test_an_hour_at_150_gives_the_published_impulse(
    browse: Browse, athlete: str, banister: str
) -> None:
    """Banister, 60 min at 150, resting 60, greatest 190: 100.440 for men and 113.517 for women."""
    rates = "t,hr\n" + "".join(f"{s},150\n" for s in range(3600))
    path = kept(browse, rates.encode(), athlete)
    shown = words(browse, f"{path}?resting=60&maximum=190")
    assert f"Banister {banister} " in shown
    assert "Mean 150 beats/min" in shown


def test_edwards_lucia_and_the_first_minute_after(browse: Browse) -> None:
    """150 of 190 is 78.9 %: 60 minutes times 3; below, between, above by Lucia; 150 to 110."""
    path = kept(browse, hour_at_150())
    shown = words(browse, f"{path}?resting=60&maximum=190&first=140&second=170&end=3599")
    assert "Edwards 181 " in shown  # 60 min times 3, and 1 min at 58 % times 1
    assert "Lucia 121 " in shown  # 60 min times 2, and 1 min times 1
    assert "down 40 beats/min, from 150 at 59:59 min" in shown


def test_rmssd_of_the_worked_row_is_shown_with_its_artefacts(browse: Browse) -> None:
    """RR 800 810 790 820 805 795: 18.57418 ms (worked row of the trade's formula)."""
    data = b"rr_ms\n800\n810\n790\n820\n805\n795\n"
    shown = words(browse, kept(browse, data))
    assert "RMSSD 18.6 ms" in shown
    assert "0 of 6 intervals left out as artefacts" in shown


def test_what_is_not_known_is_said_and_guesses_are_called_guesses(browse: Browse) -> None:
    shown = words(browse, kept(browse, hour_at_150()))
    assert "guessed from age by Tanaka" in shown
    assert "Banister not given needs the resting heart rate" in shown
    assert "Lucia not given needs the heart rate at both thresholds, from a test" in shown
    path = kept(browse, hour_at_150())
    assert "is outside 25 to 120 beats/min" in words(browse, f"{path}?resting=900")


def test_a_refused_form_keeps_what_was_typed(browse: Browse) -> None:
    packed = upload(browse, rr_csv()).xpath("//input[@name='series']/@value")[0]
    sent = {"series": packed, "athlete": "", "day": "2026-03-02", "note": "lying"}
    page = page_of(browse.post(f"{HERE}/keep", sent), 422)
    assert "Whose it is: is not chosen" in words_of(page)
    assert page.xpath("//textarea[@name='note']")[0].text.strip() == "lying"
    assert page.xpath("//input[@name='series']/@value") == [packed]
    sent = {"series": packed, "athlete": "A01", "day": "2026-03-09"}
    assert "has not come yet" in words_of(page_of(browse.post(f"{HERE}/keep", sent), 422))
    assert page_of(browse.post(f"{HERE}/keep", {"series": "zz"}), 422) is not None
    assert read_diary(browse.keeper) == ()


def test_without_a_club_records_point_to_the_first_steps(browse_empty: Browse) -> None:
    assert "There is no club yet" in words(browse_empty, "/records")
