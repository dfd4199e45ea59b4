"""Every number of Today says what it rests on, at most two taps away."""

import re

import pytest
from lxml import html

from read_pages import words_of
from site_server import Browse

DIGIT = re.compile(r"\d")
BARBELL, PLYOMETRIC = "/today/monday-barbell", "/today/wednesday-plyometric"
NO_NUMBER_OF_OURS = ("page-head", "near-sessions", "other-sessions", "changed", "progress")
"""Day, hour and name of the session as entered, ways to other pages, what was just told."""

RESTS = {
    BARBELL: {
        "loads": (
            *("Load", "Load wanted and chance", "Reserve", "First session"),
            *("Plates on each side", "Rounds", "Tolerance", "Bare technique bar"),
        ),
        "done": ("Sets and repetitions",),
        "floor": ("Stations and distances", "Floor for each who lifts"),
        "set-up": ("How many to fetch",),
    },
    PLYOMETRIC: {
        "places": ("Ball", "Box height", "Contacts", "Throws", "Rounds and sets"),
        "done": ("Sets and repetitions",),
        "groups": ("Who works together",),
    },
}


def page_of(browse: Browse, path: str) -> html.HtmlElement:
    answer = browse.get(path)
    assert answer.status_code == 200
    return html.fromstring(answer.text)


def has_class(node: html.HtmlElement, name: str) -> bool:
    return name in (node.get("class") or "").split()


def nearest_whys(node: html.HtmlElement) -> list[html.HtmlElement]:
    """The disclosures of the nearest section round a node that has one."""
    for around in node.iterancestors("section"):
        whys = around.xpath(".//details[contains(@class, 'why')]")
        if whys:
            return list(whys)
    return []


@pytest.mark.parametrize("path", [BARBELL, PLYOMETRIC])
def test_each_number_stands_in_a_part_of_the_page_that_opens_its_why(
    browse: Browse, path: str
) -> None:
    main = page_of(browse, path).get_element_by_id("content")
    without = []
    for node in main.iter():
        if not isinstance(node.tag, str) or not DIGIT.search(node.text or ""):
            continue
        around = [node, *node.iterancestors()]
        is_exempt = any(has_class(a, name) for a in around for name in NO_NUMBER_OF_OURS)
        is_a_reason = any(a.get("aria-labelledby") in ("given", "cautions") for a in around)
        if not is_exempt and not is_a_reason and not nearest_whys(node):
            without.append(words_of(node))
    assert without == []


@pytest.mark.parametrize("path", [BARBELL, PLYOMETRIC])
def test_what_numbers_rest_on_names_rule_and_source(browse: Browse, path: str) -> None:
    page = page_of(browse, path)
    for part, names in RESTS[path].items():
        section = page.xpath(f"//section[@aria-labelledby='{part}']")[0]
        rests = section.xpath(".//dl[@class='rests']/div")
        assert [each.findtext("dt") for each in rests] == list(names)
        for each in rests:
            assert words_of(each.find_class("rests-on")[0])
            assert len(words_of(each.find("dd"))) > 30


def test_people_minutes_and_the_ratio_of_coaches_have_a_why(browse: Browse) -> None:
    who = page_of(browse, BARBELL).find_class("who")[0]
    told = {each.findtext("dt"): words_of(each) for each in who.xpath(".//dl[@class='rests']/div")}
    assert "12 athletes and 2 who coach; you allow 10 for each" in told["Athletes for each coach"]
    assert "60 minutes as entered" in told["Minutes"]
    browse.post(f"{BARBELL}/minutes-left", {"minutes": "50"})
    who = page_of(browse, BARBELL).find_class("who")[0]
    assert "50 of 60 minutes are left." in words_of(who)
    assert "50 of 60 minutes left, as you set it" in words_of(who)


def test_each_load_opens_chance_reserve_and_what_gives_out_first(browse: Browse) -> None:
    loads = page_of(browse, BARBELL).find_class("load")
    assert len(loads) == 12
    for load in loads:
        why = load.find_class("why")[0]
        facts = {each.text_content() for each in why.iter("dt")}
        if "Learns" not in words_of(why) and "bare technique bar" not in words_of(why):
            assert {"Chance of every repetition", "Left in reserve at the end"} <= facts


def test_the_run_sheet_opens_its_minutes_and_rests(browse: Browse) -> None:
    sheet = page_of(browse, BARBELL).find_class("run-sheet")[0]
    names = [each.text_content() for each in sheet.xpath(".//dl[@class='rests']//dt")]
    assert names == ["Minutes of work", "Rest", "Warm-up", "What is cut first"]
