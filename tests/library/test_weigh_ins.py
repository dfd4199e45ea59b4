"""Weigh-in rules: the lists as printed, and readings judged to the last digit.

Each row says how it was had: second hand or read (a page that prints it), memory, calc.
"""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import InvalidInput, NotFound
from squadwright.formulas.sources import Provenance
from squadwright.library.weigh_ins import weigh_in_rule, weigh_in_rules
from squadwright.model.weigh_in import (
    NOT_CONFIRMED,
    OnTheScale,
    confirmed,
    limit_with_allowances,
    on_the_scale,
    papers_needed,
)
from squadwright.units import Mass, kilograms, pounds

DAY = date(2024, 8, 7)


def judged(
    rule_id: str, group: str, name: str, weigh_in: str, reading: Mass, later_days: int = 0
) -> OnTheScale:
    rule = weigh_in_rule(rule_id)
    return on_the_scale(
        rule,
        rule.weight_class(group, name),
        rule.weigh_in(weigh_in),
        reading,
        later_days=later_days,
    )


def test_case_7_a_pound_is_allowed_in_a_bout_without_a_title() -> None:
    """Case 7 (memory for the pound, second hand for the class): 155.9 lb."""
    bout = judged("unified_rules_2017", "all", "155", "bout", pounds("155.9"))
    assert bout.makes_weight
    assert bout.limit == Decimal(156)
    title = judged("unified_rules_2017", "all", "155", "title", pounds("155.9"))
    assert not title.makes_weight
    assert title.beyond == Decimal("0.9")
    assert "over 155 lb by 0.9 lb" in title.sentence
    assert "from memory" in title.caution


def test_case_9_a_judo_check_compares_five_percent_exactly() -> None:
    """Case 9 (memory): 66 kg, 69.30 passes and 69.31 fails."""
    men = "men, senior and junior"
    assert judged("ijf", men, "66", "morning_check", kilograms("69.30")).makes_weight
    failed = judged("ijf", men, "66", "morning_check", kilograms("69.31"))
    assert not failed.makes_weight
    assert failed.beyond == Decimal("0.01")
    assert failed.consequence == "fails the check"


def test_case_10_a_second_day_has_no_tolerance() -> None:
    """Case 10 (second hand): women 50 at 50.1 on day 2."""
    found = judged("uww_senior_2018", "women", "50", "day_2", kilograms("50.1"))
    assert not found.makes_weight
    assert found.consequence == "eliminated, ranked last"
    assert weigh_in_rule("uww_senior_2018").weigh_in("day_2").is_second


def test_case_11_two_kilograms_are_for_a_world_cup_only() -> None:
    """Case 11 (second hand): 65 at 66.9."""
    reading = kilograms("66.9")
    assert judged("uww_senior_2018", "men, freestyle", "65", "world_cup", reading).makes_weight
    ranking = judged("uww_senior_2018", "men, freestyle", "65", "ranking", reading)
    assert not ranking.makes_weight
    assert ranking.beyond == Decimal("1.9")


@pytest.mark.parametrize(
    ("group", "name", "ceiling"),
    [
        ("men, senior and junior", "60", "63.00"),
        ("men, senior and junior", "66", "69.30"),
        ("men, senior and junior", "73", "76.65"),
        ("men, senior and junior", "81", "85.05"),
        ("men, senior and junior", "90", "94.50"),
        ("men, senior and junior", "100", "105.00"),
        ("women, senior and junior", "48", "50.40"),
        ("women, senior and junior", "52", "54.60"),
        ("women, senior and junior", "57", "59.85"),
        ("women, senior and junior", "63", "66.15"),
        ("women, senior and junior", "70", "73.50"),
        ("women, senior and junior", "78", "81.90"),
    ],
)
def test_each_judo_ceiling(group: str, name: str, ceiling: str) -> None:
    """calc from a figure of memory."""
    rule = weigh_in_rule("ijf")
    limit = limit_with_allowances(
        rule, rule.weight_class(group, name), rule.weigh_in("morning_check")
    )
    assert limit == Decimal(ceiling)


