"""Load on the site: two taps at the door, days of rest, one athlete, and forms that are refused."""

import re
from datetime import timedelta
from pathlib import Path

from lxml import html

import squadwright.web as web_of_squadwright
from read_pages import changed, page_of, words_of
from site_server import MONDAY, Browse, browse_on
from squadwright.bootstrap import open_demo
from squadwright.config import sqlite_url

FRIDAY = MONDAY - timedelta(days=3)
DOOR = f"/load/door/fri-wrestling/{FRIDAY}"
LAST_WEEK = f"/load?week={MONDAY - timedelta(days=7)}"


def row_of(page: html.HtmlElement, name: str) -> dict[str, str]:
    """The row of an athlete: words by the head of each column."""
    rows = page.xpath("//tbody/tr")
    row = next(row for row in rows if words_of(row.find("th")).startswith(name))
    return {td.get("data-head"): words_of(td) for td in row.findall("td")}


def test_the_week_says_who_has_not_told_and_where_to_ask(browse: Browse) -> None:
    page = page_of(browse.get("/load"))
    asked = [words_of(li) for each in page.find_class("diary") for li in each]
    assert asked[0].startswith("Mon 2 Mar, 19:15 Wrestling technique 4 of 4 not told: Iskander")
    assert "Nothing planned" in " ".join(asked)
    links = page.xpath("//ul[@class='diary']//a/@href")
    assert {"/done/monday-barbell/effort", DOOR} <= set(links)
    assert row_of(page, "Iskander")["Mon 2 Mar"] == "not told plan 720"


def test_a_hard_session_of_his_own_the_day_before_leads_to_the_one_that_follows(
    browse: Browse,
) -> None:
    """Hard days at least 24 h apart: common practice, no source; the hours are our default."""
    path = "/load/athlete/A02"
    form = {"day": str(MONDAY), "name": "5 hard rounds", "minutes": "30", "effort": "8"}
    page = page_of(browse.post(path, form))
    (told,) = page.xpath("//section[@aria-label='Before the next session']")
    assert "5 hard rounds (8 of 10) lies the same day as Monday barbell." in words_of(told)
    assert told.xpath(".//a/@href") == ["/today/monday-barbell"]
    for other in ({**form, "effort": "6"}, {**form, "day": str(MONDAY - timedelta(days=2))}):
        page = page_of(browse.post("/load/athlete/A03", other))
        assert not page.xpath("//section[@aria-label='Before the next session']")


def test_no_button_of_the_week_is_read_out_with_a_space_before_its_colon(browse: Browse) -> None:
    """What is only read out begins with a space and a bracket: the accessible name computation
    (W3C accname 1.2, 4.3.2 step 2F; from memory) puts a space before a block of its own."""
    page = page_of(browse.get("/load"))
    unseen = [each.text for each in page.find_class("unseen")]
    assert any(words.startswith(" (Wrestling technique, ") for words in unseen)
    templates = (Path(web_of_squadwright.__file__).parent).rglob("*.html")
    begun = [
        f"{path.name}: {words}"
        for path in templates
        for words in re.findall(r'class="unseen">([:,;.][^<]*)', path.read_text(encoding="utf-8"))
    ]
    assert begun == []


def test_two_taps_at_the_door_and_undo(browse: Browse) -> None:
    page = page_of(browse.get(DOOR))
    assert len(page.find_class("asked")) == 4
    minutes = page.xpath("//input[@name='minutes']/@value")
    assert minutes == ["90"] * 4
    page = page_of(browse.post(DOOR, {"athlete": "A02", "effort": "9", "minutes": "80"}))
    assert changed(page) == "Iskander Yulbarin: effort 9, 80 minutes."
    assert "9 of 10, 80 minutes" in words_of(page)
    assert row_of(page_of(browse.get(LAST_WEEK)), "Iskander")["Fri 27 Feb"].startswith("720 and")
    page = page_of(browse.post(DOOR, {"not_there": "everybody else"}))
    assert changed(page).startswith("3 of them: not there.")
    assert "Everybody has told" in words_of(page)
    undo = page.xpath("//form[starts-with(@action, '/undo/diary/')]/@action")[0]
    page = page_of(browse.post(undo, {"back": DOOR}))
    assert len(page.xpath("//h2[.='Still to ask']/following-sibling::ul[1]/li")) == 3


