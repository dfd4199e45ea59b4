"""What if, in process and without scripts: the form, the words, the ways on, what cannot be."""

from typing import Any
from urllib.parse import urlencode

import pytest
from lxml import html

from read_pages import club_of, page_of, words_of
from site_server import Browse
from squadwright.services.clubs import load_club
from squadwright.web.what_if.words import chance_text, in_sentence

PATH = "/what-if/monday-barbell/A06"
BLOCK = {"block": "Ropewalk"}


def tried(browse: Browse, path: str = PATH, status: int = 200, **values: Any) -> html.HtmlElement:
    return page_of(browse.get(f"{path}?{urlencode(BLOCK | values)}"), status)


def headline(page: html.HtmlElement) -> str:
    return words_of(page.find_class("what-if-headline")[0])


def details(page: html.HtmlElement) -> str:
    return words_of(page.find_class("what-if-details")[0])


def typed_in(page: html.HtmlElement) -> dict[str, str]:
    return dict(page.find_class("what-if-form")[0].fields)


def test_each_load_with_a_chance_leads_to_its_what_if_and_no_other(browse: Browse) -> None:
    page = page_of(browse.get("/today/monday-barbell"))
    links = [link for link in page.xpath("//a/@href") if link.startswith("/what-if/")]
    assert f"{PATH}?block=Ropewalk" in links
    assert len(links) == 11
    assert not any("/A12" in link for link in links)
    for link in links:
        page_of(browse.get(link))


def test_it_begins_with_the_values_and_the_numbers_of_the_plan(browse: Browse) -> None:
    page = tried(browse)
    assert "Plan: 35 kg, 4 rounds, 140 s of rest between the rounds." in words_of(page)
    assert headline(page) == (
        "94 % chance by the model 36.7 kg heaviest load at 90 % "
        "Nothing is moved: these are the numbers of the plan."
    )
    assert typed_in(page) == {
        "block": "Ropewalk",
        "load_kg": "35",
        "rest_s": "140",
        "rounds": "4",
        "more": "0",
        "repetitions_1": "6",
        "repetitions_2": "4",
        "repetitions_3": "6",
        "repetitions_4": "4",
        "repetitions_5": "6",
        "repetitions_6": "6",
    }
    on_plan = words_of(page_of(browse.get("/today/monday-barbell")))
    assert "Chance of every repetition 94 %" in on_plan
    assert not page.find_class("what-if-uses")


def test_the_form_is_a_plain_get_that_gives_the_same_page_with_what_it_does(
    browse: Browse,
) -> None:
    form = tried(browse).find_class("what-if-form")[0]
    assert (form.get("method"), form.get("action")) == ("get", PATH)
    page = tried(browse, **(typed_in(tried(browse)) | {"rest_s": "60"}))
    assert headline(page) == (
        "76 % chance by the model (plan 94 %) 31.7 kg heaviest load at 90 % (plan 36.7 kg) "
        "80 s less rest: the chance falls from 94 to 76 %, muscle clean still gives out first, in "
        "round 4."
    )
    told = details(page)
    assert "80 s less rest. Less of the tiredness of a round is gone when the next one" in told
    assert "Below the chance of 90 % that you ask for." in told
    assert "plan 13.3" in told
    assert "Rest and repetitions are those of the routine" in told


def test_what_gives_out_first_moves_with_its_repetitions(browse: Browse) -> None:
    page = tried(browse, repetitions_4="1", repetitions_6="14")
    assert (
        "Muscle clean 1 instead of 4 and split-stance strict press 14 instead of 6: the chance "
        in headline(page)
    )
    assert (
        "split-stance strict press gives out first, in round 4, instead of muscle clean in round 4"
        in headline(page)
    )
    assert "More repetitions tire more within a round." in details(page)
    assert "Fewer repetitions tire less within a round." in details(page)


def test_one_number_moves_the_repetitions_of_each_and_none_goes_below_one(
    browse: Browse,
) -> None:
    assert headline(tried(browse, more="1")).count("1 repetition more of each: the chance falls")
    page = tried(browse, more="-5")
    assert "6 changes: the chance rises from 94 to 99 %" in headline(page)
    assert "Muscle clean 1 instead of 4. Fewer repetitions tire less" in details(page)


def test_a_load_and_rounds_that_are_liked_lead_to_the_override_filled_in(browse: Browse) -> None:
    page = tried(browse, load_kg="32.5", rounds="3")
    assert "2.5 kg less and 1 round fewer: the chance rises from" in headline(page)
    links = page.find_class("what-if-uses")[0].xpath(".//a")
    assert [words_of(link) for link in links] == ["Use this load: 32.5 kg", "Use these rounds: 3"]
    load, rounds = (page_of(browse.get(link.get("href").partition("#")[0])) for link in links)
    assert load.get_element_by_id("field-load").get("value") == "32.5"
    assert rounds.get_element_by_id("field-rounds").get("value") == "3"
    for link, page in zip(links, (load, rounds), strict=True):
        page.get_element_by_id(link.get("href").partition("#")[2])


