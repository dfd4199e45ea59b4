"""One session, each his own dose, on one page: taper, late, young, and who is out."""

import re
from collections.abc import Callable

from playwright.sync_api import Locator, Page, expect

from looks import Look
from site_server import MONDAY, RunningSite
from squadwright.services.check_in import mark_late

PHONE = Look("light", 360)


def test_the_same_monday_has_a_dose_for_each_on_one_page(
    site: RunningSite, open_page: Callable[..., Page]
) -> None:
    """Capability 9 of the job: 4 rounds for most, 2 six days out, 3 late, the bar alone, none."""
    mark_late(site.keeper, "monday-barbell", ("A05",), 12, today=MONDAY)
    page = open_page(f"{site.url}/today/monday-barbell", look=PHONE)

    def load(name: str) -> Locator:
        return page.locator(".load", has_text=name)

    expect(load("Chidozie Umelaro")).to_contain_text("2 rounds of 4")
    expect(load("Parwana Sohrabin")).to_contain_text(re.compile("Rounds 2.4 of 4"))
    expect(load("Sami Darwazin '12")).to_contain_text("The bar alone.")
    # Whoever has all four rounds has no line about rounds: only the late and the taper have one.
    expect(page.locator(".load", has_text="Rounds")).to_have_count(2)
    expect(page.locator(".load")).to_have_count(12)
    expect(load("Lobsang Tsewangpa")).to_have_count(0)
    expect(page.locator("main")).to_contain_text("Lobsang Tsewangpa")
