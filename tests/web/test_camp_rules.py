"""The coach's rules of a camp: shown with their sources, kept, obeyed by the plan, taken back."""

import json
import re
from dataclasses import fields, replace

import pytest
from lxml.html import HtmlElement

from read_pages import club_of, words_of
from site_server import MONDAY, Browse
from squadwright.camp.effect import effect_on
from squadwright.camp.of_club import camp_of_club
from squadwright.camp.recheck import breaches
from squadwright.camp.rule_words import RETURN_WEEKS
from squadwright.camp.solve import solve_camp
from squadwright.demo import demo_club
from squadwright.exchange.club_file import examine_club, write_club
from squadwright.model.camp_rules import CampRules
from web.test_squad import form_of, main_of, told, undo

PATH = "/camp/rules"


def test_every_rule_stands_there_with_its_default_and_its_source(browse: Browse) -> None:
    page = main_of(browse.get(PATH).text)
    named = set(page.xpath(".//input[starts-with(@id, 'field-')]/@name"))
    returns = {f"return_week_{number}" for number in range(1, RETURN_WEEKS + 1)}
    assert named == {f.name for f in fields(CampRules)} - {"return_shares"} | returns
    words = words_of(page)
    assert "All as they come." in words
    assert "Default 41 %. 41 to 60 % less volume at the same load gained most" in words
    assert "Default 2 rounds. Coach's setting" in words
    assert "Between two hard sessions against a partner: 72 h" in words
    assert page.xpath(".//a[@href='/camp/week/limits']")
    for path in ("/camp", "/camp/plan", "/camp/week/limits"):
        assert main_of(browse.get(path).text).xpath(f".//a[@href='{PATH}']")


def folds_of(page: HtmlElement) -> dict[str, bool]:
    """What each folded part is called, and whether it is open."""
    return {words_of(each.find("summary")): "open" in each.attrib for each in page.iter("details")}


def test_the_rules_are_folded_by_what_they_are_about_and_open_where_the_coach_changed_one(
    browse: Browse,
) -> None:
    folds = folds_of(main_of(browse.get(PATH).text))
    assert not any(folds.values())
    assert sum(int(words.split(": ")[1].split()[0]) for words in folds if "rule" in words) == (
        len(fields(CampRules)) - 1 + RETURN_WEEKS
    )
    worth = next(words for words in folds if words.startswith("What an event is worth"))
    form = form_of(browse, PATH)
    browse.post(PATH, {**form, "other_weight": "0.5"})
    folds = folds_of(main_of(browse.get(PATH).text))
    assert {words for words, is_open in folds.items() if is_open} == {f"{worth}, 1 of your own"}
    wrong = browse.post(PATH, {**form_of(browse, PATH), "main_taper_d": "29"})
    opened = [d for d in main_of(wrong.text).iter("details") if "open" in d.attrib]
    assert any(d.xpath(".//input[@name='main_taper_d']") for d in opened)


def test_a_rule_is_kept_obeyed_told_and_taken_back(browse: Browse) -> None:
    form = form_of(browse, PATH)
    own = {"least_cut": "20", "most_cut": "30", "other_weight": "0.5", "return_week_3": "90"}
    answer = browse.post(PATH, {**form, **own})
    assert "The rules are stored." in answer.text
    assert "4 of your own" in answer.text
    kept = club_of(browse).camp_rules
    assert kept == CampRules(
        least_cut=0.2, most_cut=0.3, other_weight=0.5, return_shares=(0.5, 0.7, 0.9)
    )
    assert "takes off 20 to 30 %" in told(browse, "/camp/plan")
    taken_off = re.findall(
        r"rounds, (\d+) % fewer at the same load", told(browse, "/camp/plan/A09")
    )
    assert taken_off
    # Whole rounds and quiet days at the end take off a little more; by default 41 % are the least.
    assert all(20 <= int(each) < 41 for each in taken_off)
    assert form_of(browse, PATH)["least_cut"] == "20"
    undo(browse, answer)
    assert club_of(browse) == demo_club(MONDAY)