def test_more_than_a_restriction_by_medical_staff_allows_is_not_offered(browse: Browse) -> None:
    page = tried(browse, "/what-if/monday-barbell/A04", load_kg="60")
    assert not page.xpath("//a[contains(., 'Use this load')]")
    assert "not above 38.8 kg without a written clearance" in details(page)
    page = tried(browse, "/what-if/monday-barbell/A04", load_kg="30")
    assert page.xpath("//a[contains(., 'Use this load')]")


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ({"rest_s": "4000"}, "Rest: 4000 s is outside 0 to 3600 s"),
        ({"rest_s": ""}, "Rest: is empty"),
        ({"rounds": "0"}, "Rounds: 0 rounds is outside 1 to 30 rounds"),
        ({"rounds": "2.5"}, "Rounds: 2.5 is not a whole number"),
        ({"load_kg": "32,5"}, "Load: '32,5' is not a number. Write it like 32.5, with a point"),
        ({"load_kg": "0.4"}, "Load: 0.4 kg is outside 0.5 to 600 kg"),
        ({"more": "21"}, "More or fewer of each: 21 repetitions is outside -20 to 20"),
        ({"repetitions_4": "0"}, "Muscle clean: 0 repetitions is outside 1 to 100"),
        (
            {"repetitions_4": "95", "more": "10"},
            "Muscle clean: 95 and 10 more are 105 repetitions, at most 100 fit",
        ),
    ],
)
def test_what_cannot_be_worked_out_is_told_beside_its_field_and_stays_as_typed(
    browse: Browse, values: dict[str, str], told: str
) -> None:
    page = tried(browse, status=422, **(values | {"repetitions_1": "7"}))
    assert told in headline(page)
    kept = typed_in(page)
    assert {name: kept[name] for name in values} == values
    assert kept["repetitions_1"] == "7"
    wrong = page.xpath("//*[@aria-invalid='true']/@name")
    assert len(wrong) == 1
    assert wrong[0] in values


def test_two_mistakes_are_told_at_once(browse: Browse) -> None:
    page = tried(browse, status=422, rest_s="soon", rounds="99")
    assert len(page.find_class("field-error")) == 2


def test_the_parts_that_move_are_those_of_the_page(browse: Browse) -> None:
    values = BLOCK | {"rest_s": "60", "load_kg": "34"}
    answer = browse.get(f"{PATH}/answer?{urlencode(values)}")
    assert answer.headers["content-type"] == "application/json"
    parts, page = answer.json(), tried(browse, **values)
    assert words_of(html.fromstring(f"<div>{parts['headline']}</div>")) == headline(page)
    assert words_of(html.fromstring(f"<div>{parts['details']}</div>")) == details(page)
    assert parts["told"] in headline(page)
    refused = browse.get(f"{PATH}/answer?{urlencode(values | {'rounds': '99'})}")
    assert refused.status_code == 422
    assert "99 rounds is outside 1 to 30 rounds" in refused.json()["headline"]


def test_looking_stores_nothing(browse: Browse) -> None:
    before = club_of(browse)
    tried(browse, rest_s="60", load_kg="50")
    assert load_club(browse.keeper) == before


def test_what_is_typed_never_becomes_markup(browse: Browse) -> None:
    answer = browse.get(f"{PATH}?{urlencode(BLOCK | {'rest_s': '<b>60</b>'})}")
    assert answer.status_code == 422
    assert "<b>60</b>" not in answer.text


@pytest.mark.parametrize(
    ("path", "told"),
    [
        (f"{PATH}?block=none", "does nothing in none"),
        (PATH, "does nothing in Monday barbell"),
        ("/what-if/monday-barbell/A99?block=Ropewalk", "does nothing in Ropewalk"),
        ("/what-if/monday-barbell/A12?block=Ropewalk", "No load is worked out for"),
        ("/what-if/no-such-session/A06?block=Ropewalk", "no-such-session"),
    ],
)
def test_who_has_no_worked_out_load_is_not_found_and_told_why(
    browse: Browse, path: str, told: str
) -> None:
    answer = browse.get(path)
    assert answer.status_code == 404
    assert told in words_of(html.fromstring(answer.text))


@pytest.mark.parametrize(
    ("chance", "words"),
    [(0.0, "under 1 %"), (0.004, "under 1 %"), (0.005, "1 %"), (0.784, "78 %"), (0.996, "99 %"),
     (1.0, "over 99 %")],
)  # fmt: skip
def test_a_chance_is_never_told_as_certain(chance: float, words: str) -> None:
    assert chance_text(chance) == words


def test_a_name_in_a_sentence_begins_small_unless_it_is_a_letter() -> None:
    assert in_sentence("Split-stance strict press") == "split-stance strict press"
    assert in_sentence("T-bar row") == "T-bar row"