def test_a_refused_answer_stays_in_its_form(browse: Browse) -> None:
    refused = {"athlete": "A02", "effort": "9", "minutes": "0"}
    page = page_of(browse.post(DOOR, refused), 422)
    assert "0 minutes is outside 1 to 720 minutes" in words_of(page)
    assert page.xpath("//input[@id='minutes-A02']/@value") == ["0"]
    assert page.xpath("//details[@open]//span[@class='asked-name']")[0].text.startswith("Iskander")
    assert browse.get(f"/load/door/fri-wrestling/{MONDAY}").status_code == 404
    for day in ("9999-12-31", "0001-01-01", "soon"):
        assert browse.get(f"/load/rest/{day}").status_code == 404
    assert browse.get("/load?week=2026-02-30").status_code == 400


def test_a_day_without_training_is_said_by_one_tap(browse: Browse) -> None:
    path = f"/load/rest/{MONDAY - timedelta(days=1)}"
    page = page_of(browse.get(path))
    ticked = page.xpath("//input[@name='athletes'][@checked]/@value")
    assert len(ticked) == 14
    assert browse.post(path, {}).status_code == 422
    page = page_of(browse.post(path, {"athletes": ticked[1:]}))
    assert changed(page) == "Sun 1 Mar was without training for 13 athletes."
    assert row_of(page, "Iskander")["Sun 1 Mar"] == "0, rest no plan"
    assert page_of(browse.get(path)).xpath("//input[@name='athletes']/@value") == ["A01"]


def test_an_athlete_shows_week_formula_and_what_may_be_taken_out(browse: Browse) -> None:
    path = "/load/athlete/A08"
    assert "Nothing is told yet" in words_of(page_of(browse.get(path)))
    for back in range(7):
        day = MONDAY - timedelta(days=1 + back)
        sent = {"day": f"{day}", "name": "Run", "minutes": f"{20 + 5 * back}", "effort": "6"}
        page = page_of(browse.post(path, sent))
    assert changed(page) == "Sami Darwazin, Mon 23 Feb: Run is in the diary."
    assert "hidden for the first 28 days: this is day 8" in words_of(page)
    sent = {"day": f"{MONDAY + timedelta(days=1)}", "name": "Swim", "minutes": "", "effort": "6"}
    page = page_of(browse.post(path, sent), 422)
    assert page.xpath("//input[@name='name']/@value") == ["Swim"]
    assert "is not within the last ten years" in words_of(page)
    page = page_of(browse.get(path))
    forms = page.xpath("//form[contains(@action, '/out/')]/@action")
    assert len(forms) == 7
    assert changed(page_of(browse.post(forms[0]))) == "Taken out."


def test_the_formula_stands_with_its_numbers(browse: Browse) -> None:
    """Everything of last week told for one athlete; sums by hand and by the statistics module."""
    for slot, back, effort in (("mon-barbell", 7, 6), ("wed-fry", 5, 4), ("wed-plyometric", 5, 5),
                               ("fri-short", 3, 5)):  # fmt: skip
        path = f"/load/door/{slot}/{MONDAY - timedelta(days=back)}"
        page_of(browse.post(path, {"athlete": "A12", "effort": f"{effort}"}))
    for back in (6, 4, 2, 1):
        path = f"/load/rest/{MONDAY - timedelta(days=back)}"
        page_of(browse.post(path, {"athletes": "A12"}))
    page = page_of(browse.get(LAST_WEEK))
    row = row_of(page, "Sami Darwazin '12")
    # 360, 0, 45 x 4 + 50 x 5 = 430, 0, 175, 0, 0: mean 137.857, SD 188.013 (n - 1).
    assert (row["Told"], row["Days known"], row["Monotony"]) == ("965", "7 of 7", "0.73")
    assert row["Strain"] == "708"
    assert "= 137.9 / 188 = 0.73. Strain = load of the week" in words_of(page)


def test_the_invented_diary_shows_on_every_page(tmp_path: Path) -> None:
    browse = browse_on(open_demo(sqlite_url(tmp_path / "demo.sqlite3"), today=MONDAY))
    week = words_of(page_of(browse.get(LAST_WEEK)))
    assert "not there" in week
    assert "and more" in week
    athlete = words_of(page_of(browse.get("/load/athlete/A06")))
    assert "It does not predict injury." in athlete
    assert "harder than planned, on average" in athlete
    assert "past the limit" in words_of(page_of(browse.get("/wellness/A11")))
    assert len(page_of(browse.get("/notice")).xpath("//ol[@class='noticed']/li")) == 3
    block = page_of(browse.get("/today")).find_class("noticed-today")[0]
    assert len(block.findall("p")) == 4