KILOGRAMS = [
    (105, "47.63", "48.08"),
    (115, "52.16", "52.62"),
    (125, "56.70", "57.15"),
    (135, "61.23", "61.69"),
    (145, "65.77", "66.22"),
    (155, "70.31", "70.76"),
    (165, "74.84", "75.30"),
    (170, "77.11", "77.56"),
    (175, "79.38", "79.83"),
    (185, "83.91", "84.37"),
    (195, "88.45", "88.90"),
    (205, "92.99", "93.44"),
    (225, "102.06", "102.51"),
    (265, "120.20", "120.66"),
]


@pytest.mark.parametrize(("limit_lb", "limit_kg", "with_a_pound_kg"), KILOGRAMS)
def test_a_class_in_pounds_is_shown_in_kilograms(
    limit_lb: int, limit_kg: str, with_a_pound_kg: str
) -> None:
    """calc, 1 lb = 0.45359237 kg."""
    assert f"{pounds(limit_lb).exact_kg:.2f}" == limit_kg
    assert f"{pounds(limit_lb + 1).exact_kg:.2f}" == with_a_pound_kg


PRINTED = {
    ("unified_rules_2017", "all"): "115 125 135 145 155 165 170 175 185 195 205 225 265 +265",
    ("uww_senior_2018", "men, freestyle"): "57 61 65 70 74 79 86 92 97 125",
    ("uww_senior_2018", "men, Greco-Roman"): "55 60 63 67 72 77 82 87 97 130",
    ("uww_senior_2018", "women"): "50 53 55 57 59 62 65 68 72 76",
    ("uww_youth_2019", "U15 boys"): "38 41 44 48 52 57 62 68 75 85",
    ("uww_youth_2019", "U17 boys"): "45 48 51 55 60 65 71 80 92 110",
    ("uww_youth_2019", "U15 girls"): "33 36 39 42 46 50 54 58 62 66",
    ("fias_2021", "men and combat"): "58 64 71 79 88 98 +98",
    ("fias_2021", "women"): "50 54 59 65 72 80 +80",
    ("fias_before_2021", "men"): "52 57 62 68 74 82 90 100 +100",
    ("fias_before_2021", "women"): "48 52 56 60 64 68 72 80 +80",
    ("ncaa", "men"): "125 133 141 149 157 165 174 184 197 285",
    ("nfhs_2023", "boys, 12 classes"): "108 116 124 131 138 145 152 160 170 190 215 285",
    ("nfhs_2023", "boys, 13 classes"): "107 114 121 127 133 139 145 152 160 172 189 215 285",
    ("nfhs_2023", "boys, 14 classes"): "106 113 120 126 132 138 144 150 157 165 175 190 215 285",
    ("nfhs_2023", "girls, 12 classes"): "100 107 114 120 126 132 138 145 152 165 185 235",
    ("nfhs_2023", "girls, 13 classes"): "100 106 112 118 124 130 136 142 148 155 170 190 235",
    ("nfhs_2023", "girls, 14 classes"): "100 105 110 115 120 125 130 135 140 145 155 170 190 235",
    ("olympic_boxing_2028", "men"): "55 60 65 70 80 90 +90",
    ("olympic_boxing_2028", "women"): "51 54 57 60 65 70 75",
    ("olympic_boxing_2024", "men"): "51 57 63.5 71 80 92 +92",
    ("olympic_boxing_2024", "women"): "50 54 57 60 66 75",
    ("olympic_boxing_2020", "men"): "52 57 63 69 75 81 91 +91",
    ("olympic_boxing_2020", "women"): "51 57 60 69 75",
}
"""As printed on the pages that the rules name, apart from limits they mark as recalled."""


@pytest.mark.parametrize("place", PRINTED)
def test_a_list_of_classes_is_the_printed_one(place: tuple[str, str]) -> None:
    rule_id, group = place
    found = weigh_in_rule(rule_id).group(group)
    assert " ".join(c.name for c in found.classes) == PRINTED[place]
    assert found.mark is not Provenance.MEMORY


