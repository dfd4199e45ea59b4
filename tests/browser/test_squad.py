"""The squad in a real browser: wrong units, two of one name, every page in every look."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from looks import (
    Look,
    assert_accessible,
    assert_no_sideways_scroll,
    assert_readable_size,
)
from site_server import RunningSite
from squadwright.model.club import Club

Opener = Callable[..., Page]
PHONE = Look("light", 360)


def club_of(site: RunningSite) -> Club:
    with site.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    return club


def assert_all_well(page: Page) -> None:
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    assert_readable_size(page)


@pytest.mark.parametrize("scripts", [True, False])
def test_pounds_typed_as_kilograms_are_asked_about_and_put_right_with_one_tap(
    site: RunningSite, open_page: Opener, scripts: bool
) -> None:
    page = open_page(f"{site.url}/squad", look=PHONE, scripts=scripts)
    page.get_by_role("link", name="Sami Darwazin '01").click()
    page.get_by_role("link", name="Add a body mass").first.click()
    page.get_by_label("Body mass", exact=True).fill("170")
    page.get_by_role("button", name="Store").click()
    question = page.locator(".doubt")
    expect(question).to_contain_text("Nothing is stored yet.")
    expect(question).to_contain_text("170 kg? Usual is 78.0 kg. Pounds? 170 lb is 77.1 kg.")
    expect(question).to_be_in_viewport()
    expect(page.get_by_label("Body mass", exact=True)).to_have_value("170")
    expect(page.get_by_role("button", name="It is so: 170 kg")).to_be_visible()
    assert len(club_of(site).athlete("A08").body_mass) == 1
    if scripts:
        expect(question).to_be_focused()
        assert_all_well(page)
    page.get_by_role("button", name="170 lb is 77.1 kg").click()
    expect(page.locator(".changed")).to_contain_text("Body mass of Sami Darwazin '01 is stored.")
    expect(page.locator(".at-a-glance")).to_contain_text("170 lb (77.1 kg) on 2 Mar 2026")
    assert str(club_of(site).athlete("A08").body_mass[-1].reading) == "170 lb"
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".at-a-glance")).to_contain_text("78.0 kg on 28 Feb 2026")
    expect(page.get_by_role("heading", level=1)).to_have_text("Sami Darwazin '01")


def test_it_is_so_in_one_tap_keeps_what_was_typed(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}/squad/athlete/A08/body-mass/new", look=PHONE)
    page.get_by_label("Body mass", exact=True).fill("82")
    page.get_by_role("button", name="Store").click()
    expect(page.locator(".doubt")).to_contain_text("28 February 2026 is 78.0 kg: 5.1 % more.")
    page.get_by_role("button", name="It is so: 82 kg").click()
    expect(page.locator(".at-a-glance")).to_contain_text("82 kg on 2 Mar 2026")


@pytest.mark.parametrize("scripts", [True, False])
def test_a_second_of_one_name_is_asked_about_and_both_show_the_birth_year(
    site: RunningSite, open_page: Opener, scripts: bool
) -> None:
    page = open_page(f"{site.url}/squad/new", look=PHONE, scripts=scripts)
    page.get_by_label("Name", exact=True).fill("Sami Darwazin")
    page.get_by_label("Birth date").fill("1999-07-01")
    page.get_by_text("Male", exact=True).click()
    page.get_by_label("Sport").fill("judo")
    page.get_by_role("button", name="Add to the squad").click()
    question = page.locator(".doubt")
    expect(question).to_contain_text("Sami Darwazin '01, born 2001 and Sami Darwazin '12, born")
    expect(question.get_by_role("link")).to_have_count(2)
    expect(page.get_by_label("Sport")).to_have_value("judo")
    assert len(club_of(site).athletes) == 14
    if scripts:
        assert_all_well(page)
    page.get_by_role("button", name="It is so: another person, born 1999").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Sami Darwazin '99")
    page.get_by_role("link", name="The squad").click()
    for year in ("'99", "'01", "'12"):
        expect(page.get_by_role("link", name=f"Sami Darwazin {year}")).to_be_visible()


def test_one_person_in_the_squad_twice_is_put_together_by_hand_and_taken_apart_again(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/squad/new", look=PHONE, scripts=False)
    page.get_by_label("Name", exact=True).fill("Birk Aldervol")
    page.get_by_label("Birth date").fill("1995-05-18")
    page.get_by_text("Male", exact=True).click()
    page.get_by_label("Sport").fill("wrestling")
    page.get_by_role("button", name="Add to the squad").click()
    page.get_by_role("button", name="It is so: another person, born 1995").click()
    page.get_by_role("link", name="Add a body mass").first.click()
    page.get_by_label("Body mass", exact=True).fill("90.6")
    page.get_by_role("button", name="Store").click()
    page.get_by_role("link", name="Entered twice").click()
    page.get_by_role("link", name="Birk Aldervoll, born 1995").click()
    page.get_by_text("Birk Aldervoll", exact=True).last.click()
    page.get_by_role("button", name="They are one person").click()
    expect(page.locator(".changed")).to_contain_text("are one athlete now")
    expect(page.get_by_role("heading", level=1)).to_have_text("Birk Aldervoll")
    expect(page.locator(".at-a-glance")).to_contain_text("90.6 kg on 2 Mar 2026")
    assert len(club_of(site).athletes) == 14
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".at-a-glance")).to_contain_text("90.2 kg on 28 Feb 2026")
    assert len(club_of(site).athletes) == 15


def test_two_cousins_of_one_name_in_one_session_cannot_be_put_together(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/squad/athlete/A08/same/A12", look=PHONE)
    expect(page.get_by_text("so they cannot be put together")).to_be_visible()
    expect(page.get_by_text("Two birth dates: 21 Jan 2001 and 5 Feb 2012.")).to_be_visible()
    expect(page.get_by_role("button", name="They are one person")).to_have_count(0)
    assert len(club_of(site).athletes) == 14


def test_a_single_is_refused_for_a_minor_and_what_was_typed_stays(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/squad/athlete/A12", look=PHONE)
    expect(page.locator(".findings")).to_contain_text("no maximal tests")
    page.get_by_role("link", name="Add a strength test").click()
    page.get_by_label("Lift").select_option("strict press")
    page.get_by_label("Load", exact=True).fill("20")
    page.get_by_label("Good repetitions").fill("1")
    page.get_by_role("button", name="Store").click()
    expect(page.locator(".field-error")).to_contain_text("all-out efforts begin at 18 years")
    expect(page.get_by_label("Load", exact=True)).to_have_value("20")
    page.get_by_label("Good repetitions").fill("5")
    page.get_by_role("button", name="Store").click()
    expect(page.get_by_role("row", name="Strict press")).to_contain_text("20 kg for 5")


def test_the_reason_for_a_strength_is_one_tap_away(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}/squad/athlete/A02", look=PHONE, scripts=False)
    reason = page.get_by_text("Epley: 57.5").first
    expect(reason).not_to_be_visible()
    page.get_by_text("Why these numbers").click()
    expect(reason).to_be_visible()
    drawn = page.get_by_role("img", name="Strict press: about 66 kg, tested")
    expect(drawn).to_be_visible()


def test_the_list_is_filtered_without_scripts(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}/squad", look=PHONE, scripts=False)
    page.get_by_label("Squad", exact=True).select_option("Fry")
    page.get_by_role("button", name="Show").click()
    expect(page.locator("tbody tr")).to_have_count(1)
    expect(page.get_by_role("link", name="Sami Darwazin '12")).to_be_visible()
