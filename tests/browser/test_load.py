"""The whole load in the browser: a week entered slot by slot at the door in two taps a person.

What the coach sees after it: load of each day, monotony and strain with the formula shown.
"""

from collections.abc import Callable
from datetime import timedelta

from playwright.sync_api import Page, expect

from looks import assert_accessible, assert_no_sideways_scroll
from site_server import MONDAY, RunningSite

LAST_MONDAY = MONDAY - timedelta(days=7)
# What one wrestler tells of last week, as (slot, day of the week from 0, effort); 0: not there.
TOLD = (
    ("mon-barbell", 0, 6),
    ("mon-wrestling", 0, 4),
    ("tue-early", 1, 0),
    ("wed-plyometric", 2, 5),
    ("fri-short", 4, 5),
    ("fri-wrestling", 4, 9),
    ("sat-open", 5, 7),
)
# By hand: 60 x 6 + 90 x 4, 0, 50 x 5, 0, 35 x 5 + 90 x 9, 120 x 7, 0.
DAYS = ("720", "0", "250", "0", "985", "840", "0")


def test_a_week_is_told_at_the_door_and_adds_up(
    site: RunningSite, open_page: Callable[..., Page]
) -> None:
    page = open_page(site.url)
    name = "Iskander Yulbarin"
    for slot, day, effort in TOLD:
        page.goto(f"{site.url}/load/door/{slot}/{LAST_MONDAY + timedelta(days=day)}")
        person = page.locator(".asked").filter(has_text=name)
        person.locator("summary").click()
        wanted = "Was not there" if effort == 0 else str(effort)
        person.get_by_role("button", name=wanted).first.click()
        expect(page.locator(".changed")).to_contain_text(name)
    for day in (3, 6):
        page.goto(f"{site.url}/load/rest/{LAST_MONDAY + timedelta(days=day)}")
        page.get_by_role("button", name="No training that day").click()
        expect(page.locator(".changed")).to_contain_text("without training")
    page.goto(f"{site.url}/load?week={LAST_MONDAY}")
    row = page.locator("tbody tr").filter(has_text=name)
    assert [words.split(",")[0] for words in row.locator(".load-told").all_inner_texts()] == [*DAYS]
    # Mean 399.286, standard deviation 436.028 with n - 1: by the statistics module.
    expect(row.locator("[data-head=Told]")).to_have_text("2,795")
    expect(row.locator("[data-head=Monotony]")).to_have_text("0.92")
    expect(row.locator("[data-head='Days known']")).to_have_text("7 of 7")
    page.get_by_text("The formula, athlete by athlete").click()
    expect(page.get_by_text("Monotony = mean of the days").first).to_be_visible()
    assert_accessible(page)
    assert_no_sideways_scroll(page)
