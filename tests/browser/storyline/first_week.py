"""The Monday and the days after it."""

from datetime import time

from playwright.sync_api import expect

from browser.storyline import live_session as live
from browser.storyline.coach import Coach


def barbell(coach: Coach) -> None:
    """D0: the check-in, a lived barbell session, the door."""
    coach.wakes_on(0, time(17, 40))
    page = coach.page
    with coach.task("Check-in: one absent, one late, one knee, one guest"):
        coach.link("Check in")
        coach.button("Absent Sami Darwazin '01")
        coach.told("Sami Darwazin '01 is absent.")
        coach.link("Late, pain Parwana Sohrabin")
        coach.write("Minutes late", "12")
        coach.button("Late by these minutes")
        coach.told("Parwana Sohrabin is 12 minutes late.")
        coach.link("Late, pain Kwabena Fosuhene-Lund")
        coach.words("Knee")
        coach.words("Left")
        coach.button("4", exact=True)
        coach.told("left knee pain 4 of 10")
        coach.words("Add a guest")
        coach.tap(page.get_by_label("He agrees to train as a guest"))
        coach.button("Add an adult")
        coach.told("Guest 1 is a guest until")
        coach.link("See the plan")
    coach.sees("13 of 15 train: 12 here, 1 late, 1 absent, 1 does not train.")
    coach.sees("Lobsang Tsewangpa does not train", ".findings")
    # Twelve minutes are a round: she joins at the second, on a bar that is named.
    expect(page.locator(".load", has_text="Parwana Sohrabin")).to_contain_text("Rounds 2")
    with coach.task("The lived session", in_session=True):
        began = live.begin(coach, time(18, 0))
        minute = live.to_work_of(coach, began, "Birk", after=26)
        live.note(coach, "Birk", "leans back")
        minute = live.to_work_of(coach, began, "Ngaire", after=minute + 3)
        live.note(coach, "Ngaire", "2 reps lost")
        coach.keep_picture("on the floor")
        live.go_to(coach, began, 61)
        live.end(coach)
    with coach.task("Effort at the door"):
        assert live.ask_everybody(coach, {"Ngaire": 9, "Guest": 3}, usual=6) == 13
    coach.sees("Everybody has been asked.")
    with coach.task("Review"):
        coach.link("What was done")
        expect(page.get_by_label("Planned and done")).to_have_value(
            "35 of 35 rounds done, 13 of 13 athletes did all of theirs, 2 repetitions lost."
        )
        coach.button("Accept the review")
    coach.told("The review is kept.")