def test_wrong_lists_in_circulation_are_not_used() -> None:
    """A news page prints 205 for 225; a results page gives Paris as 2028; a page misprints 130."""
    unified = [c.name for c in weigh_in_rule("unified_rules_2017").group("all").classes]
    assert "225" in unified
    assert unified.count("205") == 1
    paris = weigh_in_rule("olympic_boxing_2024").group("men").limits
    assert weigh_in_rule("olympic_boxing_2028").group("men").limits != paris
    greco = weigh_in_rule("uww_senior_2018").weight_class("men, Greco-Roman", "130")
    assert greco.mark is Provenance.MEMORY


def test_what_comes_from_memory_says_so() -> None:
    rule = weigh_in_rule("olympic_boxing_2028")
    marks = {c.name: c.mark for c in rule.group("women").classes}
    assert [name for name, mark in marks.items() if mark is Provenance.MEMORY] == [
        *("51", "54", "57", "60")
    ]
    memory_only = {"ijf", "grappling"}
    for each in weigh_in_rules():
        for group in each.groups:
            assert ("recalled" in group.source) == (
                group.mark is Provenance.MEMORY or bool(group.recalled)
            )
        if each.id in memory_only:
            assert {g.mark for g in each.groups} == {Provenance.MEMORY}


def test_no_rule_comes_confirmed_and_each_says_its_source() -> None:
    rules = weigh_in_rules()
    assert len(rules) >= 12
    assert len({rule.id for rule in rules}) == len(rules)
    for rule in rules:
        assert rule.standing("anything", DAY).startswith(NOT_CONFIRMED)
        assert rule.confirmed_by is None
        for part in (*rule.groups, *rule.weigh_ins):
            assert part.source


def test_classes_go_up_and_allowances_are_small() -> None:
    for rule in weigh_in_rules():
        for group in rule.groups:
            assert list(group.limits) == sorted(set(group.limits))
            assert set(group.recalled) <= set(group.limits)
            assert {upper for upper, _ in group.lower_limits} <= set(group.limits)
        for weigh_in in rule.weigh_ins:
            assert weigh_in.allowance <= 2
            assert weigh_in.ceiling_percent <= 5


def test_the_coach_confirms_a_rule_for_one_event_and_no_other() -> None:
    rule = confirmed(weigh_in_rule("fias_2021"), "open-cup", by="A. Coach", on=date(2025, 2, 1))
    assert rule.standing("open-cup", DAY) == "confirmed by A. Coach on 1 Feb 2025"
    assert rule.standing("other-cup", DAY) == NOT_CONFIRMED
    assert {g.mark for g in rule.groups} == {Provenance.SECOND_HAND}
    with pytest.raises(InvalidInput, match="Say who looked the rule up"):
        confirmed(rule, "open-cup", by=" ", on=DAY)


def test_an_age_of_a_rule_is_told() -> None:
    old = weigh_in_rule("fias_before_2021")
    assert old.standing("x", date(2020, 12, 31)) == NOT_CONFIRMED
    assert old.standing("x", date(2021, 1, 1)).endswith("in force only up to 31 Dec 2020")
    uww = weigh_in_rule("uww_senior_2018")
    assert uww.standing("x", date(2017, 12, 31)).endswith("in force only from 1 Jan 2018")
    assert uww.standing("x", date(2024, 12, 31)) == NOT_CONFIRMED
    assert uww.standing("x", date(2025, 1, 1)).endswith("the rules from 2025 on were not read")


def test_an_open_upper_limit_does_not_belong_to_the_class() -> None:
    rule = weigh_in_rule("fias_2021")
    closed = rule.weight_class("women", "50")
    official = rule.weigh_in("official")
    assert on_the_scale(rule, closed, official, kilograms("50")).makes_weight
    is_open = replace(closed, closed_upper=False)
    assert not on_the_scale(rule, is_open, official, kilograms("50")).makes_weight
    assert on_the_scale(rule, is_open, official, kilograms("49.99")).makes_weight


def test_a_reading_in_the_other_unit_is_refused_and_nothing_is_converted() -> None:
    with pytest.raises(InvalidInput, match=r"reading: 70\.3 kg is not in lb.*Read the scale in lb"):
        judged("unified_rules_2017", "all", "155", "title", kilograms("70.3"))


