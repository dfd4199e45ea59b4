"""The weeks after the first: two events in eight days, a lost hall, a test day, the bout."""

import re
from datetime import time

from playwright.sync_api import expect

from browser.storyline.coach import Coach


def two_events(coach: Coach) -> None:
    """D12: A02 at the first of his two events, eight days before the second."""
    coach.wakes_on(12, time(8, 0))
    page = coach.page
    with coach.task("Which of the two events he peaks for"):
        coach.link("Squad", exact=True)
        coach.link("Iskander Yulbarin")
        coach.link("Spring qualifier and National open: close together")
        coach.sees("2 of 4 rounds at the same load, 50 % less")
        coach.sees("One touch of power, on Tue 17 Mar, 5 days before")
        coach.tap(page.get_by_role("radio", name="The second"))
        coach.button("Store", exact=True)
        coach.sees("He peaks for the second.")


def no_hall(coach: Coach) -> None:
    """D16: the hall is lost to the blood donors; the session goes to a hotel room and one ball."""
    coach.wakes_on(16, time(12, 0))
    page = coach.page
    with coach.task("The session without a hall"):
        coach.link("All sessions")
        coach.link("The week", exact=True)
        coach.link("Session on Wed 18 Mar from Plyometric (half the mat hall)")
        coach.button("Store the session")
        coach.sees("blood-donor day")
        coach.button("It is so", exact=False)
        coach.told("on Wednesday 18 March 2026 is in the diary.")
        coach.link("Away from home")
        coach.sees("With one 4 kg ball, no bar")
        with page.expect_download() as waiting:
            coach.link("Print the card")
        assert waiting.value.suggested_filename == "2026-03-18-travel-card.pdf"


def second_event(coach: Coach) -> None:
    """D20: A02 at the second event, and the way back after it."""
    coach.wakes_on(20, time(8, 0))
    with coach.task("The way back after the second event"):
        coach.link("Squad", exact=True)
        coach.link("Iskander Yulbarin")
        coach.link("The way back after National open")
        coach.sees("National open")


def test_day(coach: Coach) -> None:
    """D35: the squad is tested."""
    coach.wakes_on(35, time(16, 0))
    page = coach.page
    with coach.task("The day of testing is planned"):
        coach.link("Tests", exact=True)
        coach.link("Plan a day of testing")
        coach.button("Plan the day")
        coach.sees(re.compile(r"12 athletes, 5 tests, 3 helpers: \d+ of 75 min"), ".who-line")
    with coach.task("Results of one test"):
        station = page.locator("section[aria-labelledby=at-countermovement_jump]")
        coach.tap(station.get_by_role("link").first)
        for number, field in enumerate(page.get_by_label(re.compile("^Attempt 1 of")).all()):
            coach.write_into(field, f"{36 + number}")
        coach.button("Write the results")
        expect(page.get_by_role("status").first).to_contain_text("results written")


def bout(coach: Coach) -> None:
    """D40: the bout of A06; the day after, his camp is looked back on."""
    coach.wakes_on(41, time(10, 0))
    page = coach.page
    with coach.task("Review of the camp"):
        coach.link("Squad", exact=True)
        coach.link("Dónal Mac Firvane")
        coach.link("Review the camp for Bout")
        expect(page.get_by_label("Keep", exact=False).first).not_to_be_empty()
        coach.button("Accept")
        coach.sees("Kept.", "body")
