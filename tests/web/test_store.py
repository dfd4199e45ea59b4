"""The pages of the store in process: each kind of piece, what is asked, what the plan says."""

from dataclasses import replace
from typing import Any

import pytest
from lxml import html

from read_pages import changed, page_of, words_of
from site_server import Browse
from squadwright.model.kit import Ball, Bar, Box, CollarPairs, OtherKit, PlatePair, SinglePlate
from squadwright.model.session import MissingKit
from squadwright.model.shelf import Piece, Shelf, find_piece, pieces_on
from squadwright.units import kilograms, pounds


def undo_of(page: html.HtmlElement) -> str:
    action: str = page.find_class("changed")[0].find("form").get("action")
    return action


def piece_now(browse: Browse, piece: str) -> Piece:
    with browse.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    return find_piece(club.kit, piece)[1]


def last_on(browse: Browse, shelf: Shelf) -> Piece:
    with browse.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    return pieces_on(club.kit, shelf)[-1]


def missing_now(browse: Browse) -> tuple[MissingKit, ...]:
    with browse.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    return club.session("monday-barbell").missing


def typed_in(page: html.HtmlElement) -> dict[str, str]:
    """The form of a piece as a browser would send it."""
    form = page.xpath("//form[contains(@class, 'form')][not(@aria-label)]")[0]
    sent = {
        field.get("name"): field.get("value", "")
        for field in form.xpath(".//input[@name][not(@type='checkbox')]")
    }
    sent |= {box.get("name"): "yes" for box in form.xpath(".//input[@type='checkbox'][@checked]")}
    for choice in form.xpath(".//select"):
        marked = choice.xpath("./option[@selected]") or choice.xpath("./option")
        sent[choice.get("name")] = marked[0].text
    sent.pop("_token", None)
    return sent


def test_the_store_stands_in_store_walk_order_with_stamped_and_weighed_masses(
    browse: Browse,
) -> None:
    page = page_of(browse.get("/store"))
    assert [words_of(head) for head in page.xpath("//main//h2")] == [
        *("Bars", "Plates in pairs", "Single plates", "Collars", "Balls", "Boxes", "Other"),
    ]
    rows = {words_of(row).split(" Out of")[0] for row in page.find_class("piece")}
    told = " | ".join(rows)
    assert "45 lb pair out of service 1 pair, stamped 45 lb (20.41 kg), weighed 20.41 kg" in told
    assert "10 kg technique bar 10 kg, carries 30 kg at most, technique bar" in told
    assert "50 \N{MULTIPLICATION SIGN} 60 cm, not for landings. Wobbles: do not use" in told
    assert len(page.find_class("piece")) == 36


@pytest.mark.parametrize(
    ("shelf", "typed", "stored"),
    [
        (
            Shelf.BARS,
            {"name": "bar with a bend", "mass": "33", "mass_unit": "lb", "length_m": "1.8"},
            Bar("", "bar with a bend", pounds(33), length_m=1.8),
        ),
        (
            Shelf.PLATES,
            {"stamped": "45", "stamped_unit": "lb", "pairs": "2"},
            PlatePair("", pounds(45), 2),
        ),
        (
            Shelf.PLATES,
            {
                **{"stamped": "10", "stamped_unit": "kg", "measured": "10.12"},
                **{"measured_unit": "kg", "pairs": "1", "is_full_size": "yes"},
            },
            PlatePair("", kilograms("10.12"), 1, stamped=kilograms(10), is_full_size=True),
        ),
        (
            Shelf.SINGLE_PLATES,
            {"stamped": "2.5 kg", "count": "3", "note": "hand targets"},
            SinglePlate("", kilograms("2.5"), 3, note="hand targets"),
        ),
        (Shelf.COLLARS, {"pairs": "2", "pair_mass": ""}, CollarPairs("", 2)),
        (
            Shelf.BALLS,
            {"mass": "5", "mass_unit": "kg", "count": "2", "fit_for_walls": "yes"},
            Ball("", kilograms(5), 2, bounces=False),
        ),
        (
            Shelf.BOXES,
            {
                **{"heights": "20, 45.5", "top_width": "50", "top_depth": "40"},
                "fit_for_landing": "yes",
            },
            Box("", (0.2, 0.455), 0.5, 0.4),
        ),
        (Shelf.OTHER, {"name": "cone", "count": "12", "height": "23"}, OtherKit("", "cone", 12,
                                                                               height_m=0.23)),
    ],
)  # fmt: skip
def test_a_piece_of_each_kind_is_added_as_typed_and_taken_back(
    browse: Browse, shelf: Shelf, typed: dict[str, Any], stored: Piece
) -> None:
    page_of(browse.get(f"/store/new/{shelf.value}"))
    page = page_of(browse.post(f"/store/add/{shelf.value}", typed))
    assert "is in the store. Monday barbell:" in changed(page)
    added = last_on(browse, shelf)
    assert replace(added, id="") == stored
    page_of(browse.post(undo_of(page), {"back": "/store"}))
    assert last_on(browse, shelf) != added


