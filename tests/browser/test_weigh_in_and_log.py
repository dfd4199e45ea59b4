"""On a phone: one weigh-in for all who go to an event, and the log of who touched health data."""

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

from playwright.sync_api import Page, expect

from looks import Look, assert_accessible, assert_no_sideways_scroll, assert_readable_size
from site_server import MONDAY, RunningSite
from squadwright.model.athlete import Event
from squadwright.services.club_changes import change_club
from squadwright.services.clubs import load_club
from squadwright.units import kilograms

Opener = Callable[..., Page]
PHONE = Look("light", 360)
CUP_DAY = MONDAY + timedelta(days=20)
GO = ("A01", "A05", "A07")


def all_go_to_the_cup(site: RunningSite) -> None:
    change_club(
        site.keeper,
        lambda club: replace(
            club,
            athletes=tuple(
                replace(
                    a,
                    events=(
                        *a.events,
                        Event("cup", "Harbour cup", CUP_DAY, mass_limit=kilograms("66")),
                    ),
                )
                if a.id in GO
                else a
                for a in club.athletes
            ),
        ),
        today=MONDAY,
    )


def test_one_weigh_in_for_three_and_the_log_names_the_mass_but_never_how_much(
    site: RunningSite, open_page: Opener
) -> None:
    all_go_to_the_cup(site)
    page = open_page(f"{site.url}/squad/athlete/A01/mass/weigh-in/cup", look=PHONE)
    also = page.get_by_role("group", name="Also for, in one step")
    expect(also.get_by_role("checkbox", name="Parwana Sohrabin")).to_be_checked()
    also.get_by_role("checkbox", name="Haneul Namgyeong").uncheck()
    page.get_by_label("Weigh-in opens, day").fill(str(CUP_DAY))
    page.get_by_label("Weigh-in opens, hour").fill("07:30")
    page.get_by_label("Who asked the organiser").fill("Ines")
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    page.get_by_role("button", name="Store", exact=True).click()
    expect(page.locator(".changed")).to_contain_text("The same for Parwana Sohrabin.")
    club = load_club(site.keeper)
    known = [next(e for e in club.athlete(a).events if e.id == "cup").weigh_in for a in GO]
    assert known[0] == known[1] is not None
    assert known[2] is None

    page.goto(f"{site.url}/weigh-in/scales")
    page.locator("summary", has_text="Chidozie Umelaro").click()
    page.get_by_role("button", name="86.5 kg", exact=True).click()
    page.goto(f"{site.url}/records")
    page.get_by_role("link", name="Who touched health data").click()
    line = page.get_by_role("row").filter(has_text="body mass").first
    expect(line).to_contain_text("Chidozie Umelaro")
    expect(line).to_contain_text("changed")
    expect(page.get_by_role("main")).not_to_contain_text("86.5")
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    assert_readable_size(page)
    page.get_by_role("link", name="Chidozie Umelaro").click()
    expect(page.get_by_role("row").filter(has_text="body mass")).to_have_count(1)