@pytest.mark.parametrize(
    ("reading", "makes"), [("100", False), ("100.1", True), ("180", True), ("99.9", False)]
)
def test_the_class_without_an_upper_limit_begins_above_the_last_one(
    reading: str, makes: bool
) -> None:
    found = judged("ijf", "men, senior and junior", "+100", "official", kilograms(reading))
    assert found.makes_weight is makes
    assert found.limit is None


@pytest.mark.parametrize(("reading", "makes"), [("40.9", False), ("41", True), ("45", True)])
def test_the_lightest_youth_class_has_a_lower_limit(reading: str, makes: bool) -> None:
    """Second hand: U17 boys 41 to 45."""
    found = judged("uww_youth_2019", "U17 boys", "45", "day_1", kilograms(reading))
    assert found.makes_weight is makes


@pytest.mark.parametrize(("days", "limit"), [(0, "125"), (1, "126"), (2, "127"), (5, "127")])
def test_a_pound_for_each_consecutive_day_up_to_two(days: int, limit: str) -> None:
    """College (memory); high school prints the same (second hand, rules of 2013)."""
    found = judged("ncaa", "men", "125", "dual", pounds(limit), later_days=days)
    assert found.makes_weight
    assert found.limit == Decimal(limit)


def test_clothing_is_allowed_for_where_the_rule_says_so() -> None:
    """Ontario (read): 200 g in underwear, 600 g, 800 g and 1 kg in trousers and shirt."""
    rule = weigh_in_rule("ontario")
    assert [w.attire_allowance for w in rule.weigh_ins] == [
        *(Decimal("0.2"), Decimal("0.6"), Decimal("0.8"), Decimal(1))
    ]
    group = "men, senior and junior"
    assert judged("ontario", group, "73", "judogi_u16_u21", kilograms("73.8")).makes_weight
    assert not judged("ontario", group, "73", "underwear", kilograms("73.21")).makes_weight


def test_two_opponents_may_differ_by_the_difference_of_the_class() -> None:
    """Calgary 2018 (read): 7, 10, 15, 20, 30 and 40 lb."""
    classes = weigh_in_rule("calgary_2018").group("all").classes
    assert [str(c.most_difference) for c in classes] == [
        *("7", "10", "10", "10", "10", "10", "15", "15", "20", "30", "40")
    ]


@pytest.mark.parametrize(("group", "age"), [("U15 boys", 13), ("U17 boys", 15)])
def test_the_youngest_enter_with_papers_only(group: str, age: int) -> None:
    """Second hand: 13 and 15 with a medical certificate and the parents' consent."""
    found = weigh_in_rule("uww_youth_2019").group(group)
    assert papers_needed(found, age) == ("medical certificate", "consent of the parents")
    assert papers_needed(found, age + 1) == ()
    with pytest.raises(InvalidInput, match="is below"):
        papers_needed(found, age - 1)


def test_a_wrong_name_is_answered_with_those_there_are() -> None:
    rule = weigh_in_rule("fias_2021")
    with pytest.raises(NotFound, match=r"no class '90'.*58, 64, 71"):
        rule.weight_class("men and combat", "90")
    with pytest.raises(NotFound, match="men and combat; women"):
        rule.group("men")
    with pytest.raises(NotFound, match="Give one of official"):
        rule.weigh_in("day_2")
    with pytest.raises(NotFound, match="fias_2021"):
        weigh_in_rule("fias_2022")


@given(
    hundredths=st.integers(4000, 14000),
    allowance=st.integers(0, 200),
    limit=st.integers(40, 130),
)
def test_a_reading_makes_weight_exactly_up_to_the_limit(
    hundredths: int, allowance: int, limit: int
) -> None:
    rule = weigh_in_rule("uww_senior_2018")
    weight_class = replace(rule.weight_class("women", "50"), limit=Decimal(limit))
    weigh_in = replace(rule.weigh_in("day_1"), allowance=Decimal(allowance) / 100)
    found = on_the_scale(rule, weight_class, weigh_in, kilograms(Decimal(hundredths) / 100))
    assert found.makes_weight == (hundredths <= 100 * limit + allowance)
    assert found.beyond * 100 == max(0, hundredths - 100 * limit - allowance)