@pytest.mark.parametrize(
    "piece",
    [*("bar-10", "plates-45-lb", "plates-10", "plate-5-lone", "collars", "ball-3-taped"),
     *("foam-1", "hurdles")],
)  # fmt: skip
def test_a_form_sent_as_it_stands_changes_nothing(browse: Browse, piece: str) -> None:
    before = piece_now(browse, piece)
    typed = typed_in(page_of(browse.get(f"/store/piece/{piece}")))
    page = page_of(browse.post(f"/store/piece/{piece}/change", typed))
    assert "is changed. Monday barbell: Nobody has a change." in changed(page)
    assert piece_now(browse, piece) == before


def test_a_plate_of_45_lb_typed_as_45_kg_is_asked_and_kept_as_one_of_45_lb(
    browse: Browse,
) -> None:
    typed = {"stamped": "45", "stamped_unit": "kg", "pairs": "1", "note": "from the quay"}
    page = page_of(browse.post("/store/add/plates", typed), 422)
    question = page.xpath("//form[@aria-label='Please say what is meant']")[0]
    assert "45 kg? Plates of 45 lb (20.41 kg) are usual." in words_of(question)
    assert last_on(browse, Shelf.PLATES).id == "plates-2.5-lb"
    assert page.get_element_by_id("field-note").get("value") == "from the quay"
    meant = question.xpath(".//button[@name='meant']/@value")[0]
    page = page_of(browse.post("/store/add/plates", {**typed, "meant": meant}))
    assert changed(page).startswith("45 lb pair is in the store.")
    stored = last_on(browse, Shelf.PLATES)
    assert isinstance(stored, PlatePair)
    assert stored.plate == pounds(45)
    assert round(stored.plate.kg, 2) == 20.41


def test_what_is_only_seldom_so_is_taken_when_the_coach_says_it_is_so(browse: Browse) -> None:
    typed = {"stamped": "45", "stamped_unit": "kg", "pairs": "1"}
    page = page_of(browse.post("/store/add/plates", typed), 422)
    so = page.xpath("//button[@name='so']/@value")[0]
    # The answer holds for what was asked, not for another number.
    page_of(browse.post("/store/add/plates", {**typed, "stamped": "35", "so": so}), 422)
    page_of(browse.post("/store/add/plates", {**typed, "so": so}))
    stored = last_on(browse, Shelf.PLATES)
    assert isinstance(stored, PlatePair)
    assert stored.plate == kilograms(45)


@pytest.mark.parametrize(
    ("shelf", "typed", "asked", "meant"),
    [
        (
            "bars",
            {"name": "bar", "mass": "200", "mass_unit": "kg", "length_m": "2.2"},
            "200 kg? Bars of 5 to 25 kg are usual.",
            "20 kg",
        ),
        (
            "balls",
            {"mass": "60", "mass_unit": "kg", "count": "1"},
            "60 kg? Balls of 1 to 15 kg are usual.",
            "6 kg",
        ),
        (
            "boxes",
            {"heights": "300", "top_width": "50", "top_depth": "50"},
            "A box of 300 cm? Boxes of 10 to 120 cm are usual.",
            "30 cm",
        ),
    ],
)
def test_what_cannot_be_is_never_stored_as_typed(
    browse: Browse, shelf: str, typed: dict[str, str], asked: str, meant: str
) -> None:
    page = page_of(browse.post(f"/store/add/{shelf}", typed), 422)
    question = page.xpath("//form[@aria-label='Please say what is meant']")[0]
    assert asked in words_of(question)
    assert [words_of(b) for b in question.xpath(".//button[@name='meant']")] == [meant]
    assert question.xpath(".//button[@name='so']") == []
    page_of(browse.post(f"/store/add/{shelf}", {**typed, "so": "anything"}), 422)