def test_all_rules_go_back_to_their_defaults_in_one_step(browse: Browse) -> None:
    form = form_of(browse, PATH)
    browse.post(PATH, {**form, "main_taper_d": "10", "return_week_2": ""})
    assert club_of(browse).camp_rules == CampRules(main_taper_d=10, return_shares=(0.5,))
    form = form_of(browse, PATH)
    answer = browse.post(f"{PATH}/defaults", form)
    assert "Every rule is at its default." in answer.text
    assert club_of(browse).camp_rules == CampRules()
    undo(browse, answer)
    assert club_of(browse).camp_rules.main_taper_d == 10


@pytest.mark.parametrize(
    ("field", "value", "words"),
    [
        ("main_taper_d", "29", "Taper before an A event: 29 d is outside 0 to 28 d"),
        ("main_taper_d", "7.5", "7.5 is not a whole number"),
        ("most_rise", "", "Rounds above the week before at most: is empty"),
        ("main_weight", "0", "0 times is outside 0.01 to 10 times"),
        ("week_floor", "120", "120 % is outside 0 to 100 %"),
        ("least_cut", "61", "61 % is above the most a taper takes off, 60 %"),
        ("return_week_2", "40", "40 % after 50 % goes down"),
        ("return_week_4", "90", "follows a week that is empty"),
        ("change_cost", "some", "'some' is not a number"),
    ],
)
def test_a_rule_that_cannot_be_stays_in_the_form(
    browse: Browse, field: str, value: str, words: str
) -> None:
    answer = browse.post(PATH, {**form_of(browse, PATH), field: value})
    assert answer.status_code == 422
    page = main_of(answer.text)
    assert words in words_of(page)
    assert page.xpath(f".//input[@name='{field}']/@value") == [value]
    assert club_of(browse) == demo_club(MONDAY)


def test_rules_that_changed_meanwhile_are_not_overwritten(browse: Browse) -> None:
    form = form_of(browse, PATH)
    browse.post(PATH, {**form, "most_rise": "3"})
    answer = browse.post(PATH, {**form, "most_rise": "1"})
    assert answer.status_code == 422
    assert "was changed somewhere else" in answer.text
    assert "was changed somewhere else" in browse.post(f"{PATH}/defaults", form).text
    assert club_of(browse).camp_rules == CampRules(most_rise=3)


def test_the_rules_go_out_with_the_club_and_come_back() -> None:
    club = replace(demo_club(MONDAY), camp_rules=CampRules(most_rise=3, return_shares=(0.4,)))
    found, complaints = examine_club(write_club(club), today=MONDAY)
    assert (found, complaints) == (club, [])
    older = json.loads(write_club(demo_club(MONDAY)))
    older.pop("camp_rules", None)
    found, complaints = examine_club(json.dumps(older), today=MONDAY)
    assert complaints == []
    assert found is not None
    assert found.camp_rules == CampRules()


@pytest.mark.parametrize(
    ("rules", "said"),
    [
        ({"most_rise": 21}, "21 is above the limit of 20"),
        ({"least_cut": 0.7}, "0.7 is above the most that a taper takes off, 0.6"),
        ({"return_shares": [0.7, 0.5]}, "0.5 after 0.7 goes down"),
        ({"return_shares": [0.1] * 5}, "return_shares"),
        ({"main_weight": 0}, "main_weight"),
    ],
)
def test_rules_in_a_file_that_cannot_be_are_named(rules: dict[str, object], said: str) -> None:
    document = json.loads(write_club(demo_club(MONDAY)))
    document["camp_rules"] = rules
    club, complaints = examine_club(json.dumps(document), today=MONDAY)
    assert club is None
    assert any(said in str(each) for each in complaints)


def test_what_b_events_are_worth_moves_the_plan() -> None:
    """The more a percent on them is worth, the more of it there is in all."""
    gained = []
    for weight in (0.0, 3.0):
        problem = camp_of_club(
            replace(demo_club(MONDAY), camp_rules=CampRules(other_weight=weight)), MONDAY
        )
        found = solve_camp(problem)
        assert breaches(problem, found) == []
        gained.append(
            sum(
                float(effect_on(problem, athlete, rounds, event.day).mean())
                for athlete, rounds in zip(problem.athletes, found.rounds, strict=True)
                for event in athlete.events
                if not event.is_main
            )
        )
    assert gained[1] > gained[0] + 0.01
