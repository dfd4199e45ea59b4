"""A day of testing on the site, in process: the plan, who is left out, the order of last time."""

from dataclasses import replace
from datetime import date, timedelta
from urllib.parse import parse_qs, urlsplit

import pytest

from day_squad import FIVE, make_all_fit
from printing.printed import pypdf_text, reader
from read_pages import page_of, words_of
from site_server import MONDAY, Browse
from squadwright.model.diary import DiaryKind, TestResult
from squadwright.services.club_changes import change_club
from squadwright.services.diary import read_diary

ASKED = "&helpers=3&minutes=75&order=power,+strength,+speed,+endurance&starts_at=18:00"


def day_of(who: tuple[str, ...], tests: tuple[str, ...] = FIVE, day: str = "2026-03-02") -> str:
    query = "&".join([*(f"who={a}" for a in who), *(f"test={t}" for t in tests)])
    return f"/tests/day?{query}&day={day}{ASKED}"


@pytest.fixture
def squad(browse: Browse) -> tuple[str, ...]:
    """All fourteen, grown and cleared."""
    return make_all_fit(browse.keeper)


def test_before_it_is_asked_for_the_form_holds_what_is_usual(browse: Browse) -> None:
    page = page_of(browse.get("/tests/day"))
    ticked = page.xpath("//input[@name='who'][@checked]/@value")
    assert "A02" in ticked
    # A minor whose guardian has agreed is there; who must not do his most or must not train is not.
    assert "A03" in ticked
    assert not {"A12", "A10"} & set(ticked)
    assert set(page.xpath("//input[@name='test'][@checked]/@value")) == set(FIVE)
    assert page.get_element_by_id("field-minutes").get("value") == "75"


def test_a_guest_is_asked_only_until_his_day(browse: Browse) -> None:
    def until(day: date) -> None:
        change_club(
            browse.keeper,
            lambda club: replace(
                club,
                athletes=tuple(
                    replace(a, guest_until=day) if a.id == "A02" else a for a in club.athletes
                ),
            ),
            today=MONDAY,
        )

    for day, is_asked in ((MONDAY + timedelta(days=1), True), (MONDAY, False)):
        until(day)
        ticked = page_of(browse.get("/tests/day")).xpath("//input[@name='who'][@checked]/@value")
        assert ("A02" in ticked) is is_asked


def test_fourteen_athletes_five_tests_three_helpers_in_75_minutes_and_on_paper(
    browse: Browse, squad: tuple[str, ...]
) -> None:
    page = page_of(browse.get(day_of(squad)))
    words = words_of(page.get_element_by_id("content"))
    assert "14 athletes, 5 tests, 3 helpers: 66 of 75 min, 18:00 to 19:06." in words
    assert "No plan is shorter, proven" in words
    assert "wait for one test; 3 are allowed" in words or "Nobody stands in a queue." in words
    assert len(page.xpath("//h2[@id='by-athlete']/..//tbody/tr")) == 14
    [sheet] = page.xpath("//a[.='Print the day']/@href")
    answer = browse.get(sheet)
    assert answer.status_code == 200
    printed = pypdf_text(answer.content)
    assert len(reader(answer.content).pages) >= 6
    for name in ("Ottoline Baptiste-Ferro", "Seated chest throw", "Attempt 3", "Stop on pain"):
        assert name in printed


def test_those_barred_or_under_age_are_left_out_by_name(browse: Browse) -> None:
    page = page_of(browse.get(day_of(("A02", "A03", "A05", "A06", "A10", "A12"))))
    words = words_of(page.get_element_by_id("content"))
    assert "Lobsang Tsewangpa: no training" in words
    refused = words_of(page_of(browse.get(day_of(("A12",))), 422))
    assert "nobody is left to be tested" in refused


def test_results_are_written_in_the_order_of_the_day_and_another_order_is_warned_about(
    browse: Browse, squad: tuple[str, ...]
) -> None:
    """Last time he held his chin up before he jumped: the order of kinds forbids it today."""
    two = ("jacket_chin_up_hold", "countermovement_jump")
    for place, test in enumerate(two, 1):
        method = "stopwatch" if place == 1 else "jump and reach"
        typed = {"method": method, "day": "2026-02-02", "who": f"A05~{place}"}
        typed |= {"cell-A05-1": "40", "unit": "s" if place == 1 else "cm"}
        browse.post(f"/tests/{test}/enter", typed)
    page = page_of(browse.get(day_of(("A02", "A05", "A06"))))
    words = words_of(page.get_element_by_id("content"))
    assert "Parwana Sohrabin: today" in words
    assert "last time Chin-up hold on the jacket, Countermovement jump." in words
    assert "may come from the order" in words
    link = next(link for link in page.xpath("//a/@href") if "/countermovement_jump/enter" in link)
    order = [value.partition("~")[0] for value in parse_qs(urlsplit(link).query)["who"]]
    sheet = page_of(browse.get(link))
    assert [v.partition("~")[0] for v in sheet.xpath("//input[@name='who']/@value")] == order
    typed = {"method": "jump and reach", "day": "2026-03-02", "unit": "cm"}
    who = list(sheet.xpath("//input[@name='who']/@value"))
    browse.post(
        "/tests/countermovement_jump/enter",
        {**typed, "who": who, **{f"cell-{a}-1": "41" for a in order}},
    )
    entries = read_diary(browse.keeper, kinds=(DiaryKind.TEST,), since=date(2026, 3, 2))
    places = {e.athlete: e.content.place for e in entries if isinstance(e.content, TestResult)}
    assert set(places) == {"A02", "A05", "A06"}
    assert all(place in (1, 2) for place in places.values())


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ("minutes=75:minutes=40", "Give a longer slot"),
        ("helpers=3:helpers=many", "'many' is not a number"),
        ("minutes=75:minutes=0", "0 min is outside 1 to 480 min"),
        ("starts_at=18:00:starts_at=late", "'late' is not a time of day"),
        ("order=power:order=alphabet", "is not one of the choices"),
    ],
)
def test_what_cannot_be_is_told_and_what_was_asked_stays(
    browse: Browse, squad: tuple[str, ...], change: str, told: str
) -> None:
    name = change.partition("=")[0]
    before = change[: change.index(f":{name}=")]
    asked = day_of(squad[:12]).replace(before, change[len(before) + 1 :])
    page = page_of(browse.get(asked), 422)
    assert told in words_of(page)
    assert len(page.xpath("//input[@name='who'][@checked]")) == 12


def test_more_places_make_the_day_shorter(browse: Browse, squad: tuple[str, ...]) -> None:
    two = ("seated_chest_throw", "grip_strength")
    one = words_of(page_of(browse.get(day_of(squad[:8], two))))
    both = f"{day_of(squad[:8], two)}&places-seated_chest_throw=2"
    more = words_of(page_of(browse.get(both)))
    assert "26 of 75 min" in one
    # The first throw, then eight grips one after the other: 3 + 8 x 2 min.
    assert "19 of 75 min" in more