@pytest.mark.parametrize(
    ("shelf", "typed", "told"),
    [
        ("plates", {"stamped": "ten", "pairs": "1"}, "'ten' is not a mass"),
        ("plates", {"stamped": "10 kg", "pairs": "1.5"}, "1.5 is not a whole number"),
        ("plates", {"stamped": "10 kg", "pairs": "900"}, "900 pairs is outside 0 to 200 pairs"),
        ("bars", {"name": "", "mass": "20 kg", "length_m": "2.2"}, "Name: is empty"),
        ("boxes", {"heights": "knee high", "top_width": "50", "top_depth": "50"},
         "'knee high' is not a list of heights"),
        ("balls", {"mass": "4 kg", "count": "0"}, "0 balls is outside 1 to 200 balls"),
    ],
)  # fmt: skip
def test_a_form_that_cannot_be_used_says_why_and_keeps_what_was_typed(
    browse: Browse, shelf: str, typed: dict[str, str], told: str
) -> None:
    page = page_of(browse.post(f"/store/add/{shelf}", typed), 422)
    assert told in words_of(page)
    for name, value in typed.items():
        assert page.xpath(f"//input[@name='{name}']/@value")[0] == value


def test_out_of_service_in_one_tap_says_what_the_next_session_makes_of_it(browse: Browse) -> None:
    page = page_of(browse.post("/store/piece/bar-20-1/service", {"service": "out"}))
    line = changed(page)
    assert line.startswith("20 kg bar 1 is out of service. Monday barbell: ")
    assert "wave" in line
    assert "out of service" in words_of(page.find_class("piece")[0])
    page = page_of(browse.post("/store/piece/bar-20-1/service", {"service": "in"}))
    assert changed(page).startswith("20 kg bar 1 is back in service. Monday barbell: ")
    page = page_of(browse.post("/store/piece/chalk/service", {"service": "out"}))
    assert changed(page) == "Chalk is out of service. Monday barbell: Nobody has a change."


def test_one_pair_fewer_is_missing_for_the_next_session_alone(browse: Browse) -> None:
    page = page_of(browse.post("/store/piece/plates-2.5/fewer"))
    assert changed(page).startswith("2.5 kg pair: 1 not there for Monday barbell. ")
    assert missing_now(browse) == (MissingKit("plates-2.5", 1),)
    now = piece_now(browse, "plates-2.5")
    assert isinstance(now, PlatePair)
    assert now.pairs == 5
    assert "1 pair not there for Monday barbell, Mon 2 Mar." in words_of(page)
    page = page_of(browse.post("/store/piece/plates-2.5/more"))
    assert changed(page).startswith("2.5 kg pair: 1 found again for Monday barbell.")
    assert missing_now(browse) == ()


def test_more_than_there_are_cannot_be_missing(browse: Browse) -> None:
    for _ in range(2):
        page_of(browse.post("/store/piece/plates-10/fewer"))
    page = page_of(browse.post("/store/piece/plates-10/fewer"), 422)
    assert "1 of 10 kg pair cannot be missing: 0 are there" in words_of(page)
    assert missing_now(browse) == (MissingKit("plates-10", 2),)


def test_a_piece_taken_out_is_gone_and_comes_back_with_what_missed_it(browse: Browse) -> None:
    page_of(browse.post("/store/piece/plates-10/fewer"))
    page = page_of(browse.post("/store/piece/plates-10/remove"))
    assert changed(page).startswith("10 kg pair is taken out. Monday barbell:")
    assert missing_now(browse) == ()
    assert browse.get("/store/piece/plates-10").status_code == 404
    page_of(browse.post(undo_of(page), {"back": "/store"}))
    assert missing_now(browse) == (MissingKit("plates-10", 1),)
    assert piece_now(browse, "plates-10") == PlatePair("plates-10", kilograms(10), 2)


def test_a_form_over_something_changed_since_shows_both_and_keeps_what_was_typed(
    browse: Browse,
) -> None:
    typed = typed_in(page_of(browse.get("/store/piece/plates-10")))
    page_of(browse.post("/store/piece/plates-10/change", {**typed, "pairs": "3"}))
    late = {**typed, "pairs": "4"}
    page = page_of(browse.post("/store/piece/plates-10/change", late), 422)
    assert "was changed somewhere else" in words_of(page)
    assert "Stored now: 3 pairs, stamped 10 kg." in words_of(page)
    assert page.get_element_by_id("field-pairs").get("value") == "4"
    page_of(browse.post("/store/piece/plates-10/change", typed_in(page)))
    now = piece_now(browse, "plates-10")
    assert isinstance(now, PlatePair)
    assert now.pairs == 4


def test_pages_that_are_not_there(browse: Browse, browse_empty: Browse) -> None:
    for path in ("/store/new/shoes", "/store/piece/unknown", "/missing/unknown"):
        assert browse.get(path).status_code == 404
    assert browse.post("/store/piece/plate-5-lone/service", {"service": "out"}).status_code == 422
    for path in ("/store", "/missing/monday-barbell", "/store/new/bars"):
        assert browse_empty.get(path).status_code in (200, 404)
